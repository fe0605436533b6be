"""Bars filled piece by piece, and a bound that needs no more than sums."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

Ints: TypeAlias = NDArray[np.int64]
Bools: TypeAlias = NDArray[np.bool_]
Pattern: TypeAlias = tuple[tuple[int, int], ...]
"""What one bar gives: (kind of piece, how many), kinds rising."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Kinds of pieces, longest first, how many of each, and the room of one bar. [grid steps].

    Each size holds the kerf after the piece, and so does `room`: the last cut of a bar is
    then free where nothing is left to cut off.
    """

    sizes: Ints
    counts: Ints
    room: int


def filled(demand: Demand, *, tightest: bool) -> list[Pattern]:
    """Fill bars with the longest piece first.

    Parameters
    ----------
    demand
        What is wanted.
    tightest
        Put each piece into the bar with the least room for it, else into the first.

    Returns
    -------
    list of Pattern
        What each bar gives.

    Notes
    -----
    First fit and best fit, decreasing. Source: D. S. Johnson (1973), from memory.

    Examples
    --------
    >>> two = Demand(sizes=np.array([6, 4]), counts=np.array([1, 2]), room=10)
    >>> filled(two, tightest=False)
    [((0, 1), (1, 1)), ((1, 1),)]
    """
    total = int(demand.counts.sum())
    rooms = np.full(total, demand.room, dtype=np.int64)
    bars: list[Counter[int]] = []
    for kind, size in enumerate(demand.sizes.tolist()):
        for _ in range(demand.counts[kind]):
            # One bar that is still empty is always among them.
            seen = rooms[: len(bars) + 1]
            fits = seen >= size
            at = int(np.where(fits, seen, demand.room + 1).argmin() if tightest else fits.argmax())
            if at == len(bars):
                bars.append(Counter())
            bars[at][kind] += 1
            rooms[at] -= size
    return [tuple(bar.items()) for bar in bars]


def quick_bound(demand: Demand) -> int:
    """Return a number of bars that no plan can go under, from sums alone.

    Parameters
    ----------
    demand
        What is wanted.

    Returns
    -------
    int
        The bound.

    Notes
    -----
    L2: for a length a, pieces over half a bar each need one; what is no shorter than a and
    no longer than half must go into the rooms that they leave, those with more than the room
    less a excepted. The best a is one of the sizes, or nought. Source: S. Martello and
    P. Toth, *Lower bounds and reduction procedures for the bin packing problem* (1990),
    from memory.

    Examples
    --------
    Three pieces of 6 in bars of 10: by length two bars would do.

    >>> quick_bound(Demand(sizes=np.array([6]), counts=np.array([3]), room=10))
    3
    """
    sizes, counts, room = demand.sizes, demand.counts, demand.room
    least = (0, *sizes[2 * sizes <= room].tolist())
    return max(_with_least(sizes, counts, room, a) for a in least)


def _with_least(sizes: Ints, counts: Ints, room: int, a: int) -> int:
    over = 2 * sizes > room
    shared = over & (sizes <= room - a)
    short = ~over & (sizes >= a)
    left = int(counts[shared].sum()) * room - int((counts * sizes)[shared].sum())
    more = int((counts * sizes)[short].sum()) - left
    return int(counts[over].sum()) + max(0, -(-more // room))


def taken(counts: Ints, patterns: Sequence[Pattern]) -> Ints:
    """Return what is still wanted after some bars.

    Parameters
    ----------
    counts
        How many of each kind are wanted.
    patterns
        Bars; they give no more than is wanted.

    Returns
    -------
    NDArray
        How many of each kind are left to cut. [1]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> taken(np.array([2, 1]), [((0, 1), (1, 1))]).tolist()
    [1, 0]
    """
    left = counts.copy()
    for pattern in patterns:
        for kind, count in pattern:
            left[kind] -= count
    return left
