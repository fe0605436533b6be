"""Find the line of a TOML text on which a value stands.

`tomllib` does not say. This scanner reads texts that `tomllib` has read without complaint, so
it knows the grammar's shape only: headers, keys, and what nests.
"""

import re
from bisect import bisect_right
from collections.abc import Iterator, Mapping
from typing import NamedTuple

from gaugerod.core.job.faults import Place

_TOKEN = re.compile(
    r"""(?P<comment> \#[^\n]* )
      | (?P<string> \"{3}(?:\\.|[^\\])*?\"{3,5} | '{3}.*?'{3,5} | "(?:\\.|[^"\\])*" | '[^']*' )
      | (?P<mark> [\[\]{}=,.\n] )
      | (?P<word> [^\s\[\]{}=,."'\#]+ )""",
    re.VERBOSE | re.DOTALL,
)
_CLOSING = {"[": "]", "{": "}"}


class _Token(NamedTuple):
    text: str
    line: int


class _Scanner:
    """Walks the tokens once and notes the line of every key and element."""

    def __init__(self, text: str) -> None:
        breaks = [found.start() for found in re.finditer("\n", text)]
        self._tokens = [
            _Token(found.group(), bisect_right(breaks, found.start()) + 1)
            for found in _TOKEN.finditer(text)
            if found.lastgroup != "comment"
        ]
        self._next = 0
        self._counts: dict[Place, int] = {}
        self.lines: dict[Place, int] = {}

    def _peek(self) -> str:
        return self._tokens[self._next].text if self._next < len(self._tokens) else ""

    def _take(self) -> _Token:
        self._next += 1
        return self._tokens[self._next - 1]

    def _skip_breaks(self) -> None:
        while self._peek() == "\n":
            self._take()

    def scan(self) -> None:
        table: Place = ()
        while self._peek():
            self._skip_breaks()
            if self._peek() == "[":
                table = self._header()
            elif self._peek():
                self._pair(table)

    def _header(self) -> Place:
        line = self._take().line
        array = self._peek() == "["
        *outer, last = self._key("]")
        place: Place = ()
        for part in outer:
            place = self._newest((*place, part))
        place = (*place, last)
        if array:
            self._counts[place] = self._counts.get(place, 0) + 1
            place = self._newest(place)
        self.lines.setdefault(place, line)
        while self._peek() == "]":
            self._take()
        return place

    def _newest(self, place: Place) -> Place:
        return (*place, self._counts[place] - 1) if place in self._counts else place

    def _key(self, end: str) -> tuple[str, ...]:
        """Take the parts of a dotted key, up to `end`."""
        parts = []
        while self._peek() != end:
            text = self._take().text
            if text not in {".", "["}:
                parts.append(text.strip("\"'"))
        return tuple(parts)

    def _pair(self, table: Place) -> None:
        line = self._tokens[self._next].line
        place = table
        for part in self._key("="):
            place = (*place, part)
            self.lines.setdefault(place, line)
        self._take()
        self._value(place)

    def _value(self, place: Place) -> None:
        opening = self._peek()
        if opening not in _CLOSING:
            while self._peek() not in {"", "\n", ",", "]", "}"}:
                self._take()
            return
        self._take()
        for number in self._members(_CLOSING[opening]):
            if opening == "[":
                self.lines[*place, number] = self._tokens[self._next].line
                self._value((*place, number))
            else:
                self._pair(place)
        self._take()

    def _members(self, closing: str) -> Iterator[int]:
        number = 0
        self._skip_breaks()
        while self._peek() != closing:
            yield number
            number += 1
            while self._peek() in {"\n", ","}:
                self._take()


def lines_of(text: str) -> Mapping[Place, int]:
    """Return the line, counted from 1, of every key and element of a valid TOML text.

    Raises
    ------
    RecursionError
        Arrays nest deeper than Python's stack.
    """
    scanner = _Scanner(text)
    scanner.scan()
    return scanner.lines


def line_of(lines: Mapping[Place, int], place: Place) -> int | None:
    """Return the line of a place, or of the nearest part that encloses it."""
    for length in range(len(place), 0, -1):
        if place[:length] in lines:
            return lines[place[:length]]
    return None
