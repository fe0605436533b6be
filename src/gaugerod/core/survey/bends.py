"""Lines that the readings show not to be straight: each place read twice or more."""

from collections import defaultdict
from collections.abc import Iterator, Sequence

import numpy as np

from gaugerod.core.job.readings import Ceiling, Deck, Width
from gaugerod.core.survey.adjust import BEYOND_CHANCE, UNCHECKED, Array
from gaugerod.core.survey.model import Bend
from gaugerod.core.survey.observations import Observation
from gaugerod.core.survey.solve import Solution

NEAR = 40.0
"""Readings closer than this were taken in one place. [mm]"""
CLEARLY = 4.0
"""By how much a bend must explain more than the worst single reading. [1]"""

Rows = list[int]


def find_bend(solution: Solution) -> Bend | None:
    """Return the bend that the residuals ask for, if two readings or more agree on it.

    Parameters
    ----------
    solution
        A solution with straight lines, or with the bends found so far.

    Returns
    -------
    Bend or None
        The bend that explains most, if it is beyond chance and explains more than taking
        any one reading for wrong.

    Notes
    -----
    A single reading off the line is a suspect, not a bend: nothing else confirms it. With
    residuals ``v`` over sigma, projector ``R`` and the bend's column ``d`` the gain is
    ``(d . v)^2 / (d . R d)``, chi-square with one degree of freedom. Source: own
    derivation, the test for one more unknown.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.observations import observations
    >>> from gaugerod.core.survey.solve import solve
    >>> used, _ = observations(sample_job())
    >>> find_bend(solve(used, used, walls=3)) is None
    True
    """
    sigma = np.array([o.sigma for o in solution.used])
    residuals = solution.adjustment.residuals[: len(sigma)] / sigma
    basis = solution.adjustment.basis[: len(sigma)]
    worst = float(np.max(solution.adjustment.w[: len(sigma)] ** 2, initial=0.0))
    best: tuple[float, Bend | None] = (max(BEYOND_CHANCE**2, worst + CLEARLY), None)
    for bend, rows, hat in _candidates(solution):
        column = hat / sigma[rows]
        explained = column @ basis[rows]
        whole = float(column @ column)
        free = whole - float(explained @ explained)
        if free < UNCHECKED * whole:
            continue  # the straight line takes up all of it: nothing else holds the line
        gain = float(column @ residuals[rows]) ** 2 / free
        best = max(best, (gain, bend), key=lambda found: found[0])
    return best[1]


def _candidates(solution: Solution) -> Iterator[tuple[Bend, Rows, Array]]:
    """Yield each bend with the readings that feel it and by how much."""
    lines: dict[tuple[str, str], list[int]] = defaultdict(list)
    for row, o in enumerate(solution.used):
        what = _what(o)
        if what:
            lines[o.wall, what].append(row)
    known = {(bend.wall, bend.what, bend.at) for bend in solution.bends}
    for (wall, what), rows in lines.items():
        places = np.array([_at(solution.used[row]) for row in rows])
        at = sorted(places.tolist())
        width = solution.state[f"width {wall}"]
        ends = (at[0], at[-1]) if what == "width" else (0.0, width)
        sign = -1.0 if what == "deck" else 1.0  # the deck is read downwards
        for centre in _read_twice(at):
            inside = ends[0] + NEAR < centre < ends[1] - NEAR
            if inside and (wall, what, centre) not in known:
                hat = np.interp(places, (ends[0], centre, ends[1]), (0.0, sign, 0.0))
                yield Bend(wall=wall, what=what, at=centre, ends=ends), rows, hat


def _read_twice(places: Sequence[float]) -> Iterator[float]:
    """Yield the middle of every group of places that lie near to one another."""
    group: list[float] = []
    for place in [*places, np.inf]:
        if group and place - group[0] > NEAR:
            if len(group) > 1:
                yield sum(group) / len(group)
            group = []
        group.append(place)


def _what(o: Observation) -> str:
    match o.reading:
        case Width():
            return "width"
        case Deck(part="rim"):
            return "deck"
        case Ceiling():
            return "ceiling"
        case _:
            return ""


def _at(o: Observation) -> float:
    at: float = getattr(o.reading, "at", 0.0)
    return at
