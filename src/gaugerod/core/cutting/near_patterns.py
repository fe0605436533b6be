"""All patterns of cuts that a plan of so many modules could still use, where they are few."""

from collections import Counter
from collections.abc import Sequence
from itertools import product
from typing import TypeAlias

import numpy as np

from gaugerod.core.cutting.bar_fill import Demand
from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.bar_search import searched
from gaugerod.core.cutting.guillotine import Place, TooMuchError, Worths
from gaugerod.core.cutting.rooms import Cut, Leaf, Room, Tree

MOST = 10_000
"""More patterns than this, of a module or of a part of one, are not gone through."""
WORK = 300_000
"""So often two parts are put together at most."""
LISTED = 10_000_000
"""A list of patterns by the kinds that they give is no larger. [table cells]"""

Pieces: TypeAlias = tuple[int, ...]
"""Numbers of the kinds that a part gives, rising."""


class TooManyError(Exception):
    """There are more patterns than are worth going through."""


def near_patterns(room: Room, table: Worths, *, slack: int) -> dict[Pieces, Tree] | None:
    """List what a module can give that is worth nearly as much as anything can be.

    Parameters
    ----------
    room
        The room, its sizes in units; no more of a kind is cut than is wanted.
    table
        Worths of the room, each kind worth something.
    slack
        By how much a pattern may be worth less than the best.

    Returns
    -------
    dict or None
        Cuts for every lot of pieces that a module can give; none if there are too many.

    Notes
    -----
    Part by part: what one part loses on its best, the others may not lose again. If n modules
    give all pieces, worth S, and none gives more than V, then none gives less than
    S - (n - 1) V. Source: own derivation; fixing by reduced cost.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import LEFT, RIGHT, Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT), Kind(49, 50, RIGHT)),
    ...     demand=(2, 1))
    >>> sorted(near_patterns(room, Worths(room, (3, 2)), slack=2))
    [(0,), (0, 1)]
    """
    search = _Near(room, table)
    try:
        return search.found(table.whole(), slack)
    except TooManyError:
        return None


def one_plan(
    room: Room, worth: Sequence[int], *, modules: int, effort: Effort
) -> tuple[Tree, ...] | None:
    """Look for a plan of so many modules among all patterns that such a plan could use.

    Parameters
    ----------
    room
        The room, its sizes in units.
    worth
        Whole worths of the kinds, such as prove a bound.
    modules
        How many modules the plan has.
    effort
        Work that may be done.

    Returns
    -------
    tuple of Tree or None
        The cuts of each module; empty if there is no such plan; none if that is not known.

    Notes
    -----
    Source: as `near_patterns` and `searched`; every end of a branch is proven in whole numbers.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import LEFT, RIGHT, Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT), Kind(49, 50, RIGHT)),
    ...     demand=(2, 1))
    >>> len(one_plan(room, (2, 2), modules=2, effort=Effort(10**8)))
    2
    """
    # A kind without worth would be in every pattern or in none: give each a little.
    some = [max(one, 1) for one in worth]
    try:
        table = Worths(room, some)
    except TooMuchError:
        return None
    counts = np.array(room.demand, dtype=np.int64)
    slack = modules * table.most - int(counts @ np.array(some))
    if slack < 0:
        return ()
    patterns = near_patterns(room, table, slack=slack)
    if patterns is None or (len(patterns) + len(counts)) * len(counts) > LISTED:
        return None
    lots = {tuple(sorted(Counter(pieces).items())): tree for pieces, tree in patterns.items()}
    rows = np.zeros((len(lots), len(counts)), dtype=np.int64)
    for row, lot in enumerate(lots):
        for number, count in lot:
            rows[row, number] = count
    # The search over bars asks for no sizes: what fits into one is said by its patterns.
    demand = Demand(sizes=np.ones_like(counts), counts=counts, room=1)
    found = searched(demand, rows, bars=modules, effort=effort)
    return None if found.outcome == "unknown" else tuple(lots[bar] for bar in found.bars)


class _Near:
    def __init__(self, room: Room, table: Worths) -> None:
        self.room = room
        self.table = table
        self.work = WORK
        self.seen: dict[tuple[Place, int], dict[Pieces, Tree]] = {}

    def found(self, place: Place, slack: int) -> dict[Pieces, Tree]:
        """Return all lots of a part that lose no more than the slack."""
        # A part that gives nothing loses all: to allow for more makes no difference.
        slack = min(slack, self.table.at(place))
        key = place, slack
        if key not in self.seen:
            found: dict[Pieces, Tree] = {}
            self._singles(place, slack, found)
            self._cut_in_two(place, slack, found)
            self.seen[key] = found
        return self.seen[key]

    def _singles(self, place: Place, slack: int, found: dict[Pieces, Tree]) -> None:
        least = self.table.at(place) - slack
        for way, (number, _) in enumerate(self.room.ways):
            wanted = self.room.demand[number] and self.table.worth((number,)) >= least
            if wanted and self.table.gives(place, way):
                found.setdefault((number,), Leaf(way))

    def _cut_in_two(self, place: Place, slack: int, found: dict[Pieces, Tree]) -> None:
        least = self.table.at(place) - slack
        for upright, at, first, second in self.table.splits(place, slack=slack):
            left = self.table.at(first) + self.table.at(second) - least
            one, other = self.found(first, left), self.found(second, left)
            self.work -= 1 + len(one) * len(other)
            if self.work < 0 or len(found) > MOST:
                raise TooManyError
            for (a, tree), (b, rest) in product(one.items(), other.items()):
                pieces = tuple(sorted(a + b))
                if pieces not in found and self._wanted(pieces, least):
                    found[pieces] = Cut(upright, at, tree, rest)

    def _wanted(self, pieces: Pieces, least: int) -> bool:
        enough = self.table.worth(pieces) >= least
        return enough and all(n <= self.room.demand[k] for k, n in Counter(pieces).items())
