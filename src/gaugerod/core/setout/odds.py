"""The odds: how likely every hard limit of a layout holds on the day."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.margins import Margin, Planned, margins
from gaugerod.core.setout.spread import (
    Array,
    EndCut,
    end_cuts,
    follow,
    plans_of,
    sigmas,
)
from gaugerod.core.setout.turned_odds import as_panels, pattern_margins
from gaugerod.core.survey.walls import FittedWall, Walls

DRAWS = 4000
"""Alcoves drawn by lot: a chance is then sure to a point in a hundred."""
CERTAIN = 6.0
"""A margin of so many sigmas is not drawn: it fails once in a thousand million. [1]"""
NUDGE = 1e-9
"""Share of the variances added to them, far over rounding, so that a root exists. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitOdds:
    """A hard limit that may fail on a wall, and the chance that it holds there. [1]."""

    limit: str
    wall: str
    chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Odds:
    """The chance that all hard limits hold, each limit that may fail, every end cut. [1].

    A pattern has no end cuts by course.
    """

    chance: float
    limits: tuple[LimitOdds, ...]
    ends: tuple[EndCut, ...]


def odds_of(
    walls: Walls, layout: Layout, system: System, *, draws: int = DRAWS, seed: int = 0
) -> Odds:
    """Return how likely a layout keeps every hard limit, and the spread of its end cuts.

    Parameters
    ----------
    walls
        The surveyed alcove, with the covariance of its parameters. [mm]
    layout
        A layout on these walls. [mm]
    system
        The material, with its limits. [mm]
    draws
        How many alcoves are drawn, >= 1.
    seed
        Seed of the draws: the same seed gives the same odds.

    Returns
    -------
    Odds
        Chances, and the standard deviation of every end cut. [1], [mm]

    Notes
    -----
    The margins of all limits are taken as linear in the parameters of the survey,
    ``m = m0 + J x``, and ``x`` is drawn from the normal distribution of its covariance. What
    the crew's papers tell to strike is held: course lines from the datum, stations from the
    left corner at the datum. A limit that the plan just meets holds with chance one half; one
    that is set aside by a signature is not asked.
    Source: propagation of variances, any text on adjustment computations; own derivation,
    ``docs/theory/odds.md``.

    Examples
    --------
    The first course is as high as its groove allows: the deck may be lower than read.

    >>> from gaugerod.core.setout.sample import sample_layout
    >>> odds = odds_of(*sample_layout())
    >>> [(found.limit, found.wall) for found in odds.limits]
    [('groove-left', 'L')]
    >>> 0.4 < odds.chance < 0.6
    True
    """
    of_pattern = layout.pattern is not None
    plans = plans_of(walls, as_panels(layout) if of_pattern else layout, system)
    taken = partial(pattern_margins, layout) if of_pattern else margins
    kept = [
        (margin, wall.name)
        for plan, wall in zip(plans, walls.walls, strict=True)
        for margin in taken(plan, wall)
    ]
    value, rates = follow(walls, plans, partial(_values, taken))
    asked = np.array([margin.there and margin.limit not in layout.set_aside for margin, _ in kept])
    unsure = asked & (value + SNAP <= CERTAIN * sigmas(rates, walls.covariance))
    off = _drawn(rates[unsure], walls.covariance, draws=draws, seed=seed)
    holds = value[unsure] + off >= -SNAP
    names = [(kept[i][0].limit, kept[i][1]) for i in np.flatnonzero(unsure)]
    return Odds(
        chance=float(np.mean(np.all(holds, axis=1))),
        limits=tuple(_limits(names, holds)),
        ends=() if of_pattern else end_cuts(walls, plans),
    )


Taken: TypeAlias = Callable[[Planned, FittedWall], Sequence[Margin]]


def _values(taken: Taken, plan: Planned, wall: FittedWall) -> list[float]:
    return [margin.value for margin in taken(plan, wall)]


def _drawn(rates: Array, covariance: Array, *, draws: int, seed: int) -> Array:
    """Return how far figures are off in alcoves drawn by lot, one row for each. [mm]."""
    if not len(rates):
        return np.zeros((draws, 0))
    # A root that grows as the sigmas do: the same lots then draw the same alcoves, only worse.
    root = np.linalg.cholesky(covariance + NUDGE * np.diag(np.diag(covariance)))
    lots = np.random.default_rng(seed).standard_normal((draws, len(covariance)))
    off: Array = lots @ (rates @ root).T
    return off


def _limits(names: Sequence[tuple[str, str]], holds: NDArray[np.bool_]) -> Iterator[LimitOdds]:
    """Yield each limit that failed in a draw, with the share of draws in which it held."""
    for limit, wall in dict.fromkeys(names):
        mine = [column for column, name in enumerate(names) if name == (limit, wall)]
        chance = float(np.mean(np.all(holds[:, mine], axis=1)))
        if chance < 1.0:
            yield LimitOdds(limit=limit, wall=wall, chance=chance)
