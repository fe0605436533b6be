"""From shares of bars to whole ones: round, solve what is left anew, and slip where it fails."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from gaugerod.core.cutting.bar_fill import Ints, Pattern, filled, taken
from gaugerod.core.cutting.bar_master import Master, Relaxed

STEPS = 30
"""A dive fixes about this part of its bars at a time, at least one."""
LITTLE = 1e-3
"""A share smaller than this is not followed."""
PLACING = 3000
"""Work of placing one piece. [table cells]"""


def dived(master: Master, wanted: Ints, *, most: int, slips: int) -> list[Pattern] | None:
    """Find at most so many bars for what is wanted, or none.

    Parameters
    ----------
    master
        The pool of patterns.
    wanted
        How many of each kind are still to be cut. [1]
    most
        Bars that may be used.
    slips
        How often the second best may be followed in place of the best, or the third for two.

    Returns
    -------
    list of Pattern or None
        The bars.

    Notes
    -----
    Diving with re-pricing and limited discrepancy: whole parts of the shares are taken, then
    the largest share is rounded up, and the linear program is solved anew, with new
    patterns, for what is left. A branch is left when its own bound says that it can't do.
    Source: R. Sadykov and others, *Primal heuristics for branch-and-price* (2019), from memory.

    Examples
    --------
    >>> from gaugerod.core.cutting.bar_fill import Demand
    >>> from gaugerod.core.cutting.bar_program import Effort
    >>> two = Demand(sizes=np.array([6, 4]), counts=np.array([1, 1]), room=10)
    >>> dived(Master(two, Effort(10**9)), two.counts, most=1, slips=0)
    [((0, 1), (1, 1))]
    """
    if not wanted.any():
        return []
    relaxed = master.relaxed(wanted, most=most)
    if relaxed is None:
        return None
    pool = master.pool
    whole = _proper(wanted, _whole(pool, relaxed))
    left = taken(wanted, whole)
    quick = _quickest(master, left)
    if len(whole) + len(quick) <= most:
        return whole + quick
    most -= len(whole)
    for slip, fixed in enumerate(_choices(pool, relaxed, left, slips=slips, most=most)):
        after, fewer = taken(left, fixed), most - len(fixed)
        more = dived(master, after, most=fewer, slips=slips - slip)
        if more is not None:
            return whole + fixed + more
    return None


def rounded(master: Master, wanted: Ints, relaxed: Relaxed) -> list[Pattern]:
    """Return a plan from shares: their whole parts, and what is left the quick way.

    Parameters
    ----------
    master
        The pool of patterns.
    wanted
        How many of each kind are to be cut. [1]
    relaxed
        Shares for what is wanted.

    Returns
    -------
    list of Pattern
        The bars.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.cutting.bar_fill import Demand
    >>> from gaugerod.core.cutting.bar_program import Effort
    >>> two = Demand(sizes=np.array([6, 4]), counts=np.array([1, 1]), room=10)
    >>> master = Master(two, Effort(10**9))
    >>> rounded(master, two.counts, master.relaxed(two.counts, most=2))
    [((0, 1), (1, 1))]
    """
    whole = _proper(wanted, _whole(master.pool, relaxed))
    return whole + _quickest(master, taken(wanted, whole))


def _quickest(master: Master, left: Ints) -> list[Pattern]:
    """Fill bars with what is left, each of the two ways, and return the fewer."""
    rest = replace(master.demand, counts=left)
    master.effort.spend(2 * PLACING * int(left.sum()))
    return min((filled(rest, tightest=tightest) for tightest in (False, True)), key=len)


def _whole(pool: tuple[Pattern, ...], relaxed: Relaxed) -> Iterator[Pattern]:
    for column in np.flatnonzero(relaxed.shares >= 1 - LITTLE).tolist():
        yield from [pool[column]] * int(relaxed.shares[column] + LITTLE)


def _proper(wanted: Ints, patterns: Iterable[Pattern]) -> list[Pattern]:
    """Keep of some bars those that give no more than is wanted."""
    left = dict(enumerate(wanted.tolist()))
    kept = []
    for pattern in patterns:
        if all(left[kind] >= count for kind, count in pattern):
            left |= {kind: left[kind] - count for kind, count in pattern}
            kept.append(pattern)
    return kept


def _choices(
    pool: tuple[Pattern, ...], relaxed: Relaxed, left: Ints, *, slips: int, most: int
) -> Iterator[list[Pattern]]:
    """Yield what may be fixed next, the likeliest first."""
    parts = relaxed.shares % 1.0
    order = np.argsort(-parts, kind="stable")
    order = order[parts[order] > LITTLE].tolist()
    for slip in range(min(slips + 1, len(order))):
        turn = (pool[column] for column in (order[slip], *order[:slip], *order[slip + 1 :]))
        # Over the noise of shares nothing may be left that fits.
        yield from filter(None, [_proper(left, turn)[: max(1, most // STEPS)]])
