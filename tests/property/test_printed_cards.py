"""A setter who has nothing but the paper makes every piece, and finds every figure in the plan.

Cards, module cuts, holes and the gauge rod are read from the text of the PDF. The modules are
parted as the paper says, then each piece is marked and sawn on what that has left: face up, and
face down where the paper says how. What is expected are the polygons and numbers of the plan.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.printed import PrintedCard, PrintedCut, Reader, text_of
from tests.checkers.setter import Bench, Setter, holes_miss, read_figure, strays
from tests.fixtures_plan import keyed_plan, tiled_plan
from tests.property.plans import SHOWN, drawn_plan, over_plans
from tests.property.test_marks_literal import aligned, outer, shift

from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.blanks import blank_of
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece, Placed, Stock
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Drawing, Line
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import Beside, Picture
from gaugerod.packet.phrases import paper
from gaugerod.writers.pdf import pdf
from gaugerod.writers.svg import svg

STEP = {"inches": 25.4 / 16, "millimetres": 1.6}
"""What a corner may be off, in x and in y: a sixteenth. [mm]"""
NOISE = 1e-3
TURNED = {"LEFT": "RIGHT", "RIGHT": "LEFT", "BOTTOM": "TOP", "TOP": "BOTTOM"}


def read(plan: Plan, unit: str) -> tuple[list[PrintedCard], dict[str, list[PrintedCut]]]:
    """Print the cards and the module cuts of a plan, and read them."""
    words = SHOWN[unit]
    blocks = (*cut_cards(plan, words), *module_cuts(plan, words))
    document = pdf(paper("Cards", plan.job, blocks, words, revision=1, size=None), draw=svg)
    text, reader = text_of(document), Reader(words)
    names = [drawing.title for drawing in pictures(plan, unit)]
    return reader.cards(text), dict(zip(names, reader.module_cuts(text), strict=True))


def pictures(plan: Plan, unit: str) -> Iterator[Drawing]:
    """The modules as they are drawn over their cuts."""
    for block in module_cuts(plan, SHOWN[unit]):
        if isinstance(block, Beside):
            cells = (inner for cell in block.cells for inner in cell)
            yield from (inner.drawing for inner in cells if isinstance(inner, Picture))


# --- at the saw --------------------------------------------------------------------------------


def parts(
    cuts: Sequence[PrintedCut], drawn: Drawing, stock: Stock, kerf: float
) -> Iterator[tuple[str, Box]]:
    """Part a module as the paper says; yield each piece with what is left for it. [mm].

    How far each cut is from which edge is printed; through which part it runs, and what lies in
    which, is seen in the picture.
    """
    wide, high = stock.size
    found = [Box(left=0.0, bottom=0.0, right=wide, top=high)]
    lines = [item for item in drawn.items if isinstance(item, Line) and item.layer == "saw"]
    for cut, line in zip(cuts, lines, strict=True):
        middle = (line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2
        (box,) = (part for part in found if holds(part, middle))
        found.remove(box)
        at = read_figure(cut.at)
        match cut.start:
            case "LEFT":
                found += replace(box, right=at), replace(box, left=at + kerf)
            case "RIGHT":
                found += replace(box, left=wide - at), replace(box, right=wide - at - kerf)
            case "BOTTOM":
                found += replace(box, top=at), replace(box, bottom=at + kerf)
            case _:
                found += replace(box, bottom=high - at), replace(box, top=high - at - kerf)
    for placed in stock.pieces:
        (x, y), (across, up) = placed.at, placed.size
        (box,) = (part for part in found if holds(part, (x + across / 2, y + up / 2)))
        found.remove(box)
        yield placed.tag, box


def holds(box: Box, point: tuple[float, float]) -> bool:
    return box.left < point[0] < box.right and box.bottom < point[1] < box.top


def on_the_bench(
    piece: Piece, placed: Placed, stock: Stock, part: Box | None, *, turned: bool
) -> tuple[Bench, Box]:
    """What the paper lays on the bench, and its box in the piece's own frame."""
    wide, high = stock.size
    if part is None:
        box = Box(left=0.0, bottom=0.0, right=wide, top=high)
        return Bench(width=wide, height=high, factory=frozenset(TURNED)), box
    reach = {
        "LEFT": part.left,
        "RIGHT": wide - part.right,
        "BOTTOM": part.bottom,
        "TOP": high - part.top,
    }
    factory = {side for side, off in reach.items() if off < NOISE}
    if turned:
        factory = {TURNED[side] for side in factory}
    own = blank_of(piece, replace(placed, blank=part))
    assert own is not None
    return Bench(width=part.width, height=part.height, factory=frozenset(factory)), own


def follow(printed: PrintedCard, piece: Piece, bench: Bench, box: Box, step: float) -> None:
    """Do what a card says, and compare what that makes with the piece."""
    meant = outer(piece, box)
    for face_down in (False, True)[: 1 + printed.down]:
        setter = Setter(printed.card, bench, face_down=face_down)
        assert setter.kept <= setter.factory
        built = setter.work()
        found = aligned(built, meant)
        assert found.geom_type == "Polygon"
        assert strays(found, meant, step + NOISE, beside=built.bitten) == []
        assert built.measured_from - built.trued <= bench.factory
        dx, dy = shift(built, meant)
        assert built.holes.keys() == {hole.name for hole in piece.holes}
        for hole in piece.holes:
            x, y = built.holes[hole.name]
            assert abs(x + dx - (hole.x - box.left)) <= step + NOISE
            assert abs(y + dy - (hole.y - box.bottom)) <= step + NOISE
        if not built.trued:
            assert all(miss <= step + NOISE for miss in holes_miss(printed.card, bench))


def is_blank(printed: PrintedCard) -> bool:
    card = printed.card
    marks = (*card.marks, *(m for point in card.points for m in (point.across, point.up)))
    return all(set(mark.value) == {"_"} for mark in marks)


def make_all(plan: Plan, unit: str) -> None:
    """Make every piece of a plan from its paper."""
    cards, cuts = read(plan, unit)
    every = (*plan.pieces, *pieces_inside(plan.insides))
    cut = {piece.tag: piece for piece in every if not piece.whole}
    assert sorted(tag for card in cards for tag, *_ in card.pieces) == sorted(cut)
    of: Mapping[str, tuple[Placed, Stock]] = {
        placed.tag: (placed, stock) for stock in plan.cuts.stock for placed in stock.pieces
    }
    stocks = {stock.id: stock for stock in plan.cuts.stock}
    kerf = plan.system.cutting.kerf
    drawn = {drawing.title: drawing for drawing in pictures(plan, unit)}
    left = {name: dict(parts(said, drawn[name], stocks[name], kerf)) for name, said in cuts.items()}
    for printed in cards:
        for tag, turned, parted in printed.pieces:
            piece, (placed, stock) = cut[tag], of[tag]
            assert printed.in_place == piece.measure_in_place
            if printed.in_place:
                assert is_blank(printed)
                continue
            module = turned or parted
            part = left[module][tag] if module else None
            bench, box = on_the_bench(piece, placed, stock, part, turned=bool(turned))
            follow(printed, piece, bench, box, STEP[unit])


# --- the laws ----------------------------------------------------------------------------------


@over_plans
@given(data=st.data())
def test_the_printed_cards_make_every_piece(data: st.DataObject, family: str, unit: str) -> None:
    make_all(drawn_plan(data, family), unit)


@pytest.mark.parametrize("unit", list(SHOWN))
@pytest.mark.parametrize("made", [keyed_plan, tiled_plan])
def test_the_printed_cards_of_a_packaged_job_make_every_piece(
    made: Callable[[], Plan], unit: str
) -> None:
    make_all(made(), unit)
