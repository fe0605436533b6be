from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import Placed, SawCut, Stock
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Text
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import Picture, Table


def box(left: float, right: float, bottom: float = 0.0, top: float = 300.0) -> Box:
    return Box(left=left, bottom=bottom, right=right, top=top)


def stock(*sequence: SawCut) -> Stock:
    placed = (
        Placed(tag="B1-1", at=(0.0, 0.0), size=(200.0, 300.0), blank=box(0.0, 200.5)),
        Placed(tag="R2-1", at=(203.0, 0.0), size=(200.0, 80.0), blank=box(202.5, 403.0)),
    )
    return Stock(
        id="M-3",
        source="module",
        product="tile",
        size=(600.0, 300.0),
        keeps=("left", "right", "bottom", "top"),
        lot="",
        pieces=placed,
        offcuts=(),
        sequence=sequence,
    )


FIRST = SawCut(
    part=box(0.0, 600.0), start="left", at=200.5, near=("B1-1",), far=("R2-1",), stands=True
)
SECOND = SawCut(
    part=box(202.5, 600.0), start="right", at=195.0, near=(), far=("R2-1",), stands=True
)
THIRD = SawCut(
    part=box(202.5, 403.0, 50.0, 250.0),
    start="bottom",
    at=130.0,
    near=("R2-1",),
    far=(),
    stands=False,
)


def parted(plan: Plan, *stocks: Stock) -> Plan:
    return replace(plan, cuts=replace(plan.cuts, stock=stocks))


def test_each_cut_is_told_in_its_turn(tiled: Plan, millimetres: Catalogue) -> None:
    blocks = list(module_cuts(parted(tiled, stock(FIRST, SECOND, THIRD)), millimetres))
    (table,) = [block for block in blocks if isinstance(block, Table)]
    said = (
        "1. From LEFT 200.5: B1-1 | R2-1. 2. From RIGHT 195: rest | R2-1. "
        "3. From BOTTOM 130, marked before the first cut: R2-1 | rest."
    )
    assert table.rows == (("M-3", said),)


def test_the_picture_has_names_tags_and_turns(tiled: Plan, millimetres: Catalogue) -> None:
    (picture,) = [
        block
        for block in module_cuts(parted(tiled, stock(FIRST, THIRD)), millimetres)
        if isinstance(block, Picture)
    ]
    texts = [item.text for item in picture.drawing.items if isinstance(item, Text)]
    assert sorted(texts) == ["1", "2", "B1-1", "M-3", "R2-1"]


def test_nothing_is_told_where_nothing_is_parted_or_may_be_cut(
    tiled: Plan, millimetres: Catalogue
) -> None:
    assert list(module_cuts(parted(tiled, stock()), millimetres)) == []
    priced = replace(tiled, walls=replace(tiled.walls, fit_for="price"))
    assert list(module_cuts(priced, millimetres)) == []
