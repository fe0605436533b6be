"""Between the wall and the module's own frame."""

from dataclasses import dataclass

from gaugerod.core.base.geometry import Box, Point, Region, bounds_of
from gaugerod.core.setout.pattern import rotated


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Where a module's frame lies on the wall.

    `at` is the lower left of the module's face, arrow up, on the wall. [mm]. `turn` is
    anticlockwise from module to wall. [degrees]. Lying, the origin is the lower left of the
    cell; standing, a quarter turned, it is the lower right, and the module's right points up.
    """

    at: Point
    turn: float = 0

    def to_module(self, point: Point) -> Point:
        """Return a point of the wall in the module's frame. [mm]."""
        return rotated((point[0] - self.at[0], point[1] - self.at[1]), -self.turn)

    def region_to_module(self, region: Region) -> Region:
        """Return a region of the wall in the module's frame. [mm]."""
        return Region(rings=tuple(tuple(map(self.to_module, ring)) for ring in region.rings))

    def box_of(self, region: Region) -> Box:
        """Return the box round a region of the wall, in the module's frame. [mm]."""
        return bounds_of(self.region_to_module(region).rings)


def seated(cell: Box, face: tuple[float, float], turn: float) -> Frame:
    """Return the frame of a module from the upright box round it.

    Parameters
    ----------
    cell
        The box round the module on the wall. [mm]
    face
        Width and height of the module, in its own frame. [mm]
    turn
        Anticlockwise from module to wall. [degrees]

    Returns
    -------
    Frame
        The frame. [mm]

    Notes
    -----
    A module turned by quarters begins in a corner of its box. Any other has the middle of its
    box for its own. Source: own derivation.

    Examples
    --------
    >>> cell = Box(left=0.0, bottom=0.0, right=300.0, top=600.0)
    >>> seated(cell, (600.0, 300.0), 90).at
    (300.0, 0.0)
    """
    corners: dict[float, Point] = {
        0: (cell.left, cell.bottom),
        90: (cell.right, cell.bottom),
        180: (cell.right, cell.top),
        270: (cell.left, cell.top),
    }
    dx, dy = rotated((face[0] / 2, face[1] / 2), turn)
    middle = ((cell.left + cell.right) / 2 - dx, (cell.bottom + cell.top) / 2 - dy)
    return Frame(at=corners.get(turn, middle), turn=turn)
