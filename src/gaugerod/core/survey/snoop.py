"""Data snooping: which reading is wrong, what slip it may be, and what would decide."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations
from math import log

import numpy as np

from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Survey
from gaugerod.core.job.readings import Surface
from gaugerod.core.survey.adjust import BEYOND_CHANCE, Array, correlations
from gaugerod.core.survey.bends import find_bend
from gaugerod.core.survey.model import Bend
from gaugerod.core.survey.observations import Observation
from gaugerod.core.survey.slips import Slip, slips_of
from gaugerod.core.survey.solve import Solution, solve, would_read
from gaugerod.core.survey.surfaces import seat_of, stand_out
from gaugerod.core.survey.walls import Suspect

MOST = 6
"""Suspects named at the most: beyond that a wall is to be read afresh."""
AS_GOOD = 4.0
"""Readings whose tests explain the misfit this nearly as well cannot be told apart. [1]"""
ALIKE = 0.9
"""Tests with a higher correlation cannot be told apart. [1]"""
TWISTED = 6
"""A swap is looked for among at most this many readings of one kind on one wall."""
BOARD = 12.7
"""A backer board, where its thickness was not given. [mm]"""
WITHIN = 3.0
"""A slip explains a blunder that it misses by no more than this over its sigma. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Snooped:
    """The solution without its suspects, the suspects by name, and the bends found."""

    solution: Solution
    suspects: tuple[Suspect, ...]
    bends: tuple[Bend, ...]


def snoop(every: Sequence[Observation], *, walls: int, unit: Unit, survey: Survey) -> Snooped:
    """Fit, name the reading that disagrees most, leave it out, and fit again.

    Parameters
    ----------
    every
        All observations.
    walls
        Number of walls.
    unit
        Unit of the readings.
    survey
        The survey, for the layers that a reading may have been taken to.

    Returns
    -------
    Snooped
        Solution, suspects worst first, bends.

    Raises
    ------
    SurveyError
        The observations do not determine every unknown.

    Notes
    -----
    One blunder at a time: the largest w-test beyond chance is the suspect. Two readings of
    one kind read into each other's place are one hypothesis about both, of known size; it is
    taken where it explains more than any one reading does. Source: W. Baarda (1968), data
    snooping; the list of slips is common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.observations import observations
    >>> job = sample_job()
    >>> used, _ = observations(job)
    >>> snoop(used, walls=3, unit=job.unit, survey=job.survey).suspects
    ()
    """
    kept = tuple(every)
    bends: tuple[Bend, ...] = ()
    suspects: list[Suspect] = []
    solution: Solution | None = None
    while True:
        solution = solve(every, kept, walls=walls, bends=bends, near=solution)
        bend = find_bend(solution)
        if bend is not None:
            bends = (*bends, bend)
            continue
        doubt = _suspicion(solution)
        if doubt is None or len(suspects) == MOST:
            return Snooped(solution=solution, suspects=tuple(suspects), bends=bends)
        found = _suspect(solution, doubt, unit=unit, survey=survey)
        suspects.append(found)
        wrong = set(found.readings if doubt.swapped else found.readings[:1])
        solution = _rid_of(solution, wrong)
        kept = tuple(o for o in kept if o.id not in wrong)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Suspicion:
    """Rows under suspicion, the likeliest first; `swapped` where two are one slip."""

    rows: tuple[int, ...]
    swapped: bool = False


def _suspicion(solution: Solution) -> _Suspicion | None:
    """Return what is under suspicion: one row, a swapped pair, or some that look the same."""
    w = np.abs(solution.adjustment.w[: len(solution.used)])
    worst = int(np.argmax(w))
    if w[worst] <= BEYOND_CHANCE:
        return None
    swap = max(_swaps(solution), default=(0.0, 0, 0))
    if swap[0] > w[worst] ** 2:
        return _Suspicion(rows=swap[1:], swapped=True)
    alike = np.abs(correlations(solution.adjustment, worst)[: len(w)]) > ALIKE
    rivals = np.flatnonzero(alike & (w**2 > w[worst] ** 2 - AS_GOOD))
    return _Suspicion(rows=tuple(sorted(map(int, rivals), key=lambda row: -w[row])))


def _swaps(solution: Solution) -> Iterator[tuple[float, int, int]]:
    """Yield pairs of one kind on one wall with how much their exchange explains."""
    groups: dict[tuple[str, str, str], list[int]] = defaultdict(list)
    w = solution.adjustment.w
    for row, o in enumerate(solution.used):
        if abs(w[row]) > BEYOND_CHANCE / 2:
            groups[o.wall, o.reading.kind, getattr(o.reading, "of", "")].append(row)
    for rows in groups.values():
        likely = sorted(rows, key=lambda row: -abs(w[row]))[:TWISTED]
        for one, other in combinations(sorted(likely), 2):
            gain = _gain(solution, one, other)
            if gain > BEYOND_CHANCE**2:
                yield gain, one, other


def _gain(solution: Solution, one: int, other: int) -> float:
    """Return by how much squares fall if two readings were written in each other's place."""
    first, second = solution.used[one], solution.used[other]
    apart = first.reading.reads - second.reading.reads
    shift: Array = np.zeros(len(solution.adjustment.w))
    shift[one], shift[other] = apart / first.sigma, -apart / second.sigma
    explained = solution.adjustment.basis.T @ shift
    sigma = np.array([first.sigma, second.sigma])
    residuals = solution.adjustment.residuals[[one, other]] / sigma
    crossed = float(shift[[one, other]] @ residuals)
    return 2 * crossed - float(shift @ shift - explained @ explained)


def _suspect(solution: Solution, doubt: _Suspicion, *, unit: Unit, survey: Survey) -> Suspect:
    if doubt.swapped:
        one, other = (solution.used[row].id for row in doubt.rows)
        w = float(solution.adjustment.w[doubt.rows[0]])
        guess = Message("survey.slip-swapped", one=one, other=other)
        return Suspect(readings=(one, other), w=w, guess=guess, decide=None)
    told = [_Told.of(solution, row) for row in doubt.rows]
    explained = [(_best_slip(t, unit=unit, survey=survey), t) for t in told]
    explained.sort(key=lambda pair: -pair[0].evidence)
    best, likeliest = explained[0]
    others = [t.observation.id for _, t in explained[1:]]
    return Suspect(
        readings=(likeliest.observation.id, *others),
        w=likeliest.w,
        guess=_say(likeliest, best),
        decide=Message("survey.decide", readings=", ".join(others), take=likeliest.observation.id)
        if others
        else None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """What the test tells of one reading: its blunder and how well that is known. [mm]."""

    observation: Observation
    solution: Solution
    w: float
    blunder: float
    sigma: float

    @staticmethod
    def of(solution: Solution, row: int) -> "_Told":
        """Return what the solution tells of a row."""
        o, fit = solution.used[row], solution.adjustment
        sigma = o.sigma / float(np.sqrt(fit.redundancy[row]))
        w = float(fit.w[row])
        return _Told(observation=o, solution=solution, w=w, blunder=w * sigma, sigma=sigma)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Explained:
    """A slip, if one fits, and how much speaks for the reading being the wrong one."""

    slip: Slip | None
    evidence: float


def _best_slip(told: _Told, *, unit: Unit, survey: Survey) -> _Explained:
    reads = told.observation.reading.reads
    best: tuple[float, Slip | None] = (log(0.01), None)
    for slip in (*slips_of(reads, unit=unit), *_elsewhere(told, survey=survey)):
        off = (told.blunder - (reads - slip.instead)) / told.sigma
        if abs(off) <= WITHIN:
            best = max(best, (log(slip.weight) - off**2 / 2, slip), key=lambda found: found[0])
    return _Explained(slip=best[1], evidence=told.w**2 / 2 + best[0])


def _elsewhere(told: _Told, *, survey: Survey) -> Iterator[Slip]:
    """Yield what the reading would be from the other end, the other way, another surface."""
    o, solution = told.observation, told.solution
    reads = o.reading.reads
    start = getattr(o.reading, "start", "")
    if start in {"left", "right"}:
        width = _without(told, f"width {o.wall}") - o.seat.left - o.seat.right
        yield Slip(kind="other-end", instead=width - reads, weight=0.9)
    if o.reading.kind == "lean":
        yield Slip(kind="other-way", instead=-reads, weight=0.9)
    here = would_read(o, solution.state, solution.bends).value
    surfaces: tuple[Surface, ...] = ("stud", "backer", "old tile", "new face")
    for surface in surfaces:
        out = stand_out(surface, survey)
        if out is None and surface == "stud":
            out = -BOARD
        if out is not None and out != o.seat.out:
            moved = replace(o, seat=seat_of(out, o.ends))
            there = would_read(moved, solution.state, solution.bends).value
            if there != here:
                kind = "surface-" + surface.replace(" ", "-")
                yield Slip(kind=kind, instead=reads - (there - here), weight=0.5)


def _rid_of(solution: Solution, wrong: set[str]) -> Solution:
    """Return the solution moved to about where it will be without the wrong readings."""
    state = dict(solution.state)
    for row, o in enumerate(solution.used):
        if o.id in wrong:
            told = _Told.of(solution, row)
            pulled = zip(solution.names, _pull(told), strict=True)
            state = {name: float(state[name] - pull) for name, pull in pulled}
    return replace(solution, state=state)


def _without(told: _Told, unknown: str) -> float:
    """Return an unknown as it would be if the reading had not its blunder. [mm]."""
    at = told.solution.names.index(unknown)
    return told.solution.state[unknown] - float(_pull(told)[at])


def _pull(told: _Told) -> Array:
    """Return how far a blunder has pulled each unknown. [mm]."""
    o, solution = told.observation, told.solution
    partials = would_read(o, solution.state, solution.bends).partials
    row = np.array([partials.get(name, 0.0) for name in solution.names])
    pull: Array = solution.adjustment.covariance @ row * told.blunder / o.sigma**2
    return pull


def _say(told: _Told, found: _Explained) -> Message:
    kind = found.slip.kind if found.slip else "unknown"
    return Message(
        f"survey.slip-{kind}",
        reading=told.observation.id,
        reads=Length(told.observation.reading.reads),
        others=Length(told.observation.reading.reads - told.blunder),
        sigma=Length(told.sigma),
    )
