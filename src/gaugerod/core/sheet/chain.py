"""Chains of dimensions: stations rounded once, so that the parts sum to the whole."""

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import Point
from gaugerod.core.base.lengths import Display, Rounding, round_length, show_length
from gaugerod.core.sheet.drawing import Dimension, Text, Turn
from gaugerod.core.sheet.lettering import spread, text_width

Axis: TypeAlias = Literal["x", "y"]


def bare_length(mm: float | Fraction, display: Display, *, rounding: Rounding = "nearest") -> str:
    """Write a length as drawings do: inches with their sign, millimetres without a word.

    Parameters
    ----------
    mm
        The length, finite. [mm]
    display
        The system and the step.
    rounding
        Which way to round.

    Returns
    -------
    str
        The length.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import IMPERIAL, METRIC
    >>> bare_length(304.8, METRIC), bare_length(304.8, IMPERIAL)
    ('305', '12"')
    """
    return show_length(mm, display, rounding=rounding).removesuffix(" mm")


def segments(stations: Sequence[float], display: Display) -> tuple[str, ...]:
    """Write the distances between stations so that they sum to the whole.

    Parameters
    ----------
    stations
        Distances from the datum, increasing. [mm]
    display
        The step they are marked to.

    Returns
    -------
    tuple of str
        One distance for each pair of neighbours: the difference of the two marks. A
        millimetre goes without saying; inches carry their sign.

    Notes
    -----
    Each station is rounded once from the datum and a segment is the difference of two such
    marks, never a rounded difference. Source: own derivation.

    Examples
    --------
    Three pieces of 1 1/48 in: the marks stand at 1, 2 1/16 and 3 1/16.

    >>> from gaugerod.core.base.lengths import IMPERIAL
    >>> segments([0.0, 25.93, 51.86, 77.79], IMPERIAL)
    ('1"', '1 1/16"', '1"')
    """
    marks = [round_length(station, display) for station in stations]
    return tuple(bare_length(after - before, display) for before, after in pairwise(marks))


def chain(
    stations: Sequence[float],
    *,
    axis: Axis,
    base: float,
    row: float,
    height: float,
    display: Display,
) -> tuple[Dimension, ...]:
    """Draw one row of dimensions, its texts clear of each other.

    Parameters
    ----------
    stations
        At least two distances along the axis, increasing. [mm]
    axis
        Whether the row runs level (``x``) or plumb (``y``).
    base
        Where across the axis the measured points lie. [mm]
    row
        Where across the axis the dimension line runs. [mm]
    height
        Height of the capitals, > 0. [mm]
    display
        The step they are marked to.

    Returns
    -------
    tuple of Dimension
        One for each pair of stations. A level text stands above its line and turns where
        its segment is too short for it; beside a plumb line the texts stand level.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> row = chain([0.0, 40.0, 400.0], axis="x", base=0.0, row=-90.0, height=20.0, display=METRIC)
    >>> [(d.label.text, d.label.turn) for d in row]
    [('40', 90), ('360', 0)]
    """
    texts = segments(stations, display)
    turns = [
        _turn(text, room=after - before, axis=axis, height=height)
        for text, (before, after) in zip(texts, pairwise(stations), strict=True)
    ]
    along = [
        text_width(text, height=height) if axis == "x" and turn == 0 else height
        for text, turn in zip(texts, turns, strict=True)
    ]
    middles = [(before + after) / 2 for before, after in pairwise(stations)]
    placed = spread(middles, lengths=along, gap=height / 2)
    return tuple(
        Dimension(
            layer="dimension",
            start=_at(axis, before, base),
            end=_at(axis, after, base),
            offset=row - base if axis == "x" else base - row,
            label=_label(text, axis=axis, middle=middle, row=row, turn=turn, height=height),
        )
        for text, turn, middle, (before, after) in zip(
            texts, turns, placed, pairwise(stations), strict=True
        )
    )


def depth(stations: Sequence[float], *, axis: Axis, height: float, display: Display) -> float:
    """Return the room that the texts of a chain take on one side of its line.

    Parameters
    ----------
    stations
        As for `chain`. [mm]
    axis
        As for `chain`.
    height
        Height of the capitals, > 0. [mm]
    display
        The step they are marked to.

    Returns
    -------
    float
        From the dimension line to beyond its texts. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> depth([0.0, 400.0], axis="x", height=20.0, display=METRIC)
    50.0
    """
    texts = segments(stations, display)
    tall = [
        text_width(text, height=height)
        for text, (before, after) in zip(texts, pairwise(stations), strict=True)
        if axis == "y" or _turn(text, room=after - before, axis=axis, height=height)
    ]
    return max([height, *tall]) + 1.5 * height


def _turn(text: str, *, room: float, axis: Axis, height: float) -> Turn:
    return 90 if axis == "x" and text_width(text, height=height) + height > room else 0


def _at(axis: Axis, along: float, across: float) -> Point:
    return (along, across) if axis == "x" else (across, along)


def _label(text: str, *, axis: Axis, middle: float, row: float, turn: Turn, height: float) -> Text:
    if axis == "y":
        return Text(
            layer="dimension",
            at=(row - height / 2, middle),
            text=text,
            height=height,
            anchor="end",
            turn=0,
        )
    up = height if turn == 0 else height / 2
    return Text(
        layer="dimension",
        at=(middle, row + up),
        text=text,
        height=height,
        anchor="middle" if turn == 0 else "start",
        turn=turn,
    )
