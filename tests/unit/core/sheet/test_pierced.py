from dataclasses import replace

from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Area, Circle, Line, Text
from gaugerod.core.sheet.pierced import pierced
from gaugerod.core.sheet.sample import sample_wall
from gaugerod.core.survey.walls import FittedFixture


def test_an_opening_is_crossed_and_a_hole_has_its_centre_lines() -> None:
    items = pierced(sample_wall(), height=30.0)
    crossed = [item for item in items if isinstance(item, Line) and item.layer == "opening"]
    assert {crossed[0].start, crossed[0].end} == {(153.0, 303.0), (897.0, 640.0)}
    (hole,) = [item for item in items if isinstance(item, Circle)]
    assert (hole.centre, hole.diameter) == ((1650.0, 150.0), 76.0)
    assert len([item for item in items if isinstance(item, Line) and item.layer == "hole"]) == 2


def test_a_fixture_is_outlined_and_named() -> None:
    shelf = FittedFixture(
        name="shelf",
        kind="shelf",
        box=Box(left=1000.0, bottom=400.0, right=1200.0, top=450.0),
        clear=25.0,
    )
    items = pierced(replace(sample_wall(), fixtures=(shelf,)), height=30.0)
    (outline,) = [i for i in items if isinstance(i, Area) and i.layer == "fixture"]
    assert outline.region.rings[0][2] == (1200.0, 450.0)
    assert [i.at for i in items if isinstance(i, Text) and i.text == "shelf"] == [(1100.0, 425.0)]
