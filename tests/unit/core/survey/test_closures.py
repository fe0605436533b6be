"""Closures on walls worked by hand. Lengths in mm; sigmas of good practice unless given."""

from math import hypot, sqrt
from typing import Any, TypeAlias

import pytest

from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.job.document import Job
from gaugerod.core.survey.closure_kinds.diagonals import diagonals
from gaugerod.core.survey.closure_kinds.edges import bow, leans
from gaugerod.core.survey.closure_kinds.parts import both_ends, parts
from gaugerod.core.survey.closure_kinds.plumb_line import plumb_line
from gaugerod.core.survey.closure_kinds.repeats import repeats
from gaugerod.core.survey.closure_kinds.sample import sample_told, sample_view
from gaugerod.core.survey.closure_kinds.upright import heights, opening_heights
from gaugerod.core.survey.closures import Closure, closures

Raw: TypeAlias = dict[str, Any]


# --- readings ----------------------------------------------------------------------------------


def width(at: float, reads: float, **more: object) -> Raw:
    return {"kind": "width", "at": at, "reads": reads, **more}


def lean(edge: str, reads: float, over: float = 1800.0) -> Raw:
    return {"kind": "lean", "edge": edge, "over": over, "reads": reads}


def diagonal(left_at: float, right_at: float, reads: float) -> Raw:
    return {"kind": "corner to corner", "left_at": left_at, "right_at": right_at, "reads": reads}


def level(kind: str, at: float, reads: float, **more: object) -> Raw:
    return {"kind": kind, "at": at, "reads": reads, **more}


def centre(of: str, start: str, reads: float, kind: str = "hole") -> Raw:
    return {"kind": kind, "of": of, "from": start, "reads": reads}


def edge(name: str, start: str, reads: float, **more: object) -> Raw:
    return {"kind": "opening", "of": "window", "edge": name, "from": start, "reads": reads, **more}


def found(*, practice: str = "good", **walls: list[Raw]) -> tuple[Closure, ...]:
    """The closures of a job with these walls, from left to right."""
    return closures(
        Job.model_validate(
            {
                "format": 1,
                "name": "Test",
                "unit": "mm",
                "survey": {"surface": "backer", "practice": practice},
                "choices": {"material": "any"},
                "calendar": {"start": "2026-03-02"},
                "wall": [{"name": name, "readings": reads} for name, reads in walls.items()],
            }
        )
    )


def back(*readings: Raw) -> tuple[Closure, ...]:
    """The closures of a back wall: both its edges are corners."""
    return found(L=[], B=list(readings), R=[])


def only(kind: str, closed: tuple[Closure, ...]) -> Closure:
    (one,) = [closure for closure in closed if closure.kind == kind]
    return one


def kinds(closed: tuple[Closure, ...]) -> list[str]:
    return [closure.kind for closure in closed]


def inside(message: Message, name: str) -> Value:
    """A value of a message, or of the one within it."""
    what = message.values.get("what", message)
    assert isinstance(what, Message)
    return what.values[name]


def mm(message: Message, name: str) -> float:
    """A length of a message, or of the one within it."""
    value = inside(message, name)
    assert isinstance(value, Length)
    return value.mm


# --- parts against the whole -------------------------------------------------------------------

WINDOW = [
    edge("left", "left", 500),
    edge("width", "itself", 600),
    edge("right", "right", 390),
    edge("sill", "datum", 200),
    edge("head", "datum", 600),
]
PARTS = 1490.0
BY_HAND = 3 * 1.5**2
"""Variance of the three parts of the window. [mm2]"""
SIGMA_PLUMB = 27 / 32 / 72


def test_parts_against_the_width_at_half_the_height_of_the_opening() -> None:
    # At 400 the width is 1506 - 18 * 1000 / 1800 = 1496. Its parts are 4/9 and 5/9 of two widths,
    # and half the height, sure to 1.5 / sqrt(2), moves it by 0.01 per mm.
    closed = back(width(-600, 1506), *WINDOW, width(1200, 1488))
    parts = only("parts", closed)
    assert kinds(closed) == ["parts"]
    assert parts.walls == ("B",)
    assert parts.misclosure == pytest.approx(PARTS - 1496)
    assert parts.sigma == pytest.approx(sqrt(BY_HAND + 41 / 81 + 1e-4 * 1.125))
    assert parts.ratio == pytest.approx(6 / 2.69377, abs=1e-4)
    assert parts.verdict == "look again"
    assert parts.readings == ("B opening 1", "B opening 2", "B opening 3", "B width 1", "B width 2")
    assert parts.message.key == "closure.look-again"
    assert inside(parts.message, "sum") == Length(PARTS)
    assert mm(parts.message, "whole") == pytest.approx(1496)


@pytest.mark.parametrize(
    ("widths", "whole"),
    [
        ([(-600, 1506), (300, 1502), (500, 1500), (1200, 1400)], 1501),  # its two neighbours
        ([(-600, 1510), (-200, 1506)], 1500),  # above all widths: the line goes on
        ([(600, 1494), (1600, 1484)], 1496),  # below all widths
        ([(400, 1497)], 1497),  # the height of a width
    ],
)
def test_the_width_where_it_was_not_read(widths: list[tuple[float, float]], whole: float) -> None:
    parts = only("parts", back(*WINDOW, *(width(at, reads) for at, reads in widths)))
    assert parts.misclosure == pytest.approx(PARTS - whole)


def test_one_width_is_corrected_by_the_leans() -> None:
    # The left edge comes in by 18 over 1800: 4 over the 400 up to the middle of the window.
    parts = only("parts", back(width(0, 1500), lean("left", 18), lean("right", 0), *WINDOW))
    assert parts.misclosure == pytest.approx(PARTS - 1496)
    # Half the height moves it by 0.01 per mm here too.
    by_lean = 2 * (1.2 * 400 / 1800) ** 2
    assert parts.sigma == pytest.approx(sqrt(BY_HAND + 1 + by_lean + 1e-4 * 1.125))


def test_one_width_alone_is_as_good_as_corners_are_plumb() -> None:
    parts = only("parts", back(width(0, 1500), *WINDOW))
    assert parts.misclosure == pytest.approx(PARTS - 1500)
    assert parts.sigma == pytest.approx(sqrt(BY_HAND + 1 + 2 * (SIGMA_PLUMB * 400) ** 2))
    assert parts.readings == ("B opening 1", "B opening 2", "B opening 3", "B width 1")


def test_an_open_edge_is_struck_plumb() -> None:
    single = only("parts", found(B=[width(0, 1500), *WINDOW]))
    assert single.sigma == pytest.approx(sqrt(BY_HAND + 1))
    # Of the first wall only the left edge is open, of the last only the right one.
    first = only("parts", found(L=[width(0, 1500), *WINDOW], B=[]))
    last = only("parts", found(B=[], R=[width(0, 1500), *WINDOW]))
    one_corner = sqrt(BY_HAND + 1 + (SIGMA_PLUMB * 400) ** 2)
    assert (first.sigma, last.sigma) == pytest.approx((one_corner, one_corner))


def test_an_open_edge_that_was_read_leans_as_read() -> None:
    readings = [width(0, 1500), lean("left", 18), *WINDOW]
    assert only("parts", found(B=readings)).misclosure == pytest.approx(PARTS - 1496)


@pytest.mark.parametrize(
    "height",
    [
        [edge("sill", "datum", 200), edge("height", "itself", 400)],
        [edge("head", "datum", 600), edge("height", "itself", 400)],
        [edge("sill", "datum", 200), edge("head", "datum", 600), edge("height", "itself", 400)],
    ],
)
def test_half_the_height_comes_from_any_two(height: list[Raw]) -> None:
    closed = back(width(-600, 1506), width(1200, 1488), *WINDOW[:3], *height)
    assert only("parts", closed).misclosure == pytest.approx(PARTS - 1496)


@pytest.mark.parametrize("without", range(5))
def test_parts_need_every_reading(without: int) -> None:
    assert back(width(0, 1500), *WINDOW[:without], *WINDOW[without + 1 :]) == ()


def test_parts_need_a_width() -> None:
    assert back(*WINDOW) == ()


def test_readings_of_another_surface_are_another_wall() -> None:
    # From stud to stud it is 26 wider than from backer to backer: no misreading.
    stud = width(400, 1516, surface="stud")
    assert back(*WINDOW, stud) == ()
    both = only("parts", back(stud, *WINDOW, width(400, 1490)))
    assert both.misclosure == pytest.approx(0.0)


def test_heights_belong_to_every_surface() -> None:
    sill, head = (edge(name, "datum", at) for name, at in (("sill", 200), ("head", 600)))
    closed = back(
        width(400, 1490),
        *WINDOW[:3],
        {**sill, "surface": "new face"},
        {**head, "surface": "old tile"},
    )
    assert only("parts", closed).misclosure == pytest.approx(0.0)


def test_readings_of_one_thing_count_together() -> None:
    # Four readings of the width: their mean is sure to 1 / sqrt(4).
    closed = found(B=[*WINDOW, *(width(400, reads) for reads in (1491, 1489, 1491, 1489))])
    parts = only("parts", closed)
    assert parts.misclosure == pytest.approx(0.0)
    assert parts.sigma == pytest.approx(sqrt(BY_HAND + 1 / 4))
    assert parts.readings[3:] == tuple(f"B width {n}" for n in (1, 2, 3, 4))


# --- the width of an opening -------------------------------------------------------------------


def test_both_jambs_from_one_end_against_the_opening() -> None:
    closed = back(
        edge("left", "left", 500),
        edge("right", "left", 1103),
        edge("width", "itself", 600),
        edge("left", "right", 990),
        edge("right", "right", 395),
    )
    by_readings = {c.readings: c for c in closed if c.kind == "opening width"}
    from_left = by_readings["B opening 2", "B opening 1", "B opening 3"]
    from_right = by_readings["B opening 4", "B opening 5", "B opening 3"]
    assert (from_left.misclosure, from_right.misclosure) == pytest.approx((3.0, -5.0))
    assert from_left.sigma == pytest.approx(sqrt(BY_HAND))
    assert len(closed) == 2


# --- both ends ---------------------------------------------------------------------------------


@pytest.mark.parametrize("kind", ["hole", "fixture"])
def test_both_ends_against_the_width_at_that_height(kind: str) -> None:
    # At -300 the width is 1500 + 3.
    readings = [
        centre("it", "left", 700, kind),
        centre("it", "right", 810, kind),
        centre("it", "datum", -300, kind),
    ]
    closed = back(width(0, 1500), width(1000, 1490), *readings)
    ends = only("both ends", closed)
    assert kinds(closed) == ["both ends"]
    assert ends.misclosure == pytest.approx(7.0)
    # Parts of the two widths are 1.3 and -0.3; the height moves the width by 0.01 per mm.
    variance = 2 * 1.5**2 + 1.3**2 + 0.3**2 + (0.01 * 1.5) ** 2
    assert ends.sigma == pytest.approx(sqrt(variance))
    assert inside(ends.message, "of") == "it"


@pytest.mark.parametrize("without", range(3))
def test_both_ends_need_every_reading(without: int) -> None:
    readings = [centre("it", start, 700) for start in ("left", "right", "datum")]
    del readings[without]
    assert back(width(0, 1400), *readings) == ()


def test_a_jamb_read_from_both_ends() -> None:
    closed = back(
        width(400, 1500),
        edge("left", "left", 500),
        edge("left", "right", 1003),
        edge("right", "right", 1),
        *WINDOW[3:],
    )
    assert kinds(closed) == ["both ends"]
    assert closed[0].misclosure == pytest.approx(3.0)
    assert closed[0].readings == ("B opening 1", "B opening 2", "B width 1")


# --- leans and bow -----------------------------------------------------------------------------


def test_leans_against_widths() -> None:
    # The top is 10 narrower over 1800, and the corners come in by 6 and by 3: 1 is left over.
    closed = back(width(-600, 1500), lean("left", 6), lean("right", 3), width(1200, 1490))
    leans = only("leans", closed)
    assert kinds(closed) == ["leans"]
    assert leans.misclosure == pytest.approx(-1.0)
    assert leans.sigma == pytest.approx(sqrt(2 * 1 + 2 * 1.2**2))
    assert leans.readings == ("B width 2", "B width 1", "B lean 2", "B lean 1")


def test_leans_are_carried_to_the_height_between_the_widths() -> None:
    # 12 over 1800 is 6 over 900.
    closed = back(width(0, 1500), width(900, 1494), lean("left", 12), lean("right", 0))
    leans = only("leans", closed)
    assert leans.misclosure == pytest.approx(0.0)
    assert leans.sigma == pytest.approx(sqrt(2 * 1 + 2 * 0.6**2))


def test_leans_of_one_edge_over_different_heights_count_together() -> None:
    # 18 over 1800 is 0.010, 9 over 600 is 0.015; the first weighs 9 times as much: 0.0105.
    leans = [lean("left", 18), lean("left", 9, over=600), lean("right", 0)]
    closed = only("leans", back(width(0, 1500), width(1000, 1490), *leans))
    assert closed.misclosure == pytest.approx(0.5)


def test_leans_need_both_edges_and_two_widths() -> None:
    assert back(width(0, 1500), width(1000, 1490), lean("left", 18)) == ()
    assert back(width(0, 1500), lean("left", 18), lean("right", 0)) == ()


def test_bow_of_each_width_between() -> None:
    # Straight from 1500 at 0 to 1490 at 1000 it is 1497 at 300 and 1492 at 800.
    heights = [(1000.0, 1490.0), (300.0, 1501.0), (0.0, 1500.0), (800.0, 1492.0)]
    closed = back(*(width(at, reads) for at, reads in heights))
    assert kinds(closed) == ["bow", "bow"]
    assert [bow.misclosure for bow in closed] == pytest.approx([4.0, 0.0])
    assert closed[0].sigma == pytest.approx(sqrt(1 + 0.7**2 + 0.3**2))
    assert closed[0].readings == ("B width 2", "B width 3", "B width 1")


# --- diagonals ---------------------------------------------------------------------------------

# 1500 wide and 2000 high: a diagonal of 2500, a triangle of 3-4-5.
RISING, FALLING = diagonal(-700, 1300, 2500), diagonal(1300, -700, 2500)
SQUARE = [width(0, 1500), lean("left", 0), lean("right", 0)]


def test_the_difference_of_the_diagonals_tells_a_lean() -> None:
    # A top shifted by 10 to the right makes one sqrt(1510^2 + 2000^2), the other 1490.
    rising, falling = hypot(1510, 2000), hypot(1490, 2000)
    closed = back(*SQUARE, diagonal(-700, 1300, rising), diagonal(1300, -700, falling))
    difference = only("diagonals", closed)
    assert difference.misclosure == pytest.approx(rising - falling)
    # Each lean moves each diagonal by 1500/2500 of what it is over 2000, one up and one down.
    by_lean = 2 * (1.2 * 2000 / 1800 * 0.6) ** 2
    assert difference.sigma == pytest.approx(sqrt(2 * 1.5**2 + by_lean))
    assert difference.verdict == "re-measure"
    assert set(difference.readings) == {
        "B corner to corner 1",
        "B corner to corner 2",
        "B lean 1",
        "B lean 2",
    }
    hint = difference.message.values["hint"]
    assert isinstance(hint, Message)
    assert mm(hint, "lean") == pytest.approx(10, rel=1e-4)
    assert hint.values["over"] == Length(2000.0)
    assert hint.values["side"] == Message("closure.to-right")


def test_a_lean_to_the_left_that_was_read_is_no_miss() -> None:
    rising, falling = hypot(1490, 2000), hypot(1510, 2000)
    tops = [lean("left", -10, over=2000), lean("right", 10, over=2000)]
    closed = back(
        width(0, 1500), *tops, diagonal(-700, 1300, rising), diagonal(1300, -700, falling)
    )
    assert only("diagonals", closed).misclosure == pytest.approx(0.0)
    assert only("diagonal", closed).misclosure == pytest.approx(0.0)


def test_an_unexplained_difference_the_other_way_leans_left() -> None:
    closed = back(*SQUARE, diagonal(-700, 1300, 2495), diagonal(1300, -700, 2505))
    hint = only("diagonals", closed).message.values["hint"]
    assert isinstance(hint, Message)
    assert hint.values["side"] == Message("closure.to-left")


def test_the_mean_of_the_diagonals_tells_a_width() -> None:
    # Both long by 6: a width out by 6 * 2500 / 1500 = 10 would explain it.
    closed = back(*SQUARE, diagonal(-700, 1300, 2506), diagonal(1300, -700, 2506))
    assert only("diagonals", closed).misclosure == pytest.approx(0.0)
    mean = only("diagonal", closed)
    assert mean.misclosure == pytest.approx(6.0)
    # Leans shift one up and one down, and what they make of the width cancels: the mean width
    # over the height is 300 above the datum, and each lean moves it by 300/1800 of itself.
    by_lean = 2 * (1.2 * 300 / 1800 * 0.6) ** 2
    assert mean.sigma == pytest.approx(sqrt(1.5**2 / 2 + 0.6**2 + by_lean))
    hint = mean.message.values["hint"]
    assert isinstance(hint, Message)
    assert mm(hint, "width") == pytest.approx(10.0)


def test_a_diagonal_without_its_partner() -> None:
    closed = back(*SQUARE, diagonal(-700, 1300, 2503), diagonal(-600, 1400, 2500))
    assert kinds(closed) == ["diagonal", "diagonal"]
    assert [one.misclosure for one in closed] == pytest.approx([3.0, 0.0])
    assert inside(closed[0].message, "reads") == Length(2503.0)


def test_a_level_diagonal_is_a_width() -> None:
    closed = back(*SQUARE, diagonal(400, 400, 1502))
    assert kinds(closed) == ["diagonal"]
    assert closed[0].misclosure == pytest.approx(2.0)


def test_without_leans_corners_are_taken_for_plumb() -> None:
    # The lean of neither corner is known, so only a wild difference is a miss.
    closed = back(width(0, 1500), RISING, {**FALLING, "reads": 2520.0})
    difference = only("diagonals", closed)
    assert difference.misclosure == pytest.approx(-20.0)
    by_belief = 2 * (SIGMA_PLUMB * 2000 * 0.6) ** 2
    assert difference.sigma == pytest.approx(sqrt(2 * 1.5**2 + by_belief))
    assert difference.verdict == "go"


@pytest.mark.parametrize(
    ("known", "rising", "falling"),
    [
        # The left edge goes right by 10 over 1000, the widths fall by 10: the right one is plumb.
        (lean("left", 10, over=1000), hypot(1500, 1000), hypot(1490, 1000)),
        # The right edge is plumb, so the left one goes right.
        (lean("right", 0), hypot(1500, 1000), hypot(1490, 1000)),
    ],
)
def test_one_lean_and_the_widths_give_the_other(known: Raw, rising: float, falling: float) -> None:
    ends = [diagonal(0, 1000, rising), diagonal(1000, 0, falling)]
    closed = back(width(0, 1500), width(1000, 1490), known, *ends)
    assert sorted(kinds(closed)) == ["diagonal", "diagonals"]
    assert [one.misclosure for one in closed] == pytest.approx([0.0, 0.0], abs=1e-9)


def test_diagonals_need_a_width() -> None:
    assert back(RISING, FALLING) == ()


def test_widths_that_run_out_tell_nothing() -> None:
    # By these widths the edges meet at 150.
    assert back(width(0, 1500), width(100, 500), RISING, FALLING) == ()
    # The edges meet for one of the two only, since both lean far to the left.
    slanted = [lean("left", -1800), lean("right", 1800), width(0, 1500)]
    closed = back(*slanted, diagonal(0, 1600, 1600), diagonal(1600, 0, 3488))
    assert kinds(closed) == ["diagonal"]


# --- corners -----------------------------------------------------------------------------------


def test_the_deck_at_a_corner_by_both_walls() -> None:
    closed = found(
        L=[width(0, 800), level("deck", 0, 700), level("deck", 798, 703)],
        B=[level("deck", 2, 701), level("deck", 700, 650)],
    )
    corner = only("corner", closed)
    assert closed == (corner,)
    assert corner.walls == ("L", "B")
    assert corner.misclosure == pytest.approx(2.0)
    assert corner.sigma == pytest.approx(0.7 * sqrt(2))
    assert corner.readings == ("L deck 2", "B deck 1")
    assert corner.verdict == "look again"
    assert inside(corner.message, "level") == Message("closure.level-deck")


@pytest.mark.parametrize(("station", "counts"), [(755, True), (745, False), (845, True)])
def test_a_corner_reading_is_taken_near_the_corner(station: float, counts: bool) -> None:
    closed = found(L=[width(0, 800), level("deck", station, 700)], B=[level("deck", 0, 700)])
    assert kinds(closed) == ["corner"] * counts


@pytest.mark.parametrize(
    ("left", "right"),
    [
        ([], [level("deck", 0, 700)]),
        ([level("deck", 800, 700)], []),
        ([level("deck", 800, 700)], [level("ceiling", 0, 700)]),
        ([level("deck", 800, 700)], [level("deck", 0, 500, part="ledge")]),
    ],
)
def test_a_corner_needs_both_walls(left: list[Raw], right: list[Raw]) -> None:
    assert found(L=[width(0, 800), *left], B=right) == ()


def test_the_right_corner_is_where_the_width_puts_it() -> None:
    assert found(L=[level("deck", 800, 700)], B=[level("deck", 0, 700)]) == ()


def test_the_surface_with_most_widths_places_the_corner() -> None:
    tile = {**centre("valve", "left", 400), "surface": "old tile"}
    closed = found(L=[tile, width(0, 800), level("deck", 800, 700)], B=[level("deck", 0, 700)])
    assert kinds(closed) == ["corner"]


@pytest.mark.parametrize("part", ["ledge", "platform"])
def test_a_step_of_the_deck_at_a_corner(part: str) -> None:
    closed = found(
        L=[width(0, 800), level("deck", 800, 500, part=part), level("deck", 790, 700)],
        B=[level("deck", 0, 502, part=part)],
    )
    assert kinds(closed) == ["corner"]
    assert closed[0].misclosure == pytest.approx(-2.0)
    assert inside(closed[0].message, "level") == Message(f"closure.level-{part}")


@pytest.mark.parametrize(("to", "key"), [("ceiling", "ceiling"), ("stop line", "stop-line")])
def test_ceiling_and_stop_line_at_a_corner(to: str, key: str) -> None:
    closed = found(
        L=[width(0, 800), level("ceiling", 800, 1400, to=to)],
        B=[level("ceiling", 0, 1401, to=to)],
    )
    assert kinds(closed) == ["corner"]
    assert closed[0].misclosure == pytest.approx(-1.0)
    assert inside(closed[0].message, "level") == Message(f"closure.level-{key}")


def loop(*decks: float) -> tuple[Closure, ...]:
    """Decks at both ends of three walls, going round."""
    left, back_wall, right = (
        [width(0, 800), level("deck", 0, decks[at]), level("deck", 800, decks[at + 1])]
        for at in (0, 2, 4)
    )
    return found(L=left, B=back_wall, R=right)


def test_going_round_the_misses_add_up() -> None:
    closed = loop(700, 701.5, 700, 701.5, 700, 700)
    assert kinds(closed) == ["round", "corner", "corner"]
    assert closed[0].walls == ("L", "B", "R")
    assert closed[0].misclosure == pytest.approx(3.0)
    assert closed[0].sigma == pytest.approx(0.7 * 2)
    assert closed[0].verdict == "look again"
    # The same misses the other way round at one corner cancel.
    assert only("round", loop(700, 701.5, 700, 700, 701.5, 700)).misclosure == pytest.approx(0.0)


def test_a_round_needs_every_corner_and_two_of_them() -> None:
    two = [width(0, 800), level("deck", 0, 700), level("deck", 800, 700)]
    assert kinds(found(L=two, B=two)) == ["corner"]
    assert kinds(found(L=two, B=two, R=[])) == ["corner"]


# --- heights -----------------------------------------------------------------------------------

SHELL = [
    level("deck", 0, 700),
    level("deck", 1000, 690),
    level("ceiling", 0, 1400),
    level("ceiling", 1000, 1404),
]


@pytest.mark.parametrize(
    ("station", "height"),
    [(0, 2100), (500, 2097), (1000, 2094), (1040, 2093.76)],
)
def test_deck_and_ceiling_against_the_whole_height(station: float, height: float) -> None:
    closed = back(*SHELL, level("height", station, height - 4))
    assert kinds(closed) == ["height"]
    assert closed[0].misclosure == pytest.approx(4.0)


def test_sigma_of_a_height_between_stations() -> None:
    closed = back(*SHELL, level("height", 500, 2097))
    assert closed[0].sigma == pytest.approx(sqrt(1 + 0.7**2 / 2 + 1 / 2))


@pytest.mark.parametrize(
    "readings",
    [
        [*SHELL[:2], level("height", 500, 2097)],
        [*SHELL[2:], level("height", 500, 2097)],
        [*SHELL, level("height", 1060, 2097)],
        [SHELL[1], SHELL[3], level("height", 940, 2097)],
        [*SHELL, level("deck", 400, 500, part="ledge"), level("height", 500, 2097)],
        [*SHELL, level("deck", 400, 500, part="platform"), level("height", 500, 2097)],
        [*SHELL[:2], level("ceiling", 500, 1200, to="stop line"), level("height", 500, 2097)],
    ],
)
def test_a_height_needs_deck_and_ceiling_there(readings: list[Raw]) -> None:
    assert back(*readings) == ()


def test_sill_and_clear_height_against_the_head() -> None:
    readings = [edge("sill", "datum", 200), edge("height", "itself", 495)]
    closed = back(*readings, edge("head", "datum", 700))
    assert kinds(closed) == ["opening height"]
    assert closed[0].misclosure == pytest.approx(-5.0)
    assert closed[0].sigma == pytest.approx(1.5 * sqrt(3))
    assert back(*readings) == ()


# --- repeats -----------------------------------------------------------------------------------


def test_two_readings_of_one_thing() -> None:
    closed = back(width(0, 1500), width(0, 1497))
    repeat = only("repeat", closed)
    assert closed == (repeat,)
    assert repeat.misclosure == pytest.approx(3.0)
    assert repeat.sigma == pytest.approx(sqrt(2))
    assert repeat.readings == ("B width 1", "B width 2")


def test_of_three_readings_the_odd_one_is_named() -> None:
    closed = back(width(0, 1500), width(0, 1503, id="odd"), width(0, 1500))
    (repeat,) = closed
    assert repeat.misclosure == pytest.approx(3.0)
    assert repeat.sigma == pytest.approx(sqrt(1 + 1 / 2))
    assert repeat.readings == ("odd", "B width 1", "B width 3")
    assert inside(repeat.message, "reading") == "odd"
    assert inside(repeat.message, "rest") == Length(1500.0)


def test_a_surer_reading_counts_for_more() -> None:
    # Against the third: (1500 * 4 + 1505) / 5 = 1501, sure to 1 / sqrt(4 + 1).
    readings = [width(0, 1500, sigma=0.5), width(0, 1505), width(0, 1521)]
    (repeat,) = back(*readings)
    assert repeat.misclosure == pytest.approx(20.0)
    assert repeat.sigma == pytest.approx(sqrt(1 + 1 / 5))


def test_rough_practice_forgives_more() -> None:
    reads = [width(0, 1500), width(0, 1505)]
    assert found(practice="good", B=reads)[0].verdict == "re-measure"
    assert found(practice="rough", B=reads)[0].verdict == "go"


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (width(0, 1500), width(1, 1510)),
        (width(0, 1500), width(0, 1510, surface="stud")),
        (level("deck", 0, 700), level("deck", 0, 500, part="ledge")),
        (level("ceiling", 0, 1400), level("ceiling", 0, 1300, to="stop line")),
        (centre("valve", "left", 700), centre("spout", "left", 710)),
        (lean("left", 3), lean("right", 9)),
    ],
)
def test_different_things_are_not_held_together(one: Raw, other: Raw) -> None:
    assert "repeat" not in kinds(found(B=[one, other]))


@pytest.mark.parametrize(
    "reading",
    [
        level("deck", 0, 700),
        level("floor", 0, 400),
        level("ceiling", 0, 1400),
        level("height", 0, 2100),
        diagonal(0, 900, 1700),
        lean("left", 3),
        {"kind": "gap", "at": 1, "height": 0, "straightedge": 1800, "held": "level", "reads": 30},
        {"kind": "depth", "at": 1, "height": 0, "reads": 30},
        centre("valve", "left", 700),
        centre("valve", "datum", -300),
        centre("shelf", "datum", 300, "fixture"),
        {"kind": "rough-in", "of": "valve", "reads": 40},
        edge("sill", "datum", 200),
        edge("jamb depth", "itself", 90),
        {"kind": "drain", "reads": 1100},
        {"kind": "lip", "what": "height", "reads": 25},
    ],
)
def test_anything_read_twice_is_held_together(reading: Raw) -> None:
    closed = found(L=[], B=[reading, {**reading, "reads": reading["reads"] + 3}], R=[])
    assert kinds(closed) == ["repeat"]
    assert abs(closed[0].misclosure) == pytest.approx(3.0)


def test_heights_read_on_different_surfaces_are_one_thing() -> None:
    assert kinds(back(level("deck", 0, 700), level("deck", 0, 700, surface="stud"))) == ["repeat"]


# --- holes on one plumb line -------------------------------------------------------------------


def holes(*, valve: float, spout: float, end: str = "left") -> list[Raw]:
    return [
        centre("valve", end, valve),
        centre("valve", "datum", -400),
        centre("spout", end, spout),
        centre("spout", "datum", -600),
    ]


@pytest.mark.parametrize("end", ["left", "right"])
@pytest.mark.parametrize(
    ("apart", "verdict", "beyond"),
    [(0.0, "go", 0.0), (12.7, "go", 0.0), (13.7, "look again", 0.5), (300.0, "look again", 143.65)],
)
def test_holes_stand_within_a_quarter_inch_of_one_plumb_line(
    end: str, apart: float, verdict: str, beyond: float
) -> None:
    closed = found(B=holes(valve=400.0, spout=400.0 + apart, end=end))
    assert kinds(closed) == ["plumb line"]
    assert closed[0].verdict == verdict
    assert closed[0].misclosure == pytest.approx(beyond, abs=1e-9)
    assert closed[0].sigma == pytest.approx(1.5 / sqrt(2))
    assert closed[0].ratio == pytest.approx(beyond / (1.5 / sqrt(2)), abs=1e-9)
    assert mm(closed[0].message, "off") == pytest.approx(apart / 2)
    assert closed[0].message.key == f"closure.{'in' if verdict == 'go' else 'off'}-line"


@pytest.mark.parametrize("end", ["left", "right"])
def test_a_plumb_line_is_not_along_a_corner_that_leans(end: str) -> None:
    # The corner comes in by 9 over 1800: 10 over the 2000 from the valve up to the arm.
    readings = [
        centre("valve", end, 400),
        centre("valve", "datum", -400),
        centre("arm", end, 390),
        centre("arm", "datum", 1600),
    ]
    closed = back(lean(end, 9), *readings)
    assert kinds(closed) == ["plumb line"]
    assert mm(closed[0].message, "off") == pytest.approx(0.0, abs=1e-9)
    assert closed[0].sigma == pytest.approx(
        sqrt(2 * 1.5**2 + (1.2 * 2000 / 1800) ** 2 + 2 * (0.005 * 1.5) ** 2) / 2
    )


def test_only_the_outermost_holes_are_named() -> None:
    closed = found(
        B=[*holes(valve=400, spout=420), centre("arm", "left", 410), centre("arm", "datum", 900)]
    )
    message = closed[0].message
    assert (inside(message, "first"), inside(message, "second")) == ("valve", "spout")
    assert closed[0].readings == ("B hole 3", "B hole 1")


def test_one_hole_or_holes_without_height_make_no_line() -> None:
    assert found(B=holes(valve=400, spout=400)[:3]) == ()
    assert found(B=[centre("valve", "left", 400), centre("valve", "datum", 0)]) == ()


# --- all together ------------------------------------------------------------------------------


def test_the_worst_comes_first() -> None:
    closed = found(
        L=[width(0, 800), level("deck", 800, 701)],
        B=[level("deck", 0, 700), width(0, 1500), width(0, 1504), width(900, 1500, id="x")],
        R=[width(0, 800), width(500, 801), width(900, 800)],
    )
    ratios = [one.ratio for one in closed]
    assert ratios == sorted(ratios, reverse=True)
    assert [one.kind for one in closed] == ["repeat", "corner", "bow"]


@pytest.mark.parametrize(
    ("off", "verdict", "key"),
    [
        (1.99, "go", "closure.closes"),
        (-1.99, "go", "closure.closes"),
        (2.0, "look again", "closure.look-again"),
        (3.0, "look again", "closure.look-again"),
        (-3.01, "re-measure", "closure.re-measure"),
    ],
)
def test_verdicts(off: float, verdict: str, key: str) -> None:
    # Two readings with sigmas of 0.6 and 0.8: their difference is sure to 1.
    (one,) = back(width(0, 1500 + off, sigma=0.6), width(0, 1500, sigma=0.8))
    assert (one.verdict, one.message.key) == (verdict, key)
    assert one.message.values["by"] == Length(abs(one.misclosure))


def test_every_sum_comes_out_on_the_sample_wall() -> None:
    view = sample_view()
    families = (parts, both_ends, leans, bow, diagonals, heights, opening_heights, plumb_line)
    closed = [closure for family in families for closure in family(view)]
    assert {closure.verdict for closure in closed} == {"go"}
    assert [closure.misclosure for closure in closed] == pytest.approx([0.0] * len(closed))
    assert len(closed) == 9  # the diagonals give two
    assert [closure.misclosure for closure in repeats(sample_told(1500.0, 1504.0))] == [-4.0]


def test_no_readings_no_closures() -> None:
    assert found(L=[], B=[], R=[]) == ()


def test_a_sum_out_of_all_bounds_is_left_out() -> None:
    # Leans over next to nothing, heights next to each other, sigmas next to nought.
    leans = [lean("left", 18, over=1e-308), lean("right", 0)]
    assert back(width(0, 1500), width(900, 1500), *leans) == ()
    assert back(width(0, 1500), width(5e-324, 1400), *WINDOW) == ()
    nothing = [lean("left", 0, over=5e-324), lean("left", 0, over=1e-300)]
    assert back(width(0, 5e-324), width(100, 5e-324), *nothing) == ()
    (repeat,) = back(width(0, 1500, sigma=5e-324), width(0, 1500, sigma=5e-324))
    assert repeat.ratio == 0.0
    assert repeat.sigma == pytest.approx(sqrt(2) * 1e-6)


def many(count: int) -> list[Raw]:
    """Two thousand readings of one wall: holes, openings, widths, decks, diagonals."""
    readings = [width(at, 1500) for at in range(count)]
    readings += [width(0, 1500 + at % 3) for at in range(count)]
    readings += [diagonal(at, 1800 - at, 2343) for at in range(count)]
    readings += [level("deck", at, 700) for at in range(count)]
    readings += [level("height", at, 2100) for at in range(count)]
    readings += [level("ceiling", at, 1400) for at in range(count)]
    for hole in range(count):
        readings += [centre(f"hole {hole}", "left", 700), centre(f"hole {hole}", "right", 800)]
        readings += [centre(f"hole {hole}", "datum", hole / 2)]
        readings += [{**one, "of": f"window {hole}"} for one in WINDOW]
    return readings


def test_two_thousand_readings_close_each_once() -> None:
    readings = many(150)
    assert len(readings) > 2000
    closed = found(L=[], B=readings, R=[])
    # One repeat, a bow for each width between, a diagonal, a height, a hole from both ends and
    # an opening 150 times, and a plumb line from each end.
    assert len(closed) == 1 + 148 + 4 * 150 + 2
