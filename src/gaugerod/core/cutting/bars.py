"""Lengths from stock: the fewest bars that give all pieces, and the proof of it."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor

import numpy as np

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.bar_dive import PLACING, dived, rounded
from gaugerod.core.cutting.bar_fill import Demand, Pattern, filled, quick_bound
from gaugerod.core.cutting.bar_master import Master
from gaugerod.core.cutting.bar_near import near
from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.bar_search import searched

GRID = {"in": Fraction(127, 160), "mm": Fraction(1, 2), "cm": Fraction(1, 2)}
"""What bars are reckoned in: 1/32 in, or half a millimetre. [mm]"""
GUARD = 1e-6
"""So much of a step of the grid is the noise of a sum of floats."""
EFFORT = 2_000_000_000
"""Work after which the best so far must do. [table cells]"""
MOST_SLIPS = 8
"""So often a dive may follow the second best."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarCut:
    """One piece of a bar: which of those asked for, where it begins, how long it is. [mm]."""

    piece: int
    start: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One stock length, its pieces in the order they are cut, and what is left. [mm]."""

    cuts: tuple[BarCut, ...]
    offcut: float


@dataclass(frozen=True, slots=True, kw_only=True)
class BarPlan:
    """Bars that give all pieces, and a number that no plan can go under.

    `proven` says that the bound is met.
    """

    bars: tuple[Bar, ...]
    lower_bound: int
    proven: bool


def fewest_bars(
    lengths: Sequence[float],
    *,
    stock: float,
    kerf: float,
    step: Fraction = GRID["mm"],
    effort: int = EFFORT,
) -> BarPlan:
    """Cut pieces from the fewest stock lengths.

    Parameters
    ----------
    lengths
        Pieces, each longer than nought. [mm]
    stock
        Length of one bar. [mm]
    kerf
        What a cut takes, >= 0. [mm]
    step
        What is reckoned in: pieces and kerf are rounded up to it, the stock down. [mm]
    effort
        Work that may be done before the best so far must do, in table cells.

    Returns
    -------
    BarPlan
        Bars, the fullest first, each longest piece first, and the bound. [mm]

    Raises
    ------
    MaterialError
        A piece is longer than the stock.

    Notes
    -----
    n pieces from one bar need their lengths and n - 1 kerfs; a last cut falls only where
    something is left. First fit and best fit against a bound by sums; then patterns priced
    into a linear program, dives, and a search of all plans where few patterns are left. The
    bound is proved in whole numbers, whatever a solver says. ``docs/theory/bars.md``.
    Source: P. C. Gilmore and R. E. Gomory, *A linear programming approach to the
    cutting-stock problem* (1961).

    Examples
    --------
    Three pieces of 47 in from bars of 96 in: two to a bar, and 1 3/4 in is left of the first.

    >>> plan = fewest_bars([1193.8] * 3, stock=2438.4, kerf=3.175, step=GRID["in"])
    >>> [[(cut.piece, cut.start) for cut in bar.cuts] for bar in plan.bars]
    [[(0, 0.0), (1, 1196.975)], [(2, 0.0)]]
    >>> round(plan.bars[0].offcut, 2), plan.proven
    (44.45, True)
    """
    for length in lengths:
        if length > stock + GUARD * float(step):
            raise MaterialError(
                Message("cutting.longer-than-stock", length=Length(length), stock=Length(stock))
            )
    whole, saw = max(floor(stock / float(step) + GUARD), 1), _up(kerf, step)
    # A piece as long as the stock, but for less than a step, takes a bar of its own.
    grid = [min(max(_up(length, step), 1), whole) for length in lengths]
    kinds = sorted(Counter(grid).items(), reverse=True)
    demand = Demand(
        sizes=np.array([size + saw for size, _ in kinds], dtype=np.int64),
        counts=np.array([count for _, count in kinds], dtype=np.int64),
        room=whole + saw,
    )
    patterns, bound = _fewest(demand, Effort(effort))
    of_size = defaultdict(list)
    for piece in sorted(range(len(lengths)), key=lambda piece: (-grid[piece], piece), reverse=True):
        of_size[grid[piece]].append(piece)
    bars = [
        _bar([(of_size[size].pop(), size) for size in sizes], lengths, whole, saw, step)
        for sizes in sorted(_sizes(patterns, kinds), key=_fullest_first)
    ]
    return BarPlan(bars=tuple(bars), lower_bound=bound, proven=bound == len(bars))


def _sizes(patterns: Iterable[Pattern], kinds: list[tuple[int, int]]) -> Iterator[list[int]]:
    for pattern in patterns:
        yield [kinds[kind][0] for kind, count in pattern for _ in range(count)]


def _fullest_first(sizes: list[int]) -> tuple[int, list[int]]:
    return -sum(sizes), sizes


def _up(length: float, step: Fraction) -> int:
    return ceil(length / float(step) - GUARD)


def _bar(
    pieces: Iterable[tuple[int, int]],
    lengths: Sequence[float],
    whole: int,
    saw: int,
    step: Fraction,
) -> Bar:
    cuts, at = [], 0
    for piece, size in pieces:
        cuts.append(BarCut(piece=piece, start=float(at * step), length=lengths[piece]))
        at += size + saw
    return Bar(cuts=tuple(cuts), offcut=float(max(whole - at, 0) * step))


def _fewest(demand: Demand, effort: Effort) -> tuple[list[Pattern], int]:
    """Return the bars of the best plan found, and the best bound."""
    if not len(demand.sizes):
        return [], 0
    bound = quick_bound(demand)
    tries = (filled(demand, tightest=tightest) for tightest in (False, True))
    effort.spend(2 * PLACING * int(demand.counts.sum()))
    best = min(tries, key=len)
    if len(best) == bound:
        return best, bound
    master = Master(demand, effort)
    master.add(tuple(best))
    relaxed = master.relaxed(demand.counts, most=len(best))
    if relaxed:
        bound = max(bound, relaxed.bound)
        best = min(best, rounded(master, demand.counts, relaxed), key=len)
    for slips in range(MOST_SLIPS + 1):
        if slips == 1:
            best, bound = _closed(master, best, bound)
        if len(best) == bound or effort.left <= 0:
            break
        # First as few as could be at all, then one less than the best so far.
        for most in sorted({bound, len(best) - 1}):
            found = dived(master, demand.counts, most=most, slips=slips)
            if found:
                best = found
                break
    return best, bound


def _closed(master: Master, best: list[Pattern], bound: int) -> tuple[list[Pattern], int]:
    """Search all plans of as many bars as the bound says, as long as the patterns are few."""
    demand, effort = master.demand, master.effort
    while bound < len(best):
        relaxed = master.relaxed(demand.counts, most=len(best), settled=True)
        if relaxed is None:
            break
        lost = bound * relaxed.dearest - int(relaxed.worths @ demand.counts)
        patterns = near(demand, relaxed.worths, least=relaxed.dearest - lost)
        if patterns is None:
            break
        found = searched(demand, patterns, bars=bound, effort=effort)
        if found.outcome == "found":
            return list(found.bars), bound
        if found.outcome == "unknown":
            break
        bound += 1
    return best, bound
