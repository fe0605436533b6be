"""Course heights and unit counts from masonry tables.

Sources, each with how sure it is:

- Imperial course heights: brick industry vertical coursing table (Table 3), *Masonry Magazine*,
  April 1994, p. 25, https://masonrymagazine.com/?pageID=25929. Found; every value recomputed
  by hand. The scan of the three-courses column lost its fractions: there the whole inches are
  found and the sixteenths calculated.
- Units and joints: a brick maker's design notes (not named). Found, recomputed.
- Lengths in mm: college slide set on half-brick walling, 2012,
  https://www.slideshare.net/doogstone/half-brick-walling-calculations. Found, recomputed.
- Heights in mm: the same, and a key-skills sheet (Crown copyright 2000),
  https://www.coursehero.com/file/6027075/brickworkcalculatingquantitiesofbrick/. Found,
  recomputed.
"""

from fractions import Fraction

import pytest

from gaugerod.core.base.lengths import (
    IMPERIAL,
    METRIC,
    MM_PER_INCH,
    parse_length,
    round_length,
    show_length,
)
from gaugerod.core.base.stations import rounded_stations

# Courses in a module, its height in inches, and the table's heights by number of courses.
THREE_IN_8 = (3, 8)
FIVE_IN_16 = (5, 16)
TWO_IN_4 = (2, 4)
ONE_IN_4 = (1, 4)
TABLE = [
    (
        THREE_IN_8,
        {3: "0' 8\"", 6: "1' 4\"", 9: "2' 0\"", 12: "2' 8\"", 15: "3' 4\"", 18: "4' 0\""}
        | {21: "4' 8\"", 24: "5' 4\"", 27: "6' 0\"", 36: "8' 0\"", 45: "10' 0\""},
    ),
    (
        THREE_IN_8,  # whole inches found, sixteenths calculated
        {1: '2-11/16"', 2: '5-5/16"', 4: '10-11/16"', 5: '13-5/16"', 7: '18-11/16"'}
        | {8: '21-5/16"', 10: '26-11/16"', 13: '34-11/16"', 19: '50-11/16"'}
        | {26: '69-5/16"', 100: '266-11/16"'},
    ),
    (
        FIVE_IN_16,
        {1: '3-3/16"', 2: '6-3/8"', 3: '9-5/8"', 4: '12-13/16"', 5: '16"', 10: "2' 8\""}
        | {25: "6' 8\"", 30: "8' 0\"", 50: "13' 4\"", 100: "26' 8\""},
    ),
    (TWO_IN_4, {1: '2"', 31: "5' 2\"", 50: "8' 4\"", 100: "16' 8\""}),
    (ONE_IN_4, {19: "6' 4\"", 31: "10' 4\"", 50: "16' 8\"", 100: "33' 4\""}),
]
HEIGHTS = [
    (Fraction(inches, courses), number, height)
    for (courses, inches), heights in TABLE
    for number, height in heights.items()
]


@pytest.mark.parametrize(("course", "number", "height"), HEIGHTS)
def test_vertical_coursing(course: Fraction, number: int, height: str) -> None:
    expected = parse_length(height, unit="in")
    pitch = course * MM_PER_INCH
    exact = rounded_stations(start=pitch, pitch=pitch, count=number, display=IMPERIAL)
    assert exact[-1] == expected
    # The same from a float's millimetres, as the core carries them.
    top = float(pitch) * number
    assert round_length(top, IMPERIAL) == expected


@pytest.mark.parametrize(
    ("number", "shown"), [(1, '2 11/16"'), (2, '5 5/16"'), (12, '32"'), (13, '34 11/16"')]
)
def test_vertical_coursing_as_shown(number: int, shown: str) -> None:
    assert show_length(number * 8 * 25.4 / 3, IMPERIAL) == shown


def test_rounded_courses_are_not_added() -> None:
    # 12 x 2-11/16 = 32-1/4; the table says 32.
    pitch = Fraction(8, 3) * MM_PER_INCH
    added = 12 * round_length(pitch, IMPERIAL)
    from_the_datum = rounded_stations(start=pitch, pitch=pitch, count=12, display=IMPERIAL)[-1]
    assert show_length(added, IMPERIAL) == '32 1/4"'
    assert show_length(from_the_datum, IMPERIAL) == '32"'


def test_units_and_joints() -> None:
    # Three units have two joints between them; an opening of three has a joint at each end too.
    unit, joint = (parse_length(text, unit="in") for text in ("7-5/8", "3/8"))
    assert show_length(3 * unit + 2 * joint, IMPERIAL) == '23 5/8"'
    assert show_length(3 * unit + 4 * joint, IMPERIAL) == '24 3/8"'
    assert show_length(3 * float(unit) + 2 * float(joint), IMPERIAL) == '23 5/8"'


def test_lengths_of_one_to_six_bricks() -> None:
    # n bricks of 215 mm with n - 1 joints of 10 mm
    ends = rounded_stations(start=215.0, pitch=225.0, count=6, display=METRIC)
    assert list(ends) == [Fraction(mm) for mm in (215, 440, 665, 890, 1115, 1340)]
    assert show_length(ends[-1], METRIC) == "1340 mm"


def test_heights_of_one_to_eight_courses() -> None:
    # Bricks of 65 mm, beds of 10 mm
    tops = rounded_stations(start=75.0, pitch=65.0 + 10.0, count=8, display=METRIC)
    assert list(tops) == [Fraction(mm) for mm in (75, 150, 225, 300, 375, 450, 525, 600)]
    assert tops[3] == 4 * 65 + 4 * 10
