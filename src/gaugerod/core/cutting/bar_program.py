"""Shares of bars: the linear program over a pool of patterns, solved again and again."""

from collections.abc import Iterable
from dataclasses import dataclass

import highspy
import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.bar_fill import Bools, Demand, Ints, Pattern

CALL = 200_000
"""Work of one call of the solver beside its pivots. [table cells]"""
PIVOT = 50
"""Work of one pivot for each kind of piece; for each pattern a tenth of it. [table cells]"""


class Effort:
    """Work that may still be done, counted in table cells: the same on every machine."""

    def __init__(self, cells: int) -> None:
        self.left = cells

    def spend(self, cells: int) -> None:
        """Take work off what may still be done."""
        self.left -= cells


@dataclass(frozen=True, slots=True, kw_only=True)
class Shares:
    """What the solver found. Its prices prove nothing before they are held to all patterns."""

    value: float
    prices: NDArray[np.float64]
    shares: NDArray[np.float64]


class Program:
    """A pool of patterns, and the fewest bars in shares for all of a demand or part of it.

    The pool begins with one pattern of one piece for each kind, in their order. Where
    `exact`, no more of a kind may come out than is wanted.
    """

    def __init__(self, demand: Demand, effort: Effort, *, exact: bool = False) -> None:
        self.demand = demand
        self.effort = effort
        self.pool: dict[Pattern, int] = {}
        self._exact = exact
        self._wanted = np.zeros_like(demand.counts)
        self._solver = highspy.Highs()  # type: ignore[no-untyped-call]  # so in the library
        self._solver.silent()
        kinds = len(demand.sizes)
        none, starts = np.zeros(0, dtype=np.int32), np.zeros(kinds, dtype=np.int32)
        zeros, upper = np.zeros(kinds), self._upper(np.zeros(kinds))
        self._solver.addRows(kinds, zeros, upper, 0, starts, none, np.zeros(0))
        self.add(((kind, 1),) for kind in range(kinds))

    def _upper(self, wanted: NDArray[np.float64]) -> NDArray[np.float64]:
        return wanted if self._exact else np.full_like(wanted, highspy.kHighsInf)

    def add(self, patterns: Iterable[Pattern]) -> int:
        """Add the patterns that the pool has not yet, and return how many."""
        before = len(self.pool)
        for pattern in patterns:
            if pattern not in self.pool:
                self.pool[pattern] = len(self.pool)
                rows, values = np.array(pattern, dtype=np.int32).T
                self._solver.addCol(
                    1.0, 0.0, highspy.kHighsInf, len(rows), rows.copy(), values.astype(float)
                )
        return len(self.pool) - before

    def turn_to(self, wanted: Ints, allowed: Bools) -> None:
        """Ask for so many of each kind, and for no patterns but those allowed."""
        upper = self._upper(wanted.astype(float))
        for kind in np.flatnonzero(wanted != self._wanted).tolist():
            self._solver.changeRowBounds(kind, float(wanted[kind]), float(upper[kind]))
        self._wanted = wanted
        size = len(self.pool)
        most = np.where(allowed, highspy.kHighsInf, 0.0)
        self._solver.changeColsBounds(size, np.arange(size, dtype=np.int32), np.zeros(size), most)

    def solved(self) -> Shares:
        """Solve for what was asked, from where the last solution stood."""
        self._solver.run()
        info, solution = self._solver.getInfo(), self._solver.getSolution()
        pivot = PIVOT * len(self.demand.sizes) + PIVOT * len(self.pool) // 10
        # The library counts -1 where it had nothing to do.
        self.effort.spend(CALL + max(info.simplex_iteration_count, 0) * pivot)
        return Shares(
            value=info.objective_function_value,
            prices=np.array(solution.row_dual),
            shares=np.array(solution.col_value),
        )
