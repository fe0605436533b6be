"""The lattice of modules on a wall: courses, places, and the cell of each."""

from dataclasses import dataclass
from math import ceil, floor

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import Key, System


@dataclass(frozen=True, slots=True, kw_only=True)
class Lattice:
    """A pattern of equal cells, as the modules hang on the wall. [mm].

    Course 1 has its top at `first_course`; some module of it has its left edge at `phase`;
    each course moves by `row_shift` against the one below.
    """

    face: tuple[float, float]
    pitch: tuple[float, float]
    first_course: float
    phase: float
    row_shift: float

    def row_top(self, course: int) -> float:
        """Return the height of the top of a course, from the datum. [mm]."""
        return self.first_course + (course - 1) * self.pitch[1]

    def row_bottom(self, course: int) -> float:
        """Return the height of the bottom of a course, from the datum. [mm]."""
        return self.row_top(course) - self.face[1]

    def row_start(self, course: int) -> float:
        """Return the left edge of some module of a course. [mm]."""
        return self.phase + (course - 1) * self.row_shift

    def cell(self, course: int, number: int) -> Box:
        """Return the cell of the module `number` steps from the row's start. [mm]."""
        left = self.row_start(course) + number * self.pitch[0]
        bottom = self.row_bottom(course)
        return Box(left=left, bottom=bottom, right=left + self.face[0], top=bottom + self.face[1])

    def courses(self, *, bottom: float, top: float) -> range:
        """Return the courses that lie, wholly or in part, between two heights.

        Parameters
        ----------
        bottom, top
            The two heights, from the datum. [mm]

        Returns
        -------
        range
            Numbers of the courses.

        Notes
        -----
        Source: own derivation.

        Examples
        --------
        >>> grid = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=290.0,
        ...     phase=0.0, row_shift=0.0)
        >>> grid.courses(bottom=0.0, top=900.0)
        range(1, 5)
        """
        low = floor((bottom - self.first_course + SNAP) / self.pitch[1]) + 2
        high = ceil((top - self.row_bottom(1) - SNAP) / self.pitch[1])
        return range(low, high + 1)

    def numbers(self, course: int, *, left: float, right: float) -> range:
        """Return the modules of a course that lie, wholly or in part, in a stretch.

        Parameters
        ----------
        course
            Number of the course.
        left, right
            Ends of the stretch. [mm]

        Returns
        -------
        range
            Steps from the row's start.

        Notes
        -----
        Source: own derivation.

        Examples
        --------
        >>> grid = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=290.0,
        ...     phase=450.0, row_shift=0.0)
        >>> grid.numbers(1, left=0.0, right=1500.0)
        range(-1, 2)
        """
        start = self.row_start(course)
        low = floor((left - start - self.face[0] + SNAP) / self.pitch[0]) + 1
        high = ceil((right - start - SNAP) / self.pitch[0]) - 1
        return range(low, high + 1)


def hung(system: System, turn: Turn) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return face and pitch as a module hangs on the wall.

    Parameters
    ----------
    system
        The material. [mm]
    turn
        ``lying`` or ``standing``.

    Returns
    -------
    tuple of tuple of float
        Width and height of the face, and the pitch across and up. [mm]

    Notes
    -----
    Pitch is joint to joint: face and joint. Source: trade definition.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> hung(sample_system(), "standing")
    ((300.0, 600.0), (300.0, 600.0))
    """
    (w, h), (jx, jy) = system.face, system.joint
    if turn == "standing":
        w, h, jx, jy = h, w, jy, jx
    return (w, h), (w + jx, h + jy)


_STANDING: dict[Side, Side] = {"left": "top", "right": "bottom", "bottom": "left", "top": "right"}


def module_side(side: Side, turn: Turn) -> Side:
    """Return which edge of the module lies at a side of its cell on the wall.

    Parameters
    ----------
    side
        Side of the cell on the wall.
    turn
        ``standing`` is a quarter turn anticlockwise.

    Returns
    -------
    str
        Edge of the module.

    Notes
    -----
    Source: own derivation; a quarter turn anticlockwise carries right to top.

    Examples
    --------
    >>> module_side("top", "standing")
    'right'
    """
    return _STANDING[side] if turn == "standing" else side


def key_at(system: System, side: Side, turn: Turn) -> Key:
    """Return what the module carries at a side of its cell on the wall.

    Parameters
    ----------
    system
        The material.
    side
        Side of the cell on the wall.
    turn
        ``lying`` or ``standing``.

    Returns
    -------
    str
        ``tongue``, ``groove`` or ``plain``.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> key_at(sample_system(), "left", "standing")
    'tongue'
    """
    return system.edges[module_side(side, turn)]
