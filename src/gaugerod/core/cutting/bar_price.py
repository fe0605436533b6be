"""The dearest bar: an exact knapsack in integers, which finds new patterns and proves bounds."""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.bar_fill import Demand, Ints, Pattern

STEP = 4000
"""Work of one step of the search beside its cells. [table cells]"""
MOST = 100
"""So many patterns are taken from one search."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Dearest:
    """The most that one bar is worth, and the patterns worth more than a limit."""

    worth: int
    patterns: tuple[Pattern, ...]
    work: int


def dearest(demand: Demand, worths: Ints, *, over: int) -> Dearest:
    """Find what one bar is worth at most, if each kind of piece has a worth.

    Parameters
    ----------
    demand
        Kinds of pieces; a bar gives no more of a kind than is wanted.
    worths
        What a piece of each kind is worth, >= 0.
    over
        Patterns worth more than this are returned, the dearest first.

    Returns
    -------
    Dearest
        The most, exactly; up to `MOST` patterns; the work in table cells.

    Notes
    -----
    Dynamic programming over the room of the bar, one step for each 1, 2, 4, ... pieces of a
    kind. With each step comes the dearest pattern that has it and none of the steps after
    it. All in integers, so the most is exact. Source: the knapsack of P. C. Gilmore and
    R. E. Gomory, *A linear programming approach to the cutting-stock problem* (1961).

    Examples
    --------
    >>> wanted = Demand(sizes=np.array([6, 4, 3]), counts=np.array([2, 2, 1]), room=10)
    >>> found = dearest(wanted, np.array([5, 4, 1]), over=8)
    >>> found.worth, found.patterns
    (9, (((0, 1), (1, 1)),))
    """
    steps = list(_steps(demand, worths))
    worth = np.zeros(demand.room + 1, dtype=np.int64)
    take = np.zeros((len(steps), demand.room + 1), dtype=np.bool_)
    forced = np.zeros(len(steps), dtype=np.int64)
    for row, (kind, count) in enumerate(steps):
        size, value = count * int(demand.sizes[kind]), count * int(worths[kind])
        with_it = worth[: demand.room + 1 - size] + value
        np.greater(with_it, worth[size:], out=take[row, size:])
        np.maximum(with_it, worth[size:], out=worth[size:])
        forced[row] = with_it[-1]
    rows = np.flatnonzero(forced > over)
    rows = rows[np.argsort(-forced[rows], kind="stable")][:MOST]
    return Dearest(
        worth=int(worth[-1]),
        patterns=tuple(dict.fromkeys(_patterns(demand, steps, take, rows))),
        work=len(steps) * (demand.room + STEP),
    )


def _steps(demand: Demand, worths: Ints) -> Iterator[tuple[int, int]]:
    """Split what a bar can take of each kind into 1, 2, 4, ... and a rest."""
    most = np.minimum(demand.counts, demand.room // demand.sizes)
    most[worths <= 0] = 0
    for kind in np.flatnonzero(most).tolist():
        left, part = int(most[kind]), 1
        while left:
            yield kind, min(part, left)
            left -= min(part, left)
            part *= 2


def _patterns(
    demand: Demand,
    steps: list[tuple[int, int]],
    take: NDArray[np.bool_],
    rows: NDArray[np.intp],
) -> Iterator[Pattern]:
    """Read the patterns back from the table, each from its own last step."""
    given = np.zeros((len(rows), len(demand.sizes)), dtype=np.int64)
    room = np.full(len(rows), demand.room, dtype=np.int64)
    for row in range(int(rows.max(initial=-1)), -1, -1):
        kind, count = steps[row]
        has = (rows == row) | ((rows > row) & take[row, room])
        given[has, kind] += count
        room[has] -= count * demand.sizes[kind]
    for one in given:
        kinds = np.flatnonzero(one)
        yield tuple(zip(kinds.tolist(), one[kinds].tolist(), strict=True))
