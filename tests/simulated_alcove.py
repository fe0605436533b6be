"""Invented alcoves of known shape, and readings of them made by plain geometry."""

from dataclasses import dataclass
from math import hypot
from typing import Any

from numpy.random import Generator

from gaugerod.core.job.document import Job

Raw = dict[str, Any]
SIGMAS = {
    "width": 1.0,
    "deck": 0.7,
    "floor": 1.0,
    "ceiling": 1.0,
    "height": 1.0,
    "corner to corner": 1.5,
    "lean": 1.2,
    "hole": 1.5,
    "opening": 1.5,
}
"""The sigmas of good practice, as the program states them: common practice, no source. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shape:
    """One wall by its corners: lower left, lower right, upper right, upper left. [mm]."""

    name: str
    corners: tuple[tuple[float, float], ...]
    hole: tuple[float, float]
    window: tuple[float, float, float, float]

    def left(self, y: float) -> float:
        """Return x of the left edge at a height. [mm]."""
        return _on(self.corners[0], self.corners[3], y)

    def right(self, y: float) -> float:
        """Return x of the right edge at a height. [mm]."""
        return _on(self.corners[1], self.corners[2], y)


def _on(low: tuple[float, float], high: tuple[float, float], y: float) -> float:
    return low[0] + (high[0] - low[0]) * (y - low[1]) / (high[1] - low[1])


def draw_shapes(rng: Generator) -> tuple[Shape, ...]:
    """Draw three walls that share their corners' heights. Left edges pass x = 0 at the datum."""
    decks = -720 + rng.normal(0, 5, 4)
    ceilings = 1350 + rng.normal(0, 6, 4)
    shapes = []
    for place, (name, width) in enumerate((("L", 810.0), ("B", 1520.0), ("R", 800.0))):
        wide = width + rng.normal(0, 10)
        left = 0.0 if place == 0 else rng.normal(0, 0.004)
        right = 0.0 if place == 2 else rng.normal(0, 0.004)
        (d0, d1), (c0, c1) = decks[place : place + 2], ceilings[place : place + 2]
        corners = (
            (left * d0, float(d0)),
            (wide + right * d1, float(d1)),
            (wide + right * c1, float(c1)),
            (left * c0, float(c0)),
        )
        shapes.append(
            Shape(
                name=name,
                corners=corners,
                hole=(wide * rng.uniform(0.3, 0.7), rng.uniform(-500, 0)),
                window=(wide * 0.3, wide * 0.7, 200.0, 800.0),
            )
        )
    return tuple(shapes)


def exact_readings(shape: Shape) -> list[Raw]:
    """Return every reading of a wall without error. Stations run level from the left corner."""
    low, high = -650.0, 1250.0
    readings: list[Raw] = [
        {"kind": "width", "at": y, "reads": shape.right(y) - shape.left(y)}
        for y in (low, 300.0, high)
        for _ in (1, 2)
    ]
    for a, b in ((low, high), (high, low)):
        across = shape.right(b) - shape.left(a)
        reads = hypot(across, b - a)
        readings.append({"kind": "corner to corner", "left_at": a, "right_at": b, "reads": reads})
    lower_left, lower_right, upper_right, upper_left = shape.corners
    for share in (0.0, 0.5, 1.0):
        deck = lower_left[1] + share * (lower_right[1] - lower_left[1])
        at = share * (lower_right[0] - lower_left[0])
        readings.append({"kind": "deck", "at": at, "reads": -deck})
        ceiling = upper_left[1] + share * (upper_right[1] - upper_left[1])
        at = share * (upper_right[0] - upper_left[0])
        readings.append({"kind": "ceiling", "at": at, "reads": ceiling})
    for edge, lean in (
        ("left", upper_left[0] - lower_left[0]),
        ("right", lower_right[0] - upper_right[0]),
    ):
        over = (
            (upper_left[1] - lower_left[1]) if edge == "left" else upper_right[1] - lower_right[1]
        )
        readings.append({"kind": "lean", "edge": edge, "over": 1800, "reads": lean / over * 1800})
    x, y = shape.hole
    readings += [
        {"kind": "hole", "of": "valve", "from": "left", "reads": x - shape.left(y)},
        {"kind": "hole", "of": "valve", "from": "right", "reads": shape.right(y) - x},
        {"kind": "hole", "of": "valve", "from": "datum", "reads": y},
    ]
    x0, x1, sill, head = shape.window
    middle = (sill + head) / 2
    edges = {
        ("left", "left"): x0 - shape.left(middle),
        ("right", "right"): shape.right(middle) - x1,
        ("width", "itself"): x1 - x0,
        ("sill", "datum"): sill,
        ("head", "datum"): head,
        ("height", "itself"): head - sill,
    }
    readings += [
        {"kind": "opening", "of": "window", "edge": edge, "from": start, "reads": reads}
        for (edge, start), reads in edges.items()
    ]
    return readings


def read_with_errors(shapes: tuple[Shape, ...], rng: Generator) -> Raw:
    """Return a job whose readings are out by their stated sigmas."""
    walls = []
    for shape in shapes:
        readings = exact_readings(shape)
        for reading in readings:
            reading["reads"] += rng.normal(0, SIGMAS[str(reading["kind"])])
            if "at" in reading and reading["kind"] in {"deck", "ceiling"}:
                reading["at"] = max(reading["at"], 0.0)
        walls.append(
            {
                "name": shape.name,
                "readings": readings,
                "hole": [{"name": "valve", "diameter": 76}],
                "opening": [{"name": "window", "kind": "window"}],
            }
        )
    return {
        "format": 1,
        "name": "Simulated",
        "scenario": "Invented.",
        "unit": "mm",
        "survey": {"surface": "backer"},
        "choices": {"material": "any"},
        "calendar": {"start": "2026-03-02"},
        "wall": walls,
    }


def job_of(raw: Raw) -> Job:
    """Return the job of raw readings."""
    return Job.model_validate(raw)


def true_state(shapes: tuple[Shape, ...]) -> dict[str, float]:
    """Return the true value of every unknown of the shell. [mm, or mm per mm]."""
    state: dict[str, float] = {}
    for place, shape in enumerate(shapes):
        low_left, low_right, high_right, high_left = shape.corners
        state[f"width {shape.name}"] = shape.right(0.0) - shape.left(0.0)
        state[f"left {shape.name}"] = (high_left[0] - low_left[0]) / (high_left[1] - low_left[1])
        state[f"right {shape.name}"] = (high_right[0] - low_right[0]) / (
            high_right[1] - low_right[1]
        )
        state |= {f"deck {place}": low_left[1], f"deck {place + 1}": low_right[1]}
        state |= {f"ceiling {place}": high_left[1], f"ceiling {place + 1}": high_right[1]}
    return state
