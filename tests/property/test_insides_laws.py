"""Laws of inside faces: with linings and joints they fill their opening, and no more."""

from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import Box, Ring
from gaugerod.core.cutting.faces import outlines
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system, sample_tile
from gaugerod.core.survey.walls import FittedOpening

EXACT = 1e-6


@st.composite
def linings(draw: st.DrawFn) -> System:
    system = draw(st.sampled_from([sample_system(), sample_tile()]))
    gap = st.floats(0.0, 6.0)
    gaps = system.gaps.model_copy(update={"corner": draw(gap), "butt": draw(gap)})
    sizes = {"thickness": draw(st.floats(1.0, 15.0)), "bed": draw(st.floats(0.0, 8.0))}
    return system.model_copy(update={**sizes, "gaps": gaps})


@st.composite
def openings(draw: st.DrawFn) -> tuple[FittedOpening, float]:
    """An opening of any size, and its depth."""
    left, bottom = draw(st.floats(0.0, 2000.0)), draw(st.floats(-700.0, 1000.0))
    width, height = draw(st.floats(5.0, 1500.0)), draw(st.floats(5.0, 1500.0))
    depth = draw(st.floats(10.0, 400.0))
    fall = draw(st.none() | st.floats(0.0, 20.0))
    opening = FittedOpening(
        name="it",
        kind=draw(st.sampled_from(["niche", "window"])),
        box=Box(left=left, bottom=bottom, right=left + width, top=bottom + height),
        gap=None,
        depth=depth,
        lined=True,
        fall=fall,
    )
    return opening, depth


def across(ring: Ring) -> float:
    return max(x for x, _ in ring) - min(x for x, _ in ring)


def at(ring: Ring, x: float) -> float:
    """Height of an upright side of a ring."""
    heights = [y for rim, y in ring if abs(rim - x) < EXACT]
    return max(heights) - min(heights)


@given(openings(), linings())
def test_linings_faces_and_joints_fill_the_opening(
    made: tuple[FittedOpening, float], system: System
) -> None:
    opening, depth = made
    width, height = opening.box.width, opening.box.height
    lining, corner, butt = system.thickness + system.bed, system.gaps.corner, system.gaps.butt
    pitch = 1 / 48 if opening.fall is None else opening.fall / depth
    sill_high = system.bed + system.thickness * hypot(1.0, pitch)
    try:
        faces = {face.face: face.ring for face in outlines(opening, depth, system, wall="B")}
    except LayoutError:
        # Refused: one way or the other two linings, with their joints, leave nothing.
        rise = pitch * (depth + lining)
        least = height - sill_high - lining - 2 * butt - rise
        into = depth + lining - max(corner, butt)
        assert min(width - 2 * lining - 2 * butt, width - 2 * corner, least, into) <= 1e-3
        return
    behind = corner if opening.kind == "niche" else butt
    deep = max(y for _, y in faces["head"])
    # Across: sill and head from bare face to bare face, each with its gap.
    assert across(faces["sill"]) + 2 * corner == pytest.approx(width, abs=EXACT)
    assert across(faces["head"]) + 2 * corner == pytest.approx(width, abs=EXACT)
    # Into the wall: from what is behind to the face of the wall's lining.
    assert deep + behind == pytest.approx(depth + lining, abs=EXACT)
    assert across(faces["left"]) == across(faces["right"]) == pytest.approx(deep, abs=EXACT)
    along = max(y for _, y in faces["sill"])
    assert along == pytest.approx(hypot(deep, pitch * deep), abs=EXACT)
    # Upwards at the front edge: sill, joint, side, joint, head.
    front = at(faces["left"], 0.0)
    assert front == pytest.approx(at(faces["right"], across(faces["right"])), abs=EXACT)
    assert sill_high + butt + front + butt + lining == pytest.approx(height, abs=EXACT)
    assert ("back" in faces) == (opening.kind == "niche")
    if opening.kind == "niche":
        back = faces["back"]
        # Across: side, joint, back, joint, side. Upwards, where the sill has risen by D * pitch.
        assert 2 * lining + 2 * butt + across(back) == pytest.approx(width, abs=EXACT)
        risen = sill_high + pitch * depth
        assert risen + butt + at(back, 0.0) + butt + lining == pytest.approx(height, abs=EXACT)
