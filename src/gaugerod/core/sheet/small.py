"""All walls of a layout side by side, small: for choosing between layouts, not for setting."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import TypeAlias

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Point, Region, bounds_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.sheet.accents import dotted
from gaugerod.core.sheet.drawing import Area, Circle, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import extent
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.survey.walls import FittedWall, Walls

_APART = 0.12  # from wall to wall, as a share of the tallest
_CAPITALS = 0.06  # of a wall's name, likewise

_Mark: TypeAlias = Area | Circle | Line


def draw_small(
    name: str, walls: Walls, pieces: tuple[Piece, ...], words: Catalogue, *, main: str = ""
) -> Drawing:
    """Draw all walls side by side, in one scale, from left to right.

    Parameters
    ----------
    name
        Name of the drawing.
    walls
        The surveyed alcove. [mm]
    pieces
        Pieces of all walls. [mm]
    words
        Sentences.
    main
        Id of the main product, where there may be others.

    Returns
    -------
    Drawing
        Outlines, pieces, openings and holes, with the name of each wall under it; what is
        cut is on the layer ``cut``, what is of another product on ``accent`` too.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> words = Catalogue(display=METRIC, sentences={"sheet.wall": "Wall {name}"})
    >>> drawing = draw_small("option-A", fit_walls(sample_job()), (), words)
    >>> [item.text for item in drawing.items if isinstance(item, Text)]
    ['Wall L', 'Wall B', 'Wall R']
    """
    boxes = [bounds_of((wall.outline,)) for wall in walls.walls]
    tallest = max(box.height for box in boxes)
    foot = min(box.bottom for box in boxes)
    height = _CAPITALS * tallest
    items: list[Item] = []
    at = 0.0
    for wall, box in zip(walls.walls, boxes, strict=True):
        move = at - box.left
        mine = [piece for piece in pieces if piece.wall == wall.name]
        items += (_moved(item, move) for item in (dotted(mine, main) if main else ()))
        items += (_moved(item, move) for item in _face(wall, mine))
        items.append(
            Text(
                layer="dimension",
                at=(at + box.width / 2, foot - 1.5 * height),
                text=words.text("sheet.wall", name=wall.name),
                height=height,
                anchor="middle",
                turn=0,
            )
        )
        at += box.width + _APART * tallest
    return Drawing(name=name, title=name, bounds=extent(items, margin=height), items=tuple(items))


def _face(wall: FittedWall, pieces: Sequence[Piece]) -> Iterator[_Mark]:
    for piece in pieces:
        yield Area(layer="piece" if piece.whole else "cut", region=piece.region)
    yield Area(layer="outline", region=Region(rings=(wall.outline,)))
    marks = pierced(wall, height=0.0)
    yield from (item for item in marks if isinstance(item, Area | Circle | Line))


def _moved(item: _Mark, by: float) -> _Mark:
    """Return an area, circle or line moved to the right. [mm]."""
    if isinstance(item, Area):
        rings = tuple(tuple(_right(point, by) for point in ring) for ring in item.region.rings)
        return replace(item, region=Region(rings=rings))
    if isinstance(item, Circle):
        return replace(item, centre=_right(item.centre, by))
    return replace(item, start=_right(item.start, by), end=_right(item.end, by))


def _right(point: Point, by: float) -> Point:
    return point[0] + by, point[1]
