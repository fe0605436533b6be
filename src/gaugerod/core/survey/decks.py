"""The deck of a fitted wall, taken apart at its steps."""

from collections.abc import Iterator
from dataclasses import dataclass

from gaugerod.core.base.geometry import SNAP, Point
from gaugerod.core.survey.walls import FittedWall


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """A stretch of a deck between two steps, and what it is: rim, ledge, platform, floor. [mm]."""

    part: str
    points: tuple[Point, ...]

    @property
    def low(self) -> float:
        """Its lowest height from the datum. [mm]."""
        return min(y for _, y in self.points)

    @property
    def high(self) -> float:
        """Its highest height from the datum. [mm]."""
        return max(y for _, y in self.points)


def deck_stretches(wall: FittedWall) -> tuple[Stretch, ...]:
    """Return the stretches of a deck from left to right.

    Parameters
    ----------
    wall
        The fitted wall. [mm]

    Returns
    -------
    tuple of Stretch
        One more than there are steps. [mm]

    Notes
    -----
    A step is where the line stands plumb. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> [stretch.part for stretch in deck_stretches(fit_walls(sample_job()).walls[1])]
    ['rim']
    """
    runs = tuple(_runs(wall.deck))
    parts = (*wall.parts, *("rim" for _ in runs))
    return tuple(
        Stretch(part=part, points=tuple(points)) for part, points in zip(parts, runs, strict=False)
    )


def _runs(line: tuple[Point, ...]) -> Iterator[list[Point]]:
    """Yield the points of a line between the places where it stands plumb."""
    run = [line[0]]
    for point in line[1:]:
        if point[0] - run[-1][0] < SNAP:
            yield run
            run = []
        run.append(point)
    yield run
