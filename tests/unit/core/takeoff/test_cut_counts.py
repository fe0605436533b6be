from collections.abc import Iterable
from itertools import pairwise
from math import cos, pi, sin

from tests.laid_by_hand import piece, rectangle

from gaugerod.core.base.geometry import Box, Point, Ring
from gaugerod.core.cutting.pieces import EdgeKind, PieceEdge
from gaugerod.core.job.fields import Side
from gaugerod.core.takeoff.cut_counts import count_cuts

WHOLE = rectangle(left=0, bottom=0, right=600, top=300)


def edge(side: Side, start: Point, end: Point, kind: EdgeKind = "cut") -> PieceEdge:
    return PieceEdge(side=side, kind=kind, start=start, end=end)


def edges(*stretches: tuple[Side, Ring]) -> list[PieceEdge]:
    """Cut edges, one or more joined stretches of a side at a time."""
    return [edge(side, a, b) for side, ring in stretches for a, b in pairwise(ring)]


def counted(cuts: Iterable[PieceEdge], *, width: float = 600, height: float = 300) -> object:
    box = Box(left=0, bottom=0, right=width, top=height)
    return count_cuts([piece(WHOLE, edges=cuts, within=box)])


def test_a_whole_piece_has_no_cut() -> None:
    assert counted([edge("left", (0, 300), (0, 0), "factory")]) == (0, 0)


def test_a_tongue_taken_off_is_no_cut() -> None:
    assert counted([edge("top", (600, 300), (0, 300), "tongue off")]) == (0, 0)


def test_a_side_cut_square() -> None:
    assert counted(edges(("right", ((450, 0), (450, 300)))), width=450) == (1, 0)


def test_two_sides_cut_square() -> None:
    both = edges(("bottom", ((0, 0), (450, 0))), ("right", ((450, 0), (450, 200))))
    assert counted(both, width=450, height=200) == (2, 0)


def test_out_by_less_than_a_mark_is_square() -> None:
    assert counted(edges(("bottom", ((0, 0.0), (600, 0.5))))) == (1, 0)
    assert counted(edges(("bottom", ((0, 0.0), (600, 0.6))))) == (0, 1)


def test_tapers_on_two_sides_are_two() -> None:
    # Scribed to the deck and to a corner out of plumb; the two cuts meet.
    both = edges(("bottom", ((0, 0), (590, 4))), ("right", ((590, 4), (596, 300))))
    assert counted(both, width=596) == (0, 2)


def test_a_deck_with_a_knee_is_one_scribe() -> None:
    assert counted(edges(("bottom", ((0, 0), (250, 3), (600, 4))))) == (0, 1)


def test_an_l_is_one() -> None:
    notch = edges(("bottom", ((0, 100), (400, 100))), ("right", ((400, 100), (400, 0))))
    assert counted(notch) == (0, 1)


def test_a_u_is_one() -> None:
    notch = edges(
        ("right", ((200, 300), (200, 100))),
        ("top", ((200, 100), (400, 100))),
        ("left", ((400, 100), (400, 300))),
    )
    assert counted(notch) == (0, 1)


def test_two_ls_are_two() -> None:
    notches = edges(
        ("bottom", ((0, 100), (100, 100))),
        ("left", ((100, 100), (100, 0))),
        ("right", ((500, 0), (500, 100))),
        ("bottom", ((500, 100), (600, 100))),
    )
    assert counted(notches) == (0, 2)


def test_what_a_notch_leaves_of_a_side_is_cut_once() -> None:
    # Ripped at the bottom, and a notch in the middle of that cut.
    ripped = edges(
        ("bottom", ((0, 0), (200, 0))),
        ("right", ((200, 0), (200, 80))),
        ("bottom", ((200, 80), (400, 80))),
        ("left", ((400, 80), (400, 0))),
        ("bottom", ((400, 0), (600, 0))),
    )
    assert counted(ripped, height=280) == (1, 1)


def test_a_bite_of_a_hole_is_one() -> None:
    arc: Ring = tuple((300 + 40 * cos(k * pi / 16), 40 * sin(k * pi / 16)) for k in range(17))
    sides: list[tuple[Side, Ring]] = [
        ("right", arc[12:]),
        ("bottom", arc[4:13]),
        ("left", arc[:5]),
    ]
    assert counted(edges(*sides)) == (0, 1)


def test_pieces_add_up() -> None:
    cut = edges(("right", ((450, 0), (450, 300))))
    box = Box(left=0, bottom=0, right=450, top=300)
    assert count_cuts([piece(WHOLE, edges=cut, within=box)] * 3) == (3, 0)
