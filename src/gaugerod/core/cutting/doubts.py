"""Which pieces must be measured in place: those whose fit the survey leaves in doubt."""

from collections.abc import Collection
from dataclasses import dataclass
from itertools import pairwise

from gaugerod.core.base.geometry import SNAP, Box, Region
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.hide import EndFit, RimFit, end_fits, rim_fits
from gaugerod.core.setout.lattice import module_side
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.turned_odds import as_panels
from gaugerod.core.survey.walls import Walls


@dataclass(frozen=True, slots=True, kw_only=True)
class Doubts:
    """Ends of courses and edges of openings at which a piece may not fit as planned."""

    ends: tuple[EndFit, ...]
    rims: tuple[RimFit, ...]

    def at_end(self, wall: str, course: int, cell: Box, turn: Turn, sawn: Collection[Side]) -> bool:
        """Tell whether a piece is cut to an end in doubt.

        Parameters
        ----------
        wall
            Name of its wall.
        course
            Number of its course.
        cell
            The module that it is cut from, on the wall. [mm]
        turn
            How modules hang.
        sawn
            Sides of the module that are cut.

        Returns
        -------
        bool
            Whether it is.

        Notes
        -----
        Source: own design, ``docs/theory/odds.md``.

        Examples
        --------
        >>> end = EndFit(wall="B", course=2, side="left", module=-150.0, margin=-0.5)
        >>> doubts = Doubts(ends=(end,), rims=())
        >>> doubts.at_end("B", 2, Box(left=-150, bottom=0, right=450, top=300), "lying", {"left"})
        True
        """
        return any(
            (end.wall, end.course) == (wall, course)
            and abs(end.module - cell.left) < SNAP
            and module_side(end.side, turn) in sawn
            for end in self.ends
        )

    def at_rim(self, wall: str, *, left: bool, right: bool) -> bool:
        """Tell whether a piece of a pattern is cut to an end of a wall in doubt.

        Parameters
        ----------
        wall
            Name of its wall.
        left, right
            Whether it reaches the left and the right rim of the field.

        Returns
        -------
        bool
            Whether it is.

        Notes
        -----
        Source: own design, ``docs/theory/odds.md``.

        Examples
        --------
        >>> end = EndFit(wall="B", course=1, side="left", module=0.0, margin=-0.5)
        >>> Doubts(ends=(end,), rims=()).at_rim("B", left=True, right=False)
        True
        """
        reaches = {"left": left, "right": right}
        return any(end.wall == wall and reaches[end.side] for end in self.ends)

    def at_opening(self, wall: str, region: Region, cell: Box) -> bool:
        """Tell whether a piece is cut to an edge of an opening in doubt.

        Parameters
        ----------
        wall
            Name of its wall.
        region
            The piece on the wall. [mm]
        cell
            The module that it is cut from, on the wall. [mm]

        Returns
        -------
        bool
            Whether it is; an edge on the module's own edge is not cut.

        Notes
        -----
        Source: own design, ``docs/theory/odds.md``.

        Examples
        --------
        >>> rim = RimFit(wall="B", side="left", at=500.0, start=0.0, end=600.0, margin=-0.5)
        >>> cell = Box(left=0, bottom=0, right=600, top=300)
        >>> ring = ((0, 0), (500, 0), (500, 300), (0, 300))
        >>> Doubts(ends=(), rims=(rim,)).at_opening("B", Region(rings=(ring,)), cell)
        True
        """
        return any(_along(rim, region, cell) for rim in self.rims if rim.wall == wall)


def _along(rim: RimFit, region: Region, cell: Box) -> bool:
    """Tell whether a stretch of a piece's outline, not of its module's, runs along an edge."""
    axis = 0 if rim.side in {"left", "right"} else 1
    own = (cell.left, cell.right) if axis == 0 else (cell.bottom, cell.top)
    if any(abs(rim.at - edge) < SNAP for edge in own):
        return False
    ring = region.rings[0]
    return any(
        max(abs(a[axis] - rim.at), abs(b[axis] - rim.at)) < SNAP
        and min(a[1 - axis], b[1 - axis]) < rim.end - SNAP
        and max(a[1 - axis], b[1 - axis]) > rim.start + SNAP
        for a, b in pairwise((*ring, ring[0]))
    )


def doubts_of(walls: Walls, layout: Layout, system: System) -> Doubts:
    """Return where pieces of a layout may not fit as planned.

    Parameters
    ----------
    walls
        The surveyed alcove, with the covariance of its parameters. [mm]
    layout
        A layout on these walls. [mm]
    system
        The material. [mm]

    Returns
    -------
    Doubts
        Ends and edges whose margin is negative by more than a hair. [mm]

    Notes
    -----
    A pattern is looked at end by end, as two panels would be. Source: `end_fits` and
    `rim_fits`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> doubts_of(*sample_layout())
    Doubts(ends=(), rims=())
    """
    if layout.pattern:
        layout = as_panels(layout)
    return Doubts(
        ends=tuple(fit for fit in end_fits(walls, layout, system) if fit.margin < -SNAP),
        rims=tuple(fit for fit in rim_fits(walls, layout, system) if fit.margin < -SNAP),
    )
