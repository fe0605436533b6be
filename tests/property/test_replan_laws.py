"""Laws of planning again: what hangs never moves, and the rest still covers once."""

from typing import Any

import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from tests.checkers.cut_plan import faults
from tests.fixtures_plan import planned
from tests.on_site import again

from gaugerod.core.base.geometry import bounds_of, shape_of
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.alike import HAIR
from gaugerod.core.replan.pieces import THIN
from gaugerod.core.replan.replan import Replanned

NAMES = ("alcove-1962", "niche-tile")


@st.composite
def sites(draw: st.DrawFn) -> tuple[str, dict[str, Any], list[str]]:
    """A job, a day on site with something found on one wall, and the tags set by then."""
    name = draw(st.sampled_from(NAMES))
    plan = planned(name)
    wall = draw(st.sampled_from([wall.name for wall in plan.layout.walls]))
    here = [piece for piece in plan.pieces if piece.wall == wall]
    courses = sorted({piece.course for piece in here})
    course = draw(st.sampled_from(courses[:-1]))
    stand = [piece.tag for piece in here if piece.course <= course]
    off = st.floats(-6.0, 6.0)
    if draw(st.booleans()):
        line = {"wall": wall, "course": course, "left": draw(off), "right": draw(off)}
        return name, {"set": stand, "line": [line]}, stand
    row = sorted(
        (p for p in here if p.course == course + 1),
        key=lambda piece: bounds_of(piece.region.rings).left,
    )
    some = row[: draw(st.integers(1, max(len(row) - 1, 1)))]
    if len(row) < 2:
        return name, {"set": stand}, stand
    stand += [piece.tag for piece in some]
    reads = left_over(plan, wall, some[-1]) + draw(off)
    gap = {"wall": wall, "course": course + 1, "side": "right", "reads": max(reads, 0.0)}
    return name, {"set": stand, "gap": [gap]}, stand


def left_over(plan: Plan, wall: str, last: Piece) -> float:
    """What the plan leaves right of a piece, up to what its course closes on."""
    (on,) = (one for one in plan.layout.walls if one.name == wall)
    (fitted,) = (one for one in plan.walls.walls if one.name == wall)
    box = bounds_of(last.region.rings)
    lining = plan.system.thickness + plan.system.bed if on.field.right == "butts" else 0.0
    return fitted.right.at((box.bottom + box.top) / 2) - lining - box.right


def every(plan: Plan) -> dict[str, Piece]:
    return {piece.tag: piece for piece in (*plan.pieces, *pieces_inside(plan.insides))}


@given(sites())
@settings(max_examples=12)
def test_what_hangs_never_moves(site: tuple[str, dict[str, Any], list[str]]) -> None:
    name, day, stand = site
    plan = planned(name)
    found = again(plan, day)
    old, new = every(plan), every(found.plan)
    assert found.plan.done == set(stand)
    assert all(new[tag] == old[tag] for tag in stand)
    # Another wall is none of what was found here.
    walls = {one["wall"] for key in ("line", "gap") for one in day.get(key, ())}
    assert all(new[tag] == old[tag] for tag in old if old[tag].wall not in walls | {""})
    covers_once(found, walls)
    every_piece_comes_from_somewhere(found)


def covers_once(found: Replanned, walls: set[str]) -> None:
    """Pieces that don't hang lie in the field, apart, and leave no more than thin strips."""
    plan = found.plan
    for on in plan.layout.walls:
        if on.name not in walls:
            continue
        field = shapely.union_all([shape_of(region) for region in on.field.regions])
        here = [piece for piece in plan.pieces if piece.wall == on.name]
        left = [shape_of(piece.region) for piece in here if piece.tag not in plan.done]
        for shape in left:
            assert field.buffer(HAIR).covers(shape)
        for place, one in enumerate(left):
            for other in left[place + 1 :]:
                assert narrower(shapely.intersection(one, other), 2 * HAIR)
        joint = max(p - f for p, f in zip(plan.layout.pitch, plan.layout.face, strict=True))
        shapes = [shape_of(piece.region).buffer(joint / 2 + HAIR) for piece in here]
        # Along a line that lies off by up to 6 mm joints open by as much.
        assert narrower(field.difference(shapely.union_all(shapes)), THIN + 6.0)


def narrower(shape: shapely.Geometry, than: float) -> bool:
    return bool(shapely.is_empty(shapely.buffer(shape, -than / 2)))


def every_piece_comes_from_somewhere(found: Replanned) -> None:
    plan = found.plan
    assert faults(plan.cuts, list(every(plan).values()), plan.system, {}) == []
