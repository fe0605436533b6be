"""The words of one written length, with their kind and place: what `lengths` reads."""

import re
from typing import NamedTuple, NoReturn

from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.messages import Message

LONGEST = 40  # characters; the longest sensible spelling needs 30

_KINDS = {
    **dict.fromkeys(("'", "ft", "foot", "feet"), "feet"),
    **dict.fromkeys(('"', "''", "in", "inch", "inches"), "in"),
    **dict.fromkeys(("+", "strong", "heavy", "full"), "more"),
    **dict.fromkeys(("shy", "light", "bare"), "less"),
    "mm": "mm",
    "cm": "cm",
    "m": "m",
    "-": "dash",
    ",": "comma",
}
# Phones turn quotes, dashes and slashes into typographic ones. One for one: places stay true.
_TYPED = str.maketrans(
    "\u2018\u2019\u2032\u201c\u201d\u2033\u2010\u2011\u2013\u2212\u2044",
    "'''\"\"\"----/",
)
_WORD = re.compile(
    r"""\s*(?: (?P<fraction> [0-9]+ \s* / \s* [0-9]+ | [\u00bc-\u00be\u2150-\u215e] )
             | (?P<decimal> [0-9]* \. [0-9]+ | [0-9]+ \. )
             | (?P<whole> [0-9]+ )
             | (?P<other> [A-Za-z]+ (?: \.[0-9]* )? | '' | . ) )""",  # "ft.5" is nobody's unit
    re.VERBOSE,
)


class Word(NamedTuple):
    """A number, unit, sign or anything else, as written."""

    kind: str
    text: str
    at: int  # place of the first character, counted from 1


class Words:
    """The words of one written length, taken from left to right."""

    def __init__(self, text: str) -> None:
        self._text = text
        if len(text) > LONGEST:
            self.refuse("length.too-long", Word("end", str(len(text)), LONGEST + 1))
        typed = text.translate(_TYPED).rstrip()
        self._words = [self._word(found) for found in _WORD.finditer(typed)]
        self._words.append(Word("end", "", len(text) + 1))

    def _word(self, found: re.Match[str]) -> Word:
        group = str(found.lastgroup)
        start, end = found.span(group)
        kind = _KINDS.get(found[group].lower().rstrip("."), group)
        return Word(kind, self._text[start:end], start + 1)

    @property
    def next(self) -> Word:
        """The first word not yet taken; of kind ``end`` after the last."""
        return self._words[0]

    def sees(self, *kinds: str) -> bool:
        """Whether the next words are of these kinds, in this order."""
        return tuple(word.kind for word in self._words[: len(kinds)]) == kinds

    def take(self, *kinds: str) -> Word | None:
        """Take the next word if it is of one of these kinds."""
        return self._words.pop(0) if self.next.kind in kinds else None

    def joined(self, first: Word, last: Word) -> Word:
        """All that was written from the first to the last of two words, as one."""
        return first._replace(text=self._text[first.at - 1 : last.at - 1 + len(last.text)])

    def refuse(self, key: str, word: Word, **more: str) -> NoReturn:
        """Say why the length cannot be read, and at which word."""
        shown = self._text if len(self._text) <= LONGEST else self._text[: LONGEST - 1] + "…"
        raise LengthError(Message(key, text=shown, at=word.at, found=word.text, **more))
