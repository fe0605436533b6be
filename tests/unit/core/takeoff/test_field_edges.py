import pytest

from gaugerod.core.base.geometry import Ring
from gaugerod.core.takeoff.field_edges import field_edges


def test_a_plain_field() -> None:
    edges = field_edges(((0, 0), (1500, 0), (1500, 1800), (0, 1800)))
    assert (edges.left, edges.right, edges.seat) == (1800, 1800, 1500)
    assert edges.tops == (((1500, 1800), (0, 1800)),)


def test_it_does_not_matter_where_the_ring_begins() -> None:
    ring: Ring = ((0, 0), (1500, 0), (1510, 900), (1500, 1800), (0, 1800), (5, 900))
    first = field_edges(ring)
    for turn in range(1, 6):
        turned = field_edges(ring[turn:] + ring[:turn])
        assert (turned.left, turned.right) == pytest.approx((first.left, first.right))
        assert turned.seat == pytest.approx(first.seat)


def test_the_ends_lean() -> None:
    # 3-4-5: leans 300 in 400, which is still steeper than 45 degrees.
    edges = field_edges(((0, 0), (1500, 0), (1800, 400), (300, 400)))
    assert (edges.left, edges.right, edges.seat) == pytest.approx((500, 500, 1500))


def test_a_leg_beside_the_tub_belongs_to_the_front_and_its_riser_to_the_seat() -> None:
    # Deck at 0 from 0 to 700, then down to the floor at -400 as far as the front at 800.
    edges = field_edges(
        ((0, 0), (700, 0), (700, -400), (800, -400), (800, 1800), (0, 1800)),
    )
    assert (edges.left, edges.right) == (1800, 2200)
    assert edges.seat == 700 + 400 + 100


def test_a_sloping_ceiling_makes_two_tops() -> None:
    edges = field_edges(((0, 0), (900, 0), (900, 1500), (600, 1800), (0, 1800)))
    assert edges.right == 1500
    assert edges.tops == (((900, 1500), (600, 1800)), ((600, 1800), (0, 1800)))


def test_under_stairs_an_end_may_be_a_point() -> None:
    edges = field_edges(((0, 0), (1200, 0), (0, 900)))
    assert (edges.left, edges.right, edges.seat) == (900, 0, 1200)
    assert edges.tops == (((1200, 0), (0, 900)),)
