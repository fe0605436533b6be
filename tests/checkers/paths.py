"""What a page of a PDF has drawn on it, read with pypdfium2, in millimetres of paper.

The user unit of a PDF is 1/72 in (ISO 32000-1, 8.3.2.3: found), and an inch is 25.4 mm exactly
(NIST SP 811: from memory). The origin is the lower left corner of the sheet.
"""

import ctypes
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise
from math import dist

import pypdfium2 as pdfium
from pypdfium2 import raw

UNIT = 25.4 / 72
Point = tuple[float, float]

_BEZIER, _MOVE = 1, 2  # kinds of segments; a line is nought
_PATH = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A circle. [mm]."""

    centre: Point
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """The straight strokes and the circles of a page. [mm]."""

    lines: tuple[tuple[Point, Point], ...]
    rounds: tuple[Round, ...]

    def level(self, *, at_least: float = 0.0) -> list[tuple[Point, Point]]:
        """Level strokes, left end first."""
        return [
            (min(line), max(line))
            for line in self.lines
            if abs(line[0][1] - line[1][1]) < 1e-3 and dist(*line) >= at_least
        ]

    def plumb(self, *, at_least: float = 0.0) -> list[tuple[Point, Point]]:
        """Plumb strokes, lower end first."""
        found = [line for line in self.lines if abs(line[0][0] - line[1][0]) < 1e-3]
        ordered = [tuple(sorted(line, key=lambda point: point[1])) for line in found]
        return [(low, high) for low, high in ordered if dist(low, high) >= at_least]


def drawn_on(page: pdfium.PdfPage) -> Drawn:
    lines: list[tuple[Point, Point]] = []
    rounds: list[Round] = []
    for item in page.get_objects(max_depth=8):
        if item.type != _PATH:
            continue
        points, kinds = _points(item)
        if _BEZIER in kinds:
            xs, ys = [x for x, _ in points], [y for _, y in points]
            wide, high = max(xs) - min(xs), max(ys) - min(ys)
            if abs(wide - high) < 1e-2:
                centre = ((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)
                rounds.append(Round(centre=centre, diameter=(wide + high) / 2))
            continue
        for (before, _), (after, kind) in pairwise(zip(points, kinds, strict=True)):
            if kind != _MOVE:
                lines.append((before, after))
    return Drawn(lines=tuple(lines), rounds=tuple(rounds))


def _points(item: pdfium.PdfObject) -> tuple[list[Point], list[int]]:
    matrix = item.get_matrix()
    points, kinds = [], []
    for number in range(raw.FPDFPath_CountSegments(item.raw)):
        segment = raw.FPDFPath_GetPathSegment(item.raw, number)
        x, y = ctypes.c_float(), ctypes.c_float()
        raw.FPDFPathSegment_GetPoint(segment, x, y)
        left, low = matrix.on_point(x.value, y.value)
        points.append((left * UNIT, low * UNIT))
        kinds.append(raw.FPDFPathSegment_GetType(segment))
    return points, kinds


def squares(drawn: Drawn, side: float, *, within: float) -> list[tuple[float, float]]:
    """Lower left corners of squares of that side whose four strokes are there. [mm]."""
    level, plumb = drawn.level(at_least=side - within), drawn.plumb(at_least=side - within)

    def near(one: Point, other: Point) -> bool:
        return dist(one, other) < within

    def has(found: Iterable[tuple[Point, Point]], start: Point, end: Point) -> bool:
        return any(near(a, start) and near(b, end) for a, b in found)

    return [
        (x, y)
        for (x, y), end in level
        if near(end, (x + side, y))
        and has(level, (x, y + side), (x + side, y + side))
        and has(plumb, (x, y), (x, y + side))
        and has(plumb, (x + side, y), (x + side, y + side))
    ]
