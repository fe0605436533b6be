"""Will it hide: worked by hand; the sums are common practice in the trade, no source."""

from dataclasses import replace

import numpy as np
import pytest
from tests.laid_by_hand import field, grouted, keyed, layout, opening, rectangle, wall, walls

from gaugerod.core.job.materials import System, Trim
from gaugerod.core.setout.hide import cover_at, end_fits, hide_margin, rim_fits
from gaugerod.core.setout.layout import Layout, Meeting
from gaugerod.core.setout.sample import sample_layout
from gaugerod.core.survey.walls import Walls

LAP = 3 / 8 + 1 / 16
EIGHTH = 1 / 8


@pytest.mark.parametrize(
    ("cover", "gap", "swing", "sigma", "margin"),
    # Inches: a unit of 3/8 on a bed of 1/16, or a trim with a leg of 3/4; a tongue of 3/8, left
    # full or shaved to 1/8; a corner that swings 1/2 over the wall.
    [
        (LAP, 3 / 8, 0, 0, -1 / 16),
        (LAP, 1 / 8, 0, 0, 3 / 16),
        (3 / 4, 3 / 8, 0, 0, 1 / 4),
        (3 / 4, 1 / 8, 0, 0, 1 / 2),
        (3 / 4, 1 / 8, 1 / 2, 0, 0),
        (3 / 4, 1 / 8, 1 / 2, 1 / 32, -1 / 16),
        (LAP, 1 / 8, 1 / 2, 0, -5 / 16),
    ],
)
def test_one_formula_for_all_hiding(
    cover: float, gap: float, swing: float, sigma: float, margin: float
) -> None:
    found = hide_margin(cover=cover, least_lap=EIGHTH, gap=gap, swing=swing, sigma=sigma)
    assert found == pytest.approx(margin, abs=1e-12)


def legged(system: System) -> System:
    trims = tuple(
        Trim.model_validate({**trim.model_dump(), "price": "1.00", "leg": leg})
        for trim, leg in zip(system.trim, (19.0, 18.0, 20.0), strict=True)
    )
    return system.model_copy(update={"trim": trims})


@pytest.mark.parametrize(
    ("meeting", "bare", "with_legs"),
    [
        ("runs behind", 11.0, 11.0),
        ("open", None, 19.0),
        ("trim", None, 20.0),
        ("butts", None, None),
        ("laps", None, None),
        ("stops", None, None),
        ("outside trim", None, None),
    ],
)
def test_what_covers_an_end(meeting: Meeting, bare: float | None, with_legs: float | None) -> None:
    assert cover_at(meeting, keyed()) == bare
    assert cover_at(meeting, legged(keyed())) == with_legs


WALLS, LAYOUT, SYSTEM = sample_layout()


def unsure_of(parameter: str, sigma: float) -> Walls:
    spread = np.array([sigma if name == parameter else 0.0 for name in WALLS.parameters])
    return replace(WALLS, covariance=np.diag(spread**2))


@pytest.mark.parametrize("sigma", [0.0, 1.0, 3.0])
def test_ends_have_what_their_lap_or_seal_leaves_after_two_sigmas(sigma: float) -> None:
    fits = {
        (fit.wall, fit.side): fit.margin
        for fit in end_fits(unsure_of("width B", sigma), LAYOUT, SYSTEM)
        if fit.course == 3
    }
    # B's right end runs behind R: lining 9.525 and bed 1.5875, least lap 3.175, gap 3.
    assert fits["B", "right"] == pytest.approx(9.525 + 1.5875 - 3.175 - 3 - 2 * sigma, abs=1e-3)
    # Its left end butts against L with a sealed joint of 3.175, and starts from the corner.
    assert fits["B", "left"] == pytest.approx(3.175, abs=1e-3)
    # No trim of the sample says how much it covers at the open fronts.
    assert ("L", "left") not in fits
    assert ("R", "right") not in fits


def test_a_sealed_joint_takes_two_sigmas_up_to_its_width() -> None:
    fits = end_fits(unsure_of("width L", 2.0), LAYOUT, SYSTEM)
    assert {fit.margin < 0 for fit in fits if fit.wall == "R"} == {False}
    # The lean of B's left corner: 0.01 on heights up to 730.
    leans = end_fits(unsure_of("left B", 0.01), LAYOUT, SYSTEM)
    low = {fit.course: fit.margin for fit in leans if (fit.wall, fit.side) == ("B", "left")}
    assert low[5] < 3.175 - 2 * 4.3


def laid(*, phase: float, ends: tuple[Meeting, Meeting], system: System) -> Layout:
    gross = rectangle(left=0.0, bottom=0.0, right=1500.0, top=1200.0)
    found = layout(field("B", gross, ends=ends))
    (on_wall,) = found.walls
    face = system.face
    return replace(found, face=face, walls=(replace(on_wall, phase=phase),), top=1150.0)


def test_a_rim_beyond_the_last_module_swings() -> None:
    plain, system = wall("B", width=1500.0, ceiling=1200.0), legged(grouted())
    # Tiles of 597 every 600 from 2: the rims at 0 and 1500 lie 2 and 1 beyond the tiles' edges.
    fits = end_fits(walls(plain), laid(phase=2.0, ends=("open", "open"), system=system), system)
    assert {fit.margin for fit in fits if fit.side == "left"} == {19.0 - 3.175 - 2.0}
    # The last tile, from 1202, is cut at 1500.
    assert {fit.margin for fit in fits if fit.side == "right"} == {19.0 - 3.175}
    back = laid(phase=902.0, ends=("open", "open"), system=system)
    rights = {fit.margin for fit in end_fits(walls(plain), back, system) if fit.side == "right"}
    # From 902 to 1499: the rim is 1 beyond.
    assert rights == {19.0 - 3.175 - 1.0}


@pytest.mark.parametrize(
    ("gap", "room"),
    # A joint takes its own width; cut tight, a fillet of 6 hides 6 − 3.175.
    [(3.0, 3.0), (5.0, 5.0), (0.0, 2.825)],
)
def test_the_room_along_an_opening(gap: float, room: float) -> None:
    pane = replace(opening("window", left=550, bottom=400, right=950, top=700), gap=gap)
    on = wall("B", width=1500.0, ceiling=1200.0, openings=(pane,))
    plan = laid(phase=450.0, ends=("open", "open"), system=keyed())
    fits = rim_fits(walls(on), plan, keyed())
    assert [(fit.side, fit.at) for fit in fits] == [
        ("left", 550 - gap),
        ("right", 950 + gap),
        ("bottom", 400 - gap),
        ("top", 700 + gap),
    ]
    assert [fit.margin for fit in fits] == pytest.approx([room] * 4)
