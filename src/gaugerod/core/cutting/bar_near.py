"""All patterns that a plan of so many bars could still use, where they are few."""

from dataclasses import dataclass

import numpy as np

from gaugerod.core.cutting.bar_fill import Demand, Ints

MOST_CELLS = 10_000_000
"""A table larger than this is not begun. [cells]"""
MOST_NEAR = 10_000
"""More patterns than this are not searched through."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Partial:
    """Patterns over the first kinds, side by side."""

    rooms: Ints
    worths: Ints
    given: list[Ints]


def near(demand: Demand, worths: Ints, *, least: int) -> Ints | None:
    """List every pattern that is worth at least so much.

    Parameters
    ----------
    demand
        Kinds of pieces; a bar gives no more of a kind than is wanted.
    worths
        Whole worth of each kind.
    least
        Worth of the poorest pattern to list.

    Returns
    -------
    NDArray or None
        How many of each kind each pattern gives; none if there are over `MOST_NEAR`, or
        the table of what the later kinds can add would be over `MOST_CELLS`. [1]

    Notes
    -----
    Kind by kind; a beginning is dropped when even the dearest end does not lift it to
    `least`. If whole worths prove a bound, a plan of n bars whose dearest bar is worth d
    loses ``n d - worths . wanted`` in all, so no bar of it is worth less than d less that.
    Source: own derivation; fixing by reduced cost.

    Examples
    --------
    >>> two = Demand(sizes=np.array([6, 4]), counts=np.array([1, 2]), room=10)
    >>> near(two, np.array([6, 4]), least=8).tolist()
    [[1, 1], [0, 2]]
    """
    if len(demand.sizes) * demand.room > MOST_CELLS:
        return None
    ends = _ends(demand, worths)
    found = _Partial(rooms=np.array([demand.room]), worths=np.zeros(1, dtype=np.int64), given=[])
    for kind in range(len(demand.sizes)):
        found = _longer(found, demand, kind, int(worths[kind]), least - ends[kind + 1])
        if len(found.rooms) > MOST_NEAR:
            return None
    return np.array(found.given).T


def _ends(demand: Demand, worths: Ints) -> Ints:
    """Return what the kinds from each on can add at most, for every room."""
    kinds = len(demand.sizes)
    ends = np.zeros((kinds + 1, demand.room + 1), dtype=np.int64)
    for kind in range(kinds - 1, -1, -1):
        after, here = ends[kind + 1], ends[kind]
        here[:] = after
        size, worth = int(demand.sizes[kind]), int(worths[kind])
        for count in range(1, min(int(demand.counts[kind]), demand.room // size) + 1):
            reach = demand.room + 1 - count * size
            np.maximum(here[-reach:], after[:reach] + count * worth, out=here[-reach:])
    return ends


def _longer(found: _Partial, demand: Demand, kind: int, worth: int, lacking: Ints) -> _Partial:
    """Go on with each beginning, with every number of one more kind that may still do."""
    size = int(demand.sizes[kind])
    most = min(int(demand.counts[kind]), demand.room // size)
    counts = np.arange(most + 1, dtype=np.int64)
    rooms = found.rooms - counts[:, None] * size
    worths = found.worths + counts[:, None] * worth
    fits = (rooms >= 0) & (worths >= lacking[np.maximum(rooms, 0)])
    taken, of = np.nonzero(fits)
    return _Partial(
        rooms=rooms[fits],
        worths=worths[fits],
        given=[*(given[of] for given in found.given), taken.astype(np.int64)],
    )
