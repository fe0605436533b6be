"""Examples 1 to 3 worked by hand on a back wall 60 in wide.

Source: worked example of the trade, common practice, no source; the arithmetic is by hand, in
inches to the sixteenth and in whole mm, each figure rounded once. The deck falls 3/8 in to the
left, the joint at the deck is 1/8 in, the module is 24 x 12 in. Examples 4 to 9 have files of
their own.
"""

from fractions import Fraction

import pytest

from gaugerod.core.base.geometry import Edge
from gaugerod.core.base.lengths import (
    IMPERIAL,
    METRIC,
    MM_PER_INCH,
    Display,
    round_length,
    show_length,
)
from gaugerod.core.base.stations import rounded_stations
from gaugerod.core.setout.balance import Balance, balance, end_cut, half_tile_rule
from gaugerod.core.setout.datum import course_height, level_line

INCH = float(MM_PER_INCH)
WIDTH, HEIGHT = 60 * INCH, 72 * INCH
SWING = INCH / 2  # of the corner over its height


def shown(lengths: list[float], display: Display) -> list[str]:
    return [show_length(length, display) for length in lengths]


class TestDeckOutOfLevel:
    """3/8 over 60, 11-1/2 at the low end: h(x) = 11-1/2 - 3/8 x / 60, joints at 18 and 42."""

    @pytest.fixture
    def heights(self) -> list[float]:
        low, gap = -30 * INCH, INCH / 8
        line = level_line(deck_low=low, height=11.5 * INCH, gap=gap)
        decks = [low + 0.375 * INCH * x / 60 for x in (0, 18, 42, 60)]
        return [course_height(line=line, deck=deck, gap=gap) for deck in decks]

    def test_in_inches(self, heights: list[float]) -> None:
        assert shown(heights, IMPERIAL) == ['11 1/2"', '11 3/8"', '11 1/4"', '11 1/8"']

    def test_in_mm(self, heights: list[float]) -> None:
        assert shown(heights, METRIC) == ["292 mm", "289 mm", "285 mm", "283 mm"]

    def test_exactly(self, heights: list[float]) -> None:
        # 11.5, 11.3875, 11.2375 and 11.125 in
        assert heights == pytest.approx([292.1, 289.2425, 285.4325, 282.575], abs=1e-9)


class TestCornerOutOfPlumb:
    """1/2 over 72: an end piece of 18 at the bottom is 18 + y / 144 at the height y."""

    EDGE = Edge(offset=18 * INCH, slope=SWING / HEIGHT)
    INCHES = ('18"', '18 1/16"', '18 3/16"', '18 1/4"', '18 5/16"', '18 7/16"', '18 1/2"')
    MILLIMETRES = (457, 459, 461, 464, 466, 468, 470)

    @pytest.fixture
    def marks(self) -> list[float]:
        return [self.EDGE.at(course * 12 * INCH) for course in range(7)]

    def test_in_inches(self, marks: list[float]) -> None:
        assert tuple(shown(marks, IMPERIAL)) == self.INCHES

    def test_in_mm(self, marks: list[float]) -> None:
        rounded = tuple(int(round_length(mark, METRIC)) for mark in marks)
        assert rounded == self.MILLIMETRES

    def test_rounded_steps_are_not_added(self) -> None:
        # "1/16 a course" ends at 18-3/8, which is 1/8 short.
        step = SWING / 6
        rounded = round_length(step, IMPERIAL)
        assert show_length(rounded, IMPERIAL) == '1/16"'
        added = 18 * MM_PER_INCH + 6 * rounded
        assert show_length(added, IMPERIAL) == '18 3/8"'
        marks = rounded_stations(start=18 * INCH, pitch=step, count=7, display=IMPERIAL)
        assert marks[-1] - added == MM_PER_INCH * Fraction(1, 8)
        assert tuple(show_length(mark, IMPERIAL) for mark in marks) == self.INCHES


class TestBalance:
    """Modules of 24 on 60: a joint in the middle leaves 6 at the ends, a module leaves 18."""

    def test_a_joint_in_the_middle(self) -> None:
        end = end_cut(length=WIDTH, tile=24 * INCH, joint=0.0, gap=0.0, full=2)
        assert shown([end, 24 * INCH], IMPERIAL) == ['6"', '24"']
        assert shown([end, 24 * INCH], METRIC) == ["152 mm", "610 mm"]
        assert end < 12 * INCH  # under half

    def test_a_module_in_the_middle_is_taken(self) -> None:
        found = balance(length=WIDTH, tile=24 * INCH, joint=0.0, gap=0.0)
        assert found.full == 1
        assert show_length(found.end, IMPERIAL) == '18"'
        assert show_length(found.end, METRIC) == "457 mm"

    def test_the_half_tile_rule_agrees(self) -> None:
        # half of 60 less 48 and 24 more
        assert half_tile_rule(length=60.0, tile=24.0) == Balance(full=1, end=18.0)
