from collections.abc import Callable
from dataclasses import replace
from typing import Literal

import pytest
from tests.rule_cases import said

from gaugerod.core.base.geometry import Box, Point, Region
from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.cutting.pieces import PieceEdge
from gaugerod.core.job.document import PatternBond
from gaugerod.core.job.fields import Side
from gaugerod.core.job.sample import sample_tile
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.setout.hide import end_fits
from gaugerod.core.setout.sample import sample_layout

Measuring = Callable[[str, Facts], list[Measured]]


@pytest.fixture
def measure() -> Measuring:
    return lambda name, facts: list(MEASURES[name](facts))


def shifted(facts: Facts, shift: float) -> Facts:
    walls = tuple(replace(wall, row_shift=shift) for wall in facts.layout.walls)
    return replace(facts, layout=replace(facts.layout, walls=walls))


def test_the_finish_above_floor_and_drain(facts: Facts, measure: Measuring) -> None:
    # 730 + 1140 and 730 + 1100
    assert measure("finish-above-floor", facts) == [Measured(value=1870.0)]
    assert measure("sprayed-above-drain", facts) == [Measured(value=1830.0)]
    unread = replace(facts, walls=replace(facts.walls, floor=None, drain=None))
    assert measure("finish-above-floor", unread) == measure("sprayed-above-drain", unread) == []


def test_sills_stand_above_the_drain_or_else_the_deck(facts: Facts, measure: Measuring) -> None:
    # 250 + 1100, and 250 + 760 from the low point of the deck
    assert measure("glass-unread", facts) == [Measured(where="B window", value=1350.0)]
    unread = replace(facts, walls=replace(facts.walls, drain=None))
    assert measure("glass-unread", unread) == [Measured(where="B window", value=1010.0)]


def test_a_niche_has_no_glass(facts: Facts, measure: Measuring) -> None:
    left, back, right = facts.walls.walls
    niche = replace(back, openings=(replace(back.openings[0], kind="niche"),))
    walls = replace(facts.walls, walls=(left, niche, right))
    assert measure("glass-unread", replace(facts, walls=walls)) == []


def test_the_fall_of_the_deck_against_one_course(facts: Facts, measure: Measuring) -> None:
    # 760 - 754; 300 less the groove cut off (12.7) and the least piece (50)
    (found,) = measure("deck-fall", facts)
    assert found.value == 6.0
    assert found.against == pytest.approx(237.3)


def test_a_groove_that_stays_costs_no_height(facts: Facts, measure: Measuring) -> None:
    gaps = facts.system.gaps.model_copy(update={"hides_key": ("deck",)})
    system = facts.system.model_copy(update={"gaps": gaps})
    assert measure("deck-fall", replace(facts, system=system))[0].against == 250.0


def test_standing_the_left_groove_is_below(facts: Facts, tiled: Facts, measure: Measuring) -> None:
    standing = replace(facts.layout, turn="standing", face=(300.0, 600.0), pitch=(300.0, 600.0))
    found = measure("deck-fall", replace(facts, layout=standing))
    assert found[0].against == pytest.approx(537.3)  # 600 - 12.7 - 50
    assert measure("deck-fall", tiled)[0].against == 247.0  # tile has no groove: 297 - 50


@pytest.mark.parametrize(
    ("shift", "offset"), [(0.0, 0.0), (300.0, 300.0), (200.0, 200.0), (400.0, 200.0), (600.0, 0.0)]
)
def test_the_offset_of_a_bond(
    facts: Facts, measure: Measuring, shift: float, offset: float
) -> None:
    found = measure("bond-offset", shifted(facts, shift))
    assert found[1] == Measured(where="B", value=offset, against=600.0, side=600.0)
    assert [one.where for one in found] == ["L", "B", "R"]


def test_joints(tiled: Facts, measure: Measuring) -> None:
    assert measure("joint", tiled) == [Measured(value=3.0, side=600.0)]
    assert measure("bond-joint", tiled) == []
    assert measure("bond-joint", shifted(tiled, 200.0)) == [Measured(value=3.0, side=600.0)]
    assert measure("soft-joint", tiled) == [Measured(value=2.0)]  # the ceiling's


def test_the_smallest_share_of_a_module_on_each_wall(facts: Facts, measure: Measuring) -> None:
    # 200 of 600 is a third; 450 of 600 is less than 287 of 300
    assert measure("smallest-cut", facts) == [
        Measured(where="B1-1", value=450.0, against=600.0),
        Measured(where="L2-2", value=200.0, against=600.0),
    ]


def test_the_small_end_of_a_cut(facts: Facts, measure: Measuring) -> None:
    # 287 - 2 is less than 450 - 12
    assert measure("narrowest", facts) == [
        Measured(where="B1-1", value=285.0, against=50.0),
        Measured(where="L2-2", value=200.0, against=50.0),
    ]


def test_runs_of_opposite_and_of_bent_cuts_add_up(facts: Facts, measure: Measuring) -> None:
    # In at the left by 20 over two stretches, in at the right by 5: 300 - 20 - 5
    cuts = (
        PieceEdge(side="left", kind="cut", start=(20.0, 300.0), end=(15.0, 150.0)),
        PieceEdge(side="left", kind="cut", start=(15.0, 150.0), end=(0.0, 0.0)),
        PieceEdge(side="right", kind="cut", start=(300.0, 0.0), end=(295.0, 300.0)),
    )
    within = Box(left=0.0, bottom=0.0, right=300.0, top=300.0)
    piece = replace(facts.pieces[0], edges=cuts, within=within)
    bent = replace(facts, pieces=(piece,))
    assert measure("narrowest", bent) == [Measured(where="B1-1", value=275.0, against=50.0)]
    assert measure("taper", bent) == [Measured(where="B1-1", value=15.0, against=600.0)]


@pytest.mark.parametrize(
    ("turn", "end", "narrow"), [(0, (600.0, 150.0), 300.0), (90, (450.0, 300.0), 300.0)]
)
def test_a_piece_under_a_slope_counts_by_its_tall_side(
    facts: Facts, measure: Measuring, turn: Literal[0, 90], end: Point, narrow: float
) -> None:
    # From 300 down by 150 over 600 under the ceiling; standing, from 600 down over 300.
    side: Side = "right" if turn else "top"
    start = (600.0, 0.0) if turn else (0.0, 300.0)
    slope = PieceEdge(side=side, kind="cut", start=start, end=end)
    within = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)
    piece = replace(facts.pieces[0], edges=(slope,), within=within, turn=turn)
    found = measure("narrowest", replace(facts, pieces=(piece,)))
    assert [one.value for one in found] == [narrow]


def test_a_step_of_the_deck_falls_on_its_own(facts: Facts, measure: Measuring) -> None:
    left, *others = facts.walls.walls
    # A ledge 120 up that falls by 10: more than the 6 by which the rim falls over all walls.
    deck = ((0.0, -760.0), (500.0, -760.0), (500.0, -640.0), (800.0, -650.0))
    stepped = replace(left, deck=deck, parts=("rim", "ledge"))
    walls = replace(facts.walls, walls=(stepped, *others))
    (found,) = measure("deck-fall", replace(facts, walls=walls))
    assert found.value == 10.0


def test_the_taper_that_shows_most(facts: Facts, measure: Measuring) -> None:
    # 12 of 600 shows more than 2 of 300
    assert measure("taper", facts) == [
        Measured(where="B1-1", value=12.0, against=600.0),
        Measured(where="L2-2", value=0.0, against=600.0),
    ]


@pytest.mark.parametrize(
    ("bond", "offsets"),
    [
        ("diagonal", [0.0, 0.0, 0.0]),
        ("diagonal half", [300.0, 300.0, 300.0]),
        ("herringbone", []),
        ("diagonal herringbone", []),
    ],
)
def test_rows_of_a_pattern_stand_off_each_other_as_courses_do(
    tiled: Facts, measure: Measuring, bond: PatternBond, offsets: list[float]
) -> None:
    pattern = pattern_of(sample_tile(), bond, "lying")
    laid = replace(tiled, layout=replace(tiled.layout, bond=bond, pattern=pattern))
    found = measure("bond-offset", laid)
    assert [one.value for one in found] == pytest.approx(offsets, abs=1e-6)
    assert measure("deck-fall", laid) == measure("closing-margin", laid) == []


def test_a_point_is_as_wide_as_it_is_across_and_tapers_no_one_sees(
    tiled: Facts, measure: Measuring
) -> None:
    """Half a tile of 200 each way, on the diagonal: 141.4 across, cut over its long side."""
    ring = ((0.0, 0.0), (200.0 / 2**0.5, 200.0 / 2**0.5), (-200.0 / 2**0.5, 200.0 / 2**0.5))
    cut = PieceEdge(side="top", kind="cut", start=(200.0, 0.0), end=(0.0, 200.0))
    half = replace(
        tiled.pieces[0], turn=45, region=Region(rings=(ring,)), edges=(cut,), whole=False
    )
    pattern = pattern_of(sample_tile(), "diagonal", "lying")
    laid = replace(tiled, layout=replace(tiled.layout, pattern=pattern), pieces=(half,))
    assert measure("narrowest", laid)[0].value == pytest.approx(200.0 / 2**0.5)
    assert measure("taper", laid) == []


def test_the_tightest_end_of_each_wall(facts: Facts, measure: Measuring) -> None:
    walls, layout, system = sample_layout()
    found = measure("closing-margin", replace(facts, walls=walls, layout=layout, system=system))
    fits = end_fits(walls, layout, system)
    assert [one.where[0] for one in found] == ["L", "B", "R"]
    for one in found:
        margins = [fit.margin for fit in fits if fit.wall == one.where[0]]
        assert one.value == min(margins)


@pytest.mark.parametrize(
    ("receptor", "head", "measured"),
    [
        (None, None, 1),
        ("tub", None, 1),
        ("tub", True, 1),
        ("tub", False, 0),
        (None, False, 0),
        ("shower", False, 1),
    ],
)
def test_a_tub_without_a_shower_head_is_not_sprayed(
    facts: Facts, measure: Measuring, receptor: str | None, head: bool | None, measured: int
) -> None:
    dry = said(facts, receptor=receptor, shower_head=head)
    assert len(measure("sprayed-above-floor", dry)) == measured
    assert len(measure("sprayed-above-drain", dry)) == measured
    assert len(measure("finish-above-floor", dry)) == 1


def test_looked_at_glass_is_not_asked_about(facts: Facts, measure: Measuring) -> None:
    marked, plain = said(facts, safety_glass=True), said(facts, safety_glass=False)
    assert measure("glass-unread", marked) == measure("glass-unmarked", marked) == []
    assert measure("glass-unread", plain) == measure("glass-unmarked", facts) == []
    assert measure("glass-unmarked", plain) == measure("glass-unread", facts)
