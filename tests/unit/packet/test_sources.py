from typing import Literal

import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import CutPlan, Offcut, Placed, SawCut, Stock
from gaugerod.core.job.fields import Side
from gaugerod.packet.sources import Sources

FIRST = SawCut(
    part=Box(left=0.0, bottom=0.0, right=600.0, top=300.0),
    start="left",
    at=120.0,
    near=("R1-1",),
    far=("B2-1",),
    stands=True,
)


def placed(tag: str, *, parted: bool) -> Placed:
    blank = Box(left=0.0, bottom=0.0, right=120.0, top=300.0) if parted else None
    return Placed(tag=tag, at=(0.0, 0.0), size=(100.0, 300.0), blank=blank)


def stock(source: Literal["module", "offcut"], tags: tuple[str, ...], *offcuts: Offcut) -> CutPlan:
    cut = Stock(
        id="M-7",
        source=source,
        product="sample",
        size=(600.0, 300.0),
        keeps=("left", "right", "bottom", "top"),
        lot="",
        pieces=tuple(placed(tag, parted=len(tags) > 1) for tag in tags),
        offcuts=offcuts,
        sequence=(FIRST,) if len(tags) > 1 else (),
    )
    return CutPlan(stock=(cut,), modules=1, lower_bound=1, proven=True, cuts=1)


def offcut(name: str, width: float, keeps: tuple[Side, ...] = ("left", "top")) -> Offcut:
    return Offcut(id=name, at=(0.0, 0.0), size=(width, 300.9), keeps=keeps)


def asked(plan: CutPlan, order: tuple[str, ...] = ("B1-1", "B2-1", "R1-1")) -> Sources:
    return Sources(plan, order, least={"sample": 50.0})


@pytest.mark.parametrize(
    ("source", "said"),
    [("module", "from full M-7"), ("offcut", "from offcut M-7")],
)
def test_the_first_piece_is_cut_from_the_stock_itself(
    source: Literal["module", "offcut"], said: str, millimetres: Catalogue
) -> None:
    sources = asked(stock(source, ("B1-1",)))
    assert sources.source("B1-1", millimetres) == said
    assert not sources.parted("B1-1")


def test_pieces_of_one_module_are_cut_from_its_parts(millimetres: Catalogue) -> None:
    sources = asked(stock("module", ("R1-1", "B2-1"), offcut("O-7a", 199.9)))
    for tag in ("R1-1", "B2-1"):
        assert sources.source(tag, millimetres) == "from M-7, parted"
        assert sources.parted(tag)
    # Its offcuts are told with the last of them in the order of setting.
    assert list(sources.offcuts("B2-1", millimetres)) == []
    assert len(list(sources.offcuts("R1-1", millimetres))) == 1


def test_offcuts_are_saved_after_the_last_piece_and_rounded_down(millimetres: Catalogue) -> None:
    plan = stock("module", ("B1-1",), offcut("O-7a", 199.9), offcut("O-7b", 80.0, ()))
    assert list(asked(plan).offcuts("B1-1", millimetres)) == [
        "Save O-7a: 199\u00a0×\u00a0300, LEFT+TOP",
        "Save O-7b: 80\u00a0×\u00a0300",
    ]


def test_what_no_piece_may_be_cut_from_is_waste(millimetres: Catalogue) -> None:
    plan = stock("module", ("B1-1",), offcut("O-7a", 49.0))
    assert list(asked(plan).offcuts("B1-1", millimetres)) == []
