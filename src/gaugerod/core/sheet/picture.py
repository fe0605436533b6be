"""The finished alcove as who stands before it will see it."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import pairwise
from math import dist

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Point, Region, Ring
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Layer, Line
from gaugerod.core.sheet.eye import Eye, seen, seen_rings, tone
from gaugerod.core.sheet.lettering import extent
from gaugerod.core.sheet.picture_wall import wall_items
from gaugerod.core.sheet.space import Alcove, Frame, Vector, linings, wall_frames
from gaugerod.core.sheet.tub import Block, Stand, stand
from gaugerod.core.survey.walls import Walls

_BEFORE = 1.0  # of the greater of width and depth: how far before the floor the eye stands
_UP = 1500.0  # eye over the floor [mm]
_WHITE, _SHADE = 0.02, 0.22  # tones of the tub in the light and out of it [1]
_MOUTH, _BASIN, _FLOOR = 0.10, 0.07, 0.06  # of its inside, its bottom, and the floor [1]


def draw_picture(alcove: Alcove, words: Catalogue) -> Drawing:
    """Draw the finished alcove in perspective.

    Parameters
    ----------
    alcove
        The alcove. [mm]
    words
        Sentences.

    Returns
    -------
    Drawing
        What is seen from before its middle, from the back to the front; the back wall is drawn
        true. Walls seen from behind are outlines. [mm]

    Notes
    -----
    Every piece is drawn as it is cut, on the plane of its face. Source: own design,
    ``docs/theory/picture.md``.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> alcove = Alcove(walls=walls, layout=layout, pieces=(), insides=(), system=system)
    >>> words = Catalogue(display=METRIC, sentences={"sheet.picture": "The alcove"})
    >>> draw_picture(alcove, words).title
    'The alcove'
    """
    frames = wall_frames(alcove.walls)
    below = stand(alcove.walls, frames)
    eye = _eye(below)
    lined = linings(alcove, frames)
    away = sorted(alcove.walls.walls, key=lambda wall: -_depth(frames[wall.name], wall.outline))
    items: tuple[Item, ...] = (
        *_floor(eye, below),
        *(
            item
            for wall in away
            for item in wall_items(
                eye,
                alcove,
                wall,
                frames[wall.name],
                [one for one in lined if one.wall == wall.name],
            )
        ),
        *_tub(eye, below),
        *(item for seat in below.seats for item in _block(eye, seat)),
        *_beyond(eye, alcove.walls, frames),
    )
    title = words.text("sheet.picture")
    margin = 0.01 * eye.far
    return Drawing(name="picture", title=title, bounds=extent(items, margin=margin), items=items)


def _eye(below: Stand) -> Eye:
    xs, ys = zip(*below.floor.rings[0], strict=True)
    away = _BEFORE * max(max(xs) - min(xs), max(ys) - min(ys))
    at = ((min(xs) + max(xs)) / 2, min(ys) - away, below.level + _UP)
    return Eye(at=at, far=max(ys) - at[1])


def _depth(frame: Frame, outline: tuple[Point, ...]) -> float:
    """Return how far into the alcove the middle of a wall stands. [mm]."""
    return sum(frame.at(x, y)[1] for x, y in outline) / len(outline)


def _floor(eye: Eye, below: Stand) -> Iterator[Area]:
    slab = Block(plan=below.floor, bottom=below.level, top=(below.level, 0.0, 0.0))
    yield from _top(eye, slab, layer="bare", dark=_FLOOR)


def _tub(eye: Eye, below: Stand) -> Iterator[Area]:
    """Draw the inside of the tub, then over that its front and its rim."""
    if below.tub:
        if below.basin:
            # Painted under the strips of its round corners, it closes the hairs between them.
            mouth = replace(below.basin, top=below.tub.top)
            yield from _top(eye, mouth, layer="curve", dark=_MOUTH)
        for inner in below.tub.plan.rings[1:]:
            yield from _sides(eye, below.tub, inner, layer="curve")
        if below.basin:
            yield from _top(eye, below.basin, dark=_BASIN)
        yield from _block(eye, below.tub)


def _block(eye: Eye, block: Block) -> Iterator[Area]:
    yield from _sides(eye, block, block.plan.rings[0])
    yield from _top(eye, block)


def _top(eye: Eye, block: Block, *, layer: Layer = "body", dark: float = _WHITE) -> Iterator[Area]:
    rings = [[(x, y, block.height((x, y))) for x, y in ring] for ring in block.plan.rings]
    region = seen_rings(eye, rings)
    if region:
        yield Area(layer=layer, region=region, tone=dark)


def _sides(eye: Eye, block: Block, ring: Ring, *, layer: Layer = "body") -> Iterator[Area]:
    """Draw what is seen of the sides over one ring of the plan."""
    for (x0, y0), (x1, y1) in pairwise((*ring, ring[0])):
        low, run = block.bottom, dist((x0, y0), (x1, y1))
        corners: list[Vector] = [
            (x0, y0, low),
            (x1, y1, low),
            (x1, y1, block.height((x1, y1))),
            (x0, y0, block.height((x0, y0))),
        ]
        region = seen_rings(eye, [corners])
        if region:
            out = ((y1 - y0) / run, (x0 - x1) / run, 0.0)
            yield Area(layer=layer, region=region, tone=tone(out, light=_WHITE, dark=_SHADE))


def _beyond(eye: Eye, walls: Walls, frames: Mapping[str, Frame]) -> Iterator[Line]:
    """Draw the outlines of walls that are seen from behind, or not at all."""
    for wall in walls.walls:
        frame, outline = frames[wall.name], Region(rings=(wall.outline,))
        if seen(eye, frame, outline) is None:
            ring = [eye.sees(frame.at(x, y)) for x, y in wall.outline]
            for start, end in pairwise((*ring, ring[0])):
                yield Line(layer="beyond", start=start, end=end)
