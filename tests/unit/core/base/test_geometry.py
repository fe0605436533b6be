from math import pi

import pytest
import shapely
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Box, Edge, Region, bounds_of, disc, regions_of, shape_of


def test_a_region_goes_to_a_shape_and_back() -> None:
    outer = ((0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0))
    hole = ((1.0, 1.0), (1.0, 2.0), (2.0, 2.0), (2.0, 1.0))
    region = Region(rings=(outer, hole))
    assert shape_of(region).area == 4 * 3 - 1
    assert shape_of(regions_of(shape_of(region))[0]).equals(shape_of(region))


def test_outer_rings_run_anticlockwise() -> None:
    clockwise = shapely.Polygon([(0, 0), (0, 1), (1, 1), (1, 0)])
    (region,) = regions_of(clockwise)
    assert shapely.LinearRing(region.rings[0]).is_ccw


@pytest.mark.parametrize(
    "shape",
    [
        shapely.LineString([(0, 0), (9, 0)]),
        shapely.box(0, 0, 1e-3, 1e-3),
        shapely.GeometryCollection([shapely.Point(0, 0), shapely.LineString([(0, 0), (1, 1)])]),
        shapely.Polygon(),
    ],
)
def test_what_clipping_leaves_over_is_no_piece(shape: BaseGeometry) -> None:
    assert regions_of(shape) == ()


def test_polygons_in_a_collection_count() -> None:
    mixed = shapely.GeometryCollection(
        [shapely.box(0, 0, 1, 1), shapely.LineString([(0, 0), (9, 9)])]
    )
    assert len(regions_of(mixed)) == 1


def test_regions_come_from_left_to_right() -> None:
    parts = shapely.union_all([shapely.box(5, 0, 6, 1), shapely.box(0, 0, 1, 1)])
    assert [region.rings[0][0][0] < 3 for region in regions_of(parts)] == [True, False]


def test_bounds_hold_every_ring() -> None:
    box = bounds_of((((1.0, 2.0), (3.0, 9.0)), ((-4.0, 5.0),)))
    assert box == Box(left=-4.0, bottom=2.0, right=3.0, top=9.0)
    assert (box.width, box.height) == (7.0, 7.0)


def test_an_edge_leans() -> None:
    assert Edge(offset=100.0, slope=-0.01).at(50.0) == 99.5


def test_a_disc_holds_its_circle() -> None:
    shape = disc(x=10.0, y=20.0, diameter=8.0)
    assert shape.area > pi * 16
    assert shape.exterior.distance(shapely.Point(10, 20)) == pytest.approx(4.0)
