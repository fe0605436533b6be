"""Where each reading was taken: lines on the wall, and a label where it is written."""

import itertools
from dataclasses import dataclass
from functools import partial

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.job.readings import (
    Ceiling,
    CornerToCorner,
    Deck,
    Depth,
    Drain,
    FixturePlace,
    Floor,
    Gap,
    Height,
    HoleCentre,
    Lean,
    Lip,
    OpeningEdge,
    Reading,
    RoughIn,
    Width,
)
from gaugerod.core.sheet.chain import bare_length
from gaugerod.core.sheet.drawing import Line
from gaugerod.core.sheet.survey_shape import Shape

_ALONG = 0.36
"""Where on its line a level reading is written: clear of what is centred. [1]"""
_LOW = 0.24
"""Where on its line a diagonal is written: clear of where the two cross. [1]"""


_ROW = 1.8
"""From one line beside the holes to the next, in capitals. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """Lines that show how a reading was taken, and where its figure is written. [mm].

    `at` is the middle of the figure, `of` the place that it speaks of.
    """

    text: str
    at: Point
    of: Point
    lines: tuple[Line, ...] = ()


def mark_of(reading: Reading, shape: Shape, words: Catalogue, *, height: float) -> Mark:
    """Return how one reading is drawn.

    Parameters
    ----------
    reading
        The reading. [mm]
    shape
        Its wall, as drawn. [mm]
    words
        Sentences, and how lengths are shown.
    height
        Height of the capitals, > 0. [mm]

    Returns
    -------
    Mark
        Its lines and its figure. [mm]

    Notes
    -----
    As setters write them: widths on the line they were read along, the deck under it, the
    ceiling over it, leans beside their edge. Source: common practice, no source.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_wall
    >>> from gaugerod.core.sheet.survey_shape import shape_of_wall
    >>> words = Catalogue(display=METRIC, sentences=defaultdict(lambda: "{reads}"))
    >>> deck = Deck(kind="deck", at=300.0, reads=250.0)
    >>> mark_of(deck, shape_of_wall(sample_wall()), words, height=30.0).text
    '250'
    """
    told = partial(_told, reading, words)
    match reading:
        case Deck() | Floor() | Drain() | Lip():
            return _below(reading, shape, told(_KEYS[reading.kind]), height)
        case HoleCentre() | FixturePlace() | RoughIn():
            return _centre(reading, shape, words, height)
        case OpeningEdge():
            return _opening(reading, shape, words, height)
        case Lean():
            return _lean(reading, shape, words, height)
        case Gap():
            return _gap(reading, shape, told(f"survey-sheet.{reading.fault}"), height)
        case _:
            return _across(reading, shape, told(_KEYS[reading.kind]), height)


_KEYS = {
    "width": "survey-sheet.plain",
    "corner to corner": "survey-sheet.plain",
    "depth": "survey-sheet.plain",
    "deck": "survey-sheet.down",
    "floor": "survey-sheet.floor",
    "drain": "survey-sheet.drain",
    "lip": "survey-sheet.lip",
    "ceiling": "survey-sheet.up",
    "height": "survey-sheet.whole",
}


def _told(reading: Reading, words: Catalogue, key: str) -> str:
    return words.text(key, reads=bare_length(reading.reads, words.display))


def _line(start: Point, end: Point) -> tuple[Line, ...]:
    return (Line(layer="dimension", start=start, end=end),)


def _on(line: tuple[Line, ...], share: float) -> Point:
    (x0, y0), (x1, y1) = line[0].start, line[0].end
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


def _written_on(text: str, line: tuple[Line, ...], share: float) -> Mark:
    at = _on(line, share)
    return Mark(text=text, at=at, of=at, lines=line)


def _height_at(line: tuple[Point, ...], x: float, *, up: bool = False) -> float:
    """Return the height of a drawn line at a place; where it steps, below or up. [mm]."""
    inside = min(max(x, line[0][0]), line[-1][0])
    found = [
        y0 + (y1 - y0) * (inside - x0) / (x1 - x0 or 1.0)
        for (x0, y0), (x1, y1) in itertools.pairwise(line)
        if x0 <= inside <= x1
    ]
    return max(found) if up else min(found)


def _below(reading: Deck | Floor | Drain | Lip, shape: Shape, text: str, height: float) -> Mark:
    at = 0.5 * shape.right.offset if isinstance(reading, Drain) else reading.at
    y = shape.wall.deck[0][1]
    x = shape.x(shape.left.at(y) + at, y)
    ledge = isinstance(reading, Deck) and reading.part != "rim"
    deck = _height_at(shape.deck, x, up=ledge)
    row = {"deck": 1.6, "floor": 3.4, "drain": 5.2, "lip": 5.2}[reading.kind]
    tick = _line((x, deck), (x, deck - 0.6 * height))
    return Mark(text=text, at=(x, deck - row * height), of=(x, deck), lines=tick)


def _across(
    reading: Width | CornerToCorner | Ceiling | Height | Depth,
    shape: Shape,
    text: str,
    height: float,
) -> Mark:
    match reading:
        case Width():
            line = _line(_edge(shape, "left", reading.at), _edge(shape, "right", reading.at))
            return _written_on(text, line, _ALONG)
        case CornerToCorner():
            ends = _edge(shape, "left", reading.left_at), _edge(shape, "right", reading.right_at)
            line = _line(*ends)
            return _written_on(text, line, _LOW)
        case Depth():
            x, y = shape.x(reading.at, reading.height), reading.height
            half = height / 3
            cross = (*_line((x - half, y), (x + half, y)), *_line((x, y - half), (x, y + half)))
            return Mark(text=text, at=(x, y + 1.2 * height), of=(x, y), lines=cross)
        case _:
            return _upright(reading, shape, text, height)


def _upright(reading: Ceiling | Height, shape: Shape, text: str, height: float) -> Mark:
    head = shape.wall.ceiling[0][1]
    x = shape.x(shape.left.at(head) + reading.at, head)
    ceiling = _height_at(shape.ceiling, x)
    if isinstance(reading, Height):
        return _written_on(text, _line((x, _height_at(shape.deck, x)), (x, ceiling)), 0.62)
    tick = _line((x, ceiling), (x, ceiling + 0.6 * height))
    return Mark(text=text, at=(x, ceiling + 1.6 * height), of=(x, ceiling), lines=tick)


def _edge(shape: Shape, side: str, y: float) -> Point:
    edge = shape.left if side == "left" else shape.right
    return shape.x(edge.at(y), y), y


def _lean(reading: Lean, shape: Shape, words: Catalogue, height: float) -> Mark:
    way = "plumb" if reading.reads == 0 else "leans-in" if reading.reads > 0 else "leans-out"
    text = words.text(
        f"survey-sheet.{way}",
        reads=bare_length(abs(reading.reads), words.display),
        over=bare_length(reading.over, words.display),
    )
    head = shape.wall.ceiling[0][1] * 0.86
    x, _ = of = _edge(shape, reading.edge, head)
    off = (-1 if reading.edge == "left" else 1) * height * (1 + 0.5 * len(text))
    return Mark(text=text, at=(x + off, head), of=of)


def _gap(reading: Gap, shape: Shape, text: str, height: float) -> Mark:
    x, y, half = shape.x(reading.at, reading.height), reading.height, reading.straightedge / 2
    if reading.held == "level":
        return Mark(
            text=text,
            at=(x, y + height),
            of=(x, y),
            lines=_line((x - half, y), (x + half, y)),
        )
    return Mark(text=text, at=(x, y), of=(x, y), lines=_line((x, y - half), (x, y + half)))


def _centre(
    reading: HoleCentre | FixturePlace | RoughIn, shape: Shape, words: Catalogue, height: float
) -> Mark:
    x, y = _place_of(reading, shape)
    if isinstance(reading, RoughIn):
        text = _told(reading, words, "survey-sheet.proud")
        # On the side away from the lines to the datum.
        off = -_roomier(shape, x) * height * (1 + 0.45 * len(text))
        return Mark(text=text, at=(x + off, y - 1.9 * height), of=(x, y))
    if reading.start == "datum":
        # Holes stand over one another: each has its own line beside them.
        beside = x + _ROW * height * _beside(reading, shape, x)
        line = (*_line((beside, 0.0), (beside, y)), *_line((beside, y), (x, y)))
        return _written_on(_from_datum(reading.reads, words), line, 0.5)
    text = _told(reading, words, "survey-sheet.plain")
    return _written_on(text, _line(_edge(shape, reading.start, y), (x, y)), 0.5)


def _beside(reading: HoleCentre | FixturePlace, shape: Shape, x: float) -> int:
    """Return which line beside the holes and fixtures is this one's, minus to the left."""
    holes = [hole.name for hole in shape.wall.holes]
    names = [*holes, *(fixture.name for fixture in shape.wall.fixtures)]
    return _roomier(shape, x) * (1 + names.index(reading.of))


def _roomier(shape: Shape, x: float) -> int:
    """Return the side of a place on which the wall is wider: 1 right, -1 left."""
    return 1 if x < (shape.left.offset + shape.right.offset) / 2 else -1


def _from_datum(reads: float, words: Catalogue) -> str:
    key = "survey-sheet.up" if reads >= 0 else "survey-sheet.down"
    return words.text(key, reads=bare_length(abs(reads), words.display))


def _place_of(reading: HoleCentre | FixturePlace | RoughIn, shape: Shape) -> Point:
    if isinstance(reading, FixturePlace):
        box = next(f.box for f in shape.wall.fixtures if f.name == reading.of)
        return (box.left + box.right) / 2, (box.bottom + box.top) / 2
    hole = next(hole for hole in shape.wall.holes if hole.name == reading.of)
    return hole.x, hole.y


def _opening(reading: OpeningEdge, shape: Shape, words: Catalogue, height: float) -> Mark:
    box = next(opening.box for opening in shape.wall.openings if opening.name == reading.of)
    x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    text = _told(reading, words, "survey-sheet.plain")
    match reading.edge:
        case "jamb depth":
            text = _told(reading, words, "survey-sheet.jamb")
            return Mark(text=text, at=(x, box.bottom + 1.5 * height), of=(x, box.bottom))
        case "width":
            return _written_on(text, _line((box.left, y), (box.right, y)), _ALONG)
        case "height":
            return _written_on(text, _line((x, box.bottom), (x, box.top)), _LOW)
        case "sill" | "head":
            line = _plumb_to(reading.edge, box)
            return _written_on(_from_datum(reading.reads, words), line, 0.5)
        case side:
            start = _edge(shape, reading.start, y)
            line = _line(start, (box.left if side == "left" else box.right, y))
            return _written_on(text, line, 0.5)


def _plumb_to(edge: str, box: Box) -> tuple[Line, ...]:
    """Return the line from the datum up or down to a sill, or beside it to a head."""
    along = 0.25 if edge == "sill" else 0.75
    x = box.left + along * box.width
    return _line((x, 0.0), (x, box.bottom if edge == "sill" else box.top))
