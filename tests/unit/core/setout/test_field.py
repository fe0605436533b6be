from dataclasses import replace

import pytest

from gaugerod.core.base.geometry import Box, Edge, bounds_of, shape_of
from gaugerod.core.job.sample import sample_job, sample_system
from gaugerod.core.setout.datum import course_height, level_line
from gaugerod.core.setout.field import deduct, low_point, meetings, set_field
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall

SYSTEM = sample_system()


def wall(*, lean: float = 0.0, fall: float = 0.0) -> FittedWall:
    """Return a wall 1500 wide, deck at -700 and `fall` lower at the right, right edge leaning."""
    right = Edge(offset=1500.0, slope=lean)
    deck = ((0.0, -700.0), (right.at(-700.0 - fall), -700.0 - fall))
    ceiling = ((0.0, 1400.0), (right.at(1400.0), 1400.0))
    return FittedWall(
        name="B",
        left=Edge(offset=0.0, slope=0.0),
        right=right,
        deck=deck,
        ceiling=ceiling,
        outline=(*deck, *reversed(ceiling)),
        holes=(),
        openings=(),
        fixtures=(),
    )


def test_the_wall_set_first_runs_behind() -> None:
    three = tuple(replace(wall(), name=name) for name in ("L", "B", "R"))
    tile = meetings(three, ("B", "L", "R"), SYSTEM)
    assert tile == {
        "L": ("open", "butts"),
        "B": ("runs behind", "runs behind"),
        "R": ("butts", "open"),
    }
    assert meetings(three[1:2], ("B",), SYSTEM) == {"B": ("open", "open")}


@pytest.mark.parametrize(
    ("order", "left", "right"), [(("C", "F"), "stops", "laps"), (("F", "C"), "laps", "stops")]
)
def test_the_wall_set_later_laps_an_outside_corner(
    order: tuple[str, str], left: Meeting, right: Meeting
) -> None:
    side, front = replace(wall(), name="C", corner="outside"), replace(wall(), name="F")
    met = meetings((side, front), order, SYSTEM)
    assert met == {"C": ("open", left), "F": (right, "open")}


def test_both_walls_end_in_the_trim_of_an_outside_corner() -> None:
    side, front = replace(wall(), name="C", corner="outside"), replace(wall(), name="F")
    trimmed = SYSTEM.model_copy(update={"gaps": SYSTEM.gaps.model_copy(update={"outside": 2.5})})
    met = meetings((side, front), ("C", "F"), trimmed)
    assert met == {"C": ("open", "outside trim"), "F": ("outside trim", "open")}
    assert deduct("outside trim", trimmed) == 2.5


@pytest.mark.parametrize("order", [("L", "B"), ("B", "L")])
def test_both_walls_stand_in_the_channel_of_an_inside_corner(order: tuple[str, str]) -> None:
    left, back = replace(wall(), name="L"), replace(wall(), name="B")
    channels = SYSTEM.model_copy(update={"gaps": SYSTEM.gaps.model_copy(update={"inside": 4.0})})
    met = meetings((left, back), order, channels)
    # Whoever is set first, nobody laps: the channel takes 4 off both.
    assert met == {"L": ("open", "trim"), "B": ("trim", "open")}
    assert deduct("trim", channels) == 4.0


def test_deducts() -> None:
    # Lining 9.525, bed 1.5875, butt joint 3.175 by hand: 14.2875.
    assert deduct("butts", SYSTEM) == pytest.approx(14.2875)
    assert deduct("runs behind", SYSTEM) == 3.0
    assert deduct("open", SYSTEM) == 0.0
    assert deduct("trim", SYSTEM) == 0.0
    # Past an outside corner by the lining and the bed of the other wall: 9.525 + 1.5875.
    assert deduct("laps", SYSTEM) == pytest.approx(-11.1125)
    assert deduct("stops", SYSTEM) == 0.0


def test_a_lining_that_laps_runs_past_its_wall() -> None:
    field = set_field(wall(), ("laps", "stops"), SYSTEM, top=1000.0)
    box = bounds_of(field.gross.rings)
    assert (box.left, box.right) == pytest.approx((-11.1125, 1500.0))


def test_a_field_is_the_wall_less_its_gaps() -> None:
    field = set_field(wall(), ("butts", "runs behind"), SYSTEM, top=1000.0)
    box = bounds_of(field.gross.rings)
    found = (box.left, box.bottom, box.right, box.top)
    assert found == pytest.approx((14.2875, -697.0, 1497.0, 1000.0))
    assert field.deck_low == -700.0
    (net,) = field.regions
    assert shape_of(net).equals(shape_of(field.gross))


def test_a_field_stops_at_the_ceiling_gap() -> None:
    field = set_field(wall(), ("open", "open"), SYSTEM, top=9000.0)
    assert bounds_of(field.gross.rings).top == pytest.approx(1400 - 9.525)


def test_leaning_corner_and_falling_deck_stay_in_the_field() -> None:
    field = set_field(wall(lean=-0.01, fall=15.0), ("open", "runs behind"), SYSTEM, top=1000.0)
    corners = sorted(field.gross.rings[0])
    # The right edge at 1000 up: 1500 - 10 - 3.
    assert corners[2] == pytest.approx((1487.0, 1000.0))
    assert corners[3][0] == pytest.approx(1497 + 7.12, abs=0.01)
    # The deck falls 15 over the 1507.15 of its own width: 14.97 over 1504.12.
    assert corners[3][1] == pytest.approx(-697.0 - 14.97, abs=0.01)


def test_openings_with_their_gap_and_holes_are_no_part_of_the_net_field() -> None:
    around = Box(left=400.0, bottom=0.0, right=900.0, top=500.0)
    pierced = replace(
        wall(),
        openings=(
            FittedOpening(name="window", kind="window", box=around, gap=None),
            FittedOpening(
                name="niche",
                kind="niche",
                box=Box(left=1000.0, bottom=0.0, right=1300.0, top=300.0),
                gap=0.0,
            ),
        ),
        holes=(
            FittedHole(
                name="valve",
                x=200.0,
                y=-300.0,
                diameter=80.0,
                pipe=None,
                plate=None,
                rough_in=None,
                rough_in_limits=None,
            ),
        ),
    )
    field = set_field(pierced, ("open", "open"), SYSTEM, top=1000.0)
    (net,) = field.regions
    taken = 506 * 506 + 300 * 300 + 3.14159 * 40**2
    assert shape_of(net).area == pytest.approx(1500 * 1697 - taken, rel=1e-5)


def test_the_low_point_is_the_lowest_of_all_walls() -> None:
    name, height = low_point(fit_walls(sample_job()))
    assert name == "L"
    assert height == pytest.approx(-760.0, abs=0.02)


def test_level_line_and_course_height_are_each_others_inverse() -> None:
    line = level_line(deck_low=-760.0, height=290.0, gap=3.0)
    assert line == -467.0
    assert course_height(line=line, deck=-760.0, gap=3.0) == 290.0
    assert course_height(line=line, deck=-751.0, gap=3.0) == 281.0
