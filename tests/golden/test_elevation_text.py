"""Layouts as a tiler reads them: F full, c cut to width, s in height, n notched, . open."""

from dataclasses import replace

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.pieces import Piece, PieceEdge
from gaugerod.core.job.sample import sample_tile
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.sheet.elevation_text import elevation_text
from gaugerod.core.sheet.sample import sample_layout, sample_pieces


def piece(course: int, place: int, cell: Box, *corners: tuple[float, float]) -> Piece:
    """One piece on the wall; its outline is the whole cell where no corners are given."""
    whole = (
        (cell.left, cell.bottom),
        (cell.right, cell.bottom),
        (cell.right, cell.top),
        (cell.left, cell.top),
    )
    return replace(
        sample_pieces()[0],
        tag=f"B{course}-{place}",
        course=course,
        place=place,
        cell=cell,
        region=Region(rings=(corners or whole,)),
    )


def cell(left: float, bottom: float) -> Box:
    return Box(left=left, bottom=bottom, right=left + 600, top=bottom + 300)


def read(*pieces: Piece, shift: float = 0.0) -> str:
    layout = sample_layout()
    wall = replace(layout.walls[0], phase=0.0, row_shift=shift)
    return elevation_text("B", replace(layout, walls=(wall,)), pieces)


def test_a_wall_with_a_niche() -> None:
    assert (
        elevation_text("B", sample_layout(), sample_pieces())
        == """\
c . c F c
c s n F c
s s s s s"""
    )


def test_a_half_bond_keeps_its_columns() -> None:
    rows = read(
        piece(1, 1, cell(0, 0)),
        piece(1, 2, cell(600, 0)),
        piece(2, 1, cell(-300, 300), (0, 300), (300, 300), (300, 600), (0, 600)),
        piece(2, 2, cell(300, 300)),
        piece(2, 3, cell(900, 300), (900, 300), (1200, 300), (1200, 600), (900, 600)),
        piece(3, 1, cell(0, 600)),
        piece(3, 2, cell(600, 600)),
        shift=300.0,
    )
    assert rows.splitlines() == ["  F F", "c F c", "  F F"]


def test_a_place_split_by_an_opening_shows_both_pieces() -> None:
    split = cell(0, 0)
    rows = read(
        piece(1, 1, split, (0, 0), (200, 0), (200, 300), (0, 300)),
        piece(1, 2, split, (400, 0), (600, 0), (600, 300), (400, 300)),
        piece(1, 3, cell(600, 0)),
    )
    assert rows == "cc F"


def test_a_leaning_cut_is_in_width_and_a_sloping_one_in_height() -> None:
    leaning = piece(1, 1, cell(0, 0), (0, 0), (500, 0), (490, 300), (0, 300))
    sloping = piece(1, 2, cell(600, 0), (600, 8), (1200, 4), (1200, 300), (600, 300))
    assert read(leaning, sloping) == "c s"


def test_an_edge_scribed_to_a_hump_is_no_notch() -> None:
    scribed = piece(1, 1, cell(0, 0), (0, 4), (300, 9), (600, 5), (600, 300), (0, 300))
    assert read(scribed) == "s"


def test_a_hole_leaves_a_piece_full() -> None:
    bored = piece(1, 1, cell(0, 0))
    hole = ((200.0, 100.0), (200.0, 140.0), (240.0, 140.0), (240.0, 100.0))
    assert read(replace(bored, region=Region(rings=(*bored.region.rings, hole)))) == "F"


def test_a_pattern_is_read_row_by_row() -> None:
    """Where modules don't lie in courses a row has no columns, and any cut is a cut."""
    cut = PieceEdge(side="left", kind="cut", start=(0.0, 300.0), end=(0.0, 0.0))
    notched = (
        (0.0, 0.0),
        (600.0, 0.0),
        (600.0, 300.0),
        (300.0, 300.0),
        (300.0, 100.0),
        (0.0, 100.0),
    )
    pieces = (
        piece(1, 1, cell(0, 0)),
        replace(piece(1, 2, cell(600, 0)), edges=(cut,)),
        piece(2, 1, cell(0, 300), *notched),
    )
    pattern = pattern_of(sample_tile(), "diagonal", "lying")
    laid = replace(sample_layout(), pattern=pattern)
    assert elevation_text("B", laid, pieces) == "n\nF c"
