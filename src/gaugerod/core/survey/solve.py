"""One solution: the unknowns that fit a set of observations best."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from gaugerod.core.job.readings import Lean
from gaugerod.core.survey.adjust import Adjustment, adjust
from gaugerod.core.survey.beliefs import LEVEL_SIGMA, PLUMB_SIGMA, STRUCK_SIGMA
from gaugerod.core.survey.model import Bends, Predicted, predict, unknowns_of
from gaugerod.core.survey.observations import Observation

BEND_SIGMA = 50.0
"""How far a line may bend. [mm]"""
SETTLED = 1e-3
"""A step this small against its sigma leaves the next far smaller: it is not taken. [1]"""
ROUNDS = 12
"""Steps of the adjustment; the problem is nearly linear and settles in three or four."""

Prior = tuple[dict[str, float], float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Solution:
    """The unknowns by name, the adjustment, and the observations it used, in its order."""

    names: tuple[str, ...]
    state: dict[str, float]
    adjustment: Adjustment
    used: tuple[Observation, ...]
    bends: Bends

    @property
    def squares(self) -> float:
        """Sum of squared residuals of the observations over their sigmas. [1]."""
        count = len(self.used)
        sigma = np.array([o.sigma for o in self.used])
        scaled = self.adjustment.residuals[:count] / sigma
        return float(scaled @ scaled)

    @property
    def redundancy(self) -> float:
        """Sum of the redundancy numbers of the observations. [1]."""
        return float(self.adjustment.redundancy[: len(self.used)].sum())


def would_read(observation: Observation, state: dict[str, float], bends: Bends) -> Predicted:
    """Return what an observation would be for a given state.

    Parameters
    ----------
    observation
        The observation.
    state
        Value of every unknown, slopes as a share. [mm]
    bends
        Where lines are not straight.

    Returns
    -------
    Predicted
        Value and partials. [mm]

    Notes
    -----
    Source: `predict`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.observations import observations
    >>> used, _ = observations(sample_job())
    >>> would_read(used[1], {"width L": 800.0, "left L": 0.0, "right L": 0.0}, ()).value
    800.0
    """
    return predict(
        observation.reading,
        observation.wall,
        observation.place,
        state,
        seat=observation.seat,
        bends=bends,
    )


def solve(
    every: Sequence[Observation],
    kept: Sequence[Observation],
    *,
    walls: int,
    bends: Bends = (),
    near: Solution | None = None,
) -> Solution:
    """Fit the alcove to the kept observations.

    Parameters
    ----------
    every
        All observations: they say which unknowns there are.
    kept
        Those to fit to.
    walls
        Number of walls, >= 1.
    bends
        Where lines are not straight.
    near
        A solution of nearly the same problem to begin from, so that fewer steps are needed.

    Returns
    -------
    Solution
        The best fit. [mm]

    Raises
    ------
    SurveyError
        The observations do not determine every unknown.

    Notes
    -----
    Gauss-Newton on weighted residuals, with analytic partials, until nothing moves. Before
    any reading, edges are taken as plumb, deck and ceiling as level, each with a wide sigma:
    these beliefs fill in what was not read and weigh next to nothing beside what was.
    Source: any text on adjustment computations; own model.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.observations import observations
    >>> used, _ = observations(sample_job())
    >>> round(solve(used, used, walls=3).state["width B"], 3)
    1500.0
    """
    priors = _priors(every, walls, bends)
    state = _start(every, priors) if near is None else _begin(near, bends)
    names = tuple(state)
    column = {name: i for i, name in enumerate(names)}
    sigma = np.array([o.sigma for o in kept] + [s for _, s in priors])
    for _ in range(ROUNDS):
        rows = [(would_read(o, state, bends), o.reading.reads) for o in kept]
        rows += [(_believed(row, state), 0.0) for row, _ in priors]
        design = np.zeros((len(rows), len(names)))
        misfit = np.empty(len(rows))
        for i, (would, reads) in enumerate(rows):
            misfit[i] = reads - would.value
            for name, rate in would.partials.items():
                design[i, column[name]] = rate
        adjustment = adjust(design, misfit, sigma)
        state = {name: state[name] + float(adjustment.x[i]) for name, i in column.items()}
        sigmas = np.sqrt(np.diag(adjustment.covariance))
        if float(np.abs(adjustment.x / sigmas).max()) < SETTLED:
            break
    return Solution(names=names, state=state, adjustment=adjustment, used=tuple(kept), bends=bends)


def _begin(near: Solution, bends: Bends) -> dict[str, float]:
    """Return the state of a solution nearby, with new bends at nought."""
    return {bend.unknown: 0.0 for bend in bends} | near.state


def _believed(row: dict[str, float], state: dict[str, float]) -> Predicted:
    value = sum(rate * state[name] for name, rate in row.items())
    return Predicted(value=value, partials=row)


def _priors(every: Sequence[Observation], walls: int, bends: Bends) -> list[Prior]:
    """Return what is believed before any reading: edges plumb, deck and ceiling level."""
    names = list(dict.fromkeys(o.wall for o in every))
    read = {(o.wall, o.reading.edge) for o in every if isinstance(o.reading, Lean)}
    struck = {(names[0], "left"), (names[-1], "right")} - read
    priors: list[Prior] = [
        ({f"{edge} {wall}": 1.0}, STRUCK_SIGMA if (wall, edge) in struck else PLUMB_SIGMA)
        for wall in names
        for edge in ("left", "right")
    ]
    for level in ("deck", "ceiling"):
        for corner in range(walls):
            row = {f"{level} {corner}": 1.0, f"{level} {corner + 1}": -1.0}
            priors.append((row, LEVEL_SIGMA))
    widths = {o.wall: o.reading.reads for o in every if o.reading.kind == "width"}
    for wall, part in dict.fromkeys((o.wall, _part(o)) for o in every if _part(o)):
        fall_sigma = LEVEL_SIGMA / widths.get(wall, 1000.0)
        priors.append(({f"{part} {wall} fall": 1.0}, fall_sigma))
    priors.extend(({bend.unknown: 1.0}, BEND_SIGMA) for bend in bends)
    return priors


def _part(observation: Observation) -> str:
    """Return which ledge or platform a reading was taken to, if any."""
    part: str = getattr(observation.reading, "part", "rim")
    return "" if part == "rim" else part


def _start(every: Sequence[Observation], priors: list[Prior]) -> dict[str, float]:
    """Return first values: nought, and for each width its first reading."""
    state: dict[str, float] = {}
    for row, _ in priors:
        state.update(dict.fromkeys(row, 0.0))
    for o in every:
        unknowns = unknowns_of(o.reading, o.wall, o.place)
        state.update({name: 0.0 for name in unknowns if name not in state})
    widths = {o.wall: o.reading.reads for o in reversed(every) if o.reading.kind == "width"}
    state.update({f"width {wall}": width for wall, width in widths.items()})
    return state
