import pytest

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.document import Choices, Opening, Override
from gaugerod.core.job.materials import System
from gaugerod.core.job.readings import OpeningEdge
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.layout import ShortList
from gaugerod.core.setout.search import FOR_CUTS, FOR_LOOKS, FOR_MODULES, set_out
from gaugerod.core.survey.fit import fit_walls

SYSTEM = sample_system()
WALLS = fit_walls(sample_job())


def choices(**update: object) -> Choices:
    return sample_job().choices.model_copy(update=update)


def found(system: System = SYSTEM, **update: object) -> ShortList:
    return set_out(WALLS, choices(**update), system, sample_rates().looks)


def test_one_level_line_serves_all_walls_and_the_best_looks_come_first() -> None:
    short = found()
    looks = [layout.looks // 100 for layout in short.layouts]
    assert looks == sorted(looks)
    assert len(short.layouts) <= FOR_LOOKS + FOR_CUTS + FOR_MODULES
    assert short.tried > len(short.layouts)
    best = short.layouts[0]
    # The low point is 760 below the datum; the first course is 287.3 high on a joint of 3.
    assert best.first_course == pytest.approx(-469.7, abs=0.02)
    assert [wall.name for wall in best.walls] == ["L", "B", "R"]
    assert best.order == ("L", "B", "R")
    assert best.reasons[0].key == "setout.low"
    assert best.reasons[1].values["why"] == Message("setout.height-tallest")


def test_a_bond_shifts_the_courses() -> None:
    assert {wall.row_shift for wall in found(bond="half").layouts[0].walls} == {300.0}
    third = found(bond="third").layouts
    assert {wall.row_shift for layout in third for wall in layout.walls} == {200.0, -200.0}
    right = found(bond="third", step="right").layouts
    assert {wall.row_shift for layout in right for wall in layout.walls} == {200.0}
    assert {wall.row_shift for wall in found(bond=0.25, step="left").layouts[0].walls} == {-150.0}


def test_what_is_left_open_holds_all_that_could_be_fixed() -> None:
    standing = SYSTEM.model_copy(update={"turns": ("lying", "standing")})
    every = found(standing, turn="any", bond="any", finish="any").layouts
    for turn in ("lying", "standing"):
        for bond in ("stack", "half"):
            for layout in found(standing, turn=turn, bond=bond, finish="ceiling").layouts:
                assert layout in every
    assert {(layout.turn, layout.bond) for layout in every} >= {("standing", "stack")}


def test_a_phase_that_is_chosen_stands() -> None:
    short = found(phase={"B": 725.0})
    assert {layout.walls[1].phase for layout in short.layouts} == {125.0}
    assert {layout.walls[1].centring for layout in short.layouts} == {"chosen"}


def test_a_chosen_phase_carries_through_the_corners() -> None:
    # All plumb. B runs behind R, so 600 - 14.2875 is shared by what shows of B's last module and
    # R's first. L runs behind B in the same way.
    wide = [wall.right.at(0.0) - wall.left.at(0.0) for wall in WALLS.walls]
    short = found(phase={"B": 725.0}, corners="run on")
    for layout in short.layouts:
        left, back, right = layout.walls
        assert [wall.centring for wall in layout.walls] == ["run-on", "chosen", "run-on"]
        for before, after, width in ((left, back, wide[0]), (back, right, wide[1])):
            shows = (width - 11.1125 - before.phase) % 600
            begins = (after.phase - 14.2875) % 600
            assert (shows + begins + 14.2875) % 600 == pytest.approx(0, abs=0.3)


def test_an_end_is_sized_to_share_a_module_with_one_of_another_wall() -> None:
    # Face 600, kerf 3: some end is what another wall's end leaves, and all limits are kept.
    ends = [
        (wall.ends, other.ends)
        for layout in found().layouts
        for wall in layout.walls
        if wall.centring == "pair"
        for other in layout.walls
        if other is not wall
    ]
    assert ends
    assert any(abs(a[0] + b[1] - 597) < 0.5 or abs(a[1] + b[0] - 597) < 0.5 for a, b in ends)


def test_two_walls_may_be_settled_so_that_courses_cannot_run_on() -> None:
    with pytest.raises(LayoutError) as caught:
        found(phase={"B": 725.0, "R": 100.0}, corners="run on")
    assert "setout.limit-not-run-on" in str(caught.value.message)


def test_no_course_runs_on_where_none_can_lie() -> None:
    with pytest.raises(LayoutError) as caught:
        found(first_height=30.0, corners="run on")
    assert "setout.limit-under-least" in str(caught.value.message)


def test_running_on_is_weighed_beside_setting_out_afresh() -> None:
    every = found(corners="any").layouts
    for corners in ("afresh", "run on"):
        assert all(layout in every for layout in found(corners=corners).layouts)


def test_a_material_that_may_not_be_shifted_far_is_not() -> None:
    cutting = SYSTEM.cutting.model_copy(update={"most_shift": 0.3333, "shift_over": 381.0})
    stiff = SYSTEM.model_copy(update={"cutting": cutting})
    assert found(stiff, bond="third").layouts
    with pytest.raises(LayoutError) as caught:
        found(stiff, bond="half")
    assert "setout.limit-shifted-too-far" in str(caught.value.message)
    short = stiff.model_copy(update={"cutting": cutting.model_copy(update={"shift_over": 600.0})})
    assert found(short, bond="half").layouts


def signed(limit: str) -> Override:
    word = {"limit": limit, "by": "Setter", "on": "2026-03-01", "why": "Shown to the owner."}
    return Override.model_validate(word)


def test_a_signed_override_passes_its_limit_and_no_other() -> None:
    # A first course of 30 is under the least of 50.
    short = found(first_height=30.0, override=(signed("under-least"),))
    assert {layout.set_aside for layout in short.layouts} == {("under-least",)}
    told = short.layouts[0].reasons[0]
    assert told.key == "setout.set-aside"
    assert told.values["by"] == "Setter"
    assert told.values["on"] == "2026-03-01"
    assert found(override=(signed("under-least"),)).layouts[0].set_aside == ()
    with pytest.raises(LayoutError):
        found(first_height=30.0, override=(signed("groove-left"),))


def test_when_nothing_is_legal_the_limits_that_stop_it_are_named() -> None:
    with pytest.raises(LayoutError) as caught:
        found(first_height=30.0)
    assert caught.value.message.key == "setout.none"
    limits = caught.value.message.values["limits"]
    assert isinstance(limits, Message)
    assert limits.values["limit"] == Message("setout.limit-under-least")


def test_a_module_centred_on_an_opening_of_its_own_width_cuts_no_steps() -> None:
    job = sample_job()
    reads = {"left": ("left", 450.3), "right": ("right", 450.4), "sill": ("datum", 100.0)}
    reads["head"] = ("datum", 700.0)
    readings = [
        OpeningEdge.model_validate(
            {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": value}
        )
        for edge, (start, value) in reads.items()
    ]
    window = Opening(name="window", kind="window", gap=0.0)
    back = job.wall[1]
    back = back.model_copy(update={"opening": (window,), "readings": (*back.readings, *readings)})
    walls = fit_walls(job.model_copy(update={"wall": (job.wall[0], back, job.wall[2])}))
    centred = choices(centre={"B": "opening"})
    layout = set_out(walls, centred, SYSTEM, sample_rates().looks).layouts[0]
    (opening,) = layout.walls[1].field.openings
    assert opening.right - opening.left == pytest.approx(600.0)
    shapes = {len(p.region.rings[0]) for p in make_pieces(layout, walls, SYSTEM)}
    assert shapes == {4}
