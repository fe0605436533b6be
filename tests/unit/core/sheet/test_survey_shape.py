from dataclasses import replace

import pytest
import shapely
from tests.odd_surveys import bent, demo, odd_surveys

from gaugerod.core.base.geometry import Edge
from gaugerod.core.sheet.survey_shape import FACTORS, Shape, shape_of_wall
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedWall


def wall(*, lean: float = 0.0, fall: float = 0.0) -> FittedWall:
    """A wall 1000 by 2000 mm on the datum; its right edge leans in, its deck falls."""
    right = Edge(offset=1000.0, slope=-lean / 2000.0)
    deck = ((0.0, 0.0), (1000.0, -fall))
    ceiling = ((0.0, 2000.0), (1000.0 - lean, 2000.0))
    return FittedWall(
        name="B",
        left=Edge(offset=0.0, slope=0.0),
        right=right,
        deck=deck,
        ceiling=ceiling,
        outline=(*deck, *reversed(ceiling)),
        holes=(),
        openings=(),
        fixtures=(),
    )


@pytest.mark.parametrize(
    ("lean", "factor"), [(0.0, 20), (3.0, 20), (3.6, 10), (7.5, 5), (15.0, 2), (36.0, 1), (90.0, 1)]
)
def test_the_largest_departure_takes_a_fourteenth_at_most(lean: float, factor: int) -> None:
    """70 mm on 1000: 20 x 3.5, 10 x 7, 5 x 14, 2 x 35."""
    assert shape_of_wall(wall(lean=lean)).factor == factor


def test_a_lean_is_drawn_by_the_factor() -> None:
    """5 mm in at the top is drawn as 50; the foot, on the datum, stays."""
    shape = shape_of_wall(wall(lean=5.0))
    (_, foot, head, _) = shape.outline
    assert foot == pytest.approx((1000.0, 0.0))
    assert head == pytest.approx((950.0, 2000.0))


def test_a_fall_is_drawn_about_its_mean() -> None:
    """6 mm of fall in all, 3 either way of the mean, 20 times: 60."""
    shape = shape_of_wall(wall(fall=6.0))
    assert [y for _, y in shape.deck] == pytest.approx([57.0, -63.0])


def test_what_lies_between_the_edges_moves_in_proportion() -> None:
    """Half way up a lean of 5 the edge is 2.5 in, drawn 25; half way across 12.5."""
    shape = shape_of_wall(wall(lean=5.0))
    assert shape.x(997.5, 1000.0) == pytest.approx(975.0)
    assert shape.x(498.75, 1000.0) == pytest.approx(487.5)


def test_a_step_stays_and_what_falls_beside_it_is_drawn_larger() -> None:
    """A level rim; a platform 100 to 106 mm over it, its mean 103, drawn 60 either way."""
    deck = ((0.0, 0.0), (600.0, 0.0), (600.0, 100.0), (1000.0, 106.0))
    shape = shape_of_wall(replace(wall(), deck=deck))
    assert [y for _, y in shape.deck] == pytest.approx([0.0, 0.0, 43.0, 163.0])


def test_stretches_near_one_level_share_their_mean() -> None:
    """A rim at 0 and, beyond a platform, at -6: both depart from -3, which is drawn 60."""
    deck = ((0.0, 0.0), (300.0, 0.0), (300.0, 200.0), (600.0, 200.0), (600.0, -6.0), (1000.0, -6.0))
    shape = shape_of_wall(replace(wall(), deck=deck))
    assert [y for _, y in shape.deck] == pytest.approx([57.0, 57.0, 200.0, 200.0, -63.0, -63.0])


def test_bends_are_drawn() -> None:
    shape = shape_of_wall(fit_walls(bent()).walls[1])
    assert len(shape.deck) == 3
    assert len(shape.ceiling) == 3
    assert len(shape.outline) > 8


def test_openings_holes_and_fixtures_move_along() -> None:
    fitted = fit_walls(demo("alcove-1962")).walls[1]
    shape = shape_of_wall(fitted)
    old, new = fitted.openings[0].box, shape.wall.openings[0].box
    assert (new.bottom, new.top) == (old.bottom, old.top)
    assert new.right < old.right


@pytest.mark.parametrize("name", odd_surveys())
def test_a_drawn_wall_is_a_wall(name: str) -> None:
    for fitted in fit_walls(odd_surveys()[name]).walls:
        shape: Shape = shape_of_wall(fitted)
        assert shape.factor in FACTORS
        assert shapely.Polygon(shape.outline).is_valid
