from dataclasses import replace

from tests.blocks import every

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import Placed, SawCut, Stock
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Text
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import Paragraph, Picture


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
    blocks = every(module_cuts(parted(tiled, stock(FIRST, SECOND, THIRD)), millimetres))
    said = [block.text for block in blocks if isinstance(block, Paragraph)]
    assert said[1:] == [
        "1.\xa0LEFT\xa0200.5 · 2.\xa0RIGHT\xa0195 · 3.\xa0BOTTOM\xa0130, marked before cut\xa01"
    ]


def test_each_module_has_a_picture_with_its_name_tags_and_turns(
    tiled: Plan, millimetres: Catalogue
) -> None:
    two = parted(tiled, stock(FIRST, THIRD), replace(stock(FIRST), id="M-4"))
    pictures = [one for one in every(module_cuts(two, millimetres)) if isinstance(one, Picture)]
    texts = [
        sorted(item.text for item in picture.drawing.items if isinstance(item, Text))
        for picture in pictures
    ]
    assert texts == [["1", "2", "B1-1", "M-3", "R2-1"], ["1", "B1-1", "M-4", "R2-1"]]


def test_capitals_are_those_of_ten_points_on_both_sheets(
    keyed: Plan, tiled: Plan, inches: Catalogue
) -> None:
    """Ten points of the family have capitals of 2.56 mm. A column is 182 or 190 mm less two
    gutters of 5 mm, by three.
    """
    for plan, line in ((keyed, 215.9 - 26), (tiled, 210.0 - 26)):
        column = (line - 10) / 3
        pictures = [one for one in every(module_cuts(plan, inches)) if isinstance(one, Picture)]
        assert pictures
        for picture in pictures:
            bounds = picture.drawing.bounds
            scale = min(column / bounds.width, picture.height / bounds.height)
            heights = {item.height for item in picture.drawing.items if isinstance(item, Text)}
            assert min(heights) * scale > 2.55


def test_nothing_is_told_where_nothing_is_parted_or_may_be_cut(
    tiled: Plan, millimetres: Catalogue
) -> None:
    assert list(module_cuts(parted(tiled, stock()), millimetres)) == []
    priced = replace(tiled, walls=replace(tiled.walls, fit_for="price"))
    assert list(module_cuts(priced, millimetres)) == []
