"""Room for words: how wide a text is, where it fits, how neighbours keep apart."""

from collections.abc import Iterator, Sequence
from itertools import pairwise, product

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Box, Point, Region, bounds_of
from gaugerod.core.sheet.drawing import Area, Circle, Item, Layer, Line, Text, Turn
from gaugerod.core.sheet.mixed_numbers import BAR, DIGIT, LARGER, SLASH, Run, runs

_NARROW, _WIDE = frozenset(" .,:;'\"|/!-ijlftrI()[]"), frozenset("MWmw@%")
_STEPS = 8  # places tried each way on either side of the middle
_GRID = sorted(
    product(range(-_STEPS, _STEPS + 1), repeat=2),
    key=lambda step: (abs(step[0]) + abs(step[1]), step),
)
_SIZES: tuple[float, ...] = (1.0, 0.8, 0.6, 0.45)
_TURNS: tuple[Turn, ...] = (0, 90)


def text_width(text: str, *, height: float) -> float:
    """Return the room that a text takes along its line.

    Parameters
    ----------
    text
        One line of text.
    height
        Height of its capitals, > 0. [mm]

    Returns
    -------
    float
        A width that the set text stays within. [mm]

    Notes
    -----
    In capital heights: 0.68 for narrow characters, 1.45 for the widest, 1.05 for all others,
    and in the fraction of a length 0.78 for a digit, 0.51 for the slash; which covers the
    regular to bold styles of the sans family that the paper carries. A browser may set another
    sans a little wider. Source: advance widths of that family.

    Examples
    --------
    >>> round(text_width('1 1/2"', height=100.0))
    448
    """
    return height * sum(_width(run) for run in runs(text))


def _width(run: Run) -> float:
    """Return the room that a run takes, in capitals. [1]."""
    if run.fraction:
        return LARGER * sum(BAR if character == SLASH else DIGIT for character in run.text)
    wide = {**dict.fromkeys(_NARROW, 0.68), **dict.fromkeys(_WIDE, 1.45)}
    return sum(wide.get(character, 1.05) for character in run.text)


def text_box(text: Text) -> Box:
    """Return the box that a text takes up.

    Parameters
    ----------
    text
        The text, placed. [mm]

    Returns
    -------
    Box
        From the foot of its capitals to their top, and along its estimated width. [mm]

    Notes
    -----
    Tails of letters hang out of it, and fractions a little on both sides; whoever places texts
    leaves room for that. Source: own derivation.

    Examples
    --------
    >>> box = text_box(Text(layer="tag", at=(0, 0), text="B1", height=10.0,
    ...                     anchor="start", turn=90))
    >>> box.left, box.top
    (-5.0, 21.0)
    """
    width = text_width(text.text, height=text.height)
    back = {"start": 0.0, "middle": width / 2, "end": width}[text.anchor]
    x, y = text.at
    half = text.height / 2
    if text.turn == 0:
        return Box(left=x - back, bottom=y - half, right=x - back + width, top=y + half)
    return Box(left=x - half, bottom=y - back, right=x + half, top=y - back + width)


def region_of(box: Box) -> Region:
    """Return a box as a region.

    Parameters
    ----------
    box
        The box. [mm]

    Returns
    -------
    Region
        Its four corners, anticlockwise. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> region_of(Box(left=0, bottom=0, right=2, top=1)).rings
    (((0, 0), (2, 0), (2, 1), (0, 1)),)
    """
    level = ((box.left, box.bottom), (box.right, box.bottom))
    return Region(rings=((*level, (box.right, box.top), (box.left, box.top)),))


def extent(items: Sequence[Item], *, margin: float) -> Box:
    """Return the box that holds every item.

    Parameters
    ----------
    items
        At least one item. [mm]
    margin
        Room left around them, >= 0. [mm]

    Returns
    -------
    Box
        The box. [mm]

    Notes
    -----
    Source: none needed; extremes of the corners.

    Examples
    --------
    >>> extent([Line(layer="datum", start=(0, 0), end=(9, 0))], margin=1.0).right
    10.0
    """
    box = bounds_of((tuple(point for item in items for point in _corners(item)),))
    return Box(
        left=box.left - margin,
        bottom=box.bottom - margin,
        right=box.right + margin,
        top=box.top + margin,
    )


def _corners(item: Item) -> Iterator[Point]:
    match item:
        case Line():
            yield from (item.start, item.end)
        case Area():
            yield from item.region.rings[0]
        case Circle():
            (x, y), r = item.centre, item.diameter / 2
            yield from ((x - r, y - r), (x + r, y + r))
        case Text():
            box = text_box(item)
            yield from ((box.left, box.bottom), (box.right, box.top))
        case _:
            yield from (item.start, item.end, *item.line, *_corners(item.label))


def spread(centres: Sequence[float], *, lengths: Sequence[float], gap: float) -> tuple[float, ...]:
    """Move labels on a line as little as will keep them apart.

    Parameters
    ----------
    centres
        Where each label would like to be, increasing. [mm]
    lengths
        Room that each takes along the line, >= 0. [mm]
    gap
        Least room between two, >= 0. [mm]

    Returns
    -------
    tuple of float
        Where each stands, in the same order. [mm]

    Notes
    -----
    Taking from each centre the room that those before it need turns the demand into "do not
    decrease"; pooling neighbours that do gives the least squares answer.
    Source: isotonic regression by pooling adjacent violators, from memory.

    Examples
    --------
    >>> spread([0.0, 1.0, 50.0], lengths=[10.0, 10.0, 10.0], gap=2.0)
    (-5.5, 6.5, 50.0)
    """
    needed = [0.0]
    for before, after in pairwise(lengths):
        needed.append(needed[-1] + (before + after) / 2 + gap)
    pools: list[tuple[float, int]] = []
    for centre, room in zip(centres, needed, strict=True):
        mean, count = centre - room, 1
        while pools and pools[-1][0] > mean:
            other, many = pools.pop()
            mean = (mean * count + other * many) / (count + many)
            count += many
        pools.append((mean, count))
    flat = [mean for mean, count in pools for _ in range(count)]
    return tuple(mean + room for mean, room in zip(flat, needed, strict=True))


def place_text(
    text: str, *, layer: Layer, inside: BaseGeometry, taken: Sequence[Box], height: float
) -> Text:
    """Place a text inside an area, clear of other texts.

    Parameters
    ----------
    text
        One line of text.
    layer
        Its layer.
    inside
        Where it should stand, holes left out. [mm]
    taken
        Boxes that other texts have. [mm]
    height
        Height of its capitals, > 0, made smaller where the room is short. [mm]

    Returns
    -------
    Text
        The largest that fits, level before turned, nearest to the middle. Where nothing
        fits it stands turned in the middle, as small as the smallest tried.

    Notes
    -----
    A grid of places over the area is tried, from its middle outwards. Source: own design.

    Examples
    --------
    >>> place_text("B1-1", layer="tag", inside=shapely.box(0, 0, 100, 60), taken=[], height=9.0).at
    (50.0, 30.0)
    """
    busy = shapely.union_all([shapely.box(b.left, b.bottom, b.right, b.top) for b in taken])
    free = shapely.difference(inside, busy)
    shapely.prepare(free)
    middle, *others = _places(inside)

    def stood(at: Point, size: float, turn: Turn) -> Text:
        return Text(layer=layer, at=at, text=text, height=height * size, anchor="middle", turn=turn)

    for size, turn in product(_SIZES, _TURNS):
        for at in (middle, *others):
            candidate = stood(at, size, turn)
            if free.covers(_padded(candidate)):
                return candidate
    return stood(middle, _SIZES[-1], 90)


def _places(inside: BaseGeometry) -> tuple[Point, ...]:
    left, bottom, right, top = inside.bounds
    return tuple(
        (
            (left + right + (right - left) * i / (_STEPS + 1)) / 2,
            (bottom + top + (top - bottom) * j / (_STEPS + 1)) / 2,
        )
        for i, j in _GRID
    )


def _padded(text: Text) -> Polygon:
    box, room = text_box(text), text.height / 4
    return shapely.box(box.left - room, box.bottom - room, box.right + room, box.top + room)
