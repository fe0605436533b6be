from itertools import combinations

import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Area, Line, Text
from gaugerod.core.sheet.lettering import region_of, text_box
from gaugerod.core.sheet.survey_labels import Label, broken, place_labels

HERE = Label(text="750", at=(0.0, 0.0), of=(0.0, 0.0))


def boxes(*labels: Label) -> list[Box]:
    placed = place_labels(labels, height=10.0)
    return [text_box(item) for item in placed if isinstance(item, Text)]


def test_a_label_with_room_stands_where_it_wants() -> None:
    (text,) = place_labels([HERE], height=10.0)
    assert isinstance(text, Text)
    assert text.at == (0.0, 0.0)


def test_fifty_labels_at_one_place_find_room() -> None:
    found = boxes(*[HERE] * 50)
    assert len(found) == 50
    for a, b in combinations(found, 2):
        apart = a.right < b.left or b.right < a.left or a.top < b.bottom or b.top < a.bottom
        assert apart


def test_a_label_far_from_its_place_has_a_leader() -> None:
    placed = place_labels([HERE] * 3, height=10.0)
    leaders = [item for item in placed if isinstance(item, Line)]
    assert leaders
    assert all(line.start == (0.0, 0.0) for line in leaders)


def test_what_is_taken_stays_free() -> None:
    taken = Box(left=-100.0, bottom=-5.0, right=100.0, top=5.0)
    text = place_labels([HERE], height=10.0, taken=[taken])[-1]
    assert isinstance(text, Text)
    assert abs(text.at[1]) > 10.0


def test_a_boxed_label_has_a_frame_round_it() -> None:
    label = Label(text="A", at=(0.0, 0.0), of=(0.0, 0.0), boxed=True)
    frame, text = place_labels([label], height=10.0)
    assert isinstance(frame, Area)
    assert isinstance(text, Text)
    inner = text_box(text)
    assert frame.region.rings[0][0] == pytest.approx((inner.left - 3.5, inner.bottom - 3.5))


def test_a_line_under_a_text_is_not_drawn() -> None:
    """The text is 10.5 wide and 10 high, with a quarter of that round it."""
    text = Text(layer="tag", at=(50.0, 0.0), text="A", height=10.0, anchor="middle", turn=0)
    under = Line(layer="datum", start=(48.0, 0.0), end=(52.0, 0.0))
    through = Line(layer="datum", start=(0.0, 0.0), end=(100.0, 0.0))
    clear = Line(layer="datum", start=(0.0, 9.0), end=(100.0, 9.0))
    parts = [i for i in broken([under, through, clear, text]) if isinstance(i, Line)]
    assert [(part.start[0], part.end[0]) for part in parts] == [
        (0.0, 42.25),
        (57.75, 100.0),
        (0.0, 100.0),
    ]


def test_an_outline_is_broken_and_a_frame_is_not() -> None:
    square = region_of(Box(left=0.0, bottom=-20.0, right=100.0, top=0.0))
    text = Text(layer="tag", at=(50.0, 0.0), text="A", height=10.0, anchor="middle", turn=0)
    outline, frame = Area(layer="outline", region=square), Area(layer="keep", region=square)
    *parts, kept, _ = broken([outline, frame, text])
    assert kept == frame
    assert all(isinstance(part, Line) and part.layer == "outline" for part in parts)
    assert len(parts) == 5
