"""A U in a module of 600 by 300, by hand; the least piece is 50, a joint 3."""

from dataclasses import replace

import pytest
from tests.property.alcoves import grouted
from tests.unit.core.cutting.outlines import FACE, U_BELOW, cut_edges, piece_of

from gaugerod.core.base.geometry import Point
from gaugerod.core.cutting.pieces import PieceHole
from gaugerod.core.cutting.two_pieces import TwoPieces, two_pieces
from gaugerod.core.job.sample import sample_system

TILE = grouted(face=FACE, joint=3.0, kerf=2.0, gap=3.0)
TILE = TILE.model_copy(update={"cutting": TILE.cutting.model_copy(update={"least": 50.0})})
HOLE = PieceHole(name="valve", x=310.0, y=240.0, diameter=60.0)


def of(ring: tuple[Point, ...], *holes: PieceHole, turn: int = 0) -> tuple[TwoPieces, ...]:
    piece = replace(piece_of(ring), holes=holes, turn=turn)
    return two_pieces(piece, piece.region, TILE)


def test_the_joint_runs_up_from_the_middle_of_the_opening() -> None:
    # From 200 to 400 across, 120 deep: 180 are left above.
    (found,) = of(U_BELOW)
    assert found == TwoPieces(
        tag="B1-1", opens="bottom", neck=180.0, start="left", at=300.0, why=None
    )
    assert of(U_BELOW, turn=90) == (found,)


def test_near_a_hole_it_runs_from_a_corner() -> None:
    # 310 less 30 and a clear distance of 10 and half a joint of 1.5: not from 268.5 on.
    assert of(U_BELOW, HOLE)[0].at == 200.0


def test_no_joint_is_clear_of_a_wide_hole() -> None:
    (found,) = of(U_BELOW, replace(HOLE, x=300.0, diameter=220.0))
    assert (found.at, found.why) == (None, "hole")


def test_a_part_narrower_than_the_least_is_no_piece() -> None:
    # A U from 20 to 70: joints at 45, 20 and 70 leave parts of 43.5, 18.5 and, at 70, 68.5.
    ring = ((0, 0), (20, 0), (20, 120), (70, 120), (70, 0), (600, 0), (600, 300), (0, 300))
    assert of(tuple((float(x), float(y)) for x, y in ring))[0].at == 70.0
    # From 10 to 40 none of them will do.
    ring = ((0, 0), (10, 0), (10, 120), (40, 120), (40, 0), (600, 0), (600, 300), (0, 300))
    (found,) = of(tuple((float(x), float(y)) for x, y in ring))
    assert (found.at, found.why) == (None, "narrow")


@pytest.mark.parametrize(
    ("opens", "ring", "neck", "start"),
    [
        (
            "left",
            ((0, 0), (600, 0), (600, 300), (0, 300), (0, 200), (240, 200), (240, 90), (0, 90)),
            360.0,
            "bottom",
        ),
        (
            "right",
            ((0, 0), (600, 0), (600, 90), (380, 90), (380, 200), (600, 200), (600, 300), (0, 300)),
            380.0,
            "bottom",
        ),
        (
            "top",
            (
                (0, 0),
                (600, 0),
                (600, 300),
                (400, 300),
                (400, 110),
                (200, 110),
                (200, 300),
                (0, 300),
            ),
            110.0,
            "left",
        ),
    ],
)
def test_a_u_opens_at_any_side(
    opens: str, ring: tuple[tuple[int, int], ...], neck: float, start: str
) -> None:
    (found,) = of(tuple((float(x), float(y)) for x, y in ring))
    assert (found.opens, found.neck, found.start) == (opens, neck, start)
    assert found.at == (300.0 if start == "left" else 145.0)


def test_keyed_modules_have_no_joint_without_a_key() -> None:
    piece = piece_of(U_BELOW)
    (found,) = two_pieces(piece, piece.region, sample_system())
    assert (found.at, found.why, found.neck) == (None, "key", 180.0)


def test_a_notch_at_a_corner_is_no_u() -> None:
    ring = ((0.0, 0.0), (500.0, 0.0), (500.0, 120.0), (600.0, 120.0), (600.0, 300.0), (0.0, 300.0))
    assert of(ring) == ()
    assert len(cut_edges(ring)) == 2
