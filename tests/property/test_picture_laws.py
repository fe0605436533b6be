"""What always holds of the picture and the model: all in bounds, turned to the eye, closed."""

from collections import Counter

import pytest
from hypothesis import given
from tests.property.alcoves import Alcove as True_
from tests.property.alcoves import Lined, alcoves, keyed, lined, share, surveyed, tiles

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import shape_of
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.sheet.drawing import Area
from gaugerod.core.sheet.eye import is_turned_to
from gaugerod.core.sheet.picture import draw_picture
from gaugerod.core.sheet.solids import Body, model_of
from gaugerod.core.sheet.space import Alcove

WORDS = Catalogue(display=METRIC, sentences={"sheet.picture": "The alcove"})


def finished(made: True_) -> Alcove:
    found: Lined = lined(surveyed(made), made.system)
    layout = found.short.layouts[0]
    pieces = tuple(found.pieces(layout))
    return Alcove(walls=found.walls, layout=layout, pieces=pieces, insides=(), system=made.system)


@share(5)
@given(alcoves(keyed() | tiles()))
def test_every_area_is_in_bounds_and_turned_to_the_eye(made: True_) -> None:
    drawing = draw_picture(finished(made), WORDS)
    areas = [item for item in drawing.items if isinstance(item, Area)]
    for area in areas:
        outer, *holes = area.region.rings
        assert is_turned_to(outer)
        assert not any(is_turned_to(hole) for hole in holes)
        assert shape_of(area.region).is_valid
        for x, y in outer:
            assert drawing.bounds.left < x < drawing.bounds.right
            assert drawing.bounds.bottom < y < drawing.bounds.top


@share(5)
@given(alcoves(keyed() | tiles()))
def test_pieces_of_the_model_are_closed_and_lose_nothing(made: True_) -> None:
    alcove = finished(made)
    bodies = {body.name: body for body in model_of(alcove, "Alcove").bodies}
    for piece in alcove.pieces:
        body = bodies[piece.tag]
        assert is_closed(body)
        expected = shape_of(piece.region).area * alcove.system.thickness
        assert volume(body) == pytest.approx(expected, rel=1e-6)


def is_closed(body: Body) -> bool:
    runs = Counter((t[i], t[(i + 1) % 3]) for t in body.triangles for i in range(3))
    return all(number == 1 and runs[b, a] == 1 for (a, b), number in runs.items())


def volume(body: Body) -> float:
    total = 0.0
    ox, oy, oz = body.points[0]
    for triangle in body.triangles:
        (ax, ay, az), (bx, by, bz), (cx, cy, cz) = (
            (x - ox, y - oy, z - oz) for x, y, z in (body.points[at] for at in triangle)
        )
        total += ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)
    return total / 6
