from dataclasses import replace
from itertools import pairwise

import pytest
from tests.fixtures_plan import INCHES, keyed_plan, words_in

from gaugerod.core.base.geometry import bounds_of, shape_of
from gaugerod.core.sheet.drawing import Area, Circle, Drawing, Line, Text
from gaugerod.core.sheet.small import draw_small

MADE = keyed_plan()


@pytest.fixture(scope="module")
def drawing() -> Drawing:
    return draw_small("option-A", MADE.walls, MADE.pieces, words_in(INCHES))


def areas(drawing: Drawing, *layers: str) -> list[Area]:
    return [item for item in drawing.items if isinstance(item, Area) and item.layer in layers]


def test_every_piece_is_drawn_in_its_own_size(drawing: Drawing) -> None:
    drawn = sorted(shape_of(area.region).area for area in areas(drawing, "piece", "cut"))
    assert drawn == pytest.approx(sorted(shape_of(piece.region).area for piece in MADE.pieces))
    whole = sum(piece.whole for piece in MADE.pieces)
    assert len(areas(drawing, "piece")) == whole


def test_walls_stand_side_by_side_and_keep_their_height(drawing: Drawing) -> None:
    outlines = [bounds_of(area.region.rings) for area in areas(drawing, "outline")]
    assert len(outlines) == len(MADE.walls.walls)
    for before, after in pairwise(outlines):
        assert after.left - before.right > 100
    for box, wall in zip(outlines, MADE.walls.walls, strict=True):
        own = bounds_of((wall.outline,))
        assert (box.width, box.height) == pytest.approx((own.width, own.height))
        assert box.bottom == own.bottom


def test_holes_openings_and_names_go_with_their_wall(drawing: Drawing) -> None:
    circles = [item for item in drawing.items if isinstance(item, Circle)]
    assert len(circles) == sum(len(wall.holes) for wall in MADE.walls.walls)
    names = [item.text for item in drawing.items if isinstance(item, Text)]
    assert names == ["Wall L", "Wall B", "Wall R"]
    (window,) = areas(drawing, "opening")
    back = bounds_of(areas(drawing, "outline")[1].region.rings)
    box = bounds_of(window.region.rings)
    assert back.left < box.left < box.right < back.right
    crossed = [item for item in drawing.items if isinstance(item, Line) and item.layer == "opening"]
    assert {line.start[0] for line in crossed} == {box.left}


def test_what_is_of_another_product_is_dotted() -> None:
    main = MADE.pieces[0].product
    blue = tuple(
        replace(piece, product="blue") if piece.course == 2 else piece for piece in MADE.pieces
    )
    plain = draw_small("a", MADE.walls, MADE.pieces, words_in(INCHES), main=main)
    assert not any(item.layer == "accent" for item in plain.items)
    found = draw_small("a", MADE.walls, blue, words_in(INCHES), main=main)
    dots = [item for item in found.items if item.layer == "accent"]
    assert len(dots) == sum(piece.course == 2 for piece in MADE.pieces) > 0
