"""Laws of cutting: plans can be cut as they stand, and bounds are no higher than the truth."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.cut_plan import (
    NEAR,
    Rect,
    Want,
    faults,
    fewest_modules,
    full_height,
    guillotine,
)
from tests.property.alcoves import Alcove, alcoves, grouted, lined, share, surveyed

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.bound import Need, lower_bound
from gaugerod.core.cutting.pieces import CutPlan, Offcut, Piece, Placed, SawCut, Stock
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.lattice import module_side
from gaugerod.core.setout.layout import Layout

SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")


# --- plans of whole alcoves --------------------------------------------------------------------


@share(3)
@given(alcoves())
def test_a_plan_can_be_cut_as_it_stands(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    bare = grooveless(pieces, layout, alcove.system)
    assert faults(plan_cuts(pieces, alcove.system), pieces, alcove.system, bare) == []


def grooveless(pieces: Sequence[Piece], layout: Layout, system: System) -> dict[str, set[Side]]:
    """Where no groove may stay: at the deck and in the corners, unless something hides it there."""
    wanted: dict[str, set[Side]] = defaultdict(set)
    for own in layout.walls:
        here = [piece for piece in pieces if piece.wall == own.name]
        ends = {
            course: [p for p in here if p.course == course] for course in {p.course for p in here}
        }
        if "corner" not in system.gaps.hides_key:
            for row in ends.values():
                if own.field.left != "open":
                    wanted[row[0].tag].add(module_side("left", layout.turn))
                if own.field.right != "open":
                    wanted[row[-1].tag].add(module_side("right", layout.turn))
        if "deck" not in system.gaps.hides_key:
            for piece in ends[min(ends)]:
                wanted[piece.tag].add(module_side("bottom", layout.turn))
    return wanted


# --- plans of boxes drawn by lot ---------------------------------------------------------------

UNIT = 25.0
"""What one unit of the boxes is. [mm]"""
MODULE = (24, 12)


@st.composite
def boxes(draw: st.DrawFn) -> Want:
    """A box with edges to keep; one that keeps two opposite edges is as long as the module."""
    keeps = frozenset(draw(st.sets(st.sampled_from(SIDES), max_size=3)))
    width = draw(st.integers(2, MODULE[0]))
    height = draw(st.integers(2, MODULE[1]))
    return Want(
        MODULE[0] if {"left", "right"} <= keeps else width,
        MODULE[1] if {"bottom", "top"} <= keeps else height,
        keeps,
    )


kerfs = st.integers(0, 2)
ends = st.integers(2, MODULE[0] - 1)
handfuls = st.lists(boxes(), min_size=1, max_size=5)
heaps = st.lists(boxes(), min_size=1, max_size=25)


def as_piece(number: int, want: Want) -> Piece:
    """A piece of that box, where it lay in its own module."""
    size = want.width * UNIT, want.height * UNIT
    left = MODULE[0] * UNIT - size[0] if "left" not in want.keeps else 0.0
    bottom = MODULE[1] * UNIT - size[1] if "bottom" not in want.keeps else 0.0
    box = Box(left=left, bottom=bottom, right=left + size[0], top=bottom + size[1])
    ring = ((left, bottom), (box.right, bottom), (box.right, box.top), (left, box.top))
    return Piece(
        tag=f"B1-{number}",
        wall="B",
        course=1,
        place=number,
        product="tile",
        turn=0,
        face=(MODULE[0] * UNIT, MODULE[1] * UNIT),
        region=Region(rings=(ring,)),
        cell=Box(left=0.0, bottom=0.0, right=MODULE[0] * UNIT, top=MODULE[1] * UNIT),
        within=box,
        whole=False,
        edges=(),
        keeps=tuple(side for side in SIDES if side in want.keeps),
        holes=(),
        marks=(),
        measure_in_place=False,
    )


def tile(kerf: int) -> System:
    face = MODULE[0] * UNIT, MODULE[1] * UNIT
    return grouted(face=face, joint=3.0, kerf=kerf * UNIT, gap=3.0)


def as_need(number: int, want: Want) -> Need:
    return Need(
        tag=str(number), width=want.width * UNIT, height=want.height * UNIT, keeps=want.keeps
    )


def bound(wants: Sequence[Want], kerf: int) -> int:
    needs = [as_need(number, want) for number, want in enumerate(wants)]
    size = MODULE[0] * UNIT, MODULE[1] * UNIT
    return lower_bound(needs, size=size, kerf=kerf * UNIT)


@given(heaps, kerfs)
def test_a_plan_of_any_boxes_can_be_cut(wants: list[Want], kerf: int) -> None:
    pieces = [as_piece(number, want) for number, want in enumerate(wants)]
    plan = plan_cuts(pieces, tile(kerf))
    assert faults(plan, pieces, tile(kerf), {}) == []
    assert bound(wants, kerf) <= plan.lower_bound


@given(heaps, kerfs)
def test_grooves_shed_in_one_place_do_not_come_back_in_another(
    wants: list[Want], kerf: int
) -> None:
    system = sample_system()
    size = MODULE[0] * UNIT, MODULE[1] * UNIT
    assert system.face == size
    cutting = system.cutting.model_copy(update={"kerf": kerf * UNIT})
    keyed = system.model_copy(update={"cutting": cutting})
    pieces = [as_piece(number, want) for number, want in enumerate(wants)]
    bare: dict[str, set[Side]] = defaultdict(set)
    for piece in pieces:
        if piece.within.left >= cutting.groove_off:
            bare[piece.tag].add("left")
        if piece.within.bottom >= cutting.groove_off:
            bare[piece.tag].add("bottom")
    assert faults(plan_cuts(pieces, keyed), pieces, keyed, bare) == []


# --- the order of the cuts ---------------------------------------------------------------------


@given(heaps, kerfs, st.booleans())
def test_no_cut_takes_an_edge_that_a_later_piece_needs(
    wants: list[Want], kerf: int, half_turn: bool
) -> None:
    """Saw every module as its sequence says; each piece must find its edges and its room."""
    pieces = {f"B1-{n}": as_piece(n, want) for n, want in enumerate(wants)}
    system = tile(kerf)
    cutting = system.cutting.model_copy(update={"half_turn": half_turn})
    for stock in plan_cuts(
        list(pieces.values()), system.model_copy(update={"cutting": cutting}), proven=False
    ).stock:
        wide, high = stock.size
        parts: dict[Box, frozenset[Side]] = {
            Box(left=0.0, bottom=0.0, right=wide, top=high): frozenset(SIDES)
        }
        for cut in stock.sequence:
            edges = parts.pop(cut.part)
            near, far = sawn_apart(cut, stock.size, kerf * UNIT)
            # It is measured from an edge that stands, or is marked before all the others.
            other = OPPOSITE[cut.start]
            assert cut.stands == bool({cut.start, other} & edges)
            assert cut.start in edges or not cut.stands
            parts |= {near: edges - {other}, far: edges - {cut.start}}
            for box, tags in ((near, cut.near), (far, cut.far)):
                for placed in stock.pieces:
                    assert (placed.tag in tags) == (lies_in(placed, box))
                    if placed.tag in tags:
                        keeps = pieces[placed.tag].keeps
                        keeps = tuple(OPPOSITE[s] if placed.turned else s for s in keeps)
                        assert set(keeps) <= parts[box]
        blanks = {placed.blank for placed in stock.pieces} - {None}
        assert blanks <= parts.keys()
        assert len(blanks) == (len(stock.pieces) if stock.sequence else 0)


def sawn_apart(cut: SawCut, size: tuple[float, float], kerf: float) -> tuple[Box, Box]:
    """The parts on this side of the saw and beyond it, from what is measured."""
    at, part = cut.at, cut.part
    match cut.start:
        case "left":
            return replace(part, right=at), replace(part, left=min(at + kerf, part.right))
        case "right":
            x = size[0] - at
            return replace(part, left=x), replace(part, right=x - kerf)
        case "bottom":
            return replace(part, top=at), replace(part, bottom=min(at + kerf, part.top))
        case _:
            y = size[1] - at
            return replace(part, bottom=y), replace(part, top=y - kerf)


def lies_in(placed: Placed, box: Box) -> bool:
    (x, y), (width, height) = placed.at, placed.size
    across = box.left - NEAR <= x and x + width <= box.right + NEAR
    return across and box.bottom - NEAR <= y and y + height <= box.top + NEAR


# --- the bound ---------------------------------------------------------------------------------


@given(handfuls, kerfs)
def test_the_bound_is_under_the_best_plan_and_the_plan_is_not(wants: list[Want], kerf: int) -> None:
    best = fewest_modules(wants, size=MODULE, kerf=kerf)
    pieces = [as_piece(number, want) for number, want in enumerate(wants)]
    plan = plan_cuts(pieces, tile(kerf))
    assert plan.lower_bound <= best <= plan.modules
    assert not plan.proven or plan.modules == best


@given(heaps, kerfs, kerfs)
def test_a_wider_saw_never_lowers_the_bound(wants: list[Want], one: int, other: int) -> None:
    assert bound(wants, min(one, other)) <= bound(wants, max(one, other))


@given(heaps, boxes(), kerfs)
def test_one_more_piece_never_lowers_the_bound(wants: list[Want], more: Want, kerf: int) -> None:
    assert bound(wants, kerf) <= bound([*wants, more], kerf)


@given(heaps, kerfs, st.sets(st.sampled_from(SIDES)), st.integers(0, 24))
def test_edges_less_to_keep_never_raise_the_bound(
    wants: list[Want], kerf: int, given_up: set[Side], among: int
) -> None:
    freed = [
        Want(want.width, want.height, want.keeps - (given_up if number <= among else set()))
        for number, want in enumerate(wants)
    ]
    assert bound(freed, kerf) <= bound(wants, kerf)


@given(heaps, kerfs)
def test_upside_down_the_bound_is_the_same(wants: list[Want], kerf: int) -> None:
    turned = [Want(w.width, w.height, frozenset(OPPOSITE[s] for s in w.keeps)) for w in wants]
    assert bound(turned, kerf) == bound(wants, kerf)


OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}


# --- the checks check --------------------------------------------------------------------------


@share(2)
@given(st.lists(ends, max_size=3), st.lists(ends, max_size=3), kerfs)
def test_full_courses_pair_a_left_end_with_a_right_end(
    lefts: list[int], rights: list[int], kerf: int
) -> None:
    wants = [Want(w, MODULE[1], frozenset({"left", "bottom", "top"})) for w in lefts]
    wants += [Want(w, MODULE[1], frozenset({"right", "bottom", "top"})) for w in rights]
    fewest = full_height(lefts, rights, width=MODULE[0], kerf=kerf)
    assert fewest_modules(wants, size=MODULE, kerf=kerf) == fewest


def plan_of(*items: tuple[float, float, float, float], offcuts: tuple[Offcut, ...] = ()) -> CutPlan:
    """One module of 600 by 300 with these boxes cut: left, bottom, width, height."""
    placed = tuple(
        Placed(tag=f"B1-{number}", at=(x, y), size=(w, h))
        for number, (x, y, w, h) in enumerate(items)
    )
    stock = Stock(
        id="M-1",
        source="module",
        product="tile",
        size=(600.0, 300.0),
        keeps=SIDES,
        lot="",
        pieces=placed,
        offcuts=offcuts,
    )
    return CutPlan(stock=(stock,), modules=1, lower_bound=1, proven=True, cuts=1)


def turned(plan: CutPlan) -> CutPlan:
    """The same plan with every piece turned over."""
    (stock,) = plan.stock
    over = tuple(replace(placed, turned=True) for placed in stock.pieces)
    return replace(plan, stock=(replace(stock, pieces=over),))


LEFT = Want(10, 12, frozenset({"left", "bottom", "top"}))  # 250 by 300
FREE = Want(10, 12, frozenset())
REST = Offcut(id="O-1a", at=(550.0, 0.0), size=(50.0, 300.0), keeps=("right", "bottom", "top"))


@pytest.mark.parametrize(
    ("plan", "said"),
    [
        (plan_of((0, 0, 250, 300)), "cut ['B1-0'], wanted"),
        (plan_of((0, 0, 250, 300), (260, 0, 250, 300)), "have no cut between them"),
        (plan_of((0, 0, 250, 300), (400, 0, 250, 300)), "sticks out"),
        (plan_of((300, 0, 250, 300), (0, 0, 250, 300)), "loses its left edge"),
        (plan_of((0, 0, 250, 300), (275, 0, 240, 300)), "should be 250.0 by 300.0"),
        (
            replace(plan_of((0, 0, 250, 300), (275, 0, 250, 300)), lower_bound=2),
            "the bound is over the count",
        ),
        (
            replace(plan_of((0, 0, 250, 300), (275, 0, 250, 300)), proven=False),
            "proven does not say",
        ),
        (
            replace(plan_of((0, 0, 250, 300), (275, 0, 250, 300)), modules=2),
            "1 modules in stock, 2 counted",
        ),
        (
            plan_of((0, 0, 250, 300), (275, 0, 250, 300), offcuts=(replace(REST, keeps=("top",)),)),
            "keeps ['bottom', 'right', 'top']",
        ),
        (
            plan_of((0, 0, 250, 300), (275, 0, 250, 300), offcuts=(replace(REST, at=(540.0, 0)),)),
            "have no cut between them",
        ),
        (
            plan_of((0, 0, 250, 300), (275, 0, 250, 300), offcuts=(replace(REST, size=(50, 0)),)),
            "has no size",
        ),
        (turned(plan_of((0, 0, 250, 300), (275, 0, 250, 300))), "is turned, which tile may not be"),
    ],
)
def test_the_checks_find_what_is_wrong(plan: CutPlan, said: str) -> None:
    good = plan_of((0, 0, 250, 300), (275, 0, 250, 300), offcuts=(REST,))
    pieces = [as_piece(0, LEFT), as_piece(1, FREE)]
    assert faults(good, pieces, tile(1), {}) == []
    assert any(said in fault for fault in faults(plan, pieces, tile(1), {}))


def test_the_checks_find_a_groove_that_came_back() -> None:
    keyed = sample_system().model_copy(update={"id": "tile"})
    plan = plan_of((0, 0, 250, 300))
    pieces = [as_piece(0, FREE)]
    assert faults(plan, pieces, keyed, {}) == []
    (fault,) = faults(plan, pieces, keyed, {"B1-0": {"left"}})
    assert "has a groove left at its left" in fault


def test_five_boxes_round_a_middle_one_are_not_cut_from_edge_to_edge() -> None:
    # Long known: a pinwheel.
    around = [(0, 0, 20, 10), (20, 0, 30, 20), (10, 20, 30, 30), (0, 10, 10, 30), (10, 10, 20, 20)]
    wheel = [Rect(x0=x0, y0=y0, x1=x1, y1=y1) for x0, y0, x1, y1 in around]
    assert not guillotine(wheel, 0.0)
    assert guillotine(wheel[:4], 0.0) is False
    assert guillotine(wheel[:3], 0.0)
