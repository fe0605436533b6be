"""Bars by columns: patterns are priced in until none is worth a bar, and that proves a bound."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.bar_fill import Bools, Demand, Ints, Pattern
from gaugerod.core.cutting.bar_price import dearest
from gaugerod.core.cutting.bar_program import Effort, Program

SCALE = 10**7
"""A bar is worth so much: prices are rounded down to whole parts of it."""
NOISE = 1e-6
"""Shares that sum to no more than this over a whole number are the solver's noise."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Relaxed:
    """The best shares, and whole worths of the pieces which prove that `bound` bars are needed.

    No bar is worth more than `dearest`.
    """

    shares: NDArray[np.float64]
    worths: Ints
    dearest: int
    bound: int


class Master:
    """The pool of patterns, which grows by the dearest, for a demand or what is left of it."""

    def __init__(self, demand: Demand, effort: Effort) -> None:
        self.demand = demand
        self.effort = effort
        self._program = Program(demand, effort)
        self._entries = np.zeros((3, 0), dtype=np.int64)
        self._seen = 0

    @property
    def pool(self) -> tuple[Pattern, ...]:
        """All patterns so far; shares are in their order."""
        return tuple(self._program.pool)

    def add(self, patterns: tuple[Pattern, ...]) -> bool:
        """Add patterns; tell whether any was new."""
        return self._program.add(patterns) > 0

    def relaxed(self, wanted: Ints, *, most: int, settled: bool = False) -> Relaxed | None:
        """Return the best shares for what is wanted; none if over `most` bars or out of effort.

        Unless `settled`, it is enough that no better prices can prove more bars.
        """
        self._program.turn_to(wanted, self._proper(wanted))
        left = replace(self.demand, counts=wanted)
        bound = 0
        while self.effort.left > 0:
            best = self._program.solved()
            worths = whole_worths(best.prices)
            found = dearest(left, worths, over=SCALE)
            self.effort.spend(found.work)
            bound = max(bound, least_bars(worths, wanted, found.worth))
            if bound > most:
                return None
            done = self.effort.left <= 0 or (not settled and bound >= best.value - NOISE)
            if done or not self.add(found.patterns):
                return Relaxed(shares=best.shares, worths=worths, dearest=found.worth, bound=bound)
        return None

    def _proper(self, wanted: Ints) -> Bools:
        """Tell which patterns give no more of a kind than is wanted."""
        pool = self.pool
        new = [
            (column, kind, count)
            for column, pattern in enumerate(pool[self._seen :], start=self._seen)
            for kind, count in pattern
        ]
        fresh = np.array(new, dtype=np.int64).reshape(-1, 3).T
        self._entries, self._seen = np.hstack([self._entries, fresh]), len(pool)
        column, kind, count = self._entries
        proper = np.ones(len(pool), dtype=np.bool_)
        proper[column[count > wanted[kind]]] = False
        return proper


def whole_worths(prices: NDArray[np.float64]) -> Ints:
    """Round prices down to whole parts of a bar; none is below nought.

    Parameters
    ----------
    prices
        What the solver says a piece of each kind is worth, in bars. [1]

    Returns
    -------
    NDArray
        Whole worths, in parts of `SCALE`. [1]

    Notes
    -----
    Any worths prove a bound; these prove a good one. Source: own derivation.

    Examples
    --------
    >>> whole_worths(np.array([0.5, -1e-9])).tolist()
    [5000000, 0]
    """
    worths: Ints = np.floor(np.maximum(prices, 0.0) * SCALE).astype(np.int64)
    return worths


def least_bars(worths: Ints, wanted: Ints, dearest_bar: int) -> int:
    """Return the bars that worths prove: all pieces' worth over the most one bar can hold.

    Parameters
    ----------
    worths
        Whole worth of each kind. [1]
    wanted
        How many of each kind. [1]
    dearest_bar
        What no bar is worth more than.

    Returns
    -------
    int
        The bound, by whole division.

    Notes
    -----
    A plan of n bars holds all pieces, so ``n dearest_bar >= worths . wanted``. Source: A. A.
    Farley, *A note on bounding a class of linear programming problems* (1990), from memory.

    Examples
    --------
    Three pieces worth a half each, and no bar holds more than one:

    >>> least_bars(np.array([5]), np.array([3]), 5)
    3
    """
    return -(-int(worths @ wanted) // max(dearest_bar, 1))
