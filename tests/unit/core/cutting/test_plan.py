"""Cut plans and bounds of small cases worked by hand."""

import re

import pytest

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.bound import Need, lower_bound
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_system

SYSTEM = sample_system()  # 600 by 300, kerf 3


def piece(tag: str, width: float, height: float, *keeps: Side) -> Piece:
    box = Box(left=0.0, bottom=0.0, right=width, top=height)
    ring = ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
    return Piece(
        tag=tag,
        wall="B",
        course=1,
        place=1,
        product="sample",
        turn=0,
        face=(width, height),
        region=Region(rings=(ring,)),
        cell=box,
        within=box,
        whole=False,
        edges=(),
        keeps=keeps,
        holes=(),
        marks=(),
        measure_in_place=False,
    )


def with_cutting(**changes: object) -> System:
    cutting = SYSTEM.cutting.model_copy(update=changes)
    return SYSTEM.model_copy(update={"cutting": cutting})


def modules(*pieces: Piece) -> tuple[int, int]:
    plan = plan_cuts(pieces, SYSTEM)
    assert plan.proven == (plan.modules == plan.lower_bound)
    return plan.modules, plan.lower_bound


def test_nothing_to_cut() -> None:
    assert modules() == (0, 0)


def test_a_left_end_and_a_right_end_come_from_one_module() -> None:
    left = piece("a", 297, 300, "right", "bottom", "top")
    right = piece("b", 300, 300, "left", "bottom", "top")
    assert modules(left, right) == (1, 1)


def test_a_kerf_too_wide_takes_a_second_module() -> None:
    left = piece("a", 298, 300, "right", "bottom", "top")
    right = piece("b", 300, 300, "left", "bottom", "top")
    assert modules(left, right) == (2, 2)


def test_two_left_ends_need_two_modules_however_narrow() -> None:
    ends = [piece(tag, 100, 300, "right", "bottom", "top") for tag in "ab"]
    assert modules(*ends) == (2, 2)


def test_strips_that_keep_no_edge_come_from_the_middle() -> None:
    # Three of 198 and two kerfs make 600.
    strips = [piece(tag, 198, 300) for tag in "abc"]
    assert modules(*strips) == (1, 1)


def test_rips_come_one_above_the_other() -> None:
    low = piece("a", 600, 150, "left", "right", "bottom")
    high = piece("b", 600, 147, "left", "right", "top")
    plan = plan_cuts([low, high], SYSTEM)
    assert plan.modules == 1
    (stock,) = plan.stock
    assert {placed.tag: placed.at for placed in stock.pieces} == {
        "a": (0.0, 0.0),
        "b": (0.0, 153.0),
    }
    assert stock.offcuts == ()


def test_an_offcut_keeps_the_factory_edges_it_still_touches() -> None:
    plan = plan_cuts([piece("a", 400, 200, "right", "top")], SYSTEM)
    (stock,) = plan.stock
    (placed,) = stock.pieces
    assert placed.at == (200.0, 100.0)
    # Beside it 197 by 300 is more than 600 by 97 below it: the first cut is upright.
    beside, below = sorted(stock.offcuts, key=lambda offcut: offcut.size[0])
    assert (beside.size, beside.at) == ((197.0, 300.0), (0.0, 0.0))
    assert beside.keeps == ("left", "bottom", "top")
    assert (below.size, below.at, below.keeps) == ((400.0, 97.0), (200.0, 0.0), ("right", "bottom"))
    assert plan.cuts == 2


def test_the_smallest_offcut_that_will_do_is_used_first() -> None:
    ends = [piece("a", 400, 300, "right"), piece("b", 500, 300, "right")]
    plan = plan_cuts([*ends, piece("c", 90, 300)], SYSTEM)
    # Largest first: b leaves 97, a leaves 197. The strip of 90 comes from the 97.
    # Modules come in the order in which their first piece is set.
    assert [{placed.tag for placed in stock.pieces} for stock in plan.stock] == [{"a"}, {"b", "c"}]


def test_a_piece_that_keeps_nothing_spares_the_factory_edges() -> None:
    first = piece("a", 450, 300, "left", "bottom", "top")
    plan = plan_cuts([first, piece("b", 60, 300)], SYSTEM)
    (stock,) = plan.stock
    # The rest of the module has a cut left edge and a factory right edge: b lies at the cut.
    assert {placed.tag: placed.at for placed in stock.pieces}["b"] == (453.0, 0.0)
    assert [offcut.keeps for offcut in stock.offcuts] == [("right", "bottom", "top")]


def test_a_piece_that_keeps_both_ends_takes_the_whole_width() -> None:
    ends = piece("a", 600, 100, "left", "right", "bottom")
    short = piece("b", 500, 100, "left", "right")
    assert modules(ends) == (1, 1)
    # Narrower than the module it cannot keep both: nothing gives it.
    with pytest.raises(MaterialError) as caught:
        plan_cuts([short], SYSTEM)
    assert caught.value.message.key == "cutting.cannot-keep"


@pytest.mark.parametrize("size", [(601.0, 300.0), (600.0, 301.0)])
def test_a_piece_larger_than_the_module_is_refused(size: tuple[float, float]) -> None:
    with pytest.raises(MaterialError) as caught:
        plan_cuts([piece("B1-1", *size)], SYSTEM)
    assert caught.value.message.key == "cutting.too-large"
    assert caught.value.message.values["piece"] == "B1-1"


@pytest.mark.parametrize("size", [(0.0, 300.0), (600.0, 0.0), (0.0, 0.0), (-5.0, 300.0)])
@pytest.mark.parametrize("kerf", [0.0, 3.0])
def test_a_piece_without_a_size_is_refused(size: tuple[float, float], kerf: float) -> None:
    system = with_cutting(kerf=kerf)
    with pytest.raises(MaterialError) as caught:
        plan_cuts([piece("B1-1", *size)], system)
    assert caught.value.message.key == "cutting.nothing"
    assert caught.value.message.values["piece"] == "B1-1"


@pytest.mark.parametrize("kerf", [0.0, 3.0])
def test_slivers_are_planned_as_they_are(kerf: float) -> None:
    # A twentieth of a millimetre counts as half of one: beside and over a piece, with a kerf
    # between, that is 593.5 by 293.5 at most.
    slivers = [piece("a", 0.05, 290), piece("b", 590, 0.05), piece("c", 590, 290)]
    plan = plan_cuts(slivers, with_cutting(kerf=kerf))
    assert (plan.modules, plan.proven) == (1, True)


def test_slivers_as_long_as_the_module_take_little_work() -> None:
    # One runs from left to right, the other from bottom to top: one module cannot give both.
    slivers = [piece("a", 0.05, 300), piece("b", 600, 0.05), piece("c", 590, 290)]
    plan = plan_cuts(slivers, with_cutting(kerf=0.0))
    assert (plan.modules, plan.proven) == (2, True)


def test_without_a_kerf_halves_fill_a_module() -> None:
    halves = [piece(tag, 300, 300) for tag in "abcde"]
    plan = plan_cuts(halves, with_cutting(kerf=0.0))
    assert (plan.modules, plan.lower_bound, plan.proven) == (3, 3, True)
    # One cut parts each of two modules, and one trims the fifth half.
    assert plan.cuts == 3
    assert plan_cuts(halves, SYSTEM).modules == 5


def test_a_kerf_wider_than_the_module_leaves_one_piece_to_each() -> None:
    plan = plan_cuts([piece(tag, 100, 100) for tag in "abc"], with_cutting(kerf=700.0))
    assert (plan.modules, plan.proven) == (3, True)


@pytest.mark.parametrize("half_turn", [True, False])
def test_edges_that_no_module_can_keep_are_refused(*, half_turn: bool) -> None:
    system = with_cutting(half_turn=half_turn)
    for narrow in (piece("a", 599, 300, "left", "right"), piece("a", 600, 299, "bottom", "top")):
        with pytest.raises(MaterialError) as caught:
            plan_cuts([piece("b", 100, 100), narrow], system)
        assert caught.value.message.key == "cutting.cannot-keep"
        assert caught.value.message.values["piece"] == "a"


def test_an_offcut_of_next_to_nothing_is_no_use() -> None:
    speck = OffcutAtHand(name="speck", size=(0.2, 0.2))
    for kerf in (0.0, 3.0):
        plan = plan_cuts([piece("a", 100, 100)], with_cutting(kerf=kerf), at_hand=[speck])
        assert (plan.modules, plan.proven) == (1, True)


def test_more_offcuts_than_letters_have_names_of_their_own() -> None:
    # Thirty strips of their own heights side by side are a module, with an offcut over each.
    strips = [piece(f"p{n}", 17, 140 + n) for n in range(56)]
    plan = plan_cuts(strips, SYSTEM)
    names = [[offcut.id for offcut in stock.offcuts] for stock in plan.stock]
    assert max(map(len, names)) > 26
    every = [name for of_one in names for name in of_one]
    assert len(set(every)) == len(every)
    assert all(re.fullmatch(r"O-\d+[a-z]+", name) for name in every)


def test_sizes_that_agree_to_a_tenth_of_a_micron_count_as_equal() -> None:
    halves = [need(100.0001, 300)] * 2
    assert lower_bound(halves, size=(200.0, 300.0), kerf=0.0) == 1


def need(width: float, height: float, *keeps: Side) -> Need:
    return Need(tag="", width=width, height=height, keeps=frozenset(keeps))


@pytest.mark.parametrize(
    ("needs", "bound"),
    [
        ([], 0),
        ([need(100, 100, "left", "bottom")] * 3, 3),  # one corner to a module
        ([need(301, 300)] * 3, 3),  # each over half
        ([need(301, 151)] * 5, 5),
        ([need(200, 300)] * 3, 2),  # 200 thrice and two kerfs are 606
        ([need(198, 300)] * 3, 1),
        ([need(100, 100)] * 10, 1),  # fifteen fit by area, with kerf ten
        ([need(250, 40, "bottom")] * 3, 2),  # 750 along one edge
    ],
)
def test_bounds_by_hand(needs: list[Need], bound: int) -> None:
    assert lower_bound(needs, size=(600.0, 300.0), kerf=3.0) == bound


def test_a_module_that_may_be_turned_gives_both_ends_of_a_corner() -> None:
    # Two corner pieces of 100 by 100 that keep one corner: turned over, one module gives both.
    turning = SYSTEM.model_copy(
        update={"cutting": SYSTEM.cutting.model_copy(update={"half_turn": True})}
    )
    corners = [piece(tag, 100, 100, "left", "bottom") for tag in "ab"]
    plan = plan_cuts(corners, turning)
    assert (plan.modules, plan.lower_bound, plan.proven) == (1, 1, True)
    ((one, other),) = (stock.pieces for stock in plan.stock)
    assert {one.turned, other.turned} == {False, True}
    assert {one.at, other.at} == {(0.0, 0.0), (500.0, 200.0)}
