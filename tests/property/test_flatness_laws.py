"""Laws of flatness: what can't depend on how a wall stands, and what a patch or shim must do."""

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import box
from tests.flat_by_hand import BY_ID, fitted, spots, surface

from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.cover import Goal
from gaugerod.core.survey.depths import surface_flatness
from gaugerod.core.survey.grid import grid_departures
from gaugerod.core.survey.mesh import mesh_of
from gaugerod.core.survey.patches import Patch, patch
from gaugerod.core.survey.plane import fit_plane
from gaugerod.core.survey.sag import Profile, worst_sag
from gaugerod.core.survey.shims import shim_schedule
from gaugerod.core.survey.spots import Spot, spans_a_plane
from gaugerod.core.survey.straightedge import worst_gap
from gaugerod.core.survey.volume import volumes

HEIGHTS = st.integers(-80, 80).map(lambda tenths: tenths / 10)
SLOPES = st.integers(-20, 20).map(lambda parts: parts / 1000)
LENGTHS = st.integers(100, 1500).map(float)
GRID = [(100.0 + 400 * i, -500.0 + 400 * j) for i in range(3) for j in range(3)]
LIMITS = [BY_ID[name] for name in ("ansi-large-10ft", "ansi-large-2ft", "din-under-thin-bed")]
# A whole wall is judged in hundredths of a second: a third of the usual examples will do.
fewer = settings(max_examples=settings().max_examples // 3)
EVERYWHERE = box(-5000, -5000, 5000, 5000)


@st.composite
def walls(draw: st.DrawFn, *, jitter: int = 0) -> list[Spot]:
    """A grid of three by three; with jitter each spot may be off its place."""
    shift = st.integers(-jitter, jitter)
    return spots({(x + draw(shift), y + draw(shift)): draw(HEIGHTS) for x, y in GRID})


def gaps(read: Sequence[Spot], length: float) -> list[float]:
    """The worst gap level, plumb and in any direction; nought where nothing can be laid."""
    mesh, heights = surface(read)
    found = [
        worst_gap(mesh, heights, length=length, held="level"),
        worst_gap(mesh, heights, length=length, held="plumb"),
        worst_gap(mesh, heights, length=length, held="any"),
    ]
    return [0.0 if one is None else -one.by for one in found]


def patched(read: Sequence[Spot], goal: Goal, band: float) -> Patch:
    found = patch(read, mesh_of(read), fit_plane(read), within=EVERYWHERE, goal=goal, band=band)
    assert found is not None
    return found


def tilted(read: Sequence[Spot], across: float, up: float) -> list[Spot]:
    return [replace(spot, z=spot.z + 7.0 + across * spot.x + up * spot.y) for spot in read]


def turned(read: Sequence[Spot], angle: float) -> list[Spot]:
    c, s = math.cos(angle), math.sin(angle)
    return [replace(p, x=c * p.x - s * p.y, y=s * p.x + c * p.y) for p in read]


@given(walls(jitter=120), LENGTHS, SLOPES, SLOPES)
@fewer
def test_a_plane_added_to_all_heights_changes_no_gap(
    read: list[Spot], length: float, across: float, up: float
) -> None:
    assert gaps(tilted(read, across, up), length) == pytest.approx(gaps(read, length), abs=1e-6)


@given(walls(), SLOPES, SLOPES)
@fewer
def test_a_plane_added_to_all_heights_changes_no_grid_departure_and_no_fill(
    read: list[Spot], across: float, up: float
) -> None:
    leaning = tilted(read, across, up)
    before, after = ([found.by for found in grid_departures(wall)] for wall in (read, leaning))
    assert after == pytest.approx(before, abs=1e-9)
    fills = [patched(wall, "flat", 1.0) for wall in (read, leaning)]
    assert fills[1].flush == pytest.approx(fills[0].flush, rel=1e-4, abs=100.0)
    assert fit_plane(leaning).residuals == pytest.approx(fit_plane(read).residuals, abs=1e-9)


@given(walls(), LENGTHS, st.floats(-3.1, 3.1))
@fewer
def test_turning_the_grid_changes_no_gap_in_any_direction(
    read: list[Spot], length: float, angle: float
) -> None:
    assert gaps(turned(read, angle), length)[2] == pytest.approx(gaps(read, length)[2], abs=1e-6)


@given(walls(jitter=120), LENGTHS)
@fewer
def test_a_quarter_turn_makes_level_plumb(read: list[Spot], length: float) -> None:
    level, plumb, anyhow = gaps(read, length)
    quarter = gaps(turned(read, math.pi / 2), length)
    assert quarter == pytest.approx([plumb, level, anyhow], abs=1e-6)


@given(walls(jitter=120), LENGTHS, LENGTHS)
@fewer
def test_a_longer_straightedge_never_finds_less(
    read: list[Spot], first: float, second: float
) -> None:
    short, long = (gaps(read, length) for length in sorted((first, second)))
    assert all(more >= less - 1e-9 for more, less in zip(long, short, strict=True))


@given(
    st.lists(st.integers(50, 500), min_size=2, max_size=8),
    st.lists(HEIGHTS, min_size=9, max_size=9),
    st.integers(50, 2500),
)
def test_no_way_of_laying_the_straightedge_finds_more(
    steps: list[int], heights: list[float], length: int
) -> None:
    t = np.concatenate([[0.0], np.cumsum(steps)])
    z = np.array(heights[: len(t)])
    line = Profile(t=t, z=z, solid=np.ones(len(steps), dtype=np.bool_))
    found = worst_sag(line, [float(length)], lambda spans: np.where(spans > length, np.inf, 0.0))
    # Every pair of places 25 mm apart, none farther apart than the straightedge.
    places = np.arange(0.0, t[-1] + 1, 25.0)
    tried = 0.0
    for p in places:
        for q in places[(places > p) & (places <= p + length)]:
            under = t[(t > p) & (t < q)]
            chord = np.interp(under, [p, q], np.interp([p, q], t, z))
            tried = max(tried, float((chord - np.interp(under, t, z)).max(initial=0.0)))
    assert (0.0 if found is None else found.gap) >= tried - 1e-9
    if found is not None:
        # And the gap is there: the chord between its high points less the surface.
        assert found.end - found.start <= length + 1e-6
        ends = np.interp([found.start, found.end], t, z)
        chord = float(np.interp(found.at, [found.start, found.end], ends))
        assert found.gap == pytest.approx(max(chord - float(np.interp(found.at, t, z)), 0.0))


@given(walls(jitter=120), st.sampled_from(["flat", "plumb"]), st.integers(0, 30))
@fewer
def test_a_patch_only_fills(read: list[Spot], goal: Goal, tenths: int) -> None:
    found = patched(read, goal, tenths / 10)
    assert all(spot.flush >= 0 for spot in found.spots)
    assert all(0 <= spot.least <= spot.flush for spot in found.spots)
    assert 0 <= found.least <= found.flush + 1e-6
    assert sum(cell.flush for cell in found.cells) == pytest.approx(found.flush)
    if found.grind is not None:
        assert found.grind.depth > 0
        assert found.grind.dust > 0
        assert found.grind.flush < found.flush


@given(walls(jitter=60), st.sampled_from(["flush", "least"]))
@fewer
def test_a_patched_wall_is_flat(read: list[Spot], how: str) -> None:
    before = surface_flatness(read, fitted(), "backer", LIMITS)
    assume(before.patches)
    done = zip(read, before.patches[0].spots, strict=True)
    filled = [replace(spot, z=spot.z + getattr(fill, how)) for spot, fill in done]
    after = surface_flatness(filled, fitted(), "backer", LIMITS)
    assert {one.verdict for one in after.judged} == {"within"}
    assert after.patches == ()


@given(walls(jitter=60), SLOPES)
@fewer
def test_a_wall_filled_to_plumb_is_flat_and_plumb(read: list[Spot], lean: float) -> None:
    limits: list[Tolerance] = [*LIMITS, BY_ID["plumb-behind"]]
    before = surface_flatness(tilted(read, 0.0, lean), fitted(), "backer", limits)
    made = [found for found in before.patches if found.goal == "plumb"]
    assume(made)
    done = zip(before.spots, made[0].spots, strict=True)
    filled = [replace(spot, z=spot.z + fill.flush) for spot, fill in done]
    after = surface_flatness(filled, fitted(), "backer", limits)
    assert {one.verdict for one in after.judged} == {"within"}


@given(walls(jitter=120))
def test_least_squares_leave_residuals_that_cancel(read: list[Spot]) -> None:
    assume(spans_a_plane(read))
    left = np.array(fit_plane(read).residuals)
    places = np.array([(1.0, spot.x, spot.y) for spot in read])
    assert left @ places == pytest.approx(np.zeros(3), abs=1e-6)


@given(
    st.lists(HEIGHTS, min_size=2, max_size=12),
    st.sampled_from([IMPERIAL, METRIC]),
    st.sampled_from(["parallel", "plumb"]),
)
def test_shims_make_studs_coplanar_and_plumb_within_half_a_step(
    heights: list[float], display: Display, goal: Goal
) -> None:
    studs = spots({(400.0 * (i // 2), 1800.0 * (i % 2)): z for i, z in enumerate(heights)})
    made = shim_schedule(studs, display=display, goal=goal)
    step = 25.4 / 16 if display is IMPERIAL else 1.0
    target = made.target
    assert target.up == 0.0
    for stud, shim in zip(studs, made.shims, strict=True):
        out = stud.z + shim.thickness - target.offset - target.across * stud.x
        assert abs(out) <= step / 2 + 1e-6
        assert shim.thickness >= 0
        assert shim.thickness / step == pytest.approx(round(shim.thickness / step), abs=1e-9)
    # The proudest stud carries no shim where the plane stays parallel, some stud none at all.
    assert min(shim.thickness for shim in made.shims) == 0


@given(walls(jitter=120))
@fewer
def test_no_other_plane_over_the_wall_needs_less_fill(
    read: list[Spot],
) -> None:
    found = patched(read, "flat", 0.0)
    highest = max(spot.z for spot in read)
    lid = [replace(spot, z=highest - spot.z) for spot in read]
    mesh, depths = surface(lid)
    assert found.flush <= sum(volumes(mesh, depths, EVERYWHERE)) + 1.0
    plumb = patched(read, "plumb", 0.0)
    assert found.flush <= plumb.flush + 1.0
