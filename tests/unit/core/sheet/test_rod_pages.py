"""Strips of the rod, worked by hand."""

from itertools import pairwise

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.sheet.drawing import Area, Drawing, Line, Text
from gaugerod.core.sheet.rod import RodKind, RodMark
from gaugerod.core.sheet.rod_pages import rod_pages, signed

WORDS = words_in(MILLIMETRES)
ROOM = (179.5, 260.5)


def mark(height: float, kind: RodKind = "course", *walls: str, name: str = "1") -> RodMark:
    return RodMark(kind=kind, name=name, height=height, walls=walls or ("L", "B"))


def drawn(*marks: RodMark) -> tuple[Drawing, ...]:
    return rod_pages(marks, ("L", "B"), WORDS, room=ROOM)


def said(page: Drawing) -> list[str]:
    return [item.text for item in page.items if isinstance(item, Text)]


def level(page: Drawing) -> list[float]:
    """Where lines begin at the left edge. [mm]."""
    lines = [item for item in page.items if isinstance(item, Line)]
    return sorted(
        line.start[1] for line in lines if line.start[0] == 0.0 and line.start[1] == line.end[1]
    )


def test_a_strip_runs_from_sub_datum_to_sub_datum_and_on() -> None:
    first, second = drawn(mark(50.0), mark(330.0))
    # The strip hangs from the top: 240 of it, the lower sub-datum 20 over its foot.
    foot = 260.5 - 240.0
    assert level(first) == pytest.approx([foot + 20, foot + 70, foot + 220])
    # 200, 330 and 400 of the second: 50 lies below it.
    assert level(second) == pytest.approx([foot + 20, foot + 150, foot + 220])
    assert {"0 mm", "DATUM", "↑\u00a050 mm", "course 1, top", "↑\u00a0200 mm"} <= {*said(first)}
    assert "DATUM" not in said(second)


def test_what_lies_where_strips_share_is_on_both() -> None:
    first, second = drawn(mark(50.0), mark(210.0), mark(390.0))
    assert "↑\u00a0210 mm" in said(first)
    assert "↑\u00a0210 mm" in said(second)


def test_the_key_shows_one_strip_filled() -> None:
    filled = [
        [item.region.rings[0][0][1] for item in page.items if isinstance(item, Area)]
        for page in drawn(mark(50.0), mark(330.0))
    ]
    assert [len(areas) for areas in filled] == [1, 1]
    assert filled[0][0] < filled[1][0]


def test_a_mark_of_some_walls_says_which() -> None:
    (page,) = drawn(mark(50.0, "sill", "B", name="niche"), mark(100.0))
    assert {"↑\u00a050 mm · B", "niche, sill", "↑\u00a0100 mm"} <= {*said(page)}


def test_marks_at_one_height_stand_clear_of_each_other() -> None:
    (page,) = drawn(*(mark(199.0, "hole", "B", name=f"hole {n}") for n in range(8)))
    found = [
        item for item in page.items if isinstance(item, Text) and item.text.startswith("hole ")
    ]
    heights = sorted(item.at[1] for item in found)
    assert len(heights) == 8
    assert all(b - a > 7.0 for a, b in pairwise(heights))
    assert max(heights) < ROOM[1]


def test_a_page_names_no_more_than_it_has_room_for() -> None:
    (page,) = drawn(*(mark(20.0 + n, "hole", "B", name=f"hole {n}") for n in range(60)))
    named = [text for text in said(page) if text.startswith("hole ")]
    # 240 mm by 9.5 of a label: 25, one of them the datum.
    assert len(named) == 24
    assert len(level(page)) == 62


def test_a_long_name_is_cut_off() -> None:
    (page,) = drawn(mark(50.0, "hole", "B", name="a name that goes on and on and on"))
    (name,) = [text for text in said(page) if text.startswith("a name")]
    assert name.endswith("…")


@pytest.mark.parametrize(
    ("height", "text"),
    [(0.0, '0"'), (1e-9, '0"'), (25.4, '↑\u00a01"'), (-463.55, '↓\u00a018 1/4"')],
)
def test_a_height_says_its_way(height: float, text: str) -> None:
    assert signed(height, words_in(INCHES)) == text
