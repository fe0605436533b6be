"""How the courses above a line that lies off come to lie."""

from dataclasses import dataclass
from math import atan2, cos, degrees, radians, sin

from gaugerod.core.base.geometry import Point, Region

KEPT = 0.5
"""A joint may be this share of itself wider or narrower to bring courses back to level."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """The top of a course as it was found, from `left` to `right` along the wall. [mm].

    `off` is how far it lies off at the two ends, high positive.
    """

    course: int
    height: float
    left: float
    right: float
    off: tuple[float, float]

    def at(self, x: float) -> float:
        """Return the height of the line at a place along the wall.

        Parameters
        ----------
        x
            The place, from the left corner. [mm]

        Returns
        -------
        float
            Height from the datum. [mm]

        Notes
        -----
        Source: equation of a line.

        Examples
        --------
        >>> Line(course=1, height=0.0, left=0.0, right=60.0, off=(0.0, -3.0)).at(20.0)
        -1.0
        """
        share = (x - self.left) / (self.right - self.left)
        return self.height + self.off[0] + share * (self.off[1] - self.off[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """A turn about a point of the wall, then a lift: how the courses above a line move. [mm].

    `tilt` is anticlockwise. [degrees].
    """

    about: Point
    tilt: float
    up: float

    def point(self, at: Point) -> Point:
        """Return where a point of the level set-out comes to lie. [mm]."""
        c, s = cos(radians(self.tilt)), sin(radians(self.tilt))
        x, y = at[0] - self.about[0], at[1] - self.about[1]
        return (self.about[0] + c * x - s * y, self.about[1] + s * x + c * y + self.up)

    def back(self, at: Point) -> Point:
        """Return which point of the level set-out comes to lie there. [mm]."""
        c, s = cos(radians(self.tilt)), sin(radians(self.tilt))
        x, y = at[0] - self.about[0], at[1] - self.about[1] - self.up
        return (self.about[0] + c * x + s * y, self.about[1] - s * x + c * y)

    def region(self, region: Region) -> Region:
        """Return where a region of the level set-out comes to lie. [mm]."""
        return Region(rings=tuple(tuple(map(self.point, ring)) for ring in region.rings))

    def region_back(self, region: Region) -> Region:
        """Return which region of the level set-out comes to lie there. [mm]."""
        return Region(rings=tuple(tuple(map(self.back, ring)) for ring in region.rings))


STILL = Move(about=(0.0, 0.0), tilt=0.0, up=0.0)
"""No move at all."""


def move_above(line: Line, *, joint: float) -> Move:
    """Return how the courses above a line move.

    Parameters
    ----------
    line
        The line as it was found. [mm]
    joint
        Joint between courses, >= 0. [mm]

    Returns
    -------
    Move
        The turn and the lift. [mm]

    Notes
    -----
    Modules without a joint stand on the line as it is: they turn with it about its middle.
    Over a joint the next course is hung level again, by no more lift than keeps the joint
    within `KEPT` of its width at both ends; where that can't be, in the middle between.
    Source: own derivation; that a joint takes up what the course below is off is common
    practice, no source.

    Examples
    --------
    A line 60 in long, 3/16 in low at its right end:

    >>> line = Line(course=1, height=0.0, left=0.0, right=60.0, off=(0.0, -0.1875))
    >>> move = move_above(line, joint=0.0)
    >>> round(move.up, 5), round(move.tilt, 3)
    (-0.09375, -0.179)

    A joint of 3 takes up a line that is 1 low, and lifts the next course a half over one
    that is 2 high:

    >>> low = Line(course=1, height=0.0, left=0.0, right=60.0, off=(0.0, -1.0))
    >>> move_above(low, joint=3.0).up
    0.0
    >>> high = Line(course=1, height=0.0, left=0.0, right=60.0, off=(1.0, 2.0))
    >>> move_above(high, joint=3.0).up
    0.5
    """
    low, high = min(line.off), max(line.off)
    middle = ((line.left + line.right) / 2, line.height)
    if joint > 0:
        least, most = high - KEPT * joint, low + KEPT * joint
        up = (least + most) / 2 if least > most else min(max(0.0, least), most)
        return Move(about=middle, tilt=0.0, up=up)
    tilt = atan2(line.off[1] - line.off[0], line.right - line.left)
    return Move(about=middle, tilt=degrees(tilt), up=sum(line.off) / 2)


def joints_over(line: Line, move: Move, *, joint: float) -> tuple[float, float]:
    """Return how wide the joint over a line comes out at its two ends.

    Parameters
    ----------
    line
        The line as it was found. [mm]
    move
        How the courses above it move. [mm]
    joint
        Joint between courses, >= 0. [mm]

    Returns
    -------
    tuple of float
        At the left and at the right end. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> low = Line(course=1, height=0.0, left=0.0, right=60.0, off=(0.0, -1.0))
    >>> joints_over(low, move_above(low, joint=3.0), joint=3.0)
    (3.0, 4.0)
    """
    ends = [move.point((x, line.height))[1] + joint - line.at(x) for x in (line.left, line.right)]
    return ends[0], ends[1]
