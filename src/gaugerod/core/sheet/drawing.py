"""A drawing as data: primitives with layers, in millimetres of the thing drawn."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import Box, Point, Region

Layer: TypeAlias = Literal[
    "outline",
    "piece",
    "cut",
    "waste",
    "keep",
    "opening",
    "fixture",
    "hole",
    "trim",
    "datum",
    "course",
    "dimension",
    "tag",
    "bare",
    "joint",
    "lining",
    "profile",
    "plate",
    "body",
    "curve",
    "beyond",
    "saw",
    "accent",
]
Anchor: TypeAlias = Literal["start", "middle", "end"]
Turn: TypeAlias = Literal[0, 90]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A straight line. [mm]."""

    layer: Layer
    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Area:
    """A filled polygon. [mm].

    `tone` is how dark it is shaded, from nought (light) to one; without it the fill is that of
    the layer. [1]
    """

    layer: Layer
    region: Region
    tone: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Circle:
    """A circle. [mm]."""

    layer: Layer
    centre: Point
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Text:
    """A short text; `height` is that of its capitals on the drawn thing. [mm].

    `at` lies half-way up the capitals, at the anchor; `turn` is anticlockwise. [degrees].
    """

    layer: Layer
    at: Point
    text: str
    height: float
    anchor: Anchor
    turn: Turn


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A dimension between two points, its line set off from them, with its text. [mm].

    `offset` moves the dimension line to the left of the way from `start` to `end`. The text
    stands at `label`: the sheet has placed it clear of its neighbours.
    """

    layer: Layer
    start: Point
    end: Point
    offset: float
    label: Text

    @property
    def line(self) -> tuple[Point, Point]:
        """The ends of the dimension line. [mm]."""
        (x0, y0), (x1, y1) = self.start, self.end
        length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        across = (-(y1 - y0) / length * self.offset, (x1 - x0) / length * self.offset)
        return (x0 + across[0], y0 + across[1]), (x1 + across[0], y1 + across[1])


Item: TypeAlias = Line | Area | Circle | Text | Dimension


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawing:
    """A titled drawing; `bounds` holds every item. [mm]."""

    name: str
    title: str
    bounds: Box
    items: tuple[Item, ...]
