"""Labels that find room: each as near as may be to where it belongs, none over another."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.sheet.drawing import Area, Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import region_of, text_box, text_width
from gaugerod.core.survey.adjust import Array

_PAD = 0.35
"""Room kept round a label, in its capitals. [1]"""
_STEP = 0.75
"""From one place tried to the next, in capitals. [1]"""
_BESIDE = 2.0
"""A label moved further than this has a leader, in capitals. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Label:
    """A text, where its middle would like to be, and the place that it speaks of. [mm]."""

    text: str
    at: Point
    of: Point
    layer: Layer = "dimension"
    boxed: bool = False


def place_labels(
    labels: Sequence[Label], *, height: float, taken: Sequence[Box] = ()
) -> tuple[Item, ...]:
    """Place labels so that no two overlap.

    Parameters
    ----------
    labels
        The labels, the first to choose first. [mm]
    height
        Height of their capitals, > 0. [mm]
    taken
        Boxes that are to stay free. [mm]

    Returns
    -------
    tuple of Item
        Leaders, then frames, then one text for each label, in their order.

    Notes
    -----
    Rings of places round the wish are tried, the inmost first, and in a ring the nearest.
    There is room somewhere, since the sheet grows with what is on it. Source: own design.

    Examples
    --------
    >>> here = Label(text="750", at=(0.0, 0.0), of=(0.0, 0.0))
    >>> items = place_labels([here, here], height=10.0)
    >>> [item.at for item in items if isinstance(item, Text)]
    [(0.0, 0.0), (0.0, -22.5)]
    """
    room = [(b.left, b.bottom, b.right, b.top) for b in taken]
    leaders: list[Item] = []
    frames: list[Item] = []
    texts: list[Item] = []
    for label in labels:
        at = _free(label, np.array(room).reshape(-1, 4), height)
        text = Text(
            layer=label.layer, at=at, text=label.text, height=height, anchor="middle", turn=0
        )
        box = _grown(text_box(text), _PAD * height)
        room.append((box.left, box.bottom, box.right, box.top))
        leaders += _leader(label, at, box, height)
        if label.boxed:
            frames.append(Area(layer="keep", region=region_of(box)))
        texts.append(text)
    return (*leaders, *frames, *texts)


def _free(label: Label, room: Array, height: float) -> Point:
    """Return the first place that is free. [mm]."""
    half = np.array([text_width(label.text, height=height) / 2, height / 2]) + _PAD * height
    ring = 0
    while True:
        tried = np.array(label.at) + height * _STEP * np.array(_ring(ring))
        low, high = (tried - half)[:, None, :], (tried + half)[:, None, :]
        over = (low < room[None, :, 2:]) & (high > room[None, :, :2])
        hit = np.any(over[..., 0] & over[..., 1], axis=1)
        if not hit.all():
            x, y = tried[int(np.argmin(hit))]
            return float(x), float(y)
        ring += 1


def _ring(size: int) -> list[tuple[int, int]]:
    """Return the places of one ring, the nearest to its middle first."""
    span = range(-size, size + 1)
    places = [place for place in product(span, span) if max(map(abs, place)) == size]
    return sorted(places, key=lambda place: (abs(place[0]) + abs(place[1]), place))


def _leader(label: Label, at: Point, box: Box, height: float) -> Iterator[Line]:
    moved = max(abs(at[0] - label.at[0]), abs(at[1] - label.at[1]))
    if moved > _BESIDE * height:
        end = (
            min(max(label.of[0], box.left), box.right),
            min(max(label.of[1], box.bottom), box.top),
        )
        yield Line(layer="dimension", start=label.of, end=end)


def _grown(box: Box, by: float) -> Box:
    return Box(left=box.left - by, bottom=box.bottom - by, right=box.right + by, top=box.top + by)


def broken(items: Sequence[Item]) -> tuple[Item, ...]:
    """Break lines where a text stands on them, so that no stroke runs through a figure.

    Parameters
    ----------
    items
        Items of a drawing; areas are outlines without a fill. [mm]

    Returns
    -------
    tuple of Item
        The same, with each line and outline in as many parts as it is seen in; frames of
        labels stay whole. [mm]

    Notes
    -----
    A stroke beside a fraction reads as another figure, and not every writer can lay a white
    edge under letters. Source: own design.

    Examples
    --------
    >>> line = Line(layer="dimension", start=(0.0, 0.0), end=(100.0, 0.0))
    >>> text = Text(layer="tag", at=(50.0, 0.0), text="A", height=10.0, anchor="middle", turn=0)
    >>> [item.end[0] for item in broken([line, text]) if isinstance(item, Line)]
    [42.25, 100.0]
    """
    boxes = [_grown(text_box(item), item.height / 4) for item in items if isinstance(item, Text)]
    words = shapely.union_all([shapely.box(b.left, b.bottom, b.right, b.top) for b in boxes])
    return tuple(part for item in items for part in _parts(item, words))


def _parts(item: Item, words: BaseGeometry) -> Iterator[Item]:
    match item:
        case Line():
            strokes = [item]
        case Area(layer=layer) if layer != "keep":
            ring = item.region.rings[0]
            ends = zip(ring, (*ring[1:], ring[0]), strict=True)
            strokes = [Line(layer=layer, start=start, end=end) for start, end in ends]
        case _:
            yield item
            return
    for stroke in strokes:
        yield from _seen(stroke, words)


def _seen(stroke: Line, words: BaseGeometry) -> Iterator[Line]:
    seen = np.array([shapely.LineString([stroke.start, stroke.end]).difference(words)])
    for part in shapely.get_parts(seen[~shapely.is_empty(seen)]):
        start, end = part.coords
        yield replace(stroke, start=start, end=end)
