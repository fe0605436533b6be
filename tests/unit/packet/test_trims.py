from dataclasses import replace

from tests.blocks import tables_of

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.order import TrimCut, TrimStock
from gaugerod.packet.paper import Beside, Table
from gaugerod.packet.trims import trims_to_cut

LONG = TrimCut(wall="B", place="top", part=1, parts=2, start=0, length=1570, mitred=("start",))
REST = TrimCut(wall="B", place="top", part=2, parts=2, start=0, length=1430, mitred=("end",))
EDGE = TrimCut(wall="L", place="left", part=1, parts=1, start=1433, length=900, mitred=("end",))


def cut_from(plan: Plan) -> Plan:
    """The plan with three lengths of trim that were reckoned by hand. Kerf 3."""
    edge, top = plan.system.trim
    bars = (
        TrimStock(trim=top.id, stock=2400, runs=(LONG,), offcut=2400 - 1573),
        TrimStock(trim=top.id, stock=2400, runs=(REST, EDGE), offcut=2400 - 2336),
        TrimStock(trim=edge.id, stock=2400, runs=(EDGE,), offcut=2400 - 2336),
    )
    return replace(plan, order=replace(plan.order, trims=bars))


def test_trims_are_listed_in_the_order_of_cutting(tiled: Plan, millimetres: Catalogue) -> None:
    (table,) = tables_of(trims_to_cut(cut_from(tiled), millimetres))
    edge, top = (trim.name for trim in tiled.system.trim)
    back, left = "B, the back wall, top", "L, the left end wall, left end, mitre at top"
    assert table.rows == (
        (f"{top}, no. 1", "0 mm", "1570 mm", f"{back}, part 1 of 2, mitre at left", "827 mm"),
        (f"{top}, no. 2", "0 mm", "1430 mm", f"{back}, part 2 of 2, mitre at right", ""),
        ("", "1433 mm", "900 mm", left, "64 mm"),
        (f"{edge}, no. 1", "1433 mm", "900 mm", left, "64 mm"),
    )


def test_a_list_is_kept_on_one_sheet_as_long_as_it_may_be(
    tiled: Plan, millimetres: Catalogue
) -> None:
    (kept,) = trims_to_cut(cut_from(tiled), millimetres)
    assert isinstance(kept, Beside)
    bar = TrimStock(trim=tiled.system.trim[0].id, stock=2400, runs=(EDGE,), offcut=64)
    many = replace(tiled, order=replace(tiled.order, trims=(bar,) * 60))
    assert isinstance(list(trims_to_cut(many, millimetres))[-1], Table)


def test_no_trims_no_table(tiled: Plan, millimetres: Catalogue) -> None:
    bare = replace(tiled, order=replace(tiled.order, trims=()))
    assert list(trims_to_cut(bare, millimetres)) == []


def test_nothing_is_cut_before_the_survey_is_good(tiled: Plan, millimetres: Catalogue) -> None:
    rough = replace(tiled, walls=replace(tiled.walls, fit_for="price"))
    assert list(trims_to_cut(cut_from(rough), millimetres)) == []
