"""Rules of layout from standards, trade columns and trade magazines.

Sources, each with how sure it is. The standards were read where others quote them.

- Balanced cuts, example of a 24 in tile: column on ANSI A108.02 4.3,
  https://www.fcimag.com/articles/95138-ctef-tile-tip-is-a-balanced-tile-layout-really-difficult-to-achieve.
  Found, recomputed.
- Balanced cuts, example of two slivers: the same series,
  https://www.floortrendsmag.com/articles/111279-substandard-to-tile-installation-standards.
  Found, recomputed; the printed sum leaves out the joint set free.
- "If possible" and "usually": ANSI A108.02 4.3.1 and 4.3.2, quoted there. Found.
- Whole rake in one cut course: BS 5385-1:2018 clause 7.1.5, quoted at
  https://tilersforums.com/threads/tiling-standards.40411/page-24. Found.
- Odd or even number of whole tiles: a tilers' forum,
  https://tilersforums.com/threads/centering-vs-different-cuts-to-a-full-tile-in-a-corner.6815.
  Found (a weak source); the sizes of the ends are calculated.
- Tapers that show: trade magazine, March 2018,
  http://tileletter.s3-website-us-east-1.amazonaws.com/201803/inc/html/88.html. Found.
- Offset of running bond: ANSI A108.02, quoted at
  https://www.fcimag.com/articles/94659-ctef-tile-tip-balance-and-common-sense-in-offset-patterns.
  Found: at most 33 % where the side is over 15 in, so 8 in for 24 in; cuts under half may then
  be unavoidable.
"""

from dataclasses import replace

import pytest
from tests.hand_alcove import lined_by_hand, tiled_by_hand

from gaugerod.core.base.geometry import Box
from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.cutting.pieces import Piece, PieceEdge
from gaugerod.core.setout.balance import half_tile_rule, shared_sliver
from gaugerod.store.shelf import Library

INCH = 25.4
RULES = Library().rules()


def found_by(name: str, facts: Facts) -> list[Finding]:
    findings = check(
        job=facts.job,
        walls=facts.walls,
        layout=facts.layout,
        pieces=facts.pieces,
        cuts=facts.cuts,
        order=facts.order,
        days=facts.days,
        system=facts.system,
        rules=RULES,
    )
    return [finding for finding in findings if finding.rule == name]


def tiled(side: float, *, shift: float = 0.0) -> Facts:
    """The alcove in square tile of one nominal side, each course shifted. [mm]."""
    facts = tiled_by_hand()
    walls = tuple(replace(wall, row_shift=shift) for wall in facts.layout.walls)
    face = (side - 3.0, side - 3.0)
    layout = replace(facts.layout, face=face, pitch=(side, side), walls=walls)
    system = facts.system.model_copy(update={"face": face})
    return replace(facts, layout=layout, system=system)


def cut(facts: Facts, *, width: float, taper: float) -> Facts:
    """One piece of full height, cut on its right; its foot is the wider end. [mm]."""
    height = facts.system.face[1]
    edge = PieceEdge(side="right", kind="cut", start=(width, 0.0), end=(width - taper, height))
    piece: Piece = replace(
        facts.pieces[0],
        within=Box(left=0.0, bottom=0.0, right=width, top=height),
        edges=(edge,),
        whole=False,
    )
    return replace(facts, pieces=(piece,))


def test_a_whole_tile_and_a_sliver_become_two_balanced_cuts() -> None:
    assert shared_sliver(parts=(24.0, 1.5)) == 12.75


def test_two_slivers_and_a_tile_become_two_balanced_cuts() -> None:
    # 1-3/4 + 1-1/4 + 11-3/4 = 14-3/4; each 7-3/8 as printed, and half the joint set free
    parts = (1.75, 1.25, 11.75)
    assert shared_sliver(parts=parts) == 7.375
    assert shared_sliver(parts=parts, joint=0.25) == 7.5


@pytest.mark.parametrize(
    ("tiles", "full", "end"),
    [
        (5.4, 4, 0.70),  # odd: a joint on the centre line, so an even number between the cuts
        (4.7, 3, 0.85),  # even: a tile on the centre line
    ],
)
def test_odd_or_even_whole_tiles(tiles: float, full: int, end: float) -> None:
    found = half_tile_rule(length=tiles, tile=1.0)
    assert found.full == full
    assert found.end == pytest.approx(end)


@pytest.mark.parametrize(("width", "findings"), [(11.9, 1), (12.0, 0)])
def test_a_cut_under_half_is_a_warning_and_no_more(width: float, findings: int) -> None:
    tile = tiled(24 * INCH + 3.0)  # a face of 24 in
    found = found_by("half-module", cut(tile, width=width * INCH, taper=0.0))
    assert len(found) == findings
    assert all(finding.severity == "warn" for finding in found)


@pytest.mark.parametrize(("rake", "findings"), [(236.9, 0), (237.1, 1), (237.4, 1)])
def test_the_whole_rake_lies_inside_one_cut_course(rake: float, findings: int) -> None:
    # Of a face of 300 mm the groove takes 12.7; of the rest 50.3 must stay, so 237 can be cut.
    facts = lined_by_hand()
    cutting = facts.system.cutting.model_copy(update={"least": 50.3})
    system = facts.system.model_copy(update={"cutting": cutting})
    left, back, right = facts.walls.walls
    raised = replace(right, deck=((0.0, -754.0), (800.0, -760.0 + rake)))
    walls = replace(facts.walls, walls=(left, back, raised))
    found = found_by("rake-in-one-course", replace(facts, walls=walls, system=system))
    assert len(found) == findings


@pytest.mark.parametrize(
    ("side", "findings"),
    [
        (24.0, 0),  # 3/8 in goes unseen
        (0.625, 1),  # in a mosaic of 5/8 in it does not
    ],
)
def test_whether_a_taper_shows_depends_on_the_module(side: float, findings: int) -> None:
    tile = tiled(side * INCH + 3.0)
    tapered = cut(tile, width=side * INCH, taper=0.375 * INCH)
    assert len(found_by("taper-shows", tapered)) == findings


def test_a_little_more_taper_shows_in_the_large_tile_too() -> None:
    tile = tiled(24 * INCH + 3.0)
    (found,) = found_by("taper-shows", cut(tile, width=500.0, taper=0.4 * INCH))
    assert found.limit == pytest.approx(0.375 * INCH)


@pytest.mark.parametrize(
    ("side", "shift", "findings"),
    [
        (24.0, 8.0, 0),
        (24.0, 8.01, 3),  # one for each wall
        (24.0, 12.0, 3),
        (24.0, 16.0, 0),  # 8 in the other way
        (15.0, 7.5, 0),  # a side of 15 in is not over it
        (15.1, 7.55, 3),
        (24.0, 0.0, 0),
    ],
)
def test_running_bond_of_large_tile_is_shifted_by_a_third_at_most(
    side: float, shift: float, findings: int
) -> None:
    found = found_by("running-bond-offset", tiled(side * INCH, shift=shift * INCH))
    assert len(found) == findings
    assert all(finding.severity == "warn" for finding in found)


def test_the_limit_of_a_24_inch_side_is_8_inches() -> None:
    found = found_by("running-bond-offset", tiled(24 * INCH, shift=12 * INCH))
    assert found[0].limit == pytest.approx(8 * INCH, abs=0.001)  # a third is written as 0.333334


def test_a_bond_within_its_limit_may_still_cut_under_half() -> None:
    # Both are warnings: where the bond asks for it, the half rule is set aside by the owner.
    bond = tiled(24 * INCH, shift=8 * INCH)
    found = found_by("half-module", cut(bond, width=6 * INCH, taper=0.0))
    assert [finding.severity for finding in found] == ["warn"]
    assert found_by("running-bond-offset", bond) == []
