"""Every plan of so many bars: found, or shown not to be there."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from gaugerod.core.cutting.bar_fill import Bools, Demand, Ints, Pattern
from gaugerod.core.cutting.bar_master import SCALE, least_bars
from gaugerod.core.cutting.bar_program import Effort, Program, Shares

MOST_BARS = 300
"""A plan of more bars than this is not searched for: each is a branch below the last."""
SCANS = 4
"""So often a branch goes over all patterns, about."""
WHOLE = 1e-6
"""A share this close to a whole number is one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Searched:
    """What a search came to: a plan, the proof that there is none, or neither in the time."""

    outcome: Literal["found", "none", "unknown"]
    bars: tuple[Pattern, ...] = ()


def searched(demand: Demand, patterns: Ints, *, bars: int, effort: Effort) -> Searched:
    """Look for a plan of exactly so many bars among some patterns.

    Parameters
    ----------
    demand
        What is wanted.
    patterns
        How many of each kind a bar may give: all patterns that such a plan could use. [1]
    bars
        How many bars the plan has.
    effort
        Work that may be done.

    Returns
    -------
    Searched
        A plan; or that there is none; or that the work ran out.

    Notes
    -----
    Branch and bound. The kind that the fewest patterns give must come out of one of them:
    each is tried, and is left out of the branches after its own. A branch is left when
    whole worths, held to every pattern that it may still use, prove that it needs more
    bars; the solver's word alone never ends one. Source: own design, after exact cover.

    Examples
    --------
    >>> two = Demand(sizes=np.array([6, 4]), counts=np.array([1, 2]), room=10)
    >>> searched(two, np.array([[1, 1], [0, 2]]), bars=2, effort=Effort(10**9)).outcome
    'none'
    """
    if bars > MOST_BARS:
        return Searched(outcome="unknown")
    kinds = len(demand.sizes)
    search = _Search(demand, patterns[patterns.sum(axis=1) > 1], effort)
    singles = (patterns.sum(axis=1) == 1).nonzero()[0]
    allowed = np.ones(len(search.table), dtype=np.bool_)
    # The single pieces that no plan could use stay in for the bound only.
    allowed[:kinds] = patterns[singles].any(axis=0)
    rows = search.below(demand.counts, allowed, bars)
    if rows is not None:
        return Searched(outcome="found", bars=tuple(search.pool[row] for row in rows))
    return Searched(outcome="none" if effort.left > 0 else "unknown")


class _Search:
    def __init__(self, demand: Demand, patterns: Ints, effort: Effort) -> None:
        self._effort = effort
        self._program = Program(demand, effort, exact=True)
        self._program.add(_pattern(row) for row in patterns)
        self.pool = tuple(self._program.pool)
        kinds = len(demand.sizes)
        self._kinds = kinds
        self.table = np.vstack([np.eye(kinds, dtype=np.int64), patterns])

    def below(self, wanted: Ints, allowed: Bools, bars: int) -> list[int] | None:
        """Return the patterns of a plan of so many bars for what is wanted, if there is one."""
        if not wanted.any():
            return [] if bars == 0 else None
        if bars == 0 or self._effort.left <= 0:
            return None
        allowed = allowed & (self.table <= wanted).all(axis=1)
        usable = allowed.copy()
        usable[: self._kinds] = True
        self._program.turn_to(wanted, usable)
        best = self._program.solved()
        if self._proved(best, wanted, usable) > bars:
            return None
        whole = self._whole(best, wanted, allowed, bars)
        return whole or self._branches(best, wanted, allowed, bars)

    def _branches(self, best: Shares, wanted: Ints, allowed: Bools, bars: int) -> list[int] | None:
        rows = np.flatnonzero(allowed)
        ways = (self.table[rows] > 0).sum(axis=0)
        ways[wanted == 0] = len(rows) + 1
        kind = int(ways.argmin())
        rows = rows[self.table[rows, kind] > 0]
        for row in rows[np.argsort(-best.shares[rows], kind="stable")].tolist():
            more = self.below(wanted - self.table[row], allowed, bars - 1)
            if more is not None:
                return [row, *more]
            allowed[row] = False
        return None

    def _proved(self, best: Shares, wanted: Ints, usable: Bools) -> int:
        """Return how many bars the prices prove, as whole worths, held to each pattern."""
        worths = np.floor(best.prices * SCALE).astype(np.int64)
        self._effort.spend(SCANS * self.table.size)
        return least_bars(worths, wanted, int((self.table @ worths)[usable].max()))

    def _whole(self, best: Shares, wanted: Ints, allowed: Bools, bars: int) -> list[int] | None:
        """Return the shares as patterns where they are whole numbers and make a plan."""
        times = np.rint(best.shares).astype(np.int64)
        if np.abs(best.shares - times).max() > WHOLE or times[~allowed].any():
            return None
        if times.sum() != bars or (times @ self.table != wanted).any():
            return None
        return np.repeat(np.arange(len(times)), times).tolist()


def _pattern(row: Ints) -> Pattern:
    kinds = np.flatnonzero(row)
    return tuple(zip(kinds.tolist(), row[kinds].tolist(), strict=True))
