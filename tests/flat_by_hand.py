"""Walls, depths and limits made by hand, to judge flatness with. Invented, in mm."""

import tomllib
from collections.abc import Mapping, Sequence
from importlib.resources import files

import numpy as np

from gaugerod.core.base.geometry import Box, Edge
from gaugerod.core.job.document import Survey
from gaugerod.core.job.tolerances import Tolerance, Tolerances
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.mesh import Mesh, mesh_of, over_places
from gaugerod.core.survey.spots import Spot
from gaugerod.core.survey.walls import FittedOpening, FittedWall

DOCUMENT = tomllib.loads((files("gaugerod") / "data/tolerances/walls.toml").read_text("utf-8"))
LIMITS = Tolerances.model_validate(DOCUMENT, context={"unit": DOCUMENT["unit"]})
BY_ID: Mapping[str, Tolerance] = {row.id: row for row in LIMITS.tolerance}
BACKER = Survey(surface="backer")


def tolerance(**changes: object) -> Tolerance:
    """A limit of 3 mm under 2 m, or what it is changed to."""
    row: dict[str, object] = {
        "id": "by-hand",
        "about": "flat",
        "statement": "It is flat.",
        "allows": [{"over": 2000, "at_most": 3}],
        "advice": "Fill it.",
        "source": "Invented.",
        "sure": "calc",
    }
    return Tolerance.model_validate(row | changes)


def limits(*rows: Tolerance) -> Tolerances:
    return Tolerances(format=1, unit="mm", tolerance=rows)


def fitted(
    *,
    width: float = 1500.0,
    deck: tuple[float, float] = (-750.0, -750.0),
    left: float = 0.0,
    right: float = 0.0,
    openings: Sequence[Box] = (),
) -> FittedWall:
    """A wall from its deck to 1250 above the datum; `left` and `right` are slopes."""
    edges = Edge(offset=0.0, slope=left), Edge(offset=width, slope=right)
    feet = [(edge.at(y), y) for edge, y in zip(edges, deck, strict=True)]
    heads = [(edge.at(1250.0), 1250.0) for edge in edges]
    return FittedWall(
        name="B",
        left=edges[0],
        right=edges[1],
        deck=tuple(feet),
        ceiling=tuple(heads),
        outline=(*feet, *reversed(heads)),
        holes=(),
        openings=tuple(
            FittedOpening(name="window", kind="window", box=box, gap=None) for box in openings
        ),
        fixtures=(),
    )


def spots(heights: Mapping[tuple[float, float], float], *, sigma: float = 0.4) -> list[Spot]:
    """Spots at (x, y), each so high out of the wall."""
    return [Spot(x=x, y=y, z=z, sigma=sigma) for (x, y), z in heights.items()]


def grid(*rows: Sequence[float], step: float = 300.0) -> list[Spot]:
    """Heights row by row, the top row first as on a drawing; the lowest left spot is at 0, 0."""
    return spots(
        {
            (column * step, row * step): z
            for row, heights in enumerate(reversed(rows))
            for column, z in enumerate(heights)
        }
    )


def surface(read: Sequence[Spot]) -> tuple[Mesh, Array]:
    """Spots as a mesh and its heights."""
    mesh = mesh_of(read)
    return mesh, over_places(mesh, np.array([spot.z for spot in read]))
