"""Words in lines, and the square that a page is checked by."""

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.base.lengths import Display
from gaugerod.core.sheet.drawing import Line, Text
from gaugerod.core.sheet.lettering import text_box, text_width
from gaugerod.core.sheet.page import Said, check_square, fitted, set_lines, shortened


def set_in(width: float, *said: str) -> list[str]:
    parts = tuple(Said(text=text, height=2.0) for text in said)
    return [line.text for line in set_lines(parts, left=0.0, top=0.0, width=width)]


def test_words_break_where_a_line_is_full() -> None:
    # At 2 mm a letter takes 2.1 and a space 1.36: "aa bb" takes 9.76.
    assert set_in(10.0, "aa bb cc") == ["aa bb", "cc"]
    assert set_in(9.0, "aa bb cc") == ["aa", "bb", "cc"]


def test_a_mixed_number_and_a_length_stay_together() -> None:
    assert set_in(16.0, "aaaa 1 1/2 b") == ["aaaa", "1 1/2 b"]
    assert set_in(16.0, "aaaa 34 mm b") == ["aaaa", "34 mm b"]


def test_a_word_too_long_is_cut_off_with_an_ellipsis() -> None:
    assert set_in(9.0, "aaaaaaaa bb") == ["aaa…", "bb"]
    assert text_width("aaa…", height=2.0) <= 9.0 < text_width("aaaa…", height=2.0)


def test_nothing_said_takes_no_line() -> None:
    assert set_in(9.0, "", "aa") == ["aa"]


def test_a_text_is_shortened_only_if_it_must_be() -> None:
    assert shortened("abc", height=2.0, width=6.5) == "abc"
    assert shortened("abc", height=2.0, width=6.0) == "a…"
    assert shortened("abc", height=2.0, width=0.1) == "…"


def test_lines_that_do_not_fit_are_told_of() -> None:
    parts = tuple(Said(text=text, height=2.0) for text in ("one", "two", "three"))
    lines = set_lines(parts, left=0.0, top=50.0, width=40.0)
    assert [line.text for line in fitted(lines, bottom=0.0)] == ["one", "two", "three"]
    assert [line.text for line in fitted(lines, bottom=43.0)] == ["one", "…"]
    assert fitted(lines, bottom=49.0) == ()


@pytest.mark.parametrize(("display", "side"), [(INCHES, 101.6), (MILLIMETRES, 100.0)])
def test_the_square_is_four_inches_or_a_hundred_millimetres(display: Display, side: float) -> None:
    items = check_square(words_in(display), left=5.0, bottom=7.0)
    lines = [item for item in items if isinstance(item, Line)]
    ends = [(line.start, line.end) for line in lines]
    right, top = 5.0 + side, 7.0 + side
    assert ends == [
        ((5.0, 7.0), (right, 7.0)),
        ((right, 7.0), (right, top)),
        ((right, top), (5.0, top)),
        ((5.0, top), (5.0, 7.0)),
    ]
    for text in (item for item in items if isinstance(item, Text)):
        box = text_box(text)
        assert box.left > 5.0
        assert box.right < right
        assert box.bottom > 7.0
        assert box.top < top
