"""Models are read again by a library of its own and measured; the bytes are the same each time."""

import json
import struct
from io import BytesIO
from typing import Any

import pytest
import trimesh
from tests.fixtures_plan import keyed_plan, tiled_plan

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.solids import Body, Model
from gaugerod.packet.picture import model
from gaugerod.writers.glb import glb

TRUE = 1e-4
"""Places are stored to some ten-millionths: sizes of pieces hold to this share."""


@pytest.fixture(params=[keyed_plan, tiled_plan], ids=["keyed", "tiled"])
def plan(request: pytest.FixtureRequest) -> Plan:
    made = request.param()
    assert isinstance(made, Plan)
    return made


def read(made: bytes) -> Any:  # noqa: ANN401  (the library has no types)
    return trimesh.load_scene(BytesIO(made), file_type="glb").geometry


def test_a_piece_is_watertight_and_as_large_as_its_area_by_its_thickness(plan: Plan) -> None:
    bodies = read(glb(model(plan)))
    pieces = (*plan.pieces, *(piece for inside in plan.insides for piece in inside.pieces))
    for piece in pieces:
        body = bodies[piece.tag]
        assert body.is_watertight, piece.tag
        expected = shape_of(piece.region).area * plan.system.thickness / 1e9
        assert body.volume == pytest.approx(expected, rel=TRUE)


def test_a_wall_is_as_large_as_it_was_measured(plan: Plan) -> None:
    bodies = read(glb(model(plan)))
    for wall, axis in (("L", 2), ("B", 0), ("R", 2)):
        (fitted,) = (one for one in plan.walls.walls if one.name == wall)
        xs, ys = zip(*fitted.outline, strict=True)
        size = bodies[f"wall {wall}"].extents
        # A lean of some mm over the height is all that a plane out of plumb adds or takes.
        assert size[axis] == pytest.approx((max(xs) - min(xs)) / 1000, abs=1e-4)
        assert size[1] == pytest.approx((max(ys) - min(ys)) / 1000, abs=1e-3)


def test_it_stands_on_its_floor_in_metres_with_y_up(plan: Plan) -> None:
    bounds = trimesh.load_scene(BytesIO(glb(model(plan))), file_type="glb").bounds
    assert bounds[0][1] == 0.0
    assert 1.8 < bounds[1][1] < 2.6
    assert 1.4 < bounds[1][0] - bounds[0][0] < 1.8


def test_the_same_model_gives_the_same_bytes(plan: Plan) -> None:
    assert glb(model(plan)) == glb(model(plan))


def test_the_file_is_made_as_the_standard_says() -> None:
    """Header, chunk of JSON filled with blanks, chunk of numbers; each whole words long."""
    points = ((0.0, 0.0, 0.0), (1000.0, 0.0, 0.0), (0.0, 0.0, 2000.0))
    body = Body(name="å", stuff="tub", points=points, triangles=((0, 1, 2),))
    made = glb(Model(title="one", bodies=(body,)))
    magic, version, length, size, kind = struct.unpack("<4sIII4s", made[:20])
    assert (magic, version, length, kind) == (b"glTF", 2, len(made), b"JSON")
    assert size % 4 == 0
    document = json.loads(made[20 : 20 + size])
    assert document["asset"] == {"version": "2.0"}
    places, numbers = document["accessors"]
    assert (places["min"], places["max"]) == ([0.0, 0.0, 0.0], [1.0, 2.0, 0.0])
    assert (places["count"], numbers["count"]) == (3, 3)
    rest = made[20 + size :]
    assert struct.unpack("<I4s", rest[:8]) == (len(rest) - 8, b"BIN\0")
    assert struct.unpack("<9f3I", rest[8:]) == (0, 0, 0, 1, 0, 0, 0, 2, 0, 0, 1, 2)
    assert (
        document["materials"][document["meshes"][0]["primitives"][0]["material"]]["name"] == "tub"
    )
