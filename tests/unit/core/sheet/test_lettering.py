import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.sheet.drawing import Anchor, Area, Circle, Dimension, Item, Line, Text, Turn
from gaugerod.core.sheet.lettering import extent, place_text, spread, text_box, text_width


def text(content: str, *, anchor: Anchor = "middle", turn: Turn = 0) -> Text:
    return Text(layer="tag", at=(0.0, 0.0), text=content, height=10.0, anchor=anchor, turn=turn)


def test_wide_letters_take_more_room_than_narrow_ones() -> None:
    assert (
        text_width("M", height=10.0) > text_width("8", height=10.0) > text_width("/", height=10.0)
    )


def test_a_text_twice_as_high_is_twice_as_wide() -> None:
    assert text_width("B12-3", height=20.0) == pytest.approx(2 * text_width("B12-3", height=10.0))


def test_a_fraction_takes_less_room_set_than_typed() -> None:
    """Four digits of 0.78 and a slash of 0.507 capitals, not four of 1.05 and one of 0.68."""
    assert text_width('15/16"', height=10.0) == pytest.approx(10 * (4 * 0.78 + 0.507 + 0.68))
    assert text_width("15/16", height=10.0) == pytest.approx(10 * (4 * 1.05 + 0.68))
    whole = text_width("23 ", height=10.0)
    assert text_width('23 15/16"', height=10.0) == pytest.approx(
        whole + text_width('15/16"', height=10.0)
    )


@pytest.mark.parametrize(
    ("anchor", "left", "right"),
    [("start", 0.0, 21.0), ("middle", -10.5, 10.5), ("end", -21.0, 0.0)],
)
def test_a_level_text_lies_at_its_anchor(anchor: Anchor, left: float, right: float) -> None:
    box = text_box(text("88", anchor=anchor))
    assert (box.left, box.right) == (left, right)
    assert (box.bottom, box.top) == (-5.0, 5.0)


def test_a_turned_text_runs_upwards_from_its_anchor() -> None:
    assert text_box(text("88", anchor="start", turn=90)) == Box(
        left=-5.0, bottom=0.0, right=5.0, top=21.0
    )


@pytest.mark.parametrize(
    ("item", "box"),
    [
        (Line(layer="datum", start=(1, 5), end=(4, 2)), (1, 2, 4, 5)),
        (Area(layer="piece", region=Region(rings=(((0, 0), (7, 0), (7, 3)),))), (0, 0, 7, 3)),
        (Circle(layer="hole", centre=(5, 5), diameter=4), (3, 3, 7, 7)),
        (text("88"), (-10.5, -5, 10.5, 5)),
        (
            Dimension(layer="dimension", start=(0, 0), end=(30, 0), offset=-20, label=text("88")),
            (-10.5, -20, 30, 5),
        ),
    ],
)
def test_the_extent_holds_every_kind_of_item(
    item: Item, box: tuple[float, float, float, float]
) -> None:
    found = extent([item], margin=0.0)
    assert (found.left, found.bottom, found.right, found.top) == box


def test_the_extent_leaves_a_margin() -> None:
    box = extent([Line(layer="datum", start=(0, 0), end=(4, 2))], margin=1.5)
    assert (box.left, box.bottom, box.right, box.top) == (-1.5, -1.5, 5.5, 3.5)


def test_labels_with_room_stay_where_they_are() -> None:
    assert spread([0.0, 20.0], lengths=[10.0, 10.0], gap=5.0) == (0.0, 20.0)


def test_two_labels_in_one_place_move_apart_alike() -> None:
    assert spread([8.0, 8.0], lengths=[4.0, 4.0], gap=2.0) == (5.0, 11.0)


def test_a_crowd_pushes_its_neighbour() -> None:
    """Three of 10 at 0, 0 and 12 need 10 between middles: -6, 4, 14 sum as 0, 0, 12 do."""
    assert spread([0.0, 0.0, 12.0], lengths=[10.0] * 3, gap=0.0) == pytest.approx((-6, 4, 14))


@given(st.lists(st.tuples(st.floats(-1e3, 1e3), st.floats(0, 100)), min_size=1, max_size=20))
def test_spread_labels_never_touch(labels: list[tuple[float, float]]) -> None:
    labels.sort()
    lengths = [length for _, length in labels]
    placed = spread([centre for centre, _ in labels], lengths=lengths, gap=1.0)
    for i in range(len(placed) - 1):
        assert placed[i + 1] - placed[i] >= (lengths[i] + lengths[i + 1]) / 2 + 1.0 - 1e-6


def test_a_text_goes_to_the_middle() -> None:
    placed = place_text(
        "B1-1", layer="tag", inside=shapely.box(0, 0, 200, 100), taken=[], height=20.0
    )
    assert (placed.at, placed.height, placed.turn) == ((100.0, 50.0), 20.0, 0)


def test_a_text_turns_before_it_shrinks() -> None:
    placed = place_text(
        "B1-1", layer="tag", inside=shapely.box(0, 0, 40, 200), taken=[], height=20.0
    )
    assert (placed.height, placed.turn) == (20.0, 90)


def test_a_text_keeps_clear_of_another() -> None:
    other = Box(left=80.0, bottom=40.0, right=120.0, top=60.0)
    placed = place_text(
        "B1-1", layer="tag", inside=shapely.box(0, 0, 200, 100), taken=[other], height=15.0
    )
    box = text_box(placed)
    assert not shapely.box(box.left, box.bottom, box.right, box.top).intersects(
        shapely.box(80, 40, 120, 60)
    )


def test_a_text_without_room_stands_small_in_the_middle() -> None:
    placed = place_text("B1-1", layer="tag", inside=shapely.box(0, 0, 4, 4), taken=[], height=20.0)
    assert placed.at == (2.0, 2.0)
    assert placed.height < 10.0
