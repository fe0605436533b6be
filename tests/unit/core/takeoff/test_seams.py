"""Seams by hand: sheets 747 wide with joints of 3, on one wall."""

from dataclasses import replace

import pytest
from tests.laid_by_hand import (
    cut_plan,
    field,
    grouted,
    keyed,
    layout,
    piece,
    rectangle,
    wall,
    walls,
)

from gaugerod.core.base.geometry import Region, bounds_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout
from gaugerod.core.takeoff.count import take_off
from gaugerod.core.takeoff.order import Order
from gaugerod.core.takeoff.seams import seam_runs

GROSS = rectangle(left=0.0, bottom=0.0, right=1497.0, top=2000.0)
SEAM = {"id": "seam", "name": "Seam trim", "use": "seam", "stock": 2440.0, "price": 20}


def laid(*, high: float = 2000.0) -> Layout:
    return replace(
        layout(field("B", GROSS, ends=("runs behind", "runs behind"))),
        face=(747.0, high),
        pitch=(750.0, high + 3.0),
    )


def hung(region: Region) -> Piece:
    return replace(piece(region), cell=bounds_of(region.rings))


def seams(*regions: Region, high: float = 2000.0) -> list[float]:
    return [run.length for run in seam_runs([hung(region) for region in regions], laid(high=high))]


def sheet(left: float, right: float, *, bottom: float = 0.0, top: float = 2000.0) -> Region:
    return rectangle(left=left, bottom=bottom, right=right, top=top)


def test_a_seam_is_as_long_as_both_sheets_go_along_it() -> None:
    # The deck climbs by 10 to the seam and by 10 beyond.
    left = Region(rings=(((0.0, 0.0), (747.0, 10.0), (747.0, 2000.0), (0.0, 2000.0)),))
    right = Region(rings=(((750.0, 10.0), (1497.0, 20.0), (1497.0, 2000.0), (750.0, 2000.0)),))
    assert seams(left, right) == [pytest.approx(1990.0, abs=0.01)]


def test_an_opening_breaks_a_seam_in_two() -> None:
    notch = ((747.0, 800.0), (500.0, 800.0), (500.0, 1400.0), (747.0, 1400.0))
    outline = ((0.0, 0.0), (747.0, 0.0), *notch, (747.0, 2000.0), (0.0, 2000.0))
    found = seams(Region(rings=(outline,)), sheet(750, 1497))
    assert sorted(found) == [pytest.approx(600.0), pytest.approx(800.0)]


def test_a_sheet_cut_short_of_its_neighbour_has_no_seam() -> None:
    assert seams(sheet(0, 700), sheet(750, 1497)) == []


def test_a_level_seam_runs_through_and_uprights_stop_at_it() -> None:
    grid = [
        sheet(left, left + 747, bottom=bottom, top=bottom + 997)
        for left in (0, 750)
        for bottom in (0, 1000)
    ]
    assert seams(*grid, high=997.0) == pytest.approx([997.0, 997.0, 1497.0])


def test_a_level_seam_ends_where_an_opening_parts_it() -> None:
    # Sheets on both sides of an opening from 200 to 1000: seams of 200 and of 497.
    left = [sheet(0, 200, bottom=b, top=b + 997) for b in (0, 1000)]
    right = [sheet(1000, 1497, bottom=b, top=b + 997) for b in (0, 1000)]
    assert seams(*left, *right, high=997.0) == pytest.approx([200.0, 497.0])


def ordered(**changes: object) -> Order:
    """One wall of 1497 x 2000 in two sheets of 10 thick, sealant of 240 mL that is used."""
    system: System = grouted(
        kind="sheet",
        mortar=None,
        grout=None,
        adhesive=keyed().adhesive,
        thickness=10.0,
        joint=(3.0, 3.0),
        sealant={
            "name": "Sealant",
            "cartridge": 0.3,
            "fillet": 6,
            "key_bead": 4,
            "usable": 0.8,
            "price": 9,
            "hold_hours": 24,
        },
        **changes,
    )
    sheets = (hung(sheet(0, 747)), hung(sheet(750, 1497)))
    on = walls(wall("B", width=1497.0, ceiling=2400.0))
    return take_off(sheets, cut_plan(modules=2), laid(), on, system)


def sealed(order: Order) -> float:
    (line,) = [line for line in order.lines if line.id == "sealant"]
    cartridges = line.arithmetic.values["exact"]
    assert isinstance(cartridges, float)
    return cartridges * 240


def test_a_bonded_seam_is_filled_to_its_depth() -> None:
    order = ordered(trim=())
    assert order.quantities.seam_length == pytest.approx(2000.0)
    # Deck 1497 at a fillet of 6 x 6 / 2 = 18: 26.946 mL. Seam 2000 x 3 x 10 = 60 mL, and a
    # bead of 4 along it, pi 4^2 / 4 x 2000 = 25.133 mL.
    assert sealed(order) == pytest.approx(26.946 + 60 + 25.133, abs=0.001)


def test_in_a_trim_a_bead_lies_along_each_edge() -> None:
    order = ordered(trim=[SEAM])
    # The fillet as above, and twice the bead.
    assert sealed(order) == pytest.approx(26.946 + 2 * 25.133, abs=0.001)
    (line,) = [line for line in order.lines if line.id == "trim-seam"]
    assert line.count == 1
    (stock,) = order.trims
    assert [(run.wall, run.place) for run in stock.runs] == [("B", "seam")]
    assert stock.runs[0].length == pytest.approx(2000.0)


def test_sheets_take_neither_mortar_nor_grout() -> None:
    assert {line.id for line in ordered(trim=[SEAM]).lines} == {
        "modules",
        "trim-seam",
        "adhesive",
        "sealant",
    }
