"""A TOML file becomes a document, or one clear line that says what to mend."""

import re
import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TypeVar

from pydantic import ValidationError

from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.faults import Place
from gaugerod.core.job.fields import MM_PER, Document
from gaugerod.store.complaints import complaint
from gaugerod.store.toml_lines import line_of, lines_of

MOST_BYTES = 1_000_000
"""A job of a whole floor has some tens of kilobytes."""
MOST_IN_LINE = 10_000
"""Characters in one line: a dotted key of megabytes would keep `tomllib` busy for hours."""

_AT = re.compile(r"(?P<why>.*) \(at (?:line (?P<line>\d+), column (?P<column>\d+)|end of \w+)\)")
D = TypeVar("D", bound=Document)


@dataclass(frozen=True, slots=True, kw_only=True)
class TomlFile:
    """A TOML file that was read: its name, its tables, and where each value stands."""

    name: str
    tables: Mapping[str, object]
    lines: Mapping[Place, int]

    def at(self, place: Place, wrong: Message) -> Message:
        """Return the message that says in which file and line something is wrong."""
        line = line_of(self.lines, place)
        if line is None:
            return Message("read.in-file", file=self.name, wrong=wrong)
        return Message("read.in-line", file=self.name, line=line, wrong=wrong)


def read_bytes(path: Path, *, error: type[GaugerodError]) -> bytes:
    """Return the bytes of a file, and no more of them than show that it is too large.

    Raises
    ------
    GaugerodError
        Of the class `error`: there is no such file, or it cannot be read.
    """
    try:
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except FileNotFoundError as wrong:
        raise error(Message("read.no-file", file=str(path))) from wrong
    except OSError as wrong:
        why = wrong.strerror or type(wrong).__name__
        raise error(Message("read.not-readable", file=str(path), why=why)) from wrong


def read_toml(source: bytes, *, name: str, error: type[GaugerodError]) -> TomlFile:
    """Read a TOML file.

    Raises
    ------
    GaugerodError
        Of the class `error`: it is too large, no UTF-8 text, or no TOML.
    """
    try:
        text = _text(source).replace("\r\n", "\n")
        return TomlFile(name=name, tables=tomllib.loads(text), lines=lines_of(text))
    except _NotTextError as wrong:
        raise error(Message("read.in-file", file=name, wrong=wrong.message)) from wrong
    except RecursionError as wrong:
        nested = Message("read.nested-too-deep")
        raise error(Message("read.in-file", file=name, wrong=nested)) from wrong
    except tomllib.TOMLDecodeError as wrong:
        raise error(_not_toml(name, str(wrong))) from wrong
    except ValueError as wrong:  # a whole number of thousands of digits
        endless = Message("read.number-too-long")
        raise error(Message("read.in-file", file=name, wrong=endless)) from wrong


class _NotTextError(GaugerodError):
    """The bytes are no text of a sensible size."""


def _text(source: bytes) -> str:
    if len(source) > MOST_BYTES:
        raise _NotTextError(Message("read.too-large", most=MOST_BYTES // 1000))
    try:
        text = source.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = source.count(b"\n", 0, error.start)
        raise _NotTextError(Message("read.not-text", line=before + 1)) from error
    for number, line in enumerate(text.split("\n"), 1):
        if len(line) > MOST_IN_LINE:
            raise _NotTextError(Message("read.line-too-long", line=number, most=MOST_IN_LINE))
    return text


def _not_toml(name: str, reason: str) -> Message:
    found = _AT.fullmatch(reason)
    if found is None or found["line"] is None:
        why = found["why"] if found else reason
        return Message("read.in-file", file=name, wrong=Message("read.not-toml-at-end", why=why))
    wrong = Message("read.not-toml", column=int(found["column"]), why=found["why"])
    return Message("read.in-line", file=name, line=int(found["line"]), wrong=wrong)


def document(file: TomlFile, model: type[D], *, error: type[GaugerodError]) -> D:
    """Return the document that a TOML file holds.

    Raises
    ------
    GaugerodError
        Of the class `error`: a value is missing, unknown or not as it should be. The first is
        told, with the number of the others.
    """
    unit = file.tables.get("unit")
    known = isinstance(unit, str) and unit in MM_PER
    context = {"unit": unit} if known else {}
    try:
        return model.model_validate(dict(file.tables), context=context)
    except ValidationError as wrong:
        found = complaint(wrong, file.tables, model)
        message = file.at(found.at, found.message)
        # Without a unit that can be read, lengths are wrong that need no mending.
        if found.others and known:
            message = Message("read.and-more", first=message, others=found.others)
        raise error(message) from wrong
