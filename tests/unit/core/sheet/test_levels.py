from dataclasses import replace

import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Line, Text
from gaugerod.core.sheet.levels import course_lines, height_stations, level_lines
from gaugerod.core.sheet.sample import sample_layout, sample_wall

AROUND = Box(left=0.0, bottom=-250.0, right=2100.0, top=700.0)


def test_lines_follow_the_true_pitch() -> None:
    """Seven courses of 12.03 end at 84.21, where 12 would say 84 (by hand)."""
    layout = replace(sample_layout(), pitch=(600.0, 12.03), first_course=12.03, top=84.21)
    assert [line.height for line in course_lines(layout)] == pytest.approx(
        [12.03, 24.06, 36.09, 48.12, 60.15, 72.18, 84.21]
    )


def test_a_last_course_that_is_cut_has_no_line() -> None:
    lines = course_lines(replace(sample_layout(), top=639.0))
    assert [line.course for line in lines] == [1, 2]


def test_the_plumb_chain_ends_at_the_finish_line() -> None:
    assert height_stations(sample_wall(), sample_layout()) == (-250.0, 40.0, 340.0, 640.0)
    cut = replace(sample_layout(), top=600.0)
    assert height_stations(sample_wall(), cut) == (-250.0, 40.0, 340.0, 600.0)


def test_the_plumb_chain_goes_on_down_a_leg() -> None:
    # Lines every 300 under 40, down to the floor at -700.
    wall = replace(sample_wall(), parts=("floor", "rim"), deck=((0.0, -700.0), (100.0, -700.0)))
    assert height_stations(wall, sample_layout()) == (-700.0, -560.0, -260.0, 40.0, 340.0, 640.0)


def test_lines_are_named_from_the_lowest_up_and_below_the_datum(words: Catalogue) -> None:
    layout = replace(sample_layout(), first_course=-260.0, top=340.0)
    items = level_lines(layout, words, around=AROUND, height=40.0)
    names = [item.text for item in items if isinstance(item, Text)]
    assert names == ["1 down 260 mm", "datum", "2 up 40 mm", "3 up 340 mm"]


def test_names_that_are_near_move_apart_on_their_leaders(words: Catalogue) -> None:
    """The datum and a line 40 above it: names 40 high need 64 between middles, 12 each way."""
    items = level_lines(sample_layout(), words, around=AROUND, height=40.0)
    heights = [item.at[1] for item in items if isinstance(item, Text)]
    assert heights[:2] == pytest.approx([-12.0, 52.0])
    leaders = [item for item in items if isinstance(item, Line) and item.start[1] != item.end[1]]
    assert [leader.start[1] for leader in leaders] == [0.0, 40.0]
