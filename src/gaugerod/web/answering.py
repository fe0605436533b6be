"""An answer out of a form, as a job has it."""

import re
from collections.abc import Callable, Mapping, Sequence

from gaugerod.web.asking import Ask, Offered
from gaugerod.web.fields import YES

_NUMBER = re.compile(r"-?\d{1,6}(\.\d{1,6})?")
_YEAR = re.compile(r"(?P<code>\S+?)[\s:=]+(?P<year>\d{1,9})")


def value_of(texts: Sequence[str], ask: Ask, offered: Offered, old: object) -> object:
    """Return an answer as a job has it: lengths as they were written, nothing for left open.

    `old` is what stands there: what a question does not offer is not for it to take out.
    """
    if ask.sort == "many":
        return _many(texts, ask, offered, old) or None
    if ask.sort == "each":
        named = zip(offered.each(ask), texts, strict=True)
        return {name: text for name, text in named if text} or None
    if not any(texts):
        return None
    if ask.other:
        chosen, written = texts
        # What is written out beats what is chosen, unless it only stood there before.
        return number(chosen if chosen and written in {"", str(old)} else written)
    return _READ.get(ask.sort, _written)(texts)


def number(text: str) -> int | float | str:
    """Return a number as a job has it; what is none stays as it is, to be complained of."""
    if not _NUMBER.fullmatch(text):
        return text
    return float(text) if "." in text else int(text)


def _written(texts: Sequence[str]) -> object:
    return texts[0]


def _pair(texts: Sequence[str]) -> object:
    return list(texts)


def _words(texts: Sequence[str]) -> object:
    return texts[0].replace(",", " ").split()


def _numbers(texts: Sequence[str]) -> object:
    return [number(one) for one in texts[0].replace(",", " ").split()]


def _order(texts: Sequence[str]) -> object:
    return [text for text in texts if text]


def _number(texts: Sequence[str]) -> object:
    return number(texts[0])


def _yes_or_no(texts: Sequence[str]) -> object:
    return texts[0] == YES


def _years(texts: Sequence[str]) -> object:
    found = [_YEAR.fullmatch(part.strip()) for part in texts[0].split(",")]
    years = {one["code"]: int(one["year"]) for one in found if one}
    return years if len(years) == len(found) else texts[0]


def _many(texts: Sequence[str], ask: Ask, offered: Offered, old: object) -> list[str]:
    options = [option for option, _ in offered.of(ask)]
    ticked = {option for option, text in zip(options, texts, strict=True) if text}
    # What is named twice counts twice.
    there = old if isinstance(old, list) else []
    kept = [one for one in there if one not in options or one in ticked]
    return [*kept, *(one for one in options if one in ticked and one not in kept)]


_READ: Mapping[str, Callable[[Sequence[str]], object]] = {
    "pair": _pair,
    "words": _words,
    "order": _order,
    "numbers": _numbers,
    "number": _number,
    "yes-or-no": _yes_or_no,
    "years": _years,
}
