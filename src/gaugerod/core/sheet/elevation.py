"""An elevation: one wall as the setter faces it, every piece with its tag."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from types import MappingProxyType

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import SNAP, Box, Region, Ring, bounds_of, shape_of
from gaugerod.core.base.lengths import Display
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.setout.layout import Layout, top_of
from gaugerod.core.setout.pattern import Pattern
from gaugerod.core.sheet.accents import Signs, dotted, legend
from gaugerod.core.sheet.chain import chain, depth
from gaugerod.core.sheet.drawing import Area, Dimension, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import extent, place_text, text_box
from gaugerod.core.sheet.levels import height_stations, level_lines
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.survey.walls import FittedWall

# A wall, wide and tall, in capitals of its dimensions: no more, or with what stands beside it
# they would come out under ten points on a sheet; by its looks, on half the width of one.
_ON_A_SHEET, _ON_HALF = (33, 50), (25, 42)
_TAIL = 0.3  # how far a letter hangs under its line, in capitals: of the paper's own family
_TAG = 1.4  # capitals of a tag to those of a dimension, where the piece has room


def draw_elevation(
    wall: FittedWall,
    layout: Layout,
    pieces: tuple[Piece, ...],
    words: Catalogue,
    *,
    trims: Sequence[Ring] = (),
    signs: Signs = MappingProxyType({}),
) -> Drawing:
    """Draw one wall: outline, pieces with tags, openings, holes, lines and dimensions.

    Parameters
    ----------
    wall
        The fitted wall. [mm]
    layout
        The set-out of all walls. [mm]
    pieces
        Pieces of any walls; those of this wall are drawn. [mm]
    words
        Sentences, and how lengths are shown.
    trims
        Lines along which trims run on it. [mm]
    signs
        Where there are several products: the sign of each.

    Returns
    -------
    Drawing
        The elevation. Cut pieces are on the layer ``cut``, whole ones on ``piece``; what is
        not of the main product is on ``accent`` too, and has its letter with its tag.

    Notes
    -----
    The level chain runs along the datum, from the left corner of the wall through the left
    edge of every piece of the lowest course to the right corner. Every station is rounded
    once from there, so that a chain sums to its overall. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall
    >>> words = Catalogue(display=METRIC, sentences={
    ...     "sheet.wall": "Wall {name}", "sheet.datum": "datum", "sheet.above": "{n} {height}",
    ...     "sheet.below": "{n} {height}", "sheet.measure-in-place": "{tag}*"})
    >>> drawing = draw_elevation(sample_wall(), sample_layout(), sample_pieces(), words)
    >>> [item.label.text for item in drawing.items if isinstance(item, Dimension)][:6]
    ['150', '600', '600', '600', '150', '2100']
    """
    mine = tuple(piece for piece in pieces if piece.wall == wall.name)
    around = bounds_of((wall.outline,))
    height = _capitals(around, _ON_A_SHEET)
    marks = pierced(wall, height=height)
    main = layout.product
    items: tuple[Item, ...] = (
        *dotted(mine, main),
        *(Area(layer="piece" if p.whole else "cut", region=p.region) for p in mine),
        Area(layer="outline", region=Region(rings=(wall.outline,))),
        *(Line(layer="trim", start=a, end=b) for run in trims for a, b in pairwise(run)),
        *level_lines(layout, words, around=around, height=height),
        *marks,
        *_tags(mine, marks, words, signs, height),
        *_plumb_line(wall, layout, around, height),
        *_level_chain(_stations(wall, layout, mine), around, height, words.display),
        *_plumb_chain(height_stations(wall, layout), around, height, words.display),
    )
    over = extent(items, margin=0.0)
    items = (*items, *legend(mine, signs, main, around=over, height=height))
    return Drawing(
        name=f"elevation-{wall.name}",
        title=words.text("sheet.wall", name=wall.name),
        bounds=extent(items, margin=height / 2),
        items=items,
    )


def draw_face(
    wall: FittedWall,
    layout: Layout,
    pieces: tuple[Piece, ...],
    words: Catalogue,
    *,
    signs: Signs = MappingProxyType({}),
) -> Drawing:
    """Draw one wall as it will look: joints, openings and holes, two overall dimensions.

    Parameters
    ----------
    wall
        The fitted wall. [mm]
    layout
        The set-out of all walls. [mm]
    pieces
        Pieces of any walls; those of this wall are drawn, cut or whole alike. [mm]
    words
        Sentences, and how lengths are shown.
    signs
        Where there are several products: the sign of each.

    Returns
    -------
    Drawing
        The picture, for whoever chooses by looks.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall
    >>> words = Catalogue(display=METRIC, sentences={"sheet.wall": "Wall {name}"})
    >>> drawing = draw_face(sample_wall(), sample_layout(), sample_pieces(), words)
    >>> [item.label.text for item in drawing.items if isinstance(item, Dimension)]
    ['2100', '890']
    """
    mine = tuple(piece for piece in pieces if piece.wall == wall.name)
    around = bounds_of((wall.outline,))
    height = _capitals(around, _ON_HALF)
    display = words.display
    across = (wall.left.at(0.0), wall.right.at(0.0))
    up = (height_stations(wall, layout)[0], top_of(layout, wall.name))
    below, beside = around.bottom - 3 * height, around.left - 2 * height
    items: tuple[Item, ...] = (
        *dotted(mine, layout.product),
        *(Area(layer="piece", region=p.region) for p in mine),
        Area(layer="outline", region=Region(rings=(wall.outline,))),
        *pierced(wall, height=height),
        *chain(across, axis="x", base=around.bottom, row=below, height=height, display=display),
        *chain(up, axis="y", base=around.left, row=beside, height=height, display=display),
    )
    over = extent(items, margin=0.0)
    items = (*items, *legend(mine, signs, layout.product, around=over, height=height))
    return Drawing(
        name=f"face-{wall.name}",
        title=words.text("sheet.wall", name=wall.name),
        bounds=extent(items, margin=height / 2),
        items=items,
    )


def _capitals(around: Box, most: tuple[int, int]) -> float:
    """Return the height of capitals of which a wall is so many wide and tall at most. [mm]."""
    wide, tall = most
    return max(around.width / wide, around.height / tall)


def _tags(
    pieces: Sequence[Piece], marks: Sequence[Item], words: Catalogue, signs: Signs, height: float
) -> list[Text]:
    taken = [_with_tails(mark) for mark in marks if isinstance(mark, Text)]
    tags: list[Text] = []
    for piece in pieces:
        tag = piece.tag
        if piece.measure_in_place:
            tag = words.text("sheet.measure-in-place", tag=tag)
        if piece.product in signs and signs[piece.product].letter:
            tag = f"{tag} {signs[piece.product].letter}"
        inside = shape_of(piece.region)
        tags.append(place_text(tag, layer="tag", inside=inside, taken=taken, height=_TAG * height))
    return tags


def _with_tails(name: Text) -> Box:
    """Return the box of a name, down to where its letters hang under the line."""
    box = text_box(name)
    return replace(box, bottom=box.bottom - _TAIL * name.height)


def level_stations(wall: FittedWall, pieces: Sequence[Piece]) -> tuple[float, ...]:
    """Return the stations of the level chain: corner, joints of the lowest course, corner.

    Parameters
    ----------
    wall
        The wall. [mm]
    pieces
        Its pieces. [mm]

    Returns
    -------
    tuple of float
        Distances along the datum from the left corner, increasing. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces, sample_wall
    >>> level_stations(sample_wall(), sample_pieces())
    (0.0, 150.0, 750.0, 1350.0, 1950.0, 2100.0)
    """
    lowest = min((piece.course for piece in pieces), default=0)
    joints = {piece.cell.left for piece in pieces if piece.course == lowest}
    left, right = wall.left.at(0.0), wall.right.at(0.0)
    return (left, *sorted(x for x in joints if left + SNAP < x < right - SNAP), right)


def _stations(wall: FittedWall, layout: Layout, pieces: Sequence[Piece]) -> tuple[float, ...]:
    """Return the stations of the level chain; a pattern has but the line it is struck from."""
    if not layout.pattern:
        return level_stations(wall, pieces)
    left, right = wall.left.at(0.0), wall.right.at(0.0)
    return (left, _plumb(wall, layout, layout.pattern), right)


def _plumb(wall: FittedWall, layout: Layout, pattern: Pattern) -> float:
    """Return the plumb line through crossings that is nearest to the middle of a wall. [mm]."""
    on = next(one for one in layout.walls if one.name == wall.name)
    middle = (wall.left.at(0.0) + wall.right.at(0.0)) / 2
    return pattern.at((on.phase, layout.first_course)).plumb(middle)


def _plumb_line(wall: FittedWall, layout: Layout, around: Box, height: float) -> tuple[Line, ...]:
    """Draw the line that a pattern is struck from."""
    if not layout.pattern:
        return ()
    x = _plumb(wall, layout, layout.pattern)
    ends = (x, around.bottom - height), (x, around.top + height)
    return (Line(layer="course", start=ends[0], end=ends[1]),)


def _level_chain(
    stations: Sequence[float], around: Box, height: float, display: Display
) -> tuple[Dimension, ...]:
    parts = around.bottom - depth(stations, axis="x", height=height, display=display)
    whole = parts - 2.5 * height
    ends = (stations[0], stations[-1])
    return tuple(
        dimension
        for row, along in ((parts, stations), (whole, ends))
        for dimension in chain(
            along, axis="x", base=around.bottom, row=row, height=height, display=display
        )
    )


def _plumb_chain(
    stations: Sequence[float], around: Box, height: float, display: Display
) -> tuple[Dimension, ...]:
    parts = around.left - 2 * height
    whole = parts - depth(stations, axis="y", height=height, display=display)
    ends = (stations[0], stations[-1])
    return tuple(
        dimension
        for row, along in ((parts, stations), (whole, ends))
        for dimension in chain(
            along, axis="y", base=around.left, row=row, height=height, display=display
        )
    )
