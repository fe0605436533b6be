"""What setters claim of their closures, and plane geometry that anyone can check.

Sources, each with how sure it is:

- A setter's rules of thumb: look again at two sigmas, measure again at three; parts against the
  whole; leans against widths; diagonals of 60 by 72; the deck closes to 1/16 going round; valve,
  spout and arm within 1/4 of one plumb line. Common practice, no source; each number below was
  worked again by hand. Calculated.
- Corner angle from three sides: law of cosines. Sides of 60 and 32 with a diagonal of 68-1/4 meet
  at 90.508 degrees, 0.284 out over 32; with 67-3/4 at 89.494, -0.283. Calculated.
- Equal diagonals prove a wall square only where opposite sides are equal too: plane geometry.
  From memory.
- 3/8 in 72 is 0.298 degrees and 5/8 in 10 ft. Calculated.
- The sum of n readings of sigma s is sure to s * sqrt(n), their mean to s / sqrt(n): statistics.
  From memory.

Lengths are inches where a test says `inches`, else mm.
"""

from math import acos, atan, cos, degrees, hypot, radians, sin, sqrt
from typing import Any, TypeAlias

import pytest

from gaugerod.core.base.lengths import FINE_IMPERIAL
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Job
from gaugerod.core.survey.closures import Closure, closures
from gaugerod.store.shelf import Library

Raw: TypeAlias = dict[str, Any]

INCH = 25.4  # NIST SP 811. From memory.


def job_of(unit: str, walls: dict[str, list[Raw]]) -> Job:
    return Job.model_validate(
        {
            "format": 1,
            "name": "Claims",
            "unit": unit,
            "survey": {"surface": "backer"},
            "choices": {"material": "any"},
            "calendar": {"start": "2026-03-02"},
            "wall": [{"name": name, "readings": readings} for name, readings in walls.items()],
        },
        context={"unit": unit},
    )


def inches(*readings: Raw) -> dict[str, Closure]:
    """Closures of a wall between two others, its readings in inches, by kind."""
    walls: dict[str, list[Raw]] = {"L": [], "B": list(readings), "R": []}
    found = closures(job_of("in", walls))
    assert len({closure.kind for closure in found}) == len(found)
    return {closure.kind: closure for closure in found}


def width(at: float, reads: float, **more: object) -> Raw:
    return {"kind": "width", "at": at, "reads": reads, **more}


def leans(left: float, right: float, *, over: float = 72.0) -> list[Raw]:
    """Leans of both edges, plus where the top comes in."""
    return [
        {"kind": "lean", "edge": edge, "over": over, "reads": reads}
        for edge, reads in (("left", left), ("right", right))
    ]


def diagonals(
    rising: float | str, falling: float | str, *, height: float = 72.0, **more: object
) -> list[Raw]:
    ends = ((0.0, height, rising), (height, 0.0, falling))
    return [
        {"kind": "corner to corner", "left_at": left, "right_at": right, "reads": reads, **more}
        for left, right, reads in ends
    ]


def hint(closure: Closure, name: str) -> float:
    """A length of a closure's hint, in inches."""
    said = closure.message.values["hint"]
    assert isinstance(said, Message)
    value = said.values[name]
    assert isinstance(value, Length)
    return value.mm / INCH


# --- diagonals ---------------------------------------------------------------------------------


def test_diagonals_of_60_by_72_are_93_23_32() -> None:
    closed = inches(width(0, 60), *leans(0, 0), *diagonals("93 23/32", "93 23/32"))
    # sqrt(60^2 + 72^2) = 93.7230, and 23/32 is 0.71875: 0.0042 less, by the tape nothing.
    assert closed["diagonal"].misclosure / INCH == pytest.approx(93.71875 - 93.7230, abs=5e-5)
    assert closed["diagonal"].verdict == "go"
    assert closed["diagonals"].misclosure == pytest.approx(0.0)


@pytest.mark.parametrize("shift", [0.125, 0.5, -0.75])
def test_a_top_that_is_shifted_splits_the_diagonals_by_1_28_of_it(shift: float) -> None:
    rising, falling = hypot(60 + shift, 72), hypot(60 - shift, 72)
    closed = inches(width(0, 60), *leans(0, 0), *diagonals(rising, falling))
    assert closed["diagonals"].misclosure / INCH == pytest.approx(1.28 * shift, rel=1e-3)
    # With the leans read as they are nothing is left over.
    read = inches(width(0, 60), *leans(shift, -shift), *diagonals(rising, falling))
    assert read["diagonals"].misclosure == pytest.approx(0.0, abs=1e-9)


def test_the_lean_that_explains_the_diagonals_is_named() -> None:
    closed = inches(width(0, 60), *leans(0, 0), *diagonals(hypot(60.5, 72), hypot(59.5, 72)))
    assert hint(closed["diagonals"], "lean") == pytest.approx(0.5, abs=1e-4)
    assert hint(closed["diagonals"], "over") == pytest.approx(72.0)
    said = Library().words(FINE_IMPERIAL, currency="USD").say(closed["diagonals"].message)
    assert 'would be explained by a lean of 1/2" over 72" to the right' in said


def test_diagonals_to_a_sixteenth_find_a_lean_of_0_07() -> None:
    # Without a level: a single wall, whose edges the setter struck plumb.
    ends = diagonals("93 23/32", "93 23/32", sigma="1/16")
    (difference,) = (
        closure
        for closure in closures(job_of("in", {"B": [width(0, 60), *ends]}))
        if closure.kind == "diagonals"
    )
    assert difference.sigma / INCH == pytest.approx(sqrt(2) / 16, rel=1e-3)
    assert difference.sigma / INCH / 1.28 == pytest.approx(0.07, abs=0.001)


@pytest.mark.parametrize(
    ("diagonal", "angle", "out"), [(68.25, 90.508, 0.284), (67.75, 89.494, -0.283)]
)
def test_the_angle_of_a_corner_from_three_sides(diagonal: float, angle: float, out: float) -> None:
    # Sides 60 (level) and 32 (along the right edge): cos = (60^2 + 32^2 - d^2) / (2 * 60 * 32).
    by_cosines = degrees(acos((60**2 + 32**2 - diagonal**2) / (2 * 60 * 32)))
    assert by_cosines == pytest.approx(angle, abs=5e-4)
    lean = 32 * sin(radians(by_cosines - 90))
    up = 32 * cos(radians(by_cosines - 90))
    assert lean == pytest.approx(out, abs=5e-4)
    rising = diagonals(diagonal, 1, height=up)[:1]
    # The diagonal closes if the right edge was read to lean out by as much, and a wall taken
    # for square misses by the quarter inch.
    closed = inches(width(0, 60), *leans(0, -lean, over=up), *rising)
    assert closed["diagonal"].misclosure == pytest.approx(0.0, abs=1e-9)
    square = inches(width(0, 60), *leans(0, 0), *diagonals(diagonal, 1, height=32.0)[:1])
    assert square["diagonal"].misclosure / INCH == pytest.approx(diagonal - 68)
    assert square["diagonal"].verdict == "re-measure"
    assert hint(square["diagonal"], "width") == pytest.approx(abs(out), rel=0.01)


def test_a_triangle_of_60_32_68_closes() -> None:
    closed = inches(width(0, 60), *leans(0, 0), *diagonals(68, 68, height=32.0))
    assert closed["diagonal"].misclosure == pytest.approx(0.0, abs=1e-9)
    assert closed["diagonals"].misclosure == pytest.approx(0.0, abs=1e-9)


def test_equal_diagonals_let_an_isosceles_trapezium_pass() -> None:
    # Bottom 60, top 54, 72 high: both diagonals are sqrt(57^2 + 72^2).
    trapezium = [width(0, 60), width(72, 54), *diagonals(hypot(57, 72), hypot(57, 72))]
    square = inches(*trapezium, *leans(0, 0))
    assert square["diagonals"].misclosure == pytest.approx(0.0)
    assert square["diagonals"].verdict == "go"
    # It is the opposite sides that tell: the leans do not account for them.
    assert square["leans"].misclosure / INCH == pytest.approx(-6.0)
    assert square["leans"].verdict == "re-measure"
    leaning = inches(*trapezium, *leans(3, 3))
    assert leaning["leans"].misclosure == pytest.approx(0.0)
    assert leaning["diagonal"].misclosure == pytest.approx(0.0, abs=1e-9)


# --- parts, leans ------------------------------------------------------------------------------


def parts(miss: float, *, widths: int = 1) -> Closure:
    """Three parts that miss the whole by so much, every reading with a sigma of 1 mm."""
    edges = {"left": ("left", 500.0), "width": ("itself", 600.0), "right": ("right", 400.0 + miss)}
    uprights = {"sill": ("datum", 300.0), "head": ("datum", 900.0)}
    readings: list[Raw] = [
        {"kind": "opening", "of": "w", "edge": edge, "from": start, "reads": reads, "sigma": 1}
        for edge, (start, reads) in (edges | uprights).items()
    ]
    readings += [width(600, 1500, sigma=1)] * widths
    found = closures(job_of("mm", {"L": [], "B": readings, "R": []}))
    (closure,) = (one for one in found if one.kind == "parts")
    return closure


@pytest.mark.parametrize(
    ("miss", "verdict"),
    [
        (0.0, "go"),
        (3.9, "go"),
        (-3.9, "go"),
        (4.1, "look again"),
        (5.9, "look again"),
        (6.1, "re-measure"),
        (-25.4, "re-measure"),
    ],
)
def test_three_parts_and_a_whole_at_1_mm_are_sure_to_2(miss: float, verdict: str) -> None:
    closed = parts(miss)
    assert closed.sigma == pytest.approx(2.0)
    assert closed.misclosure == pytest.approx(miss)
    assert closed.verdict == verdict


def test_a_mean_of_n_is_sure_to_s_over_root_n() -> None:
    assert parts(0.0, widths=4).sigma == pytest.approx(sqrt(3 + 1 / 4))
    assert parts(0.0, widths=9).sigma == pytest.approx(sqrt(3 + 1 / 9))


def test_a_sum_of_n_is_sure_to_s_root_n() -> None:
    # Round an alcove: both walls at each of two corners, four readings of 0.7.
    wall = [width(0, 800), *({"kind": "deck", "at": at, "reads": 700} for at in (0, 800))]
    found = closures(job_of("mm", {"L": wall, "B": wall, "R": wall}))
    (round_,) = (one for one in found if one.kind == "round")
    assert round_.sigma == pytest.approx(0.7 * sqrt(4))
    # So a loop that closes to 1/16, as it should, is within the first limit.
    assert 2 * round_.sigma > INCH / 16


@pytest.mark.parametrize(
    ("left", "right", "top"), [(0.5, 0.0, 59.5), (0.25, 0.25, 59.5), (-0.25, 0.5, 59.75)]
)
def test_the_top_is_narrower_by_what_both_corners_lean_in(
    left: float, right: float, top: float
) -> None:
    closed = inches(width(0, 60), width(72, top), *leans(left, right))
    assert closed["leans"].misclosure == pytest.approx(0.0, abs=1e-9)


def test_mid_less_average_is_the_bow() -> None:
    closed = inches(width(0, 60), width(36, 60.25), width(72, 59.5))
    assert closed["bow"].misclosure / INCH == pytest.approx(60.25 - (60 + 59.5) / 2)


def test_three_eighths_in_72_is_five_eighths_in_10_feet() -> None:
    assert degrees(atan(0.375 / 72)) == pytest.approx(0.298, abs=5e-4)
    closed = inches(width(0, 60), width(120, 59.375), *leans(0.375, 0))
    assert closed["leans"].misclosure == pytest.approx(0.0, abs=1e-9)


# --- the valve ---------------------------------------------------------------------------------


@pytest.mark.parametrize(("off", "verdict"), [(0.24, "go"), (0.26, "look again")])
def test_holes_stand_within_a_quarter_inch_of_one_plumb_line(off: float, verdict: str) -> None:
    # The line runs midway between them.
    places: list[tuple[str, float, float]] = [("valve", 15, -18), ("spout", 15 + 2 * off, -25)]
    readings: list[Raw] = [
        {"kind": "hole", "of": name, "from": start, "reads": reads}
        for name, x, y in places
        for start, reads in (("left", x), ("datum", y))
    ]
    (line,) = closures(job_of("in", {"L": readings}))
    assert (line.kind, line.verdict) == ("plumb line", verdict)


def test_valve_from_the_back_and_from_the_front_make_the_depth() -> None:
    readings: list[Raw] = [
        {"kind": "hole", "of": "valve", "from": start, "reads": reads}
        for start, reads in (("left", "17 1/8"), ("right", "16"), ("datum", "-18 1/4"))
    ]
    (ends,) = closures(job_of("in", {"L": [width(-18.25, 32.125), *readings]}))
    # A burned inch: started at the 1 in mark.
    assert ends.misclosure / INCH == pytest.approx(1.0)
    assert ends.verdict == "re-measure"
