"""Patterns: a unit cell of modules and the two vectors that repeat it over a wall."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product
from math import ceil, cos, floor, radians, sin, sqrt
from typing import TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import Polygon

from gaugerod.core.base.geometry import SNAP, Box, Point, bounds_of

Number: TypeAlias = tuple[int, int, int]
"""Steps along the two vectors, and the place in the unit cell."""

ROWS = range(-4, 5)
"""Rows that are searched for what lies on a line; in no bond here do more differ."""
SAME = 1e-3
"""Places this near are one. [mm]"""

_QUARTER = 90
_ROOT = sqrt(0.5)
_EIGHTHS: dict[float, Point] = {
    0: (1.0, 0.0),
    45: (_ROOT, _ROOT),
    90: (0.0, 1.0),
    135: (-_ROOT, _ROOT),
    180: (-1.0, 0.0),
    225: (-_ROOT, -_ROOT),
    270: (0.0, -1.0),
    315: (_ROOT, -_ROOT),
}
"""Eighths of a turn, exact where floats can be."""


def way(degrees: float) -> Point:
    """Return the unit vector that a turn anticlockwise carries the level to.

    Parameters
    ----------
    degrees
        The turn. [degrees]

    Returns
    -------
    tuple of float
        Cosine and sine; exact for quarter turns. [1]

    Notes
    -----
    Source: elementary geometry.

    Examples
    --------
    >>> way(270)
    (0.0, -1.0)
    """
    turn = degrees % 360
    if turn in _EIGHTHS:
        return _EIGHTHS[turn]
    return cos(radians(turn)), sin(radians(turn))


def rotated(point: Point, degrees: float) -> Point:
    """Return a point turned anticlockwise about the origin.

    Parameters
    ----------
    point
        The point. [mm]
    degrees
        The turn. [degrees]

    Returns
    -------
    tuple of float
        Where it comes to lie. [mm]

    Notes
    -----
    Source: elementary geometry.

    Examples
    --------
    >>> rotated((2.0, 1.0), 90)
    (-1.0, 2.0)
    """
    (x, y), (c, s) = point, way(degrees)
    return (c * x - s * y, s * x + c * y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Module:
    """One module on a wall: `at` is the lower left of its face, arrow up. [mm].

    `face` is width and height in its own frame, `turn` anticlockwise from module to wall.
    [degrees].
    """

    at: Point
    face: tuple[float, float]
    turn: int = 0

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Its four corners, anticlockwise. [mm]."""
        (x, y), (w, h) = self.at, self.face
        (ax, ay), (bx, by) = rotated((w, 0.0), self.turn), rotated((0.0, h), self.turn)
        return ((x, y), (x + ax, y + ay), (x + ax + bx, y + ay + by), (x + bx, y + by))

    @property
    def centre(self) -> Point:
        """Its middle. [mm]."""
        dx, dy = rotated((self.face[0] / 2, self.face[1] / 2), self.turn)
        return (self.at[0] + dx, self.at[1] + dy)

    @property
    def around(self) -> Box:
        """The upright box round it. [mm]."""
        return bounds_of((self.corners,))

    @property
    def shape(self) -> Polygon:
        """The same rectangle as a polygon. [mm]."""
        return Polygon(self.corners)


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A unit cell of modules, repeated by two vectors from an origin. [mm].

    The origin is the middle of a crossing of joints. `joint` is left between all modules.
    """

    cell: tuple[Module, ...]
    across: Point
    up: Point
    joint: float
    origin: Point = (0.0, 0.0)

    @property
    def rise(self) -> float:
        """Height from one level row of crossings to the next. [mm]."""
        least = min(min(unit.face) for unit in self.cell) / 4
        low, high = sorted((abs(self.across[1]), abs(self.up[1])))
        first = low if low > least else high
        # The longest step that both vectors are whole numbers of, if there is one worth the name.
        while low > SNAP:
            low, high = sorted((low, high % low))
            low = 0.0 if high - low < SNAP else low
        return high if high > least else first

    @property
    def span(self) -> float:
        """Distance along the level after which a row of crossings repeats. [mm]."""
        (ax, ay), (ux, uy) = self.across, self.up
        return abs(ax * uy - ay * ux) / self.rise

    def columns(self, x: float) -> list[float]:
        """Return where things alike lie along the level, over all rows. [mm].

        Parameters
        ----------
        x
            How far one of them lies from the origin. [mm]

        Returns
        -------
        list of float
            Each place once, from the origin to less than a `span` beyond it. [mm]

        Notes
        -----
        Source: own derivation.

        Examples
        --------
        >>> half = running(face=(597.0, 297.0), joint=3.0, shift=300.0)
        >>> half.columns(0.0)
        [0.0, 300.0]
        """
        around = round(self.span / SAME)
        steps = product(ROWS, ROWS)
        places = (x + i * self.across[0] + j * self.up[0] for i, j in steps)
        return [place * SAME for place in sorted({round(p / SAME) % around for p in places})]

    def plumb(self, near: float) -> float:
        """Return the place of a plumb line through crossings, the nearest to a place.

        Parameters
        ----------
        near
            The place. [mm]

        Returns
        -------
        float
            Where the line stands. [mm]

        Notes
        -----
        Source: own derivation.

        Examples
        --------
        >>> running(face=(97.0, 97.0), joint=3.0, shift=0.0).at((10.0, 0.0)).plumb(290.0)
        310.0
        """
        offs = ((x - near + self.origin[0]) for x in self.columns(0.0))
        moved = (off - self.span * round(off / self.span) for off in offs)
        return near + min(moved, key=abs)

    def at(self, origin: Point) -> "Pattern":
        """Return the same pattern with its origin elsewhere. [mm]."""
        return replace(self, origin=origin)

    def module(self, number: Number) -> Module:
        """Return one module by its number. [mm]."""
        i, j, k = number
        unit = self.cell[k]
        return replace(
            unit,
            at=(
                self.origin[0] + i * self.across[0] + j * self.up[0] + unit.at[0],
                self.origin[1] + i * self.across[1] + j * self.up[1] + unit.at[1],
            ),
        )

    def course(self, module: Module) -> int:
        """Return the level row that the middle of a module lies in: 1 is the one below the origin.

        Parameters
        ----------
        module
            A module of this pattern. [mm]

        Returns
        -------
        int
            Number of the row, counted upwards.

        Notes
        -----
        Source: own design.

        Examples
        --------
        >>> grid = running(face=(97.0, 97.0), joint=3.0, shift=0.0)
        >>> grid.course(grid.module((0, -1, 0)))
        1
        """
        return ceil((module.centre[1] - self.origin[1] - SNAP) / self.rise) + 1

    def modules(self, bounds: Box) -> Iterator[tuple[Number, Module]]:
        """Yield every module whose rectangle meets a box, with its number.

        Parameters
        ----------
        bounds
            The box. [mm]

        Yields
        ------
        tuple
            Number and module. A module has the same number whatever the box. [mm]

        Notes
        -----
        As `shapes`. Source: own derivation.

        Examples
        --------
        >>> grid = running(face=(97.0, 97.0), joint=3.0, shift=0.0)
        >>> box = Box(left=0.0, bottom=0.0, right=150.0, top=100.0)
        >>> [number for number, _ in grid.modules(box)]
        [(0, 0, 0), (1, 0, 0)]
        """
        numbers, _ = self.shapes(bounds)
        for number in numbers:
            yield number, self.module(number)

    def shapes(self, bounds: Box) -> tuple[list[Number], NDArray[np.object_]]:
        """Return the number and the rectangle of every module that meets a box.

        Parameters
        ----------
        bounds
            The box. [mm]

        Returns
        -------
        tuple
            Numbers, and as many polygons. [mm]

        Notes
        -----
        The box, grown by the module, is carried into steps of the two vectors; of the modules
        between the extremes those stay that share an area with it. Source: own derivation.

        Examples
        --------
        >>> grid = running(face=(97.0, 97.0), joint=3.0, shift=0.0)
        >>> numbers, shapes = grid.shapes(Box(left=0.0, bottom=0.0, right=50.0, top=100.0))
        >>> numbers, float(shapes[0].area)
        ([(0, 0, 0)], 9409.0)
        """
        window = shapely.box(bounds.left, bounds.bottom, bounds.right, bounds.top)
        numbers: list[Number] = []
        found: list[NDArray[np.object_]] = []
        for k, unit in enumerate(self.cell):
            steps = self._between(unit.around, bounds)
            moved = steps @ np.array([self.across, self.up]) + np.array(self.origin)
            shapes = shapely.polygons(np.array(unit.corners)[None, :, :] + moved[:, None, :])
            meets = shapely.intersects(window, shapes) & ~shapely.touches(window, shapes)
            numbers += [(i, j, k) for i, j in steps[meets].tolist()]
            found.append(shapes[meets])
        return numbers, np.concatenate(found)

    def _between(self, unit: Box, bounds: Box) -> NDArray[np.int64]:
        """Return the steps at which the box round one module may meet the bounds."""
        (ax, ay), (ux, uy) = self.across, self.up
        lows = bounds.left - unit.right, bounds.bottom - unit.top
        highs = bounds.right - unit.left, bounds.top - unit.bottom
        steps = []
        for x, y in product((lows[0], highs[0]), (lows[1], highs[1])):
            dx, dy = x - self.origin[0], y - self.origin[1]
            turn = ax * uy - ay * ux
            steps.append(((dx * uy - dy * ux) / turn, (ax * dy - ay * dx) / turn))
        spans = [range(floor(min(s)), ceil(max(s)) + 1) for s in zip(*steps, strict=True)]
        return np.array(list(product(*spans)), dtype=np.int64)


def running(*, face: tuple[float, float], joint: float, shift: float) -> Pattern:
    """Return level courses of equal modules, each moved against the one below.

    Parameters
    ----------
    face
        Width and height of a module. [mm]
    joint
        Joint all round. [mm]
    shift
        How far a course moves against the one below. [mm]

    Returns
    -------
    Pattern
        Stack bond where `shift` is nought, else a running bond. [mm]

    Notes
    -----
    Source: trade definition.

    Examples
    --------
    >>> running(face=(597.0, 297.0), joint=3.0, shift=300.0).up
    (300.0, 300.0)
    """
    half = joint / 2
    return Pattern(
        cell=(Module(at=(half, half), face=face),),
        across=(face[0] + joint, 0.0),
        up=(shift, face[1] + joint),
        joint=joint,
    )


def herringbone(*, face: tuple[float, float], joint: float, n: int) -> Pattern:
    """Return modules laid in an L and repeated in steps of one short side, up and across.

    Parameters
    ----------
    face
        Width and height of a module. [mm]
    joint
        Joint all round. [mm]
    n
        How many short sides, each with a joint, go into a long one with its own.

    Returns
    -------
    Pattern
        Herringbone with its modules level and plumb. [mm]

    Notes
    -----
    In steps of the short side with its joint a lying module takes ``n x 1`` from the origin
    and a standing one ``1 x n`` from (0, 1). The vectors are (1, 1) and (2n, 0): their
    parallelogram has the area ``2n`` of the two modules, so they leave nothing bare.
    Source: own derivation.

    Examples
    --------
    >>> herringbone(face=(597.0, 297.0), joint=3.0, n=2).across
    (1200.0, 0.0)
    """
    step, half = min(face) + joint, joint / 2
    # A module taller than wide lies when it is turned a quarter.
    lies, stands = (0, 90) if face[0] > face[1] else (90, 0)
    return Pattern(
        cell=(
            _seated(face, lies, (half, half)),
            _seated(face, stands, (half, step + half)),
        ),
        across=(2 * n * step, 0.0),
        up=(step, step),
        joint=joint,
    )


def _seated(face: tuple[float, float], turn: int, low: Point) -> Module:
    """Return a module turned by quarters with the lower left of its place given."""
    around = Module(at=(0.0, 0.0), face=face, turn=turn).around
    return Module(at=(low[0] - around.left, low[1] - around.bottom), face=face, turn=turn)


def turned(pattern: Pattern, degrees: int) -> Pattern:
    """Return a pattern turned as a whole about its origin.

    Parameters
    ----------
    pattern
        The pattern. [mm]
    degrees
        The turn, anticlockwise. [degrees]

    Returns
    -------
    Pattern
        The same modules and joints, turned. [mm]

    Notes
    -----
    No module hangs with its arrow down: half a turn more takes up the same place. Source:
    elementary geometry.

    Examples
    --------
    >>> grid = running(face=(97.0, 97.0), joint=3.0, shift=0.0)
    >>> [round(x, 3) for x in turned(grid, 45).across]
    [70.711, 70.711]
    """
    return Pattern(
        cell=tuple(_hung(unit, degrees) for unit in pattern.cell),
        across=rotated(pattern.across, degrees),
        up=rotated(pattern.up, degrees),
        joint=pattern.joint,
        origin=rotated(pattern.origin, degrees),
    )


def _hung(unit: Module, degrees: int) -> Module:
    """Return a module turned about the origin, its arrow up or level."""
    turn = (unit.turn + degrees) % 360
    moved = Module(at=rotated(unit.at, degrees), face=unit.face, turn=turn)
    if _QUARTER < turn <= 3 * _QUARTER:
        return replace(moved, at=moved.corners[2], turn=(turn + 2 * _QUARTER) % 360)
    return moved
