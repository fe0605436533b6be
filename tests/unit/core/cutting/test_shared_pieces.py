"""Pieces that layouts share are those that would be made of each by itself."""

from dataclasses import replace

from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.shared_pieces import SharedPieces
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.sample import sample_layout

WALLS, LAYOUT, SYSTEM = sample_layout()


def moved(*, back: float = 0.0, up: float = 0.0) -> Layout:
    left, middle, right = LAYOUT.walls
    middle = replace(middle, phase=middle.phase + back)
    return replace(LAYOUT, first_course=LAYOUT.first_course + up, walls=(left, middle, right))


def test_moved_layouts_have_the_pieces_of_their_own() -> None:
    shared = SharedPieces()
    for layout in (LAYOUT, moved(back=40), moved(back=40, up=-20), LAYOUT):
        assert shared.make(layout, WALLS, SYSTEM) == make_pieces(layout, WALLS, SYSTEM)


def test_a_wall_that_did_not_move_is_not_cut_up_again() -> None:
    shared = SharedPieces()
    before = {piece.tag: piece for piece in shared.make(LAYOUT, WALLS, SYSTEM)}
    after = {piece.tag: piece for piece in shared.make(moved(back=40), WALLS, SYSTEM)}
    assert after["L1-1"] is before["L1-1"]
    assert after["B1-1"] is not before["B1-1"]
