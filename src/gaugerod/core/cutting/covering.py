"""Patterns and exchanges as a linear programme: the fewest modules that cover a demand."""

from collections.abc import Iterable, Mapping, Sequence

import highspy
import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.bar_program import Effort

Floats = NDArray[np.float64]

DUAL, PRIMAL = 1, 4
"""Numbers of the solver's strategies."""
NODES = 2000
"""Most nodes of the branching over whole patterns: no clock, so that a plan repeats."""
FEWEST_NODES = 20
"""Nodes that are looked at in the largest programmes."""
BRANCHING = 4_000_000_000
"""Nodes times rows times columns, a tenth of it in large programmes. [table cells]"""
LARGE = 20_000_000
"""Over so many rows times columns what the fractions use whole is not looked at again."""
LARGEST = 500_000_000
"""Over so many nothing but that is taken: the first node alone takes minutes."""
MANY = 1500
"""Over so many patterns one is not looked for that has fewer cuts: it takes too long."""
FEW_NODES = 100
"""Most nodes of that second look."""
HAIR = 1e-6
"""Fractions nearer than this to a whole number are it."""


class Covering:
    """Fewest patterns such that their slots, exchanged downward, cover the demand.

    A row for each way that a kind may lie; a column for each pattern, and one without cost for
    each exchange, by which a slot of one way serves as one of another.
    """

    __slots__ = ("_columns", "_costs", "_effort", "_highs", "_solved")

    def __init__(
        self, demand: Sequence[int], exchanges: Iterable[tuple[int, int]], effort: Effort
    ) -> None:
        """Take the demand of each row, the exchanges (from, to), and what work may be done."""
        self._effort = effort
        self._solved = False
        self._highs = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave it open
        for option, value in (
            ("output_flag", False),
            ("threads", 1),
            ("random_seed", 0),
            ("mip_rel_gap", 0.0),
            # Counts are whole: a gap under one is none. The default is wrong for large counts.
            ("mip_abs_gap", 0.999),
        ):
            self._highs.setOptionValue(option, value)
        self._columns: list[int] = []
        self._costs: list[int] = []
        none = np.array([], dtype=np.int32)
        for count in demand:
            self._highs.addRow(float(count), highspy.kHighsInf, 0, none, np.array([]))
        for slot, to in exchanges:
            self._add(0.0, {to: 1, slot: -1})

    def _add(self, cost: float, entries: Mapping[int, int]) -> None:
        rows = np.array(list(entries), dtype=np.int32)
        values = np.array(list(entries.values()), dtype=float)
        self._highs.addCol(cost, 0.0, highspy.kHighsInf, len(rows), rows, values)

    def add(self, counts: Mapping[int, int], cuts: int) -> None:
        """Add a pattern: its slots of each row, and how many cuts it takes."""
        self._columns.append(self._highs.getNumCol())
        self._costs.append(cuts)
        self._add(1.0, counts)

    def relaxed(self) -> tuple[float, Floats]:
        """Solve with fractions of patterns: their number, and what a slot of each row is worth.

        Stopped because all work is done, it returns what a row is worth so far: no less sound.
        """
        highs = self._highs
        size = highs.getNumRow() + highs.getNumCol()
        # With patterns added the last basis stays feasible: from there primal pivots are few.
        highs.setOptionValue("simplex_strategy", PRIMAL if self._solved else DUAL)
        highs.setOptionValue("simplex_iteration_limit", max(self._effort.left // size, 0))
        highs.run()
        info = highs.getInfo()
        self._solved = highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
        # The library counts -1 where it had nothing to do.
        spent = max(info.simplex_iteration_count, 0) * size
        self._effort.spend(spent if self._solved else max(self._effort.left, 0))
        worth = np.nan_to_num(highs.getSolution().row_dual, posinf=0.0)
        return info.objective_function_value, np.maximum(worth, 0.0)

    def fractions(self) -> Floats:
        """Return how often each pattern is used, as last solved."""
        return np.array(self._highs.getSolution().col_value)[self._columns]

    def whole(self, *, least: int) -> list[int]:
        """Solve with whole patterns, never fewer than `least`: how often each is used.

        Of the solutions with that many patterns one with the fewest cuts is then looked for.
        What a solution gives is for whoever asked to count: what the solver says of itself is
        not relied on. Of the largest programmes, and of those whose fractions were not found,
        it is the fractions rounded down.
        """
        highs = self._highs
        size = highs.getNumRow() * highs.getNumCol()
        whole = np.maximum(np.floor(self.fractions() + HAIR), 0.0)
        if size > LARGEST or not self._solved:
            return [int(count) for count in whole]
        highs.setOptionValue("simplex_strategy", DUAL)
        highs.setOptionValue("simplex_iteration_limit", highspy.kHighsIInf)
        nodes = BRANCHING // size // (10 if size > LARGE else 1)
        highs.setOptionValue("mip_max_nodes", min(max(nodes, FEWEST_NODES), NODES))
        for column, count in zip(self._columns, (whole * (size > LARGE)).tolist(), strict=True):
            highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
            highs.changeColBounds(column, count, highspy.kHighsInf)
        used = np.array(self._columns, dtype=np.int32)
        highs.addRow(float(least), highspy.kHighsInf, len(used), used, np.ones(len(used)))
        highs.run()
        best = self._counted()
        if len(self._columns) > MANY:
            return best
        highs.changeRowBounds(highs.getNumRow() - 1, float(least), float(sum(best)))
        for column, cost in zip(self._columns, self._costs, strict=True):
            highs.changeColCost(column, float(cost))
        highs.setOptionValue("mip_max_nodes", FEW_NODES)
        highs.run()
        fewer_cuts = self._counted()
        return fewer_cuts if sum(fewer_cuts) == sum(best) else best

    def _counted(self) -> list[int]:
        return [round(value) for value in self.fractions()]
