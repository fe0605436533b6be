from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display, parse_length
from gaugerod.core.sheet.chain import Axis, bare_length, chain, depth, segments
from gaugerod.core.sheet.drawing import Dimension
from gaugerod.core.sheet.lettering import text_box

displays = st.sampled_from([IMPERIAL, METRIC])


def drawn(stations: list[float], axis: Axis = "x") -> tuple[Dimension, ...]:
    return chain(stations, axis=axis, base=0.0, row=-100.0, height=20.0, display=METRIC)


def test_millimetres_go_without_saying() -> None:
    assert bare_length(12.4, METRIC) == "12"
    assert bare_length(12.7, IMPERIAL, rounding="down") == '1/2"'


def test_parts_of_two_thirds_sum_to_the_whole() -> None:
    """Marks at 2 2/3, 5 1/3 and 8 in are 2 11/16, 5 5/16 and 8: 2 11/16, 2 10/16, 2 11/16."""
    third = float(Fraction(8, 3) * Fraction(254, 10))
    assert segments([0.0, third, 2 * third, 3 * third], IMPERIAL) == (
        '2 11/16"',
        '2 5/8"',
        '2 11/16"',
    )


@given(st.lists(st.floats(0, 5000), min_size=2, max_size=12), displays)
def test_a_chain_sums_to_its_overall(places: list[float], display: Display) -> None:
    places.sort()
    parts = [parse_length(part, unit="mm") for part in segments(places, display)]
    (whole,) = segments([places[0], places[-1]], display)
    assert sum(parts) == parse_length(whole, unit="mm")


def test_a_level_row_stands_below_its_points() -> None:
    first, second = drawn([0.0, 300.0, 700.0])
    assert first.line == ((0.0, -100.0), (300.0, -100.0))
    assert (second.start, second.end) == ((300.0, 0.0), (700.0, 0.0))
    assert (first.label.text, first.label.turn, first.label.at) == ("300", 0, (150.0, -80.0))


def test_a_plumb_row_stands_left_of_its_points() -> None:
    (only,) = drawn([0.0, 300.0], axis="y")
    assert only.line == ((-100.0, 0.0), (-100.0, 300.0))
    assert (only.label.at, only.label.anchor, only.label.turn) == ((-110.0, 150.0), "end", 0)


def test_a_text_turns_where_its_part_is_short() -> None:
    assert [part.label.turn for part in drawn([0.0, 40.0, 400.0])] == [90, 0]


@given(st.lists(st.floats(25, 400), min_size=1, max_size=8), st.sampled_from(["x", "y"]))
def test_texts_of_a_row_never_overlap(parts: list[float], axis: Axis) -> None:
    places = [sum(parts[:i]) for i in range(len(parts) + 1)]
    boxes = [text_box(part.label) for part in drawn(places, axis)]
    for before, after in pairwise(boxes):
        apart = after.left - before.right if axis == "x" else after.bottom - before.top
        assert apart > 0


@pytest.mark.parametrize(
    ("stations", "axis", "room"),
    [
        ([0.0, 400.0], "x", 50.0),  # a level text of 20, and 30 round it
        ([0.0, 40.0], "x", 72.0),  # "40" turned: two figures of 21, and 30
        ([0.0, 400.0], "y", 93.0),  # "400" level: three figures of 21, and 30
    ],
)
def test_a_row_says_how_deep_it_is(stations: list[float], axis: Axis, room: float) -> None:
    assert depth(stations, axis=axis, height=20.0, display=METRIC) == pytest.approx(room)
