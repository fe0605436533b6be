"""A hollow of 3 by 3 places on a wall of 1500 by 2000, drawn: figures and hatch by hand."""

from itertools import combinations

import pytest
import shapely
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in
from tests.flat_by_hand import fitted
from tests.unit.core.survey.test_flatness import FLAT, HOLLOW, PLACES, judged

from gaugerod.core.base.geometry import Box, shape_of
from gaugerod.core.base.lengths import Display
from gaugerod.core.job.document import Survey
from gaugerod.core.sheet.drawing import Area, Drawing, Text
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.patch_map import draw_patch, draw_shims

WINDOW = Box(left=200.0, bottom=300.0, right=600.0, top=900.0)


def drawn(display: Display = MILLIMETRES, openings: tuple[Box, ...] = ()) -> Drawing:
    wall = fitted(openings=openings)
    (surface,) = judged(HOLLOW, FLAT, wall=wall).surfaces
    return draw_patch(wall, surface.patches[0], surface.surface, words_in(display))


def figures(drawing: Drawing) -> list[str]:
    return [item.text for item in drawing.items if isinstance(item, Text)][:-1]


def filled(drawing: Drawing) -> float:
    areas = [item for item in drawing.items if isinstance(item, Area) and item.layer == "cut"]
    return sum(shape_of(area.region).area for area in areas)


@pytest.mark.parametrize(("display", "deep"), [(MILLIMETRES, "5"), (INCHES, '3/16"')])
def test_each_place_has_its_depth(display: Display, deep: str) -> None:
    nought = {"5": "0", '3/16"': '0"'}[deep]
    assert figures(drawn(display)) == [nought] * 4 + [deep] + [nought] * 4


def test_what_is_filled_is_hatched_and_openings_are_not() -> None:
    # The hollow reaches from the middle to every place round it: 1300 by 1600.
    assert filled(drawn()) == pytest.approx(1300 * 1600)
    # The mesh has a hole in it about a window, never less than the window itself.
    assert filled(drawn(openings=(WINDOW,))) <= 1300 * 1600 - 400 * 600


def test_nothing_overlaps_and_the_name_tells_what_it_is() -> None:
    drawing = drawn()
    boxes = [text_box(item) for item in drawing.items if isinstance(item, Text)]
    shapes = [shapely.box(b.left, b.bottom, b.right, b.top) for b in boxes]
    assert not any(a.intersects(b) for a, b in combinations(shapes, 2))
    assert drawing.name == "patch-B-backer-flat"


def test_shims_stand_where_the_studs_were_read() -> None:
    found = judged(HOLLOW, FLAT, survey=Survey(surface="stud"))
    assert found.shims is not None
    drawing = draw_shims(fitted(), found.shims, words_in(MILLIMETRES))
    assert drawing.name == "patch-B-shims"
    assert sorted(figures(drawing)) == ["0"] * (len(PLACES) - 1) + ["5"]
    assert filled(drawing) == 0.0
