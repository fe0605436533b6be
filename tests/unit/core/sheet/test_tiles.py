"""Pages of a drawing at full size, by hand."""

from math import dist, pi

import pytest

from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Circle, Line
from gaugerod.core.sheet.tiles import clipped, joins, tiled

PAGE = Box(left=0.0, bottom=0.0, right=100.0, top=50.0)


def test_what_fits_has_one_page() -> None:
    (tile,) = tiled(PAGE, room=(100.0, 50.0), overlap=10.0)
    assert (tile.box, tile.columns, tile.rows) == (PAGE, 1, 1)
    assert joins(tile, overlap=10.0) == ()


def test_pages_begin_where_they_are_told() -> None:
    # 100 on pages of 60 that share 10: 0 to 60 and 50 to 100, or 0 to 50 and 40 to 100.
    spans = [
        [(t.box.left, t.box.right) for t in tiled(PAGE, room=(60.0, 50.0), overlap=10.0)],
        [
            (t.box.left, t.box.right)
            for t in tiled(PAGE, room=(60.0, 50.0), overlap=10.0, from_right=True)
        ],
        [
            (t.box.bottom, t.box.top)
            for t in tiled(PAGE, room=(100.0, 30.0), overlap=10.0, from_top=True)
        ],
    ]
    assert spans == [
        [(0.0, 60.0), (50.0, 100.0)],
        [(0.0, 50.0), (40.0, 100.0)],
        [(0.0, 30.0), (20.0, 50.0)],
    ]


def test_joins_have_one_name_on_both_their_pages() -> None:
    tiles = tiled(PAGE, room=(60.0, 30.0), overlap=10.0)
    named = [[join.name for join in joins(tile, overlap=10.0)] for tile in tiles]
    assert named == [["A", "B"]] * 4
    lower_left, lower_right, upper_left, _ = tiles
    first, second = (joins(tile, overlap=10.0) for tile in (lower_left, lower_right))
    assert [join.start[0] for join in first + second if join.name == "A"] == [55.0, 55.0]
    above = joins(upper_left, overlap=10.0)
    assert [join.start[1] for join in first + above if join.name == "B"] == [25.0, 25.0]


def test_a_page_in_the_middle_has_joins_on_all_sides() -> None:
    tiles = tiled(PAGE, room=(50.0, 30.0), overlap=20.0)  # 0-50, 30-80, 60-100; 0-30, 10-40, 20-50
    middle = next(tile for tile in tiles if (tile.column, tile.row) == (1, 1))
    assert [join.name for join in joins(middle, overlap=20.0)] == ["A", "B", "C", "D"]


@pytest.mark.parametrize(
    ("start", "end", "left"),
    [
        ((10.0, 10.0), (20.0, 20.0), [((10.0, 10.0), (20.0, 20.0))]),
        ((-10.0, 10.0), (30.0, 10.0), [((0.0, 10.0), (30.0, 10.0))]),
        ((-10.0, 10.0), (-1.0, 10.0), []),
        ((-5.0, 5.0), (5.0, -5.0), []),  # a corner alone is a point, and no line
    ],
)
def test_lines_end_where_the_page_ends(
    start: tuple[float, float], end: tuple[float, float], left: list[object]
) -> None:
    found = clipped(Line(layer="piece", start=start, end=end), PAGE)
    assert [(part.start, part.end) for part in found if isinstance(part, Line)] == left


def test_a_circle_that_is_cut_off_stays_on_its_arc() -> None:
    circle = Circle(layer="hole", centre=(0.0, 25.0), diameter=40.0)
    half = [part for part in clipped(circle, PAGE) if isinstance(part, Line)]
    assert sum(dist(part.start, part.end) for part in half) == pytest.approx(20 * pi, abs=1e-2)
    for part in half:
        assert dist(part.start, circle.centre) == pytest.approx(20, abs=1e-3)
        middle = ((part.start[0] + part.end[0]) / 2, (part.start[1] + part.end[1]) / 2)
        assert dist(middle, circle.centre) == pytest.approx(20, abs=1e-3)  # 20 (1 - cos 0.5°)


def test_a_circle_inside_stays_a_circle() -> None:
    circle = Circle(layer="hole", centre=(50.0, 25.0), diameter=40.0)
    assert clipped(circle, PAGE) == (circle,)
    assert clipped(circle, Box(left=200.0, bottom=0.0, right=300.0, top=50.0)) == ()
