"""Models as binary glTF 2.0: metres, y up, one mesh for each body, the same bytes each time.

Source: glTF 2.0 specification, sections 3.6 to 3.9 and 4 (binary glTF): found.
"""

import json
import struct
from collections.abc import Iterable, Mapping
from itertools import chain
from typing import TypeAlias

from gaugerod.core.sheet.solids import Body, Model, Stuff
from gaugerod.core.sheet.space import Vector

_MAGIC, _VERSION, _JSON, _BINARY = 0x46546C67, 2, 0x4E4F534A, 0x004E4942
_FLOAT, _COUNT = 5126, 5125  # kinds of components: float and unsigned int, 4 bytes each
_POINTS, _INDICES = 34962, 34963  # what a view of the buffer is for
_METRE = 1000.0
_COLOURS: dict[Stuff, Vector] = {  # linear red, green, blue
    "wall": (0.90, 0.89, 0.86),
    "lining": (0.62, 0.68, 0.74),
    "accent": (0.20, 0.30, 0.40),
    "tub": (0.94, 0.94, 0.94),
    "floor": (0.45, 0.44, 0.42),
}

Data: TypeAlias = Mapping[str, object]


def glb(model: Model) -> bytes:
    """Write a model as binary glTF.

    Parameters
    ----------
    model
        The model.

    Returns
    -------
    bytes
        A file that a viewer of models opens. No normals are written: a viewer then shades
        each triangle as the flat face that it is.
    """
    stuffs = list(_COLOURS)
    points = [_points(body) for body in model.bodies]
    indices = [_packed("I", chain.from_iterable(body.triangles)) for body in model.bodies]
    views, binary = _laid((_POINTS, points), (_INDICES, indices))
    count = len(model.bodies)
    document: Data = {
        "asset": {"version": "2.0"},
        "scene": 0,
        "scenes": [{"name": model.title, "nodes": list(range(count))}],
        "nodes": [{"name": body.name, "mesh": at} for at, body in enumerate(model.bodies)],
        "meshes": [
            {"name": body.name, "primitives": [_primitive(at, count, stuffs.index(body.stuff))]}
            for at, body in enumerate(model.bodies)
        ],
        "materials": [_material(stuff) for stuff in stuffs],
        "accessors": [
            *(_places(at, body) for at, body in enumerate(model.bodies)),
            *(_numbers(count + at, body) for at, body in enumerate(model.bodies)),
        ],
        "bufferViews": views,
        "buffers": [{"byteLength": len(binary)}],
    }
    text = json.dumps(document, separators=(",", ":"), ensure_ascii=False).encode()
    text += b" " * (-len(text) % 4)
    chunks = _chunk(_JSON, text) + _chunk(_BINARY, binary)
    return struct.pack("<III", _MAGIC, _VERSION, 12 + len(chunks)) + chunks


def _chunk(kind: int, content: bytes) -> bytes:
    return struct.pack("<II", len(content), kind) + content


def _packed(kind: str, values: Iterable[float]) -> bytes:
    found = list(values)
    return struct.pack(f"<{len(found)}{kind}", *found)


def _turned(point: Vector) -> Vector:
    """Return a place as glTF has it: metres, y up, z toward who looks."""
    x, y, z = point
    return x / _METRE, z / _METRE, -y / _METRE


def _points(body: Body) -> bytes:
    return _packed("f", chain.from_iterable(map(_turned, body.points)))


def _laid(*groups: tuple[int, list[bytes]]) -> tuple[list[Data], bytes]:
    """Lay parts one after another; all are whole counts of 4 bytes, so none needs filling."""
    views: list[Data] = []
    offset = 0
    for target, parts in groups:
        for part in parts:
            view = {"buffer": 0, "byteOffset": offset, "byteLength": len(part), "target": target}
            views.append(view)
            offset += len(part)
    return views, b"".join(part for _, parts in groups for part in parts)


def _primitive(at: int, count: int, material: int) -> Data:
    return {"attributes": {"POSITION": at}, "indices": count + at, "material": material}


def _places(view: int, body: Body) -> Data:
    # The reader holds the bounds against what is stored, so they are rounded as that is.
    stored = struct.iter_unpack("<3f", _points(body))
    axes = list(zip(*stored, strict=True))
    return {
        "bufferView": view,
        "componentType": _FLOAT,
        "count": len(body.points),
        "type": "VEC3",
        "min": [min(axis) for axis in axes],
        "max": [max(axis) for axis in axes],
    }


def _numbers(view: int, body: Body) -> Data:
    return {
        "bufferView": view,
        "componentType": _COUNT,
        "count": 3 * len(body.triangles),
        "type": "SCALAR",
    }


def _material(stuff: Stuff) -> Data:
    colour = [*_COLOURS[stuff], 1.0]
    look = {"baseColorFactor": colour, "metallicFactor": 0.0, "roughnessFactor": 0.6}
    return {"name": stuff, "pbrMetallicRoughness": look}
