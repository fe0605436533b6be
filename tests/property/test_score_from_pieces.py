"""The score of a layout is made again from its pieces alone, by plain geometry."""

from dataclasses import replace
from itertools import groupby
from math import ceil

import pytest
import shapely
from hypothesis import given
from shapely.geometry import LineString
from tests.property.alcoves import Alcove, Lined, alcoves, lined, share, surveyed

from gaugerod.core.base.geometry import bounds_of, shape_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.sample import sample_rates
from gaugerod.core.setout.layout import Layout, WallLayout

LOOKS = sample_rates().looks
INCH = 25.4
HAIR = 1e-3
"""Within the noise of clipping, and far under what looks are priced by. [mm]"""


def plain(alcove: Alcove) -> Alcove:
    """The same alcove with deck and ceiling level and nothing that pierces its walls."""
    left, back, right = (replace(wall, holes=(), openings=()) for wall in alcove.walls)
    deck, ceiling = max(alcove.decks), min(alcove.ceilings)
    return replace(alcove, walls=(left, back, right), decks=(deck,) * 4, ceilings=(ceiling,) * 4)


def width_of(piece: Piece) -> float:
    """The least width of a piece, at its head or its foot. [mm]."""
    shape = shape_of(piece.region)
    x0, y0, x1, y1 = shape.bounds
    levels = (y0 + HAIR, y1 - HAIR)
    return min(shape.intersection(LineString([(x0 - 1, y), (x1 + 1, y)])).length for y in levels)


def rows_of(pieces: list[Piece]) -> list[list[Piece]]:
    """The pieces of each course, from left to right."""
    ranked = sorted(pieces, key=lambda piece: (piece.course, piece.cell.left))
    return [list(row) for _, row in groupby(ranked, key=lambda piece: piece.course)]


def sliver(size: float, whole: float) -> float:
    """What a strip costs: once just under half a module, three times for nothing. [cents]."""
    short = 1 - size / (whole / 2)
    return LOOKS.sliver * (1 + 2 * short) if size < whole / 2 - HAIR else 0.0


def looks_of(layout: Layout, own: WallLayout, pieces: list[Piece]) -> float:
    """The looks of one wall, from its pieces. [cents]."""
    face = layout.face
    total, differ = 0.0, 0.0
    rows = rows_of(pieces)
    for row in rows:
        ends = [width_of(row[0]), width_of(row[-1])]
        total += sum(sliver(end, face[0]) for end in ends)
        for meets, end in zip((own.field.left, own.field.right), ends, strict=True):
            if meets == "open" and end < face[0] - HAIR:
                total += LOOKS.front_cut
        differ += abs(ends[0] - ends[1])
    if "open" not in (own.field.left, own.field.right):
        total += LOOKS.unequal * differ / len(rows) / INCH
    around = bounds_of(own.field.gross.rings)
    for row in (rows[0], rows[-1]):
        high = min(shapely.bounds(shape_of(p.region))[3] for p in row)
        low = max(shapely.bounds(shape_of(p.region))[1] for p in row)
        total += sliver(high - low, face[1]) * ceil(around.width / layout.pitch[0])
    return total


def check(found: Lined, layout: Layout) -> None:
    pieces = found.pieces(layout)
    total = 0.0
    for own in layout.walls:
        mine = [piece for piece in pieces if piece.wall == own.name]
        total += looks_of(layout, own, mine)
        for side, end in zip((0, -1), own.ends, strict=True):
            rows = {p.course for p in mine}
            widths = [
                width_of(
                    sorted((p for p in mine if p.course == row), key=lambda p: p.cell.left)[side]
                )
                for row in rows
            ]
            assert min(widths) == pytest.approx(end, abs=2 * HAIR)
    # Rounded to the cent wall by wall; a hair of width is worth less than that.
    assert layout.looks == pytest.approx(total, abs=2 * len(layout.walls))


@share(2)
@given(alcoves())
def test_looks_and_ends_come_out_of_the_pieces(alcove: Alcove) -> None:
    bare = plain(alcove)
    found = lined(surveyed(bare), bare.system)
    for layout in (found.short.layouts[0], found.short.layouts[-1]):
        check(found, layout)
