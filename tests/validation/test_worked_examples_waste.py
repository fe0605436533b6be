"""Example 9 worked by hand: units and cuts of five layouts on a wall of 60 in by 6 courses.

Source of the layouts and their sizes: worked example of the trade, common practice, no source.
Every count here is made again by hand under the sizes as they are stated: face 24, no joint, kerf
1/8; keyed modules strictly nominal, with nothing lost in a corner; plain-edged tile with a gap of
1/16 at each end of a course. `docs/theory/worked-examples.md` shows the arithmetic, and where the
table of the example differs.

An end of plain tile is counted twice: *kept*, where it keeps the factory edge that meets its
neighbour, as the program has it; and *sawn*, where it may have been cut on both sides.
"""

from collections.abc import Iterable
from dataclasses import replace
from typing import NamedTuple

import pytest
from tests.laid_by_hand import wall, walls
from tests.worked_alcove import INCH, keyed, plain, tried

from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.materials import System
from gaugerod.core.setout.field import set_field
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, Meeting, WallLayout

WALL = wall("B", width=60 * INCH, ceiling=72 * INCH)
KEYED = keyed(deck=0.0, ceiling=0.0)
PLAIN = plain(deck=0.0, ceiling=0.0, corner=1 / 16)
EASED = keyed(deck=0.0, ceiling=0.0, corner=1 / 16)
"""Keyed, with the gap of plain tile."""
BOTH: tuple[Meeting, Meeting] = ("runs behind", "runs behind")
LEFT: tuple[Meeting, Meeting] = ("runs behind", "trim")
RIGHT: tuple[Meeting, Meeting] = ("trim", "runs behind")
"""A gap at both ends, at the left end only, at the right end only."""


def laid(
    system: System,
    joint: float,
    *,
    bond: float = 0.0,
    gaps: tuple[Meeting, Meeting] = BOTH,
    courses: Iterable[int] = range(1, 7),
) -> tuple[Piece, ...]:
    """The pieces of some courses, a joint of the first at a place from the left. [in]."""
    lattice = Lattice(
        face=system.face,
        pitch=system.face,
        first_course=12 * INCH,
        phase=joint * INCH,
        row_shift=bond * 24 * INCH,
    )
    layout = Layout(
        product=system.id,
        turn="lying",
        bond="stack",
        face=lattice.face,
        pitch=lattice.pitch,
        first_course=lattice.first_course,
        top=72 * INCH,
        order=("B",),
        walls=(
            WallLayout(
                name="B",
                phase=lattice.phase,
                row_shift=lattice.row_shift,
                field=set_field(WALL, gaps, system, top=72 * INCH, lattice=lattice),
                centring="joint",
                ends=(0.0, 0.0),
            ),
        ),
        looks=0,
        reasons=(),
    )
    return tuple(p for p in make_pieces(layout, walls(WALL), system) if p.course in courses)


def gap_at_the_cut_end(system: System) -> tuple[Piece, ...]:
    """Half bond whose whole modules go to the corner, so that only a cut end has its gap."""
    odd = laid(system, 12, gaps=LEFT, courses=(1, 3, 5))
    return odd + laid(system, 24, gaps=RIGHT, courses=(2, 4, 6))


class Counted(NamedTuple):
    """Units, and cuts on the bench."""

    units: int
    cuts: int


def counted(pieces: tuple[Piece, ...], system: System, *, kept: bool = True) -> Counted:
    """What the plan of cuts needs; it must be proven, so that it is the exact count."""
    if not kept:
        pieces = tuple(replace(piece, keeps=()) for piece in pieces)
    plan = plan_cuts(pieces, system)
    assert plan.lower_bound == plan.modules
    return Counted(plan.modules, plan.cuts)


def rows(pieces: tuple[Piece, ...], count: int) -> list[tuple[float, ...]]:
    """Widths along the first courses. [in]."""
    return [
        tuple(round(p.size[0] / INCH, 6) for p in pieces if p.course == course)
        for course in range(1, count + 1)
    ]


class TestKeyed:
    """A module has one left edge and one right edge: each end needs one of them."""

    def test_18_24_18(self) -> None:
        pieces = laid(KEYED, 18)
        assert rows(pieces, 1) == [(18.0, 24.0, 18.0)]
        assert counted(pieces, KEYED) == Counted(18, 12)  # 18 + 18 > 24

    def test_6_24_24_6(self) -> None:
        pieces = laid(KEYED, 6)
        assert rows(pieces, 1) == [(6.0, 24.0, 24.0, 6.0)]
        assert counted(pieces, KEYED) == Counted(18, 12)  # 12 whole, 6 of a left and a right end

    def test_12_24_24_in_stack_bond(self) -> None:
        pieces = laid(KEYED, 12)
        assert rows(pieces, 2) == [(12.0, 24.0, 24.0)] * 2
        assert counted(pieces, KEYED) == Counted(18, 6)  # six left ends, six right edges

    def test_12_24_24_in_half_bond(self) -> None:
        pieces = laid(KEYED, 12, bond=1 / 2)
        assert rows(pieces, 2) == [(12.0, 24.0, 24.0), (24.0, 24.0, 12.0)]
        assert counted(pieces, KEYED) == Counted(18, 6)  # 12 + 1/8 + 12 > 24

    def test_the_saving_in_half_bond_hangs_on_a_sixteenth(self) -> None:
        pieces = gap_at_the_cut_end(EASED)
        assert rows(pieces, 2) == [(11.9375, 24.0, 24.0), (24.0, 24.0, 11.9375)]
        assert counted(pieces, EASED) == Counted(15, 3)  # 11-15/16 + 1/8 + 11-15/16 = 24
        starts = [p for p in pieces if p.place == 1 and p.course % 2 == 0]
        assert all("left" in piece.keeps for piece in starts)  # they keep their groove

    def test_the_gap_alone_saves_nothing_in_stack_bond(self) -> None:
        assert counted(laid(EASED, 12, gaps=LEFT), EASED) == Counted(18, 6)


class TestPlain:
    """A cut end of nominal 12 is 11-15/16, of 18 is 17-15/16, of 6 is 5-15/16."""

    @pytest.mark.parametrize("kept", [True, False])
    def test_18_24_18(self, kept: bool) -> None:
        pieces = laid(PLAIN, 18)
        assert rows(pieces, 1) == [(17.9375, 24.0, 17.9375)]
        assert counted(pieces, PLAIN, kept=kept) == Counted(18, 12)

    def test_6_24_24_6(self) -> None:
        pieces = laid(PLAIN, 6)
        assert rows(pieces, 1) == [(5.9375, 24.0, 24.0, 5.9375)]
        # Sawn: three from one, 3 x 5-15/16 + 2 x 1/8 = 18-1/16; a fourth would need 24-1/8.
        assert counted(pieces, PLAIN, kept=False) == Counted(16, 12)
        # Kept: a left and a right end from one.
        assert counted(pieces, PLAIN) == Counted(18, 12)

    def test_12_24_24_in_stack_bond(self) -> None:
        # A gap at each end: the last tile is not whole but 23-15/16, and that is a cut.
        pieces = laid(PLAIN, 12)
        assert rows(pieces, 1) == [(11.9375, 24.0, 23.9375)]
        assert counted(pieces, PLAIN, kept=False) == Counted(15, 9)
        assert counted(pieces, PLAIN) == Counted(18, 12)

    def test_12_24_24_in_stack_bond_with_a_gap_at_the_cut_end_only(self) -> None:
        pieces = laid(PLAIN, 12, gaps=LEFT)
        assert rows(pieces, 1) == [(11.9375, 24.0, 24.0)]
        assert counted(pieces, PLAIN, kept=False) == Counted(15, 3)
        assert counted(pieces, PLAIN) == Counted(18, 6)

    def test_whole_tiles_moved_up_to_the_gap_cost_a_second_cut(self) -> None:
        # 60 - 2 x 1/16 - 2 x 24 = 11-7/8; two and a kerf leave 1/8 of the tile over.
        pieces = laid(PLAIN, 11.9375)
        assert rows(pieces, 1) == [(11.875, 24.0, 24.0)]
        assert counted(pieces, PLAIN, kept=False) == Counted(15, 6)

    @pytest.mark.parametrize("kept", [True, False])
    def test_12_24_24_in_half_bond(self, kept: bool) -> None:
        pieces = laid(PLAIN, 12, bond=1 / 2)
        assert rows(pieces, 2) == [(11.9375, 24.0, 23.9375), (23.9375, 24.0, 11.9375)]
        assert counted(pieces, PLAIN, kept=kept) == Counted(15, 9)
        assert counted(gap_at_the_cut_end(PLAIN), PLAIN, kept=kept) == Counted(15, 3)


class TestThirdBond:
    """Left cuts (c0 + 8 k) mod 24, right cuts (60 - left) mod 24: 6 is the best that can be had."""

    def test_no_start_leaves_more_than_six(self) -> None:
        nominal = plain(deck=0.0, ceiling=0.0)
        sixteenths = [step / 16 for step in range(24 * 16)]
        for at in ([], sixteenths):  # the places worth trying, and all others to the sixteenth
            found = tried(WALL, nominal, at=at, top=72, low=0.0, bond=1 / 3, first_height="12")
            best = max(min(score.ends) for score in found)
            assert best == pytest.approx(6 * INCH, abs=1e-6)

    def test_its_rows(self) -> None:
        pieces = laid(KEYED, 6, bond=1 / 3)
        assert rows(pieces, 3) == [
            (6.0, 24.0, 24.0, 6.0),
            (14.0, 24.0, 22.0),
            (22.0, 24.0, 14.0),
        ]

    def test_its_units(self) -> None:
        # By hand: 8 whole; of 12 ends the four of 22 stay alone, each of 14 goes with a 6.
        assert counted(laid(KEYED, 6, bond=1 / 3), KEYED) == Counted(16, 12)
        tile = laid(PLAIN, 6, bond=1 / 3)
        assert counted(tile, PLAIN) == Counted(16, 12)
        assert counted(tile, PLAIN, kept=False) == Counted(16, 12)
