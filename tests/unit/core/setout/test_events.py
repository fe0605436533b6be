from dataclasses import replace

import numpy as np
import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.events import first_heights, phases
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedOpening, FittedWall, Walls

SYSTEM = sample_system()


def job(**choices: object) -> Job:
    base = sample_job()
    return base.model_copy(update={"choices": base.choices.model_copy(update=choices)})


def heights(walls: Walls, **choices: object) -> dict[str, list[float]]:
    found = first_heights(
        walls,
        SYSTEM,
        job(**choices).choices,
        face=300.0,
        pitch=300.0,
        deck_low=-760.0,
        turn="lying",
    )
    by_name: dict[str, list[float]] = {}
    for name, height in found:
        by_name.setdefault(name, []).append(height)
    return by_name


def with_window(walls: Walls, box: Box, gap: float | None) -> Walls:
    back = replace(
        walls.walls[1],
        openings=(FittedOpening(name="w", kind="window", box=box, gap=gap),),
    )
    return replace(walls, walls=(walls.walls[0], back, walls.walls[2]))


def test_the_tallest_first_course_loses_its_groove() -> None:
    assert heights(fit_walls(sample_job()))["tallest"] == [pytest.approx(287.3)]


def test_a_course_line_may_just_clear_a_hole() -> None:
    # Deck -760, joint 3: a course of h has its line at h - 757. The valve at -330 reaches
    # 38 + 25.4: lines at -393.4 and -266.6, so 363.6 and 490.4, less one course: 63.6, 190.4.
    # With 1/8 in to spare 3.175 lower and higher.
    found = heights(fit_walls(sample_job()))["clear-of-hole"]
    assert sorted(found) == pytest.approx([60.425, 63.6, 190.4, 193.575], abs=1e-3)


def test_a_course_line_may_lie_on_sill_or_head() -> None:
    box = Box(left=500.0, bottom=200.0, right=900.0, top=700.0)
    # Joint round the opening 3: sill line 197, so h = 954 - 900; head line 703: 1460 - 1200.
    found = heights(with_window(fit_walls(sample_job()), box, None))
    assert found["sill"] == [pytest.approx(54.0)]
    assert found["head"] == [pytest.approx(260.0)]
    # Its own gap of 10: 947 - 900 is under the least of 50; 1467 - 1200.
    own = heights(with_window(fit_walls(sample_job()), box, 10.0))
    assert "sill" not in own
    assert own["head"] == [pytest.approx(267.0)]


def test_a_chosen_height_leaves_no_other() -> None:
    assert heights(fit_walls(sample_job()), first_height=250.0) == {"chosen": [250.0]}


def test_without_a_groove_the_tallest_is_a_whole_module() -> None:
    found = first_heights(
        fit_walls(sample_job()),
        SYSTEM.model_copy(update={"gaps": SYSTEM.gaps.model_copy(update={"hides_key": ("deck",)})}),
        job().choices,
        face=300.0,
        pitch=300.0,
        deck_low=-760.0,
        turn="lying",
    )
    assert found[0] == ("tallest", 300.0)


def batch(wall: FittedWall, met: tuple[Meeting, Meeting], *, shift: float = 0.0) -> Batch:
    case = Case(
        wall=wall, met=met, top=1000.0, system=SYSTEM, turn="lying", looks=sample_rates().looks
    )
    lattice = Lattice(
        face=(600.0, 300.0),
        pitch=(600.0, 300.0),
        first_course=-470.0,
        phase=0.0,
        row_shift=shift,
    )
    return batch_of(case, lattice, np.zeros(1))


def tried(
    wall: FittedWall, met: tuple[Meeting, Meeting], **choices: object
) -> list[tuple[str, object]]:
    found = phases(batch(wall, met), job(**choices).choices)
    return [(name, pytest.approx(x, abs=1e-3)) for name, x in found if name != "limit"]


def test_phases_of_a_back_wall() -> None:
    back = fit_walls(sample_job()).walls[1]
    # The field runs from 14.2875 to 1497: its middle is 755.64375.
    found = tried(back, ("butts", "runs behind"))
    assert found == [("module", 455.64375), ("joint", 155.64375)]


def test_phases_round_an_opening() -> None:
    box = Box(left=500.0, bottom=200.0, right=900.0, top=700.0)
    back = with_window(fit_walls(sample_job()), box, None).walls[1]
    found = tried(back, ("butts", "runs behind"))[2:]
    # A module centred on 700: 400; a joint there: 100. With its joint of 3 the opening runs
    # from 497 to 903: a module ends at the one, or begins at the other.
    assert found == [("opening", 400.0), ("opening", 100.0), ("jamb", 497.0), ("jamb", 303.0)]
    assert tried(back, ("butts", "runs behind"), centre={"B": "opening"}) == found[:2]


def test_an_opening_above_the_field_is_no_event() -> None:
    box = Box(left=500.0, bottom=1100.0, right=900.0, top=1300.0)
    back = with_window(fit_walls(sample_job()), box, None).walls[1]
    assert [name for name, _ in tried(back, ("butts", "runs behind"))] == ["module", "joint"]


def test_a_whole_module_at_either_open_front() -> None:
    walls = fit_walls(sample_job())
    left = tried(walls.walls[0], ("open", "runs behind"), centre={"L": "front"})
    right = tried(walls.walls[2], ("butts", "open"), centre={"R": "front"})
    assert left in ([("front", 0.0)], [("front", 600.0)])
    assert right == [("front", 200.0)]


def test_a_whole_module_at_either_outside_corner() -> None:
    back = fit_walls(sample_job()).walls[1]
    # The lining stops at the corner, or laps it by 9.525 + 1.5875.
    choice = {"B": "outside"}
    assert tried(back, ("stops", "butts"), centre=choice) == [("outside", 0.0)]
    assert tried(back, ("butts", "laps"), centre=choice) == [("outside", 1511.1125 - 1200)]


def test_a_centring_that_the_wall_lacks_leaves_all() -> None:
    back = fit_walls(sample_job()).walls[1]
    assert len(tried(back, ("butts", "runs behind"), centre={"B": "opening"})) == 2


def limits(wall: FittedWall, met: tuple[Meeting, Meeting], *, shift: float = 0.0) -> list[float]:
    found = phases(batch(wall, met, shift=shift), job().choices)
    return [x for _, x in found]


def near(places: list[float], x: float) -> bool:
    return any(abs(place - x) < 0.02 or abs(place - x) > 599.98 for place in places)


# The back wall's field runs from 14.2875 to 1497; 600 wide modules, least 50, groove 12.7.
@pytest.mark.parametrize(
    "phase",
    [
        64.2875,  # left end 50: a module ends at 64.2875
        314.2875,  # left end 300
        14.2875,  # left end whole
        1.5875,  # the groove of the first module is just off
        1447 - 1200,  # right end 50
        1197 - 600,  # right end 300
        1497 + 12.7 - 1200,  # a groove at the right just off
    ],
)
def test_phases_at_which_an_end_meets_a_limit(phase: float) -> None:
    back = fit_walls(sample_job()).walls[1]
    assert near(limits(back, ("butts", "runs behind")), phase)


def test_limits_of_upper_courses_count_in_a_running_bond() -> None:
    # Course 3 has moved by 400: its left end is 300 where course 1 begins at 314.2875 - 400.
    back = fit_walls(sample_job()).walls[1]
    assert near(limits(back, ("butts", "runs behind"), shift=200.0), 314.2875 - 400 + 600)


@pytest.mark.parametrize("phase", [336.6, 463.4, 497 - 50, 303.0 + 50 - 600 + 600])
def test_holes_and_legs_have_their_limits(phase: float) -> None:
    walls = fit_walls(sample_job())
    # The valve at 400 reaches 38 + 25.4: a module ends at 336.6 or begins at 463.4.
    wet = limits(walls.walls[0], ("open", "runs behind"))
    box = Box(left=500.0, bottom=200.0, right=900.0, top=700.0)
    back = limits(with_window(walls, box, None).walls[1], ("butts", "runs behind"))
    assert near(wet, phase) or near(back, phase)


def test_legs_beside_a_step_have_their_limits() -> None:
    back = fit_walls(sample_job()).walls[1]
    deck = ((0.0, -758.0), (1000.0, -758.0), (1000.0, -400.0), (1500.0, -400.0))
    met: tuple[Meeting, Meeting] = ("butts", "runs behind")
    # The lining stops at 1000 - 3: a leg of 50, of 300, of a whole module left of it.
    found = limits(replace(back, deck=deck, parts=("rim", "ledge")), met)
    assert all(near(found, 997.0 - size) for size in (50, 300, 600))
    fallen = ((0.0, -400.0), (500.0, -400.0), (500.0, -758.0), (1500.0, -758.0))
    found = limits(replace(back, deck=fallen, parts=("ledge", "rim")), met)
    assert all(near(found, 503.0 + size) for size in (50, 300, 600))


def test_course_lines_at_a_finish_of_given_height_are_tried() -> None:
    walls = fit_walls(sample_job())
    knee = replace(walls.walls[2], finish=1000.0)
    # The floor is 380 under -760: 1000 over it are -140, or 617 over -757: less two courses 17,
    # too low. A strip of 50 or 150 at the top: lines at -190 and -290, so 267 and 167.
    found = heights(replace(walls, walls=(*walls.walls[:2], knee)))
    assert "finish" not in found
    assert all(near(found["strip"], height) for height in (267.0, 167.0))
    assert heights(walls, finish=1050.0)["finish"] == pytest.approx([67.0], abs=0.01)


def test_a_course_line_just_high_enough_to_finish_on_is_tried() -> None:
    # The floor is 380 under -760: 1828.8 over it are 688.8, over -757 less five courses -54.2,
    # too low; less four 245.8.
    assert heights(fit_walls(sample_job()))["enough"] == pytest.approx([245.8], abs=0.01)


def test_a_course_line_on_a_ledge_is_tried() -> None:
    walls = fit_walls(sample_job())
    back = walls.walls[1]
    deck = ((0.0, -758.0), (1000.0, -758.0), (1000.0, -390.0), (1500.0, -390.0))
    stepped = replace(back, deck=deck, parts=("rim", "ledge"))
    found = heights(replace(walls, walls=(walls.walls[0], stepped, walls.walls[2])))
    # From -757 up to -387 are 370, less one course; a groove cut off above it 12.7 lower.
    assert found["step"] == pytest.approx([70.0, 57.3])


@pytest.mark.parametrize("falls", [True, False])
def test_the_tall_side_under_a_slope_has_its_limits(*, falls: bool) -> None:
    back = fit_walls(sample_job()).walls[1]
    ends = (700.0, 400.0) if falls else (400.0, 700.0)
    sloped = replace(back, ceiling=((0.0, ends[0]), (1500.0, ends[1])))
    found = limits(sloped, ("butts", "runs behind"))
    # 300 over 1500, a fifth; less 9.525 the ceiling is at 430, a course line, where it is
    # 439.525: 1302.375 off its high end. There a piece 50 high on its tall side is 250 long.
    foot = (700 - 439.525) * 5
    high = foot - 250 if falls else 1500 - foot + 250
    assert near(found, high if falls else high - 600)


def test_course_lines_at_the_ceiling_and_thin_strips_are_tried() -> None:
    # The ceiling at 1400 less 9.525 is 2147.475 over the joint at the deck (-757): less seven
    # courses 47.475, under the least. A strip of 150 there: 1997.475 less six is 197.475.
    found = heights(fit_walls(sample_job()))
    assert "ceiling" not in found
    assert min(abs(height - 197.475) for height in found["strip"]) < 0.02


def test_a_line_may_just_reach_up_to_a_ceiling_that_slopes() -> None:
    # The ceiling rises from 1400 to 1420: less 9.525 its high end is 2167.475 over the joint at
    # the deck (-757), less seven courses 67.475. A hair lower, and there is an eighth course. To
    # the line of a knee wall of its own, and where courses stop on a line, it is nothing.
    walls = fit_walls(sample_job())
    sloped = replace(walls.walls[1], ceiling=((0.0, 1400.0), (1500.0, 1420.0)))
    found = replace(walls, walls=(walls.walls[0], sloped, walls.walls[2]))
    assert pytest.approx(67.475, abs=1e-3) in heights(found, finish="ceiling")["ceiling"]
    assert "ceiling" not in heights(found)
    assert "ceiling" not in heights(found, finish="line")
