"""The slips that people make with a tape: what was read for what was there."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from gaugerod.core.base.lengths import Unit

INCH = 25.4
FOOT = 304.8
ON_A_MARK = 1e-3
"""A reading this near to a sixteenth was read on it. [mm]"""
TONGUE = 9.525
"""A tongue counted in the face, where nothing better is known. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Slip:
    """One slip and what the reading would be without it. [mm].

    `weight` ranks slips of one size: how often a setter makes it against the others.
    """

    kind: str
    instead: float
    weight: float


def slips_of(reads: float, *, unit: Unit) -> tuple[Slip, ...]:
    """Return what a reading may be instead, slip by slip.

    Parameters
    ----------
    reads
        The reading. [mm]
    unit
        The unit it was read in: it says which digits and fractions were misread.

    Returns
    -------
    tuple of Slip
        Slips, the commonest first.

    Notes
    -----
    Source: common practice, no source; the list a foreman asks through.

    Examples
    --------
    >>> slip = slips_of(60.8125 * 25.4, unit="in")[0]
    >>> slip.kind, round(slip.instead / 25.4, 6)
    ('burned-inch', 59.8125)
    """
    found = [
        *_burned(reads, unit),
        *_off_by(reads, unit),
        *_digits(reads, unit),
        *_fractions(reads, unit),
        Slip(kind="scale", instead=reads * 10, weight=0.3),
        Slip(kind="scale", instead=reads / 10, weight=0.3),
        Slip(kind="tongue", instead=reads - TONGUE, weight=0.2),
    ]
    return tuple(sorted(found, key=lambda slip: -slip.weight))


def _burned(reads: float, unit: Unit) -> Iterator[Slip]:
    if unit == "in":
        yield Slip(kind="burned-inch", instead=reads - INCH, weight=1.0)
    else:
        yield Slip(kind="burned-hundred", instead=reads - 100.0, weight=1.0)


def _off_by(reads: float, unit: Unit) -> Iterator[Slip]:
    steps = (
        {"one-inch": INCH, "one-foot": FOOT}
        if unit == "in"
        else {"one-ten": 10.0, "one-hundred": 100.0}
    )
    for name, step in steps.items():
        yield Slip(kind=name, instead=reads + step, weight=0.6)
        yield Slip(kind=name, instead=reads - step, weight=0.6)


def _digits(reads: float, unit: Unit) -> Iterator[Slip]:
    """Yield readings in which a 6 of the whole inches or millimetres was a 9, or a 9 a 6."""
    scale = INCH if unit == "in" else 1.0
    whole = floor(abs(reads) / scale + 1e-6)
    text, rest = str(whole), abs(reads) - whole * scale
    sign = -1.0 if reads < 0 else 1.0
    for place, digit in enumerate(text):
        if digit in "69":
            other = int(text[:place] + ("9" if digit == "6" else "6") + text[place + 1 :])
            yield Slip(kind="six-nine", instead=sign * (other * scale + rest), weight=0.7)


def _fractions(reads: float, unit: Unit) -> Iterator[Slip]:
    """Yield readings with another fraction: from the wrong side of the half, or an eighth off."""
    sixteenths = Fraction(round(abs(reads) / INCH * 16), 16)
    whole, part = divmod(sixteenths, 1)
    if unit != "in" or abs(float(sixteenths) * INCH - abs(reads)) > ON_A_MARK or not part:
        return
    sign = -1.0 if reads < 0 else 1.0
    eighth = Fraction(1, 8)
    for other in {1 - part, part + eighth, part - eighth} - {part}:
        if 0 <= other <= 1:
            weight = 0.7 if other == 1 - part else 0.3
            yield Slip(kind="fraction", instead=sign * float(whole + other) * INCH, weight=weight)
