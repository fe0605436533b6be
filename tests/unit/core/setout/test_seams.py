"""Seams of sheets, worked by hand: walls of 60 in and panels of 48 x 96 in."""

import pytest
from tests.property.alcoves import Alcove, Lined, TrueHole, line, surveyed
from tests.sheets import INCH, room, sheet

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.sample import sample_job, sample_rates
from gaugerod.core.setout.events import phases
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.sample import sample_batch
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.variants import variants

LOOKS = sample_rates().looks.model_copy(update={"seam": 6000})


def best(found: Lined | None, name: str = "B") -> tuple[Layout, WallLayout]:
    assert found is not None
    short = set_out(found.walls, found.job.choices, found.system, LOOKS)
    layout = short.layouts[0]
    return layout, next(wall for wall in layout.walls if wall.name == name)


def laid(alcove: Alcove) -> Lined | None:
    return line(surveyed(alcove), alcove.system)


def inches(*ends: float) -> list[float]:
    return [round(end / INCH, 3) for end in ends]


def test_a_seam_on_the_centre_line_halves_the_wall() -> None:
    _, wall = best(laid(room(system=sheet(), centre={"B": "joint"})))
    # 60 = 30 + 30.
    assert inches(*wall.ends) == [30.0, 30.0]


def test_the_joint_and_the_corners_come_off_what_is_halved() -> None:
    _, wall = best(
        laid(room(system=sheet(joint=0.5 * INCH, corner=0.25 * INCH), centre={"B": "joint"}))
    )
    # (60 - 2 x 1/4 - 1/2) / 2 = 29 1/2.
    assert inches(*wall.ends) == [29.5, 29.5]


def test_a_seam_may_be_asked_for_at_a_third() -> None:
    _, wall = best(laid(room(system=sheet(), centre={"B": "third"})))
    # 60 / 3 = 20: one sheet of 20 and one of 40.
    assert sorted(inches(*wall.ends)) == [20.0, 40.0]
    assert wall.centring == "third"


def test_tile_and_keyed_modules_have_no_thirds() -> None:
    assert all(name != "third" for name, _ in phases(sample_batch(0.0), sample_job().choices))


def test_left_to_itself_the_wall_is_halved() -> None:
    layout, wall = best(laid(room(system=sheet())))
    assert inches(*wall.ends) == [30.0, 30.0]
    # One seam on the back wall, none on the ends of 31 1/2 in: nothing else to mind.
    assert layout.faults == (("seam", 6000),)
    assert layout.looks == 6000


def test_a_seam_keeps_clear_of_a_hole_on_the_centre_line() -> None:
    arm = TrueHole(name="arm", x=30 * INCH, y=500.0, diameter=3 * INCH)
    layout, wall = best(laid(room(system=sheet(), holes=(arm,))))
    # 1 1/2 to the edge and 1 clear: 2 1/2 off the centre, 27 1/2 and 32 1/2, which is
    # unequal by 5 in at 10.00 each.
    assert sorted(inches(*wall.ends)) == [27.5, 32.5]
    assert layout.looks == 6000 + 5000


def test_a_wall_narrower_than_a_sheet_takes_one_whole_from_corner_to_front() -> None:
    layout, wall = best(laid(room(system=sheet())), "L")
    # 800 less the lining and bed of the back wall, 6 + 3, and its joint of 3.
    assert wall.ends == pytest.approx((788.0, 788.0))
    # Its own left edge stands at the open front.
    assert wall.phase % layout.pitch[0] == pytest.approx(0.0, abs=0.01)
    assert wall.centring == "front"
    told = [said for said in layout.reasons if said.key == "setout.wall-whole"]
    assert [said.values["wall"] for said in told] == ["L", "R"]


@pytest.mark.parametrize(("back", "seams"), [(47.5, 0), (48.5, 1), (96.5, 2)])
def test_no_more_seams_than_the_width_asks_for(back: float, seams: int) -> None:
    layout, _ = best(laid(room(system=sheet(), back=back * INCH)))
    assert dict(layout.faults).get("seam", 0) == 6000 * seams


def test_one_course_stands_on_the_deck_where_the_sheet_is_tall_enough() -> None:
    layout, _ = best(laid(room(system=sheet())))
    # The deck is at -760, its joint 3, the sheet 2438.4: cut at the ceiling, 1300 less 6.
    assert layout.first_course == pytest.approx(-760 + 3 + 96 * INCH)
    assert layout.top == pytest.approx(1294.0)
    first = layout.reasons[1]
    assert first.key == "setout.first"
    height = first.values["height"]
    assert first.values["why"] == Message("setout.height-one-sheet")
    assert isinstance(height, Length)
    assert height.mm == pytest.approx(1294 + 757)


def test_over_a_sheet_a_level_seam_comes_on_every_wall() -> None:
    layout, _ = best(laid(room(system=sheet(), up=2300.0)))
    assert layout.reasons[1].values["why"] != Message("setout.height-one-sheet")
    # 2300 - 6 + 757 = 3051 high, 2438.4 the sheet: two courses, three level seams, and the
    # upright one of the back wall in both. What is left over it, 612.6, is a sliver on four
    # sheets: under half of 2438.4.
    assert dict(layout.faults)["seam"] == 6000 * (3 + 2)


def test_sheets_are_shifted_only_when_asked() -> None:
    open_ = sample_job().choices.model_copy(update={"bond": "any"})
    half = open_.model_copy(update={"bond": "half"})
    assert {one.bond for one in variants(open_, sheet())} == {"stack"}
    assert {one.bond for one in variants(half, sheet())} == {"half"}


def test_the_back_wall_is_set_first_and_the_ends_lap_it() -> None:
    layout, wall = best(laid(room(system=sheet())))
    assert layout.order == ("B", "L", "R")
    assert (wall.field.left, wall.field.right) == ("runs behind", "runs behind")
