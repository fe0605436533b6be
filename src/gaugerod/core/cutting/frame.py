"""Between the wall and the module's own frame."""

from dataclasses import dataclass
from typing import Literal

from gaugerod.core.base.geometry import Box, Point, Region
from gaugerod.core.job.fields import Turn


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where a module's frame lies on the wall.

    Lying, the frame's origin is the lower left of the cell. Standing, the module is turned
    a quarter anticlockwise: its origin is the lower right of the cell, its right points up.
    """

    cell: Box
    turn: Turn

    @property
    def degrees(self) -> Literal[0, 90]:
        """Turn from module to wall, anticlockwise. [degrees]."""
        return 90 if self.turn == "standing" else 0

    def to_module(self, point: Point) -> Point:
        """Return a point of the wall in the module's frame. [mm]."""
        x, y = point
        if self.turn == "standing":
            return (y - self.cell.bottom, self.cell.right - x)
        return (x - self.cell.left, y - self.cell.bottom)

    def box_to_module(self, box: Box) -> Box:
        """Return an upright box of the wall in the module's frame. [mm]."""
        (x0, y0), (x1, y1) = (
            self.to_module((box.left, box.bottom)),
            self.to_module((box.right, box.top)),
        )
        return Box(left=min(x0, x1), bottom=min(y0, y1), right=max(x0, x1), top=max(y0, y1))

    def region_to_module(self, region: Region) -> Region:
        """Return a region of the wall in the module's frame. [mm]."""
        return Region(rings=tuple(tuple(map(self.to_module, ring)) for ring in region.rings))
