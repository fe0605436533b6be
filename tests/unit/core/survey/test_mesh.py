import math

import numpy as np
import pytest
from shapely.geometry import Polygon, box
from tests.flat_by_hand import grid, spots, surface

from gaugerod.core.survey.mesh import mesh_of, over_places
from gaugerod.core.survey.spots import Spot
from gaugerod.core.survey.volume import volumes

FLAT_GRID = grid([0.0, 0.0, 0.0], [0.0, 0.0, 0.0], [0.0, 0.0, 0.0])


def test_a_grid_is_joined_to_its_squares() -> None:
    mesh = mesh_of(FLAT_GRID)
    assert mesh.rings == ((0, 1, 4, 3), (1, 2, 5, 4), (3, 4, 7, 6), (4, 5, 8, 7))
    assert (mesh.spots, len(mesh.places), len(mesh.triangles)) == (9, 13, 16)
    assert mesh.owners.tolist() == [0] * 4 + [1] * 4 + [2] * 4 + [3] * 4
    assert mesh.places[9].tolist() == [150.0, 150.0]
    assert not mesh.places.flags.writeable


@pytest.mark.parametrize("degrees", [1.0, 30.0, 90.0, 137.0])
def test_a_turned_grid_is_joined_alike(degrees: float) -> None:
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    turned = [Spot(x=c * p.x - s * p.y, y=s * p.x + c * p.y, z=0.0, sigma=1.0) for p in FLAT_GRID]
    assert mesh_of(turned).rings == mesh_of(FLAT_GRID).rings


def test_spots_off_a_grid_are_joined_to_triangles() -> None:
    mesh = mesh_of(
        spots({(0.0, 0.0): 0.0, (400.0, 10.0): 0.0, (390.0, 320.0): 0.0, (5.0, 250.0): 0})
    )
    assert sorted(len(ring) for ring in mesh.rings) == [3, 3]
    assert (mesh.spots, len(mesh.places)) == (4, 4)


def test_spots_nearly_in_line_along_the_edge_make_no_threads() -> None:
    bent = {(0.0, 0.0): 0.0, (300.0, 1e-9): 0.0, (600.0, 0.0): 0.0, (300.0, 400.0): 0.0}
    mesh = mesh_of(spots(bent))
    assert mesh.rings == ((0, 1, 3), (1, 2, 3))


def test_the_middle_of_a_cell_is_the_mean_of_its_corners() -> None:
    mesh = mesh_of(grid([0.0, 8.0], [4.0, 0.0]))
    assert over_places(mesh, np.array([4.0, 0.0, 0.0, 8.0])).tolist() == [4, 0, 0, 8, 3]


def test_volume_over_a_rectangle_is_its_area_times_the_mean_of_its_corners() -> None:
    mesh, depths = surface(grid([1.0, 5.0], [2.0, 4.0]))
    assert volumes(mesh, depths, box(0, 0, 300, 300)) == pytest.approx((3.0 * 300**2,))


def test_volume_is_counted_on_the_wall_only() -> None:
    mesh, depths = surface(grid([2.0, 2.0, 2.0], [2.0, 2.0, 2.0]))
    wall = box(0, 0, 450, 300).difference(box(0, 0, 100, 150))
    assert volumes(mesh, depths, wall) == pytest.approx((150_000.0, 90_000.0))
    assert volumes(mesh, depths, box(700, 0, 800, 300)) == (0.0, 0.0)


def test_a_sloping_depth_is_cut_where_it_passes_through_nought() -> None:
    # Depth falls from 3 at the left to -3 at the right: a wedge over the left half.
    mesh, depths = surface(grid([3.0, -3.0], [3.0, -3.0]))
    assert volumes(mesh, depths, box(0, 0, 300, 300)) == pytest.approx((3 / 2 * 150 * 300,))


def test_a_depth_of_nothing_has_no_volume() -> None:
    mesh, depths = surface(grid([-3.0, 0.0], [-1.0, -2.0]))
    assert volumes(mesh, depths, box(0, 0, 300, 300)) == (0.0,)


def test_one_corner_of_a_triangle_above_nought() -> None:
    triangle = {(0.0, 0.0): 4.0, (400.0, 0.0): -4.0, (0.0, 300.0): -4.0}
    mesh, depths = surface(spots(triangle))
    # A pyramid on the near quarter, half as wide and half as high: a third of area times height.
    wall = Polygon([(0, 0), (400, 0), (0, 300)])
    assert volumes(mesh, depths, wall) == pytest.approx((200 * 150 / 2 * 4 / 3,))
