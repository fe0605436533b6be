"""How flat a wall must be before it is tiled, by place and by the longest edge of the tile.

Sources, each with how sure it is. Standards that are sold were read where others quote them.

- Tile with an edge of 15 in or more: 1/8 in in 10 ft from the required plane and 1/16 in in
  24 in, from the high points. ANSI A108.02 4.2.2, quoted at
  https://www.fcimag.com/articles/91628-ctef-tile-tip-installing-large-thin-tiles-is-the-surface-flat-enough,
  https://www.fcimag.com/articles/96103-this-time-the-tile-install-worked-but-beware and
  https://floortrendsmag.com/articles/112509-out-of-flat-ceramic-tile-floors-cause-many-problems.
  Found.
- All edges under 15 in: 1/4 in in 10 ft (found, quoted at
  https://www.fcimag.com/articles/86335-ctef-tile-tip-lippage-and-flatness-standards-for-ceramic-tile-installations)
  and 1/16 in in 12 in (from memory).
- Finished tile, 1/4 in in 10 ft: ANSI A108.02, quoted at
  http://tileletter.s3-website-us-east-1.amazonaws.com/201805/inc/html/26.html. Found.
- United Kingdom: no gap over 3 mm (thin bed) or 6 mm (thick bed) under a 2 m straightedge. NHBC
  Standards 9.2.5 with BS 5385,
  https://nhbc-standards.co.uk/9-finishes/9-2-wall-and-ceiling-finishes/9-2-5-ceramic-wall-tiling/.
  Found. Finished tiling 3 mm under 2 m, BS 5385-1: from memory.
- Keyed modules, 3/16 in under 6 ft; plumb to 1/8 in in 8 ft, a finished face to 1/16 in in 4 ft;
  a deck that falls by 1/8 in hides, by 1/2 in shows: common practice, no source.
"""

import numpy as np
import pytest
from tests.flat_by_hand import BACKER, BY_ID, LIMITS, fitted, grid, surface

from gaugerod.core.job.document import Wall
from gaugerod.core.job.readings import Gap, Surface
from gaugerod.core.job.tolerances import Fixing
from gaugerod.core.survey.flatness import WallFlatness, flatness_of
from gaugerod.core.survey.limits import allowed, limits_for
from gaugerod.core.survey.straightedge import straightedge

INCH, FOOT = 25.4, 304.8


def flat_limits(
    region: str, edge: float, fixing: Fixing, surface_: Surface = "backer"
) -> dict[float, float]:
    """Length of straightedge and what is allowed under it, both in inches."""
    rows = limits_for(LIMITS, longest_edge=edge, fixing=fixing, surface=surface_, region=region)
    return {
        round(row.over / INCH, 6): round(row.at_most / INCH, 6)
        for tolerance in rows
        if tolerance.about == "flat"
        for row in tolerance.allows
    }


@pytest.mark.parametrize("surface_", ["backer", "old tile"])
@pytest.mark.parametrize(
    ("edge", "expected"),
    [
        (15.0, {120: 1 / 8, 24: 1 / 16}),
        (24.0, {120: 1 / 8, 24: 1 / 16}),
        (14.99, {120: 1 / 4, 12: 1 / 16}),
        (4.25, {120: 1 / 4, 12: 1 / 16}),
    ],
)
def test_behind_tile_in_the_united_states(
    edge: float, expected: dict[float, float], surface_: Surface
) -> None:
    assert flat_limits("US-IL", edge * INCH, "thin bed", surface_) == expected


def test_finished_tile_in_the_united_states() -> None:
    assert flat_limits("US", 24 * INCH, "thin bed", "new face") == {120: 1 / 4}


@pytest.mark.parametrize(("fixing", "mm"), [("thin bed", 3), ("thick bed", 6)])
def test_behind_tile_in_the_united_kingdom(fixing: Fixing, mm: float) -> None:
    found = flat_limits("GB", 600.0, fixing)
    assert found == {round(2000 / INCH, 6): round(mm / INCH, 6)}


def test_finished_tiling_in_the_united_kingdom() -> None:
    found = flat_limits("GB", 600.0, "thin bed", "new face")
    assert found == {round(2000 / INCH, 6): round(3 / INCH, 6)}


@pytest.mark.parametrize("region", ["US", "GB"])
def test_behind_keyed_modules(region: str) -> None:
    assert flat_limits(region, 24 * INCH, "bead") == {72: 3 / 16}


def test_a_limit_says_how_sure_it_is() -> None:
    sure = {name: BY_ID[name].sure for name in ("ansi-large-2ft", "ansi-small-1ft", "bs-finish")}
    assert sure == {
        "ansi-large-2ft": "found",
        "ansi-small-1ft": "from memory",
        "bs-finish": "from memory",
    }


def with_gap(inches: float, straightedge_: float, edge: float) -> WallFlatness:
    """A wall with one hollow read under a level straightedge, behind tile in the US."""
    gap = Gap(
        kind="gap",
        at=30 * INCH,
        height=0,
        straightedge=straightedge_ * INCH,
        held="level",
        reads=inches * INCH,
    )
    return flatness_of(
        Wall(name="B", readings=(gap,)),
        fitted(width=60 * INCH),
        longest_edge=edge * INCH,
        limits=LIMITS,
        survey=BACKER,
        fixing="thin bed",
        region="US",
    )


@pytest.mark.parametrize(
    ("inches", "straightedge_", "edge", "verdicts"),
    [
        # 1/16 in under 24 in is within both limits for large tile; 3/32 breaks the short one.
        (1 / 16, 24, 24, {"ansi-large-10ft": "within", "ansi-large-2ft": "within"}),
        (3 / 32, 24, 24, {"ansi-large-10ft": "within", "ansi-large-2ft": "out"}),
        # 3/32 under 48 in keeps the long limit, and only a shorter straightedge can tell of
        # the short one; 1/16 under 48 in has no more than that under 24 in.
        (3 / 32, 48, 24, {"ansi-large-10ft": "within", "ansi-large-2ft": "open"}),
        (1 / 16, 48, 24, {"ansi-large-10ft": "within", "ansi-large-2ft": "within"}),
        (3 / 16, 48, 24, {"ansi-large-10ft": "out", "ansi-large-2ft": "open"}),
        # The same hollow behind small tile.
        (3 / 16, 48, 12, {"ansi-small-10ft": "within", "ansi-small-1ft": "open"}),
        (5 / 16, 48, 12, {"ansi-small-10ft": "out", "ansi-small-1ft": "open"}),
    ],
)
def test_a_gap_under_a_straightedge(
    inches: float, straightedge_: float, edge: float, verdicts: dict[str, str]
) -> None:
    judged = with_gap(inches, straightedge_, edge).judged
    found = {one.tolerance.id: one.verdict for one in judged if one.departure.way == "gap"}
    assert found == verdicts


@pytest.mark.parametrize(
    ("sixteenths", "verdicts"),
    [
        # Hollow over 24 in, heights at 0, 12, 24, 36, 48 and 60 in.
        ([0, 0, -1, 0, 0, 0], ["within", "within"]),
        ([0, 0, -1.1, 0, 0, 0], ["within", "out"]),
        # Over 60 in, by so little at a time that 24 in never find 1/16.
        ([0, -1.2, -1.9, -1.9, -1.2, 0], ["within", "within"]),
        ([0, -1.5, -2.1, -2.1, -1.5, 0], ["out", "within"]),
    ],
)
def test_depths_on_a_grid_from_the_high_points(
    sixteenths: list[float], verdicts: list[str]
) -> None:
    row = [value * INCH / 16 for value in sixteenths]
    mesh, heights = surface(grid(row, row, step=FOOT))
    rows = [BY_ID["ansi-large-10ft"], BY_ID["ansi-large-2ft"]]
    found = straightedge(mesh, heights, rows, sigma=0.0, held="level")
    assert [one.verdict for one in found] == verdicts


@pytest.mark.parametrize(
    ("name", "over", "inches"),
    [
        ("plumb-behind", 96, 1 / 8),
        ("plumb-behind", 72, 3 / 32),
        ("plumb-face", 48, 1 / 16),
        ("plumb-face", 24, 1 / 32),
        ("deck-fall-hides", 60, 1 / 8),
        ("deck-fall-shows", 60, 1 / 2),
    ],
)
def test_plumb_and_level(name: str, over: float, inches: float) -> None:
    assert float(allowed(BY_ID[name], np.array(over * INCH))) == pytest.approx(inches * INCH)
