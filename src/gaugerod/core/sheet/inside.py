"""The sketch on a card of an inside face: which face of the opening it is."""

from collections.abc import Iterator

from gaugerod.core.base.geometry import Box, Point, Region, Ring
from gaugerod.core.job.fields import InsideFace
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Line
from gaugerod.core.sheet.lettering import extent, region_of

_WIDE, _HIGH = 0.3, 0.24  # of the width of the drawing below
_FAR = 0.55  # the back, as seen from the front, as a share of the opening
_CLEAR = 0.06  # between the sketch and the drawing below, likewise


def with_sketch(drawing: Drawing, face: InsideFace) -> Drawing:
    """Put a sketch of an opening over a drawing, one of its inside faces hatched.

    Parameters
    ----------
    drawing
        The drawing of a piece. [mm]
    face
        The face that the piece is for.

    Returns
    -------
    Drawing
        Both: the opening as seen from the room, its front edge on the layer ``outline``, the
        edges behind it on ``opening``, the face on ``cut``.

    Notes
    -----
    The sketch has no scale. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.base.catalogue import Catalogue
    >>> from gaugerod.core.sheet.piece import draw_piece
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> plain = draw_piece(sample_pieces()[0], (), Catalogue(display=METRIC, sentences={}))
    >>> both = with_sketch(plain, "sill")
    >>> both.bounds.height > plain.bounds.height, len(both.items) - len(plain.items)
    (True, 7)
    """
    items = (*drawing.items, *_sketch(drawing.bounds, face))
    frame = Area(layer="outline", region=region_of(drawing.bounds))
    bounds = extent((*items, frame), margin=0.0)
    return Drawing(name=drawing.name, title=drawing.title, bounds=bounds, items=items)


def _sketch(below: Box, face: InsideFace) -> Iterator[Item]:
    middle = (below.left + below.right) / 2
    foot = below.top + _CLEAR * below.width
    wide, high = _WIDE * below.width, _HIGH * below.width
    centre = (middle, foot + high / 2)
    near = _rectangle(centre, wide, high)
    far = _rectangle(centre, _FAR * wide, _FAR * high)
    yield Area(layer="cut", region=Region(rings=(_face(near, far, face),)))
    yield Area(layer="opening", region=Region(rings=(far,)))
    for start, end in zip(near, far, strict=True):
        yield Line(layer="opening", start=start, end=end)
    yield Area(layer="outline", region=Region(rings=(near,)))


def _rectangle(centre: Point, width: float, height: float) -> Ring:
    """Return a rectangle from its lower left corner, anticlockwise. [mm]."""
    (x, y), dx, dy = centre, width / 2, height / 2
    return ((x - dx, y - dy), (x + dx, y - dy), (x + dx, y + dy), (x - dx, y + dy))


def _face(near: Ring, far: Ring, face: InsideFace) -> Ring:
    if face == "back":
        return far
    start = ("sill", "right", "head", "left").index(face)
    end = (start + 1) % 4
    return (near[start], near[end], far[end], far[start])
