from dataclasses import replace

import pytest
from tests.blocks import tables_of
from tests.fixtures_plan import INCHES, words_in

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.paper import Picture, Table
from gaugerod.packet.walls import elevations, gauge_rod, holes


def rod(plan: Plan, words: Catalogue) -> tuple[tuple[str, ...], ...]:
    (table,) = [block for block in gauge_rod(plan, words) if isinstance(block, Table)]
    return table.rows


def level(plan: Plan, *, deck: float, first: float, pitch: float, top: float) -> Plan:
    """The same plan over a level deck, with lines as given from the datum."""
    walls = tuple(replace(wall, deck=((0.0, deck), (1000.0, deck))) for wall in plan.walls.walls)
    layout = replace(plan.layout, first_course=first, pitch=(plan.layout.pitch[0], pitch), top=top)
    return replace(plan, walls=replace(plan.walls, walls=walls), layout=layout)


def drilled(plan: Plan, hole: FittedHole) -> tuple[str, ...]:
    first, *others = plan.walls.walls
    walls = replace(plan.walls, walls=(replace(first, holes=(hole,)), *others))
    return next(row for row in hole_rows(replace(plan, walls=walls)) if row[0] == hole.name)


def hole_rows(plan: Plan) -> tuple[tuple[str, ...], ...]:
    (table,) = tables_of(holes(plan, words_in(INCHES)))
    return table.rows


VALVE = FittedHole(
    name="test valve",
    x=381.0,
    y=-463.55,
    diameter=76.2,
    pipe=None,
    plate=177.8,
    rough_in=44.45,
    rough_in_limits=(25.4, 57.15),
)


def test_each_wall_has_its_elevation_the_widest_last(keyed: Plan, inches: Catalogue) -> None:
    drawn = [
        block.drawing.name for block in elevations(keyed, inches) if isinstance(block, Picture)
    ]
    assert drawn == ["elevation-L", "elevation-R", "elevation-B"]


def test_lines_are_rounded_once_each(keyed: Plan, millimetres: Catalogue) -> None:
    """Lines at 235 + 304.8 k above the low point: 235, 540, 845, 1149, 1454, 1759 (by hand)."""
    plan = level(keyed, deck=-762.0, first=-527.0, pitch=304.8, top=-527.0 + 5 * 304.8)
    above = [row[2] for row in rod(plan, millimetres)]
    assert above == [
        "1759 mm",
        "1454 mm",
        "1149 mm",
        "845 mm",
        "540 mm",
        "235 mm",
        "0 mm",
    ]


def test_heights_are_told_from_the_datum(keyed: Plan, millimetres: Catalogue) -> None:
    plan = level(keyed, deck=-762.0, first=-200.0, pitch=300.0, top=100.0)
    assert rod(plan, millimetres) == (
        ("Finish line", "100 mm above", "862 mm"),
        ("Top of course 1", "200 mm below", "562 mm"),
        ("Low point of the deck", "762 mm below", "0 mm"),
    )


def test_a_cut_top_has_its_own_line(keyed: Plan, millimetres: Catalogue) -> None:
    plan = level(keyed, deck=0.0, first=280.0, pitch=300.0, top=700.0)
    assert [row[0] for row in rod(plan, millimetres)] == [
        "Finish line",
        "Top of course 2",
        "Top of course 1",
        "Low point of the deck",
    ]


def test_a_hole_is_told_from_both_edges_and_the_datum(keyed: Plan) -> None:
    """15 in from the left, 18 1/4 down; the valve reads 1 3/4 and its trim takes 1 to 2 1/4."""
    row = drilled(keyed, VALVE)
    assert (row[2], row[4], row[5], row[6]) == ('15"', '18 1/4" below', '3"', '7"')
    assert row[7] == '1 3/4"; trim takes 1" to 2 1/4"'


@pytest.mark.parametrize(
    ("hole", "depth"),
    [
        (replace(VALVE, rough_in_limits=None), '1 3/4"'),
        (replace(VALVE, rough_in=None), "–"),
    ],
)
def test_a_depth_is_told_as_far_as_it_is_known(keyed: Plan, hole: FittedHole, depth: str) -> None:
    assert drilled(keyed, hole)[7] == depth


def test_a_hole_names_the_piece_it_is_drilled_in(keyed: Plan) -> None:
    bored = {hole.name: piece.tag for piece in keyed.pieces for hole in piece.holes}
    assert {row[0]: row[1] for row in hole_rows(keyed)} == bored


def test_a_hole_on_a_joint_names_its_wall(keyed: Plan) -> None:
    assert drilled(keyed, VALVE)[1] == "L"


def test_an_alcove_without_holes_has_no_list_of_them(keyed: Plan, inches: Catalogue) -> None:
    bare = tuple(replace(wall, holes=()) for wall in keyed.walls.walls)
    plan = replace(keyed, walls=replace(keyed.walls, walls=bare))
    assert list(holes(plan, inches)) == []
