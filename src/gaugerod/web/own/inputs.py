"""One leaf of a document in the inputs of a form, and back."""

import re
from collections.abc import Callable, Mapping, Sequence
from decimal import Decimal
from typing import Any, TypeAlias

from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.store.complaints import shown as shortened
from gaugerod.web.fields import NO, YES, read_out, taped
from gaugerod.web.own.slots import Slot

Texts: TypeAlias = Sequence[str]
Said: TypeAlias = Any
"""A value as a document has it, None where nothing was said."""
_NUMBER = re.compile(r"-?\d{1,9}(\.\d{1,9})?")
_KEYS = ("whole", "part")
_ROW = "/"
_HUNDRED = 100


class UnreadableError(GaugerodError):
    """What stands in an input can't be made out."""


def inputs_of(slot: Slot, at: str, unit: Unit) -> tuple[str, ...]:
    """Return the names of the inputs of a leaf whose own name in the form is `at`."""
    match slot.sort:
        case "length":
            return _length_inputs(at, unit)
        case "pair":
            return (*_length_inputs(f"{at}.0", unit), *_length_inputs(f"{at}.1", unit))
        case "set":
            return tuple(f"{at}.{option.replace(' ', '-')}" for option in slot.options)
        case "hold":
            return at, f"{at}.hours"
        case _:
            return (at,)


def shown(slot: Slot, value: Said, unit: Unit) -> tuple[str, ...]:
    """Return what the inputs of a leaf show of a value."""
    if value is None:
        return ("",) * len(inputs_of(slot, "", unit))
    match slot.sort:
        case "length":
            return _keys(value, unit)
        case "pair":
            return tuple(text for one in value for text in _keys(one, unit))
        case "set":
            chosen = value if isinstance(value, list) else [value]
            return tuple(YES if option in chosen else "" for option in slot.options)
        case "hold":
            return (value, "") if isinstance(value, str) else ("", str(value))
        case _:
            return (_SHOW.get(slot.sort, str)(value),)


def said(slot: Slot, texts: Texts, unit: Unit) -> Said:
    """Return the value that the inputs of a leaf say.

    Raises
    ------
    UnreadableError
        A text is not what is asked for.
    """
    text = texts[0]
    match slot.sort:
        case "length":
            return _length(texts, unit)
        case "pair":
            half = len(texts) // 2
            both = [_length(texts[:half], unit), _length(texts[half:], unit)]
            return both if any(one is not None for one in both) else None
        case "set":
            return _chosen(slot, texts)
        case "hold":
            return _number(texts[1]) if texts[1] else text or None
    return _READ.get(slot.sort, str)(text) if text else None


def _length_inputs(at: str, unit: Unit) -> tuple[str, ...]:
    keys = tuple(f"{at}.{key}" for key in _KEYS) if unit == "in" else ()
    return (*keys, at)


def _keys(value: object, unit: Unit) -> tuple[str, ...]:
    text = "" if value is None else str(value)
    if unit != "in":
        return (text,)
    whole, part, minus, written, strength = taped(text, unit) if text else ("",) * 5
    if minus or strength:
        # This form has no keys for them: it is shown as it is written.
        return "", "", text
    part = "" if part == "0" else part
    return "" if part and whole == "0" else whole, part, written


def _length(texts: Texts, unit: Unit) -> Said:
    *keys, written = texts
    text = read_out([*keys, "", written, ""], unit) if keys else written
    return (_plain(text) if _NUMBER.fullmatch(text) else text) if text else None


def _chosen(slot: Slot, texts: Texts) -> Said:
    chosen = [option for option, text in zip(slot.options, texts, strict=True) if text]
    if slot.name == "kind" and len(chosen) == 1:
        return chosen[0]
    return chosen or None


def _plain(text: str) -> int | float:
    return float(text) if "." in text else int(text)


def _number(text: str) -> int | float:
    if not _NUMBER.fullmatch(text):
        raise UnreadableError(Message("web.own.no-number", read=shortened(text)))
    return _plain(text)


def _percent(text: str) -> int | float:
    number = _number(text.removesuffix("%").strip())
    share = Decimal(str(number)) / _HUNDRED
    return int(share) if share == int(share) else float(share)


def _money(text: str) -> int | float | str:
    # What is no plain amount is left to the model, which says what would do.
    return _plain(text) if _NUMBER.fullmatch(text) else text


def _words(text: str) -> list[str]:
    return [one.strip() for one in text.split(",") if one.strip()]


def _numbers(text: str) -> list[int | float]:
    return [_number(one) for one in text.replace(",", " ").split()]


def _figures(text: str) -> list[list[int | float]]:
    return [_numbers(row) for row in text.split(_ROW)]


def _share(value: Said) -> str:
    return format((Decimal(str(value)) * _HUNDRED).normalize(), "f")


def _listed(values: Sequence[object]) -> str:
    return ", ".join(map(str, values))


_SHOW: Mapping[str, Callable[[Said], str]] = {
    "money": lambda value: f"{value:.2f}" if isinstance(value, float) else str(value),
    "percent": _share,
    "yes-or-no": lambda value: YES if value else NO,
    "names": _listed,
    "words": _listed,
    "numbers": _listed,
    "figures": lambda value: f" {_ROW} ".join(map(_listed, value)),
}
_READ: Mapping[str, Callable[[str], Said]] = {
    "money": _money,
    "number": _number,
    "percent": _percent,
    "yes-or-no": lambda text: text == YES,
    "names": lambda text: text.replace(",", " ").split(),
    "words": _words,
    "numbers": _numbers,
    "figures": _figures,
}
