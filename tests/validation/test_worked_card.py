"""A cut card worked by hand: a taper, a notch and a valve in keyed modules of 24 by 12 in.

Source of the layout and its sizes: worked example of the trade, common practice, no source. The
end piece of a back wall is 21-1/8 wide at the low point; its corner leans out 1/2 in over 72, and
the gap to the next lining is 1/8. So its width is 21-1/8 + y/144 - 1/8 at y over the low point;
its course runs from 9-1/4 to 21-1/4:

    21.125 + 9.25/144 - 0.125 = 21.0642, down to 21-1/16
    21.125 + 21.25/144 - 0.125 = 21.1476, down to 21-1/8

The example gives the offcut as 2-3/4, which is 24 less the marked 21-1/8 and a kerf of 1/8. The
plan of modules reckons with the true width, up to 1/32: 24 - 21-5/32 - 1/8 = 2-23/32, down to
2-11/16, which is never too much.
"""

from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, words_in

from gaugerod.core.base.geometry import Box, Point, Region, bounds_of
from gaugerod.core.cutting.make import side_of
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import EdgeKind, Piece, PieceEdge, PieceHole
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.fields import Side
from gaugerod.core.job.sample import sample_system
from gaugerod.core.sheet.chain import bare_length
from gaugerod.packet.card_marks import points, straight
from gaugerod.packet.cards import card_of
from gaugerod.packet.paper import Card
from gaugerod.packet.sources import Sources

INCH = 25.4
FACE = (24 * INCH, 12 * INCH)
WORDS = words_in(INCHES)
SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")
SYSTEM = sample_system().model_copy(
    update={
        "face": FACE,
        "unit": "in",
        "cutting": sample_system().cutting.model_copy(update={"kerf": INCH / 8}),
    }
)


def piece(*corners: Point, valve: Point | None = None) -> Piece:
    """A piece by its corners on the module. [in]."""
    ring = tuple((x * INCH, y * INCH) for x, y in corners)
    edges = []
    for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
        side, on_module = side_of(start, end, FACE)
        kind: EdgeKind = "factory" if on_module else "cut"
        edges.append(PieceEdge(side=side, kind=kind, start=start, end=end))
    keeps = tuple(s for s in SIDES if any((e.side, e.kind) == (s, "factory") for e in edges))
    holes: tuple[PieceHole, ...] = ()
    if valve:
        x, y = valve
        holes = (PieceHole(name="valve", x=x * INCH, y=y * INCH, diameter=3 * INCH),)
    region = Region(rings=(ring,))
    return Piece(
        tag="B2-1",
        wall="B",
        course=2,
        place=1,
        product=SYSTEM.id,
        turn=0,
        face=FACE,
        region=region,
        cell=Box(left=0.0, bottom=0.0, right=FACE[0], top=FACE[1]),
        within=bounds_of(region.rings),
        whole=False,
        edges=tuple(edges),
        keeps=keeps,
        holes=holes,
        marks=marks_of(region, edges, holes, keeps, FACE),
        measure_in_place=False,
    )


def width(y: float) -> float:
    return 21.125 + y / 144 - 0.125


TAPER = piece((24 - width(9.25), 0.0), (24.0, 0.0), (24.0, 12.0), (24 - width(21.25), 12.0))


def card(of: Piece) -> Card:
    sources = Sources(plan_cuts([of], SYSTEM), [of.tag], least={SYSTEM.id: INCH})
    return card_of(of, "back", (), sources, WORDS, cutting=SYSTEM.cutting)


def test_the_taper_is_two_named_measurements_from_the_right() -> None:
    made = card(TAPER)
    assert [(m.label, m.value, m.note) for m in made.marks] == [
        ("From RIGHT, at bottom", '21 1/16"', ""),
        ("From RIGHT, at top", '21 1/8"', "bigger"),
    ]
    assert made.orders[:2] == ("FACE UP · ARROW UP", "Keep RIGHT+BOTTOM+TOP · waste LEFT")
    assert made.orders_down[:2] == ("FACE DOWN · ARROW UP", "Keep LEFT+BOTTOM+TOP · waste RIGHT")
    assert [m.down for m in made.marks] == ["LEFT, at bottom", "LEFT, at top"]


def test_its_offcut_is_never_too_much() -> None:
    (stock,) = plan_cuts([TAPER], SYSTEM).stock
    (offcut,) = stock.offcuts
    assert offcut.size[0] / INCH == pytest.approx(24 - 21.15625 - 0.125)
    assert bare_length(offcut.size[0], INCHES, rounding="down") == '2 11/16"'
    assert set(offcut.keeps) == {"left", "bottom", "top"}


def test_a_notch_is_two_offsets_and_the_corner_that_comes_out() -> None:
    # From the left edge 3-1/8, from the bottom edge 4-3/8 up.
    notched = piece((0, 0), (3.125, 0), (3.125, 4.375), (24, 4.375), (24, 12), (0, 12))
    (corner,) = points(notched, (), WORDS)
    assert (corner.name, corner.down) == ("take out LOWER RIGHT to", "take out LOWER LEFT to")
    assert (corner.across.label, corner.across.value) == ("LEFT", '3 1/8"')
    assert (corner.up.label, corner.up.value) == ("BOTTOM", '4 3/8"')
    assert list(straight(notched, WORDS)) == []


def test_the_valve_and_its_check_sum_to_the_module() -> None:
    # 17 + 7 = 24 and 2-1/2 + 9-1/2 = 12.
    drilled = piece((0, 0), (24, 0), (24, 12), (0, 12), valve=(17, 2.5))
    hole, check = points(drilled, (), WORDS)
    assert {hole.across.label: hole.across.value, check.across.label: check.across.value} == {
        "LEFT": '17"',
        "RIGHT": '7"',
    }
    assert {hole.up.label: hole.up.value, check.up.label: check.up.value} == {
        "BOTTOM": '2 1/2"',
        "TOP": '9 1/2"',
    }


def test_what_the_odds_are_against_is_measured_in_place() -> None:
    made = card(replace(TAPER, measure_in_place=True))
    assert made.warning == "MEASURE IN PLACE BEFORE CUTTING"
    assert {mark.value for mark in made.marks} == {"________"}
