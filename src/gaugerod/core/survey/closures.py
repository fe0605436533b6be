"""The closures that a setter knows: sums of readings that must come out, the worst first."""

from collections.abc import Iterator, Sequence
from itertools import chain
from math import isfinite

from gaugerod.core.job.document import Job
from gaugerod.core.survey.closure_kinds.closure import Closure
from gaugerod.core.survey.closure_kinds.diagonals import diagonals
from gaugerod.core.survey.closure_kinds.edges import bow, leans
from gaugerod.core.survey.closure_kinds.gathered import gather
from gaugerod.core.survey.closure_kinds.parts import both_ends, parts
from gaugerod.core.survey.closure_kinds.plumb_line import plumb_line
from gaugerod.core.survey.closure_kinds.repeats import repeats
from gaugerod.core.survey.closure_kinds.upright import corners, heights, opening_heights
from gaugerod.core.survey.closure_kinds.view import Edge, View, views_of

__all__ = ["Closure", "closures"]

_ACROSS = (parts, both_ends, leans, bow, diagonals, plumb_line)
_UPRIGHT = (heights, opening_heights)


def closures(job: Job) -> tuple[Closure, ...]:
    """Check the readings of a job against each other by the sums that a setter knows.

    Parameters
    ----------
    job
        The job; its walls stand from left to right and meet in corners.

    Returns
    -------
    tuple of Closure
        Every sum whose readings are there, the one with the worst ratio first. [mm]

    Notes
    -----
    Nothing is fitted: each closure rests on its own readings, with their sigmas carried
    through. Readings to different surfaces are never held against each other.
    Source: own derivation, ``docs/theory/closures.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> {closure.verdict for closure in closures(sample_job())}
    {'go'}
    """
    told = [gather(wall, job.survey) for wall in job.wall]
    views = [
        views_of(
            wall,
            told[place],
            default=job.survey.surface,
            open_edges=_open_edges(place, len(job.wall)),
        )
        for place, wall in enumerate(job.wall)
    ]
    found = chain(
        (closure for of_wall in told for one in of_wall for closure in repeats(one)),
        (closure for wall in views for closure in _of_wall(wall)),
        corners([wall[0] for wall in views]),
    )
    # A place or a sigma that no tape can read may carry a sum out of all bounds, or make it
    # rest on no reading at all.
    sound = [c for c in found if isfinite(c.ratio) and isfinite(c.sigma) and c.readings]
    return tuple(sorted(sound, key=lambda closure: -closure.ratio))


def _of_wall(views: Sequence[View]) -> Iterator[Closure]:
    for view in views:
        for kind in _ACROSS:
            yield from kind(view)
    for kind in _UPRIGHT:
        yield from kind(views[0])


def _open_edges(place: int, walls: int) -> tuple[Edge, ...]:
    left: tuple[Edge, ...] = ("left",) if place == 0 else ()
    return (*left, "right") if place == walls - 1 else left
