import pytest

from gaugerod.core.cutting import greedy as module
from gaugerod.core.cutting.greedy import greedy, saw_cuts
from gaugerod.core.cutting.rooms import BOTTOM, LEFT, RIGHT, TOP, Cut, Kind, Leaf, Room


def room(*kinds: Kind, height: int = 50, kerf: int = 2) -> Room:
    return Room(width=100, height=height, kerf=kerf, kinds=kinds, demand=(1,) * len(kinds))


@pytest.mark.parametrize(
    ("kind", "cuts"),
    [
        (Kind(100, 50, 0), 0),
        (Kind(90, 50, LEFT), 1),
        (Kind(90, 40, LEFT | TOP), 2),
        # Clear of both ends: trimmed at both.
        (Kind(80, 50, 0, LEFT | RIGHT, (6, 6)), 2),
        (Kind(80, 30, 0, LEFT | RIGHT | BOTTOM | TOP, (6, 6)), 4),
        # As long as it may be: still trimmed at both.
        (Kind(88, 50, 0, LEFT | RIGHT, (6, 6)), 2),
    ],
)
def test_cuts_that_trim_one_piece(kind: Kind, cuts: int) -> None:
    assert saw_cuts(Leaf(0), room(kind)) == cuts


def test_a_strip_that_takes_no_whole_groove_along_is_no_part_of_its_own() -> None:
    # 100 - 96 = 4 beside the first; a groove is 6 deep. The cut is made over it, right through,
    # so that what comes from above still has its right edge and lies clear of it.
    low, high = Kind(96, 20, LEFT | BOTTOM), Kind(40, 20, 0, RIGHT, (6, 6))
    (tree,) = greedy(room(low, high, kerf=0))
    assert isinstance(tree, Cut)
    assert not tree.upright


def test_over_many_pieces_one_order_is_tried(monkeypatch: pytest.MonkeyPatch) -> None:
    # Largest first by area: 60 by 30 before 20 by 50. By height it would be the other way.
    kinds = (Kind(60, 30, 0), Kind(20, 50, 0), Kind(38, 30, 0))
    every = greedy(room(*kinds))
    monkeypatch.setattr(module, "MANY", 0)
    one = greedy(room(*kinds))
    assert len(every) <= len(one)


def test_the_bench_grows() -> None:
    kinds = tuple(Kind(60, 30 + n % 10, LEFT) for n in range(40))
    one = Room(width=100, height=50, kerf=2, kinds=kinds[:10], demand=(12,) * 10)
    assert len(greedy(one)) == 120
