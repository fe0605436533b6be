"""One height of the first course, with all that it is tried with."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from gaugerod.core.job.document import Choices
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.datum import level_line
from gaugerod.core.setout.events import Height, first_heights
from gaugerod.core.setout.field import low_point, meetings
from gaugerod.core.setout.finish import finish_line, setting_order
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.setout.variants import Finish, Variant
from gaugerod.core.survey.walls import Walls


@dataclass(frozen=True, slots=True, kw_only=True)
class Trial:
    """All that one first-course height is tried with. [mm]."""

    walls: Walls
    choices: Choices
    system: System
    looks: Looks
    variant: Variant
    height: Height
    low: tuple[str, float]
    order: tuple[str, ...]
    allowed: frozenset[str]

    @property
    def lattice(self) -> Lattice:
        """The courses, without a phase. [mm]."""
        face, pitch = hung(self.system, self.variant.turn)
        gap = self.system.gaps.deck
        return Lattice(
            face=face,
            pitch=pitch,
            first_course=level_line(deck_low=self.low[1], height=self.height[1], gap=gap),
            phase=0.0,
            row_shift=pitch[0] * self.variant.share,
        )

    def top(self, own: Finish | None = None) -> float:
        """Return the height of the finish line.

        Parameters
        ----------
        own
            Where a wall stops of its own; else with the rest.

        Returns
        -------
        float
            Height from the datum. [mm]

        Notes
        -----
        Source: as `finish_line`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_trial
        >>> round(sample_trial().top(), 1)
        730.3
        """
        lattice = self.lattice
        return finish_line(
            self.walls,
            self.choices,
            self.system,
            finish=self.variant.finish if own is None else own,
            first_course=lattice.first_course,
            pitch=lattice.pitch[1],
        )

    def case(self, place: int) -> Case:
        """Return what a wall is scored against.

        Parameters
        ----------
        place
            Which wall, from the left, from 0. [1]

        Returns
        -------
        Case
            The wall, how it meets its neighbours, its finish line. [mm]

        Notes
        -----
        Source: own design.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_trial
        >>> sample_trial().case(1).wall.name
        'B'
        """
        wall = self.walls.walls[place]
        return Case(
            wall=wall,
            met=meetings(self.walls.walls, self.order, self.system)[wall.name],
            top=self.top(wall.finish),
            system=self.system,
            turn=self.variant.turn,
            looks=self.looks,
            allowed=self.allowed,
        )

    def bares(self) -> list[Batch]:
        """Return each wall with the courses of this height, without a phase.

        Returns
        -------
        list of Batch
            The walls from left to right. [mm]

        Notes
        -----
        Source: as `batch_of`.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_trial
        >>> len(sample_trial().bares())
        3
        """
        lattice, none = self.lattice, np.zeros(1)
        return [batch_of(self.case(i), lattice, none) for i in range(len(self.walls.walls))]


def trials(
    walls: Walls,
    choices: Choices,
    system: System,
    looks: Looks,
    bonds: Sequence[Variant],
    *,
    allowed: frozenset[str],
) -> Iterator[list[Trial]]:
    """Yield, for every height of the first course, one trial for each bond.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled; a fixed height leaves only that.
    system
        The material. [mm]
    looks
        What the eye is worth. [cents]
    bonds
        Ways to hang the modules that differ in their bond only.
    allowed
        Limits that may be broken.

    Yields
    ------
    list of Trial
        One for each bond, all of one height. [mm]

    Notes
    -----
    Source: as `first_heights`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_trial
    >>> sample_trial().height[0]
    'tallest'
    """
    low, turn = low_point(walls), bonds[0].turn
    face, pitch = hung(system, turn)
    order = setting_order(walls, choices, system, turn)
    heights = first_heights(
        walls, system, choices, face=face[1], pitch=pitch[1], deck_low=low[1], turn=turn
    )
    for height in heights:
        first = Trial(
            walls=walls,
            choices=choices,
            system=system,
            looks=looks,
            variant=bonds[0],
            height=height,
            low=low,
            order=order,
            allowed=allowed,
        )
        yield [replace(first, variant=variant) for variant in bonds]
