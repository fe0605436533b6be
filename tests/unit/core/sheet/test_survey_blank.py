from itertools import combinations

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import Display
from gaugerod.core.sheet.drawing import Line, Text
from gaugerod.core.sheet.lettering import extent, text_box
from gaugerod.core.sheet.survey_blank import blank_survey

TEN_POINT = 10 * 25.4 / 72 * 0.727
"""Capitals of ten points: 0.727 of the size, measured on the family's letter H. [mm]"""


def texts(display: Display) -> list[Text]:
    return [i for i in blank_survey("B", words_in(display)).items if isinstance(i, Text)]


@pytest.mark.parametrize("display", [MILLIMETRES, INCHES], ids=["mm", "in"])
def test_no_two_texts_overlap_and_nothing_leaves_the_sheet(display: Display) -> None:
    drawing = blank_survey("B", words_in(display))
    boxes = [text_box(text) for text in texts(display)]
    for a, b in combinations(boxes, 2):
        assert a.right < b.left or b.right < a.left or a.top < b.bottom or b.top < a.bottom
    bounds, around = drawing.bounds, extent(drawing.items, margin=0.0)
    assert bounds.left <= around.left < around.right <= bounds.right
    assert bounds.bottom <= around.bottom < around.top <= bounds.top


def test_letters_are_ten_points_or_more() -> None:
    assert min(text.height for text in texts(INCHES)) >= TEN_POINT


def test_a_line_to_write_on_is_long_enough_and_clear_of_words() -> None:
    """An inch and fraction in pencil takes some 16 mm."""
    boxes: list[Box] = [text_box(text) for text in texts(INCHES)]
    lines = [
        item
        for item in blank_survey("B", words_in(INCHES)).items
        if isinstance(item, Line) and item.layer == "dimension" and item.start[1] == item.end[1]
    ]
    assert len(lines) > 20
    for line in lines:
        assert line.end[0] - line.start[0] >= 16
        for box in boxes:
            on_line = box.bottom < line.start[1] < box.top
            assert not (on_line and box.left < line.end[0] and line.start[0] < box.right)


@pytest.mark.parametrize(("display", "over"), [(INCHES, 'over 72"'), (MILLIMETRES, "over 1800 mm")])
def test_leans_are_read_over_what_a_level_spans(display: Display, over: str) -> None:
    assert [text.text for text in texts(display)].count(over) == 2


def test_widths_are_asked_for_at_three_heights() -> None:
    asked = [text for text in texts(INCHES) if text.text == "width"]
    assert len({text.at[1] for text in asked}) == 3
    assert min(text.at[1] for text in asked) < -78.0 < max(text.at[1] for text in asked)
