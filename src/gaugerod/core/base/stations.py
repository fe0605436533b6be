"""Marks on the wall and on the rod: each rounded once, from the datum."""

from fractions import Fraction

from gaugerod.core.base.lengths import Display, round_length


def rounded_stations(
    *, start: float | Fraction, pitch: float | Fraction, count: int, display: Display
) -> tuple[Fraction, ...]:
    """Round evenly pitched marks, each from the datum, so that no error adds up.

    Parameters
    ----------
    start
        Distance of the first mark from the datum, finite. [mm]
    pitch
        Distance from mark to mark, finite; negative runs the other way. [mm]
    count
        Number of marks, >= 0.
    display
        The step that a setter can mark.

    Returns
    -------
    tuple of Fraction
        The distance of each mark from the datum, in whole steps. [mm]

    Notes
    -----
    Mark ``i`` is ``start + i * pitch``, computed exactly and rounded to the nearest step.
    Adding a rounded pitch instead carries its error ``count`` times: 2 11/16 for 2 2/3 is
    1/4 in out after 12 courses. Source: own derivation.

    Examples
    --------
    Courses of 2 2/3 in: the twelfth lies at 32 in.

    >>> from gaugerod.core.base.lengths import IMPERIAL, MM_PER_INCH, show_length
    >>> course = Fraction(8, 3) * MM_PER_INCH
    >>> tops = rounded_stations(start=course, pitch=course, count=12, display=IMPERIAL)
    >>> show_length(tops[0], IMPERIAL), show_length(tops[11], IMPERIAL)
    ('2 11/16"', '32"')
    """
    first, step = Fraction(start), Fraction(pitch)
    return tuple(round_length(first + i * step, display) for i in range(count))
