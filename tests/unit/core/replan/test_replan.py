from dataclasses import replace
from functools import cache
from math import atan2, degrees, hypot
from typing import Any

import pytest
from tests.fixtures_plan import keyed_plan, tiled_plan
from tests.on_site import again, keys

from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.faults import InconsistentError
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.on_site import SiteDay
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_tile
from gaugerod.core.pipeline import Plan
from gaugerod.core.pipeline import plan as plan_of
from gaugerod.core.replan.changes import changes
from gaugerod.core.replan.replan import Replanned
from gaugerod.core.replan.site import Site


def by_tag(plan: Plan) -> dict[str, Piece]:
    return {piece.tag: piece for piece in plan.pieces}


def told(found: Replanned, key: str) -> list[dict[str, Any]]:
    return [dict(message.values) for message in found.changes if message.key == key]


def test_with_nothing_found_the_plan_stands() -> None:
    for plan in (keyed_plan(), tiled_plan()):
        found = again(plan, {"set": ["B1"]}, {"set": ["B2-1", "L1"], "cut": ["B2-2"]})
        assert replace(found.plan, done=frozenset()) == plan
        assert {"B1-1", "B2-1", "L1-1"} <= found.plan.done
        assert found.cut == {"B2-2"}
        assert keys(found) == ["replan.day", "replan.same"] * 2


def test_what_is_set_is_no_longer_only_cut() -> None:
    found = again(keyed_plan(), {"cut": ["B1"]}, {"set": ["B1"]})
    assert found.cut == frozenset()
    assert len(found.plan.done) == 3


def test_a_wall_stands_for_all_its_pieces() -> None:
    plan = keyed_plan()
    found = again(plan, {"set": ["B"]})
    assert found.plan.done == {piece.tag for piece in plan.pieces if piece.wall == "B"}


def test_a_gap_that_is_wider_widens_the_closing_pieces() -> None:
    # Left over by the plan: what the closing piece takes, and the gap of 1/8 in (3.175 mm)
    # behind which the next wall butts. Found 4 mm more: every piece that closes above, and
    # this one, is 4 mm wider.
    plan = keyed_plan()
    old = by_tag(plan)
    closing = old["B2-3"]
    (wall,) = (one for one in plan.walls.walls if one.name == "B")
    box = bounds_of(old["B2-2"].region.rings)
    rim = wall.right.at((box.bottom + box.top) / 2) - plan.system.gaps.corner
    planned_gap = rim - box.right + plan.system.gaps.corner
    gap = {"wall": "B", "course": 2, "side": "right", "reads": planned_gap + 4}
    found = again(plan, {"set": ["B1", "B2-1", "B2-2"], "gap": [gap]})
    new = by_tag(found.plan)
    assert new["B2-3"].size[0] - closing.size[0] == pytest.approx(4, abs=1e-3)
    for tag in ("B3-3", "B4-3", "B6-3"):
        assert new[tag].size[0] - old[tag].size[0] == pytest.approx(4, abs=1e-3)
    untouched = [tag for tag in old if not tag.startswith("B") or tag.endswith(("-1", "-2"))]
    assert all(new[tag] == old[tag] for tag in untouched if tag != "B5-2")
    changed = {values["piece"] for values in told(found, "replan.changed")}
    assert {"B2-3", "B3-3", "B4-3", "B6-3"} <= changed


def test_a_gap_at_the_left_moves_the_left_end() -> None:
    # This wall runs behind the next: what it closes on is the bonding face itself.
    plan = tiled_plan()
    old = by_tag(plan)
    box = bounds_of(old["B2-2"].region.rings)
    (wall,) = (one for one in plan.walls.walls if one.name == "B")
    (on,) = (one for one in plan.layout.walls if one.name == "B")
    assert on.field.left == "runs behind"
    reads = box.left - wall.left.at((box.bottom + box.top) / 2)
    tags = [tag for tag in old if tag.startswith("B2-") and tag != "B2-1"]
    gap = {"wall": "B", "course": 2, "side": "left", "reads": reads - 5}
    found = again(plan, {"set": ["B1", *tags], "gap": [gap]})
    new = by_tag(found.plan)
    assert new["B2-1"].size[0] - old["B2-1"].size[0] == pytest.approx(-5, abs=1e-3)


def test_a_wall_that_butts_closes_on_the_lining_beside_it() -> None:
    # The gap is measured to the face of the lining there: bed and tile nearer than the wall.
    plan = tiled_plan()
    old = by_tag(plan)
    (wall,) = (one for one in plan.walls.walls if one.name == "L")
    (on,) = (one for one in plan.layout.walls if one.name == "L")
    assert on.field.right == "butts"
    *set_first, closing = [piece for piece in plan.pieces if (piece.wall, piece.course) == ("L", 2)]
    box = bounds_of(set_first[-1].region.rings)
    face = wall.right.at((box.bottom + box.top) / 2) - plan.system.thickness - plan.system.bed
    gap = {"wall": "L", "course": 2, "side": "right", "reads": face - box.right + 6}
    tags = [piece.tag for piece in set_first]
    found = again(plan, {"set": ["L1", *tags], "gap": [gap]})
    wider = by_tag(found.plan)[closing.tag].size[0] - old[closing.tag].size[0]
    assert wider == pytest.approx(6, abs=1e-3)


def test_a_second_gap_is_measured_against_the_plan_as_it_stands() -> None:
    plan = keyed_plan()
    box = bounds_of(by_tag(plan)["B2-2"].region.rings)
    first = {"wall": "B", "course": 2, "side": "right"}
    (wall,) = (one for one in plan.walls.walls if one.name == "B")

    def left_over(at: Plan, tag: str) -> float:
        b = bounds_of(by_tag(at)[tag].region.rings)
        (here,) = (one for one in at.walls.walls if one.name == "B")
        return here.right.at((b.bottom + b.top) / 2) - b.right

    assert box.right < wall.right.at(0)
    days: list[dict[str, Any]] = [
        {
            "set": ["B1", "B2-1", "B2-2"],
            "gap": [first | {"reads": left_over(plan, "B2-2") + 4}],
        }
    ]
    once = again(plan, *days)
    days.append(
        {
            "set": ["B2-3", "B3-1", "B3-2"],
            "gap": [first | {"course": 3, "reads": left_over(once.plan, "B3-2") - 1}],
        }
    )
    twice = again(plan, *days)
    was, after = by_tag(plan)["B4-3"].size[0], by_tag(twice.plan)["B4-3"].size[0]
    assert after - was == pytest.approx(3, abs=1e-2)
    assert by_tag(twice.plan)["B2-3"] == by_tag(once.plan)["B2-3"]


def test_keyed_courses_follow_a_line_that_lies_off() -> None:
    # 4.7625 mm (3/16 in) low over the whole course: the modules above turn by that slope, and
    # an end that is plumb is cut as much off square, 304.8 mm * slope over a course.
    plan = keyed_plan()
    old = by_tag(plan)
    line = {"wall": "B", "course": 1, "right": -4.7625}
    found = again(plan, {"set": ["B1"], "line": [line]})
    new = by_tag(found.plan)
    left = bounds_of(old["B1-1"].region.rings).left
    right = bounds_of(old["B1-3"].region.rings).right
    slope = -4.7625 / (right - left)
    for tag in ("B2-1", "B3-3", "B6-2"):
        assert new[tag].tilt == pytest.approx(degrees(atan2(-4.7625, right - left)))
    assert new["B1-1"] == old["B1-1"]
    assert new["L1-1"] == old["L1-1"]

    def off_square(piece: Piece) -> float:
        (edge,) = (e for e in piece.edges if e.side == "right" and e.kind == "cut")
        return abs(edge.end[0] - edge.start[0]) / hypot(
            edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
        )

    turned = off_square(new["B3-3"]) - off_square(old["B3-3"])
    assert abs(turned) == pytest.approx(abs(slope), rel=1e-3)
    assert told(found, "replan.line")[0]["course"] == 1
    # A module in the field is whole, and turns about the middle of the line.
    (x0, y0), (x1, y1) = new["B2-2"].region.rings[0][:2]
    assert abs((y1 - y0) / (x1 - x0)) == pytest.approx(abs(slope), rel=1e-4)


def test_a_joint_takes_up_what_it_can() -> None:
    # 3 mm joints keep within 1.5 and 4.5: a line 1 mm low leaves the courses above as they are,
    # one 2 mm high lifts them by a half.
    plan = tiled_plan()
    low = again(plan, {"set": ["B1"], "line": [{"wall": "B", "course": 1, "right": -1}]})
    assert by_tag(low.plan)["B3-2"] == by_tag(plan)["B3-2"]
    assert told(low, "replan.joint")[0]["right"].mm == pytest.approx(4)
    high = again(plan, {"set": ["B1"], "line": [{"wall": "B", "course": 1, "left": 2, "right": 2}]})
    (ends,) = told(high, "replan.joint")
    assert ends["left"].mm == ends["right"].mm == pytest.approx(1.5)
    lifted, before = by_tag(high.plan)["B3-2"], by_tag(plan)["B3-2"]
    assert lifted.cell.bottom - before.cell.bottom == pytest.approx(0.5)
    assert lifted.tilt == 0.0


def test_a_later_line_holds_from_its_course_on() -> None:
    plan = keyed_plan()
    first = {"set": ["B1"], "line": [{"wall": "B", "course": 1, "right": -3}]}
    second = {"set": ["B2"], "line": [{"wall": "B", "course": 2}]}
    found = again(plan, first, second)
    new = by_tag(found.plan)
    assert new["B2-2"].tilt < 0
    assert new["B3-2"] == by_tag(plan)["B3-2"]
    (first, second) = told(found, "replan.line")
    assert first["right"] == Message("replan.low", off=Length(3.0))
    assert second["right"] == Message("replan.true")


def test_a_reading_taken_now_replaces_one_of_the_survey() -> None:
    plan = tiled_plan()
    name = next(r.id for r in plan.walls.readings if r.id.startswith("R width"))
    (was,) = (r.value for r in plan.walls.readings if r.id == name)
    ids = [r.id for r in plan.walls.readings]
    reading = {"kind": "width", "at": 0, "reads": was}
    found = again(plan, {"reading": [{"wall": "R", "reading": reading, "instead_of": name}]})
    assert [r.id for r in found.plan.walls.readings] == ids
    more = again(plan, {"reading": [{"wall": "R", "reading": reading}]})
    assert len(more.plan.walls.readings) == len(ids) + 1


def test_too_few_modules_are_told() -> None:
    plan = keyed_plan()
    there = plan.order.boxes * plan.system.per_box
    found = again(plan, {"broken": there - plan.cuts.modules + 2})
    assert found.short == 2
    assert keys(found)[-1] == "replan.short"
    assert again(plan, {"broken": 10_000}).short == plan.cuts.modules


def test_where_modules_are_short_all_that_is_not_begun_is_planned_anew() -> None:
    plan = keyed_plan()
    there = plan.order.boxes * plan.system.per_box
    line = {"wall": "B", "course": 1, "right": -4}
    gentle = again(plan, {"set": ["B1"], "line": [line]})
    broken = there - gentle.plan.cuts.modules + 1
    scant = again(plan, {"set": ["B1"], "broken": broken, "line": [line]})
    assert scant.plan.cuts.modules <= gentle.plan.cuts.modules


@pytest.mark.parametrize(
    ("day", "key"),
    [
        ({"set": ["Z9-1"]}, "replan.no-such-piece"),
        ({"cut": ["B99"]}, "replan.no-such-piece"),
        ({"line": [{"wall": "Q", "course": 1}]}, "replan.no-such-wall"),
        ({"line": [{"wall": "B", "course": 1}]}, "replan.line-too-soon"),
        ({"line": [{"wall": "B", "course": 99}]}, "replan.line-too-soon"),
        (
            {"set": ["B1", "B2"], "line": [{"wall": "B", "course": 1}]},
            "replan.line-too-late",
        ),
        (
            {"gap": [{"wall": "B", "course": 1, "side": "right", "reads": 9}]},
            "replan.gap-not-begun",
        ),
        (
            {"set": ["B1"], "gap": [{"wall": "B", "course": 1, "side": "left", "reads": 9}]},
            "replan.gap-closed",
        ),
        (
            {"set": ["B1-1"], "gap": [{"wall": "B", "course": 1, "side": "right", "reads": 9}]},
            "replan.gap-far",
        ),
        (
            {"reading": [{"wall": "Q", "reading": {"kind": "width", "at": 0, "reads": 900}}]},
            "replan.no-such-wall",
        ),
        (
            {
                "reading": [
                    {
                        "wall": "R",
                        "reading": {"kind": "width", "at": 0, "reads": 900},
                        "instead_of": "R width 99",
                    }
                ]
            },
            "replan.no-such-reading",
        ),
    ],
)
def test_what_is_not_of_the_plan_is_refused_where_it_stands(day: dict[str, Any], key: str) -> None:
    with pytest.raises(InconsistentError) as refused:
        again(keyed_plan(), {"set": []}, day)
    wrong = refused.value.message.values["wrong"]
    assert getattr(wrong, "key", None) == key
    assert refused.value.at[:2] == ("day", 1)


def test_what_is_cut_already_is_cut_again() -> None:
    plan = keyed_plan()
    line = {"wall": "B", "course": 1, "right": -4.7625}
    found = again(plan, {"set": ["B1"], "cut": ["B2-1", "B4-2"], "line": [line]})
    assert {values["piece"] for values in told(found, "replan.recut")} == {"B2-1", "B4-2"}


def test_a_piece_that_would_be_too_thin_is_left_out_and_told() -> None:
    # Eight tenths of an inch of the closing piece of a course are taken away, 2 mm are left.
    plan = tiled_plan()
    *row, closing = [piece for piece in plan.pieces if (piece.wall, piece.course) == ("L", 2)]
    (wall,) = (one for one in plan.walls.walls if one.name == "L")
    box = bounds_of(row[-1].region.rings)
    face = wall.right.at((box.bottom + box.top) / 2) - plan.system.thickness - plan.system.bed
    narrow = min(closing.size[0] - 20.0, 95.0)
    reads = face - box.right - narrow
    gap = {"wall": "L", "course": 2, "side": "right", "reads": reads}
    found = again(plan, {"set": ["L1", *(one.tag for one in row)], "gap": [gap]})
    least = by_tag(found.plan)[closing.tag].size[0]
    assert least == pytest.approx(closing.size[0] - narrow, abs=1e-2)


def test_what_is_no_longer_needed_is_told() -> None:
    plan = keyed_plan()
    gone, *left = plan.pieces
    after = replace(plan, pieces=tuple(left))
    site = Site(job=plan.job, walls=plan.walls)
    messages = list(changes(plan, after, site, SiteDay(), 0))
    assert [message.values["piece"] for message in messages if message.key == "replan.gone"] == [
        gone.tag
    ]


@cache
def diagonal() -> Plan:
    """A tiled alcove on the diagonal."""
    job = sample_job()
    choices = job.choices.model_copy(update={"material": "tile", "bond": "diagonal"})
    tile = sample_tile().model_copy(update={"id": "tile"})
    rules = Rules(format=1, unit="mm", rule=())
    job = job.model_copy(update={"choices": choices})
    return plan_of(job, Materials(systems={"tile": tile}), rules, sample_rates())


@pytest.mark.parametrize(
    "told",
    [
        {"line": [{"wall": "B", "course": 1}]},
        {"gap": [{"wall": "B", "course": 1, "side": "left", "reads": 9}]},
    ],
)
def test_a_pattern_has_no_courses_to_lie_off(told: dict[str, Any]) -> None:
    with pytest.raises(InconsistentError) as refused:
        again(diagonal(), {"set": ["B1"]} | told)
    assert getattr(refused.value.message.values["wrong"], "key", None) == "replan.no-courses"


def test_a_pattern_is_cut_anew_to_a_reading() -> None:
    plan = diagonal()
    reading = {"kind": "width", "at": 0, "reads": 1480, "sigma": 0.1}
    found = again(plan, {"set": ["B1"], "reading": [{"wall": "B", "reading": reading}]})
    old, new = by_tag(plan), by_tag(found.plan)
    assert all(new[tag] == old[tag] for tag in found.plan.done)
    assert any(message.key != "replan.day" for message in found.changes)
