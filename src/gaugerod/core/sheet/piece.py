"""The picture of one cut: the module face up, arrow up, with what to keep and what to waste."""

from collections import Counter
from collections.abc import Iterator, Sequence

import shapely

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import (
    SNAP,
    Box,
    Point,
    Region,
    bounds_of,
    regions_of,
    shape_of,
)
from gaugerod.core.cutting.edge_marks import along
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.sheet.corners import Corner, bites, corners, face_of, frame_of
from gaugerod.core.sheet.drawing import Area, Circle, Dimension, Drawing, Item, Line, Text
from gaugerod.core.sheet.figures import SLANTED, STRAIGHT, figure
from gaugerod.core.sheet.lettering import extent, place_text, region_of, text_box
from gaugerod.core.survey.walls import FittedHole

_FINENESS = 9  # the longer side of the module in capitals
_OFF = 1.1  # from a line to the middle of its figure, in capitals: clear of its end strokes
_CLEAR = 0.35  # least room between the boxes of two figures, in capitals: fractions hang out


def draw_piece(piece: Piece, holes: Sequence[FittedHole], words: Catalogue) -> Drawing:
    """Draw a piece on the module it is cut from, marked as the cut card says.

    Parameters
    ----------
    piece
        The piece, with its marks. [mm]
    holes
        Holes of its wall. [mm]
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    Drawing
        The module face up, arrow up: waste on the layer ``waste``, kept factory edges on
        ``keep``, straight cuts with their figures, notch corners with their numbers.

    Notes
    -----
    Both figures of a taper are drawn; where a cut is square one of the two suffices.
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> drawing = draw_piece(sample_pieces()[0], (), Catalogue(display=METRIC, sentences={}))
    >>> sum(item.layer == "waste" for item in drawing.items)
    1
    """
    frame = frame_of(piece)
    face = face_of(piece)
    kept = frame.region_to_module(piece.region)
    height = max(face.width, face.height) / _FINENESS
    rest = shapely.box(face.left, face.bottom, face.right, face.top).difference(
        shape_of(Region(rings=kept.rings[:1]))
    )
    figures = tuple(_figures(piece, face, words, height))
    items: tuple[Item, ...] = (
        *(Area(layer="waste", region=region) for region in regions_of(rest)),
        Area(layer="piece", region=Region(rings=kept.rings[:1])),
        *_kept_edges(piece),
        *_holes([((hole.x, hole.y), hole.diameter) for hole in piece.holes], height),
        *_holes([(bite.at, bite.diameter) for bite in bites(piece, holes)], height),
        *_arrow(kept, height),
        *figures,
        *_numbers(corners(piece, holes), [text_box(one.label) for one in figures], height),
    )
    return Drawing(
        name=f"piece-{piece.tag}",
        title=piece.tag,
        bounds=_bounds(items, face, height),
        items=items,
    )


def _bounds(items: tuple[Item, ...], face: Box, height: float) -> Box:
    """Leave every card the same room at the sides, so that all modules are drawn alike.

    Round digits dip under their line, and a stroke has a width: neither is cut off.
    """
    least = Box(
        left=face.left - 2.5 * height,
        bottom=face.bottom - height / 2,
        right=face.right + 2.5 * height,
        top=face.top + height / 2,
    )
    around = region_of(extent(items, margin=height / 4))
    return bounds_of((*around.rings, *region_of(least).rings))


def _kept_edges(piece: Piece) -> Iterator[Item]:
    for edge in piece.edges:
        # An inside face of an opening may lie on the module's edge, but keeps none.
        if edge.kind == "tongue off" or (edge.kind == "factory" and edge.side in piece.keeps):
            yield Line(layer="keep", start=edge.start, end=edge.end)


def _holes(drilled: Sequence[tuple[Point, float]], height: float) -> Iterator[Item]:
    for (x, y), diameter in drilled:
        reach = diameter / 2 + height / 2
        yield Circle(layer="hole", centre=(x, y), diameter=diameter)
        yield Line(layer="hole", start=(x - reach, y), end=(x + reach, y))
        yield Line(layer="hole", start=(x, y - reach), end=(x, y + reach))


def _arrow(kept: Region, height: float) -> Iterator[Item]:
    """Draw the arrow that points up, in the largest clear part of the piece."""
    room = shapely.maximum_inscribed_circle(shape_of(kept), tolerance=height / 10)
    (x, y), (edge_x, edge_y) = room.coords
    half = min(1.6 * height, 0.7 * ((edge_x - x) ** 2 + (edge_y - y) ** 2) ** 0.5)
    barb = half / 2
    yield Line(layer="tag", start=(x, y - half), end=(x, y + half))
    for side in (-barb, barb):
        yield Line(layer="tag", start=(x, y + half), end=(x + side, y + half - barb))


def _figures(piece: Piece, face: Box, words: Catalogue, height: float) -> Iterator[Dimension]:
    """Draw the figures of straight cuts outside the module, beside the edge they are read at.

    A figure longer than what it measures runs on past the corner: one that would stand on
    another there goes a row further out.
    """
    drawn: set[tuple[str, str, str]] = set()
    rows: Counter[str] = Counter()
    taken: list[Box] = []
    for mark in piece.marks:
        text = figure(mark, piece, words.display)
        shown = (mark.start, mark.detail, text)
        if mark.what not in STRAIGHT | SLANTED or (mark.what in STRAIGHT and shown in drawn):
            continue
        drawn.add(shown)
        if mark.value < SNAP:  # a cut that runs into a corner: there is no length to draw
            continue
        side = mark.what.removeprefix("along ")
        while True:
            found = _beside(mark, text, face, height, row=rows[side], side=side)
            rows[side] += 1
            if not _overlaps(text_box(found.label), taken, _CLEAR * height):
                break
        taken.append(text_box(found.label))
        yield found


def _overlaps(box: Box, taken: Sequence[Box], room: float) -> bool:
    """Tell whether a box comes nearer to any other than there is to be room between two."""
    return any(
        box.left < other.right + room
        and other.left < box.right + room
        and box.bottom < other.top + room
        and other.bottom < box.top + room
        for other in taken
    )


def _beside(mark: Mark, text: str, face: Box, height: float, *, row: int, side: str) -> Dimension:
    """Draw one figure; `row` counts those that already stand on that side."""
    start, end = sorted((along(mark.start, 0.0, face), along(mark.start, mark.value, face)))
    level = side in {"bottom", "top"}
    base = {"bottom": face.bottom, "top": face.top, "left": face.left, "right": face.right}[side]
    out = -1.0 if side in {"bottom", "left"} else 1.0
    line = base + out * (0.8 + 2.2 * row) * height
    beyond, middle = line + out * _OFF * height, (start + end) / 2
    label = Text(
        layer="dimension",
        at=(middle, beyond) if level else (beyond, middle),
        text=text,
        height=height,
        anchor="middle",
        turn=0 if level else 90,
    )
    return Dimension(
        layer="dimension",
        start=(start, base) if level else (base, start),
        end=(end, base) if level else (base, end),
        offset=line - base if level else base - line,
        label=label,
    )


def _numbers(found: Sequence[Corner], figures: Sequence[Box], height: float) -> Iterator[Item]:
    """Draw the corners of cuts, with the names that the card gives to them, clear of figures."""
    taken = [*figures]
    for corner in found:
        x, y = corner.at
        yield Circle(layer="tag", centre=corner.at, diameter=height / 2)
        if not corner.name:
            continue
        room = shapely.box(x - 2 * height, y - 2 * height, x + 2 * height, y + 2 * height)
        text = place_text(
            corner.name,
            layer="tag",
            inside=shapely.difference(room, shapely.Point(x, y).buffer(height / 3)),
            taken=taken,
            height=height,
        )
        taken.append(text_box(text))
        yield text
