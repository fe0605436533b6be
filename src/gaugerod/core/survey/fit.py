"""From readings to walls: one adjustment over the whole alcove, and what it leaves over."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import Deck, Lean, Reading
from gaugerod.core.survey.adjust import Adjustment, adjust
from gaugerod.core.survey.model import predict, unknowns_of
from gaugerod.core.survey.outline import make_wall
from gaugerod.core.survey.sigmas import sigma_of
from gaugerod.core.survey.walls import FittedReading, Suspect, Walls

BEYOND_CHANCE = 3.29
"""A w-test beyond this is chance once in a thousand (two-sided normal)."""
PLUMB_SIGMA = 27 / 32 / 72
"""How far edges may lean before anyone has looked: what framing guides allow. [mm per mm]"""
STRUCK_SIGMA = 1e-6
"""An open edge is a plumb line that the setter strikes, unless he read its lean. [mm per mm]"""
LEVEL_SIGMA = 25.0
"""How far deck or ceiling may fall along one wall before anyone has looked. [mm]"""
ROUNDS = 12
"""Steps of the adjustment; the problem is nearly linear and settles in three or four."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Taken:
    """A reading with its wall, its name and its sigma. [mm]."""

    id: str
    wall: str
    place: int
    reading: Reading
    sigma: float


def fit_walls(job: Job) -> Walls:
    """Fit the walls of an alcove to its readings.

    Parameters
    ----------
    job
        The job; its walls stand from left to right and meet in corners.

    Returns
    -------
    Walls
        Walls, residuals, suspects, covariance, and what the survey is fit for. [mm]

    Raises
    ------
    SurveyError
        A wall lacks a width, the room a deck or a ceiling reading, or something lies
        outside its wall.

    Notes
    -----
    Weighted least squares with shared corners. Edges are straight; before any reading they
    are taken as plumb and level with a wide sigma, so that a missing reading leaves a
    wall less sure but not undefined. A reading whose w-test is beyond `BEYOND_CHANCE`
    is named as a suspect and left out, the worst first. Source: W. Baarda (1968), data
    snooping; own model, ``docs/theory/survey.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> [wall.name for wall in fit_walls(sample_job()).walls]
    ['L', 'B', 'R']
    """
    taken = _taken(job)
    _complete(job, taken)
    fitted, suspects = _snoop(taken, len(job.wall))
    state = fitted.state
    readings = tuple(_compare(reading, fitted) for reading in taken)
    used = sum(reading.redundancy for reading in readings)
    dof = max(round(used), 0)
    squares = sum((r.residual / r.sigma) ** 2 for r in readings if r.redundancy > 0)
    fit_for, reasons = _fit_for(job, dof, suspects)
    return Walls(
        walls=tuple(make_wall(wall, place, state) for place, wall in enumerate(job.wall)),
        readings=readings,
        suspects=suspects,
        parameters=fitted.names,
        covariance=fitted.adjustment.covariance,
        sigma0=float(np.sqrt(squares / used)) if dof else 0.0,
        dof=dof,
        floor=state.get("floor"),
        drain=state.get("drain"),
        fit_for=fit_for,
        reasons=reasons,
    )


def _taken(job: Job) -> tuple[_Taken, ...]:
    taken = []
    for place, wall in enumerate(job.wall):
        counts: dict[str, int] = {}
        for reading in wall.readings:
            if not unknowns_of(reading, wall.name, place):
                continue
            counts[reading.kind] = counts.get(reading.kind, 0) + 1
            name = reading.id or f"{wall.name} {reading.kind} {counts[reading.kind]}"
            sigma = sigma_of(reading, job.survey.practice)
            taken.append(_Taken(id=name, wall=wall.name, place=place, reading=reading, sigma=sigma))
    return tuple(taken)


def _complete(job: Job, taken: Sequence[_Taken]) -> None:
    known = {name for t in taken for name in unknowns_of(t.reading, t.wall, t.place)}
    for wall in job.wall:
        if not any(t.wall == wall.name and t.reading.kind == "width" for t in taken):
            raise SurveyError(Message("survey.take-width", wall=wall.name))
    for level in ("deck", "ceiling"):
        if not any(name.startswith(level) for name in known):
            raise SurveyError(Message(f"survey.take-{level}"))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fitted:
    """One solution: the unknowns by name, the adjustment, and the readings it used."""

    names: tuple[str, ...]
    state: dict[str, float]
    adjustment: Adjustment
    used: tuple[_Taken, ...]


def _snoop(taken: tuple[_Taken, ...], walls: int) -> tuple[_Fitted, tuple[Suspect, ...]]:
    suspects: list[Suspect] = []
    kept = taken
    while True:
        fitted = _solve(taken, kept, walls)
        w = fitted.adjustment.w[: len(kept)]
        worst = int(np.argmax(np.abs(w)))
        if abs(w[worst]) <= BEYOND_CHANCE:
            return fitted, tuple(suspects)
        suspects.append(Suspect(readings=(kept[worst].id,), w=float(w[worst]), guess=None))
        kept = kept[:worst] + kept[worst + 1 :]


def _solve(taken: tuple[_Taken, ...], kept: tuple[_Taken, ...], walls: int) -> _Fitted:
    priors = _priors(taken, walls)
    state = _start(taken, priors)
    names = tuple(state)
    column = {name: i for i, name in enumerate(names)}
    sigma = np.array([t.sigma for t in kept] + [s for _, s in priors])
    for _ in range(ROUNDS):
        design = np.zeros((len(sigma), len(names)))
        misfit = np.zeros(len(sigma))
        for i, t in enumerate(kept):
            would = predict(t.reading, t.wall, t.place, state)
            misfit[i] = t.reading.reads - would.value
            for name, rate in would.partials.items():
                design[i, column[name]] = rate
        for i, (row, _) in enumerate(priors, start=len(kept)):
            misfit[i] = -sum(rate * state[name] for name, rate in row.items())
            for name, rate in row.items():
                design[i, column[name]] = rate
        adjustment = adjust(design, misfit, sigma)
        state = {name: state[name] + float(adjustment.x[i]) for name, i in column.items()}
    return _Fitted(names=names, state=state, adjustment=adjustment, used=kept)


def _priors(taken: tuple[_Taken, ...], walls: int) -> list[tuple[dict[str, float], float]]:
    """Return what is believed before any reading: edges plumb, deck and ceiling level."""
    names = list(dict.fromkeys(t.wall for t in taken))
    read = {(t.wall, t.reading.edge) for t in taken if isinstance(t.reading, Lean)}
    struck = {(names[0], "left"), (names[-1], "right")} - read
    priors = [
        ({f"{edge} {wall}": 1.0}, STRUCK_SIGMA if (wall, edge) in struck else PLUMB_SIGMA)
        for wall in names
        for edge in ("left", "right")
    ]
    for level in ("deck", "ceiling"):
        for corner in range(walls):
            level_row = {f"{level} {corner}": 1.0, f"{level} {corner + 1}": -1.0}
            priors.append((level_row, LEVEL_SIGMA))
    return priors


def _start(
    taken: tuple[_Taken, ...], priors: list[tuple[dict[str, float], float]]
) -> dict[str, float]:
    """First values: nought, and for each width its first reading."""
    state: dict[str, float] = {}
    for row, _ in priors:
        state.update(dict.fromkeys(row, 0.0))
    for t in taken:
        state.update({n: 0.0 for n in unknowns_of(t.reading, t.wall, t.place) if n not in state})
    widths = {t.wall: t.reading.reads for t in reversed(taken) if t.reading.kind == "width"}
    state.update({f"width {wall}": width for wall, width in widths.items()})
    return state


def _compare(taken: _Taken, fitted: _Fitted) -> FittedReading:
    would = predict(taken.reading, taken.wall, taken.place, fitted.state)
    residual = taken.reading.reads - would.value
    ids = [t.id for t in fitted.used]
    if taken.id in ids:
        at = ids.index(taken.id)
        redundancy, w = fitted.adjustment.redundancy[at], fitted.adjustment.w[at]
    else:
        redundancy, w = 0.0, residual / taken.sigma
    return FittedReading(
        id=taken.id,
        wall=taken.wall,
        kind=taken.reading.kind,
        value=taken.reading.reads,
        sigma=taken.sigma,
        residual=residual,
        redundancy=float(redundancy),
        w=float(w),
    )


def _fit_for(
    job: Job, dof: int, suspects: tuple[Suspect, ...]
) -> tuple[Literal["price", "cut"], tuple[Message, ...]]:
    every = [(wall.name, reading) for wall in job.wall for reading in wall.readings]
    surfaces = {reading.surface or job.survey.surface for _, reading in every}
    others = sorted(surfaces - {"backer"})
    reasons = [Message("survey.not-backer", surface=surface) for surface in others]
    reasons.extend(Message("survey.suspect", reading=s.readings[0], w=s.w) for s in suspects)
    if dof == 0:
        reasons.append(Message("survey.unchecked"))
    stepped = {
        wall for wall, reading in every if isinstance(reading, Deck) and reading.part != "rim"
    }
    reasons.extend(Message("survey.step-unused", wall=wall) for wall in sorted(stepped))
    return ("price" if reasons else "cut"), tuple(reasons)
