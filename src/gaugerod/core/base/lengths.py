"""Lengths at the door: what a setter writes becomes exact millimetres, and comes out rounded.

Reading is exact (`fractions.Fraction`, no float). Rounding happens once, when a length is
shown, and says which way. `docs/reference/lengths.md` lists the spellings.
"""

import unicodedata
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from typing import Literal, NamedTuple, TypeAlias

from gaugerod.core.base._words import Word, Words

Unit: TypeAlias = Literal["in", "mm", "cm"]
System: TypeAlias = Literal["imperial", "metric"]
Rounding: TypeAlias = Literal["nearest", "down", "up"]

MM_PER_INCH = Fraction(127, 5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Display:
    """How lengths are shown: the system, and the finest step in inches or in mm."""

    system: System
    step: Fraction


IMPERIAL = Display(system="imperial", step=Fraction(1, 16))
FINE_IMPERIAL = Display(system="imperial", step=Fraction(1, 32))
METRIC = Display(system="metric", step=Fraction(1))
FINE_METRIC = Display(system="metric", step=Fraction(1, 2))

_INCHES_PER_FOOT = 12
_NOISE = Fraction(1, 10**6)  # mm; far above the error of a float sum, far below any tape
_TAPE_DENOMINATORS = (2, 4, 8, 16, 32, 64)
_MM = {"in": MM_PER_INCH, "mm": Fraction(1), "cm": Fraction(10), "m": Fraction(1000)}
_STRENGTH = {"more": MM_PER_INCH / 32, "less": -MM_PER_INCH / 32, "dash": -MM_PER_INCH / 32}


class _Amount(NamedTuple):
    value: Fraction
    written: Word
    fraction: bool


def parse_length(text: str, *, unit: Unit) -> Fraction:
    r"""Read one written length exactly.

    Parameters
    ----------
    text
        What was written: inches, feet and inches, mm, cm or m, at most 40 characters.
        Fractions are those of a tape: halves to sixty-fourths, and only of an inch.
    unit
        What a number without a unit is in. It never changes a length that names its own.

    Returns
    -------
    Fraction
        The exact length. [mm]

    Raises
    ------
    LengthError
        The text is not one length. The message has the text, the place (counted from 1)
        and what was found there.

    Notes
    -----
    A dash before a fraction joins a mixed number and never subtracts. *Strong, heavy, full*
    and a trailing ``+`` add 1/32 in; *shy, light, bare* and a trailing ``-`` take 1/32 in off,
    in every unit and before the sign, so that a lean left mirrors a lean right.
    Source: 1 in = 25.4 mm exactly, NIST SP 811 (from memory); 1/32 in, common practice.

    Examples
    --------
    >>> parse_length("63-1/8", unit="in") / MM_PER_INCH
    Fraction(505, 8)
    >>> parse_length("5' 3-1/8\"", unit="mm") == parse_length("1603.375", unit="mm")
    True
    >>> parse_length("63 1/8", unit="mm")  # doctest: +ELLIPSIS
    Traceback (most recent call last):
    gaugerod.core.base.errors.LengthError: ('length.fraction-of-metric', ...)
    """
    words = Words(text)
    if words.sees("end"):
        words.refuse("length.empty", words.next)
    sign = -1 if words.take("dash") else 1
    amount = _amount(words)
    value, scale = amount.value, "in"
    if words.take("feet"):
        value = _INCHES_PER_FOOT * value + _inches_after(amount, words)
    else:
        named = words.take(*_MM)
        scale = named.kind if named else unit
    strength = words.take(*_STRENGTH)
    if not words.sees("end"):
        comma = words.sees("comma")
        words.refuse("length.comma" if comma else "length.left-over", words.next)
    if amount.fraction and scale != "in":
        would = "-" * (sign < 0) + amount.written.text + '"' + (strength.text if strength else "")
        words.refuse("length.fraction-of-metric", amount.written, would=would)
    return sign * (value * _MM[scale] + (_STRENGTH[strength.kind] if strength else 0))


def _amount(words: Words) -> _Amount:
    first = words.next
    if words.take("decimal"):
        return _Amount(Fraction(first.text), first, fraction=False)
    whole = words.take("whole")
    if whole and words.sees("dash", "fraction"):
        words.take("dash")
    part = words.take("fraction")
    if part is None and whole is None:
        words.refuse("length.no-number", first)
    value = Fraction(whole.text) if whole else Fraction(0)
    if part is None:
        return _Amount(value, first, fraction=False)
    return _Amount(value + _tape_fraction(part, words), words.joined(first, part), fraction=True)


def _tape_fraction(part: Word, words: Words) -> Fraction:
    # NFKC writes a one-glyph fraction out, with the fraction slash.
    plain = unicodedata.normalize("NFKC", part.text).replace("\N{FRACTION SLASH}", "/")
    numerator, denominator = map(int, plain.split("/"))
    if denominator not in _TAPE_DENOMINATORS:
        words.refuse("length.denominator", part)
    if numerator >= denominator:
        words.refuse("length.improper", part)
    return Fraction(numerator, denominator)


def _inches_after(feet: _Amount, words: Words) -> Fraction:
    if feet.value.denominator != 1:
        words.refuse("length.feet-not-whole", feet.written)
    # A dash may join feet to inches; at the end it says that the feet are shy.
    dash = not words.sees("dash", "end") and words.take("dash")
    if not dash and words.next.kind not in {"whole", "decimal", "fraction"}:
        return Fraction(0)
    inches = _amount(words)
    if inches.value >= _INCHES_PER_FOOT:
        words.refuse("length.too-many-inches", inches.written)
    words.take("in")
    return inches.value


def round_length(
    mm: float | Fraction, display: Display, *, rounding: Rounding = "nearest"
) -> Fraction:
    """Round a length to the display's step.

    Parameters
    ----------
    mm
        The length, finite, of either sign. [mm]
    display
        The step to round to.
    rounding
        ``nearest``; ``down``, toward zero, for pieces; ``up``, away from zero, for holes.

    Returns
    -------
    Fraction
        A whole number of steps, exact. [mm]

    Raises
    ------
    ValueError, OverflowError
        The length is not a number, or is infinite.

    Notes
    -----
    A tie goes away from zero and a negative length rounds as its positive does, so that a
    lean left and the same lean right print alike. Sums of floats carry noise: a length
    within 1e-6 mm of a tie counts as the tie, and within 1e-6 mm of a step as on the step.
    Source: own derivation.

    Examples
    --------
    >>> round_length(67.7333, IMPERIAL) / MM_PER_INCH
    Fraction(43, 16)
    >>> round_length(-0.5, METRIC), round_length(0.9, METRIC, rounding="down")
    (Fraction(-1, 1), Fraction(0, 1))
    """
    step = display.step * (MM_PER_INCH if display.system == "imperial" else 1)
    size = abs(Fraction(mm))
    if rounding == "nearest":
        steps = floor((size + step / 2 + _NOISE) / step)
    elif rounding == "down":
        steps = floor((size + _NOISE) / step)
    else:
        steps = ceil((size - _NOISE) / step)
    return steps * step if mm > 0 else -steps * step


def show_length(mm: float | Fraction, display: Display, *, rounding: Rounding = "nearest") -> str:
    """Write a length as it is read off a tape, rounded as `round_length` does.

    Parameters
    ----------
    mm
        The length, finite, of either sign. [mm]
    display
        The system and the step.
    rounding
        Which way to round.

    Returns
    -------
    str
        Inches as a mixed number in lowest terms (never feet), or mm.

    Notes
    -----
    `parse_length` reads it back to the rounded length, whatever its `unit`.
    Source: own design.

    Examples
    --------
    >>> show_length(1519.2375, IMPERIAL), show_length(-38.1, IMPERIAL), show_length(0.1, IMPERIAL)
    ('59 13/16"', '-1 1/2"', '0"')
    >>> show_length(1524.0, METRIC), show_length(0.5, FINE_METRIC)
    ('1524 mm', '0.5 mm')
    """
    rounded = round_length(mm, display, rounding=rounding)
    sign = "-" if rounded < 0 else ""
    if display.system == "metric":
        return f"{sign}{float(abs(rounded)):f}".rstrip("0").rstrip(".") + " mm"
    whole, part = divmod(abs(rounded) / MM_PER_INCH, 1)
    parts = [str(number) for number in (whole, part) if number]
    return f'{sign}{" ".join(parts) or "0"}"'
