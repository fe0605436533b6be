"""What is seen, from where, and how dark; by similar triangles."""

import pytest

from gaugerod.core.base.geometry import Region
from gaugerod.core.sheet.eye import LIGHT, Eye, is_turned_to, seen, seen_rings, tone
from gaugerod.core.sheet.space import Frame

EYE = Eye(at=(100.0, -2000.0, 1500.0), far=3000.0)
WALL = Frame(origin=(0, 1000, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
SQUARE = Region(rings=(((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (0.0, 300.0)),))


def test_what_is_as_far_as_said_is_drawn_true() -> None:
    drawn = seen(EYE, WALL, SQUARE)
    assert drawn
    assert drawn.rings[0] == tuple((x - 100.0, y - 1500.0) for x, y in SQUARE.rings[0])


def test_at_half_the_way_all_is_twice_as_large() -> None:
    drawn = seen(EYE, WALL, SQUARE, z=1500.0)
    assert drawn
    (left, bottom), (right, _), (_, top), _ = drawn.rings[0]
    assert (right - left, top - bottom) == pytest.approx((1200.0, 600.0))


def test_holes_are_kept_and_what_is_turned_away_is_not_seen() -> None:
    hole = ((10.0, 10.0), (10.0, 20.0), (20.0, 20.0))
    drawn = seen(EYE, WALL, Region(rings=(*SQUARE.rings, hole)))
    assert drawn
    assert len(drawn.rings) == 2
    back = Frame(origin=(600, 1000, 0), along=(-1, 0, 0), up=(0, 0, 1), out=(0, 1, 0))
    assert seen(EYE, back, SQUARE) is None


def test_a_plane_that_the_eye_lies_in_is_not_seen() -> None:
    assert seen_rings(EYE, [[(0, 0, 1500), (9, 0, 1500), (9, 9, 1500), (0, 9, 1500)]]) is None
    assert not is_turned_to([(0.0, 0.0), (1.0, 0.0), (2.0, 0.0)])


def test_a_surface_is_lighter_the_more_it_faces_the_light() -> None:
    front, left, right = (
        tone(out, light=0.0, dark=1.0) for out in ((0, -1, 0), (-1, 0, 0), (1, 0, 0))
    )
    assert front < left < right
    away = (-LIGHT[0], -LIGHT[1], -LIGHT[2])
    assert tone(LIGHT, light=0.1, dark=0.9) == pytest.approx(0.1, abs=2e-3)
    assert tone(away, light=0.1, dark=0.9) == pytest.approx(0.9, abs=2e-3)
