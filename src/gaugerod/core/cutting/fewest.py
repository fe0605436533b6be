"""The fewest modules that give the pieces of a room, with a bound that proves it."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import islice
from math import ceil

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_flow

from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.covering import Covering
from gaugerod.core.cutting.greedy import greedy, saw_cuts
from gaugerod.core.cutting.guillotine import TooMuchError, Worths
from gaugerod.core.cutting.near_patterns import one_plan
from gaugerod.core.cutting.pruning import pruned
from gaugerod.core.cutting.rooms import Kind, Leaf, Room, Tree, leaves, whole
from gaugerod.core.cutting.strips import good_patterns

Flags = NDArray[np.bool_]

SCALE = 10**7
"""Worths are taken to whole numbers of this part, so that the bound is exact."""
NEAR = 3
"""Each kind takes over the slots of so many kinds that are larger by the least."""
ROUNDS = 300
"""Most rounds of new patterns."""
HAIR = 1e-6
SEARCHING = 6_000_000_000
"""Work that is done for fractions of patterns. [table cells]"""
PRICING = 300_000_000
"""Work that is done for the worth of the best pattern. [table cells]"""
BLOCK = 10_000_000
"""Pairs of kinds that are compared at once."""
CLOSING = 200_000_000
"""Work that is done to close a gap of a few modules. [table cells]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fewest:
    """The cuts of each module, the piece that each slot gives, and a bound that none goes under.

    `kinds` has, for each module and each of its slots in the order of `leaves`, the kind of
    the piece that is cut there.
    """

    trees: tuple[Tree, ...]
    kinds: tuple[tuple[int, ...], ...]
    bound: int


def at_once(room: Room) -> Fewest:
    """Cut a room without looking for better, for a preview: the bound is that of area alone.

    Parameters
    ----------
    room
        The room, its sizes in units.

    Returns
    -------
    Fewest
        The plan of `greedy`.

    Notes
    -----
    Source: as `greedy`.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, 0),), demand=(3,))
    >>> found = at_once(room)
    >>> len(found.trees), found.bound
    (2, 2)
    """
    return _worked(greedy(room), room, _by_area(room))


def fewest(room: Room, *, known: int = 0, rounds: int = ROUNDS) -> Fewest:
    """Find the fewest modules.

    Parameters
    ----------
    room
        The room, its sizes in units; every kind comes out of a whole module.
    known
        A bound that is known already.
    rounds
        Most rounds of new patterns, >= 0; the bound then is as good as they made it.

    Returns
    -------
    Fewest
        A plan of guillotine cuts, and a lower bound; where they meet, no such plan does with
        fewer modules.

    Notes
    -----
    Column generation over patterns of cuts, with exchanges of slots. The bound: if no pattern
    holds pieces worth more than V, pieces worth S in all need at least S / V modules. Worths
    are whole numbers, V is found exactly by `Worths`, and the division is one of whole
    numbers: nothing that a solver says of itself is relied on. Source: P. C. Gilmore and
    R. E. Gomory, *Multistage cutting stock problems of two and more dimensions* (1965); the
    edges and exchanges are own derivation, ``docs/theory/cutting.md``.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import LEFT, RIGHT, Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT), Kind(49, 50, RIGHT)),
    ...     demand=(2, 1))
    >>> found = fewest(room)
    >>> len(found.trees), found.bound
    (2, 2)
    """
    best = greedy(room)
    bound = max(known, _by_area(room))
    if len(best) > bound:
        search = _Search(room, best)
        bound = max(bound, search.generate(rounds, aim=len(best)))
        plans = (best, search.whole(bound))
        best = min(plans, key=lambda trees: (len(trees), _cuts(trees, room)))
        best, bound = search.closed(best, bound)
    return _worked(best, room, bound)


def worths_of(room: Room) -> tuple[int, ...]:
    """Return what a piece of each kind is worth, such that it proves a bound.

    Parameters
    ----------
    room
        The room, its sizes in units.

    Returns
    -------
    tuple of int
        Whole worths, in parts of a module: `SCALE` of them make about one.

    Notes
    -----
    Source: as `fewest`.

    Examples
    --------
    Two left ends do not come from one module, so that each is worth one:

    >>> from gaugerod.core.cutting.rooms import LEFT, Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT),), demand=(3,))
    >>> worths_of(room)
    (10000000,)
    """
    if not room.kinds:
        return ()
    search = _Search(room, greedy(room))
    search.generate(ROUNDS, aim=sum(room.demand))
    return tuple(search.worth) if any(search.worth) else worths_by_area(room)


def worths_by_area(room: Room) -> tuple[int, ...]:
    """Return what a piece of each kind is worth by the room that it takes.

    Parameters
    ----------
    room
        The room, its sizes in units.

    Returns
    -------
    tuple of int
        Whole worths, rounded down, in parts of a module: `SCALE` of them make one.

    Notes
    -----
    Pieces side by side and the kerfs between them fill no more than a module grown by a kerf:
    so none holds more than `SCALE`. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import LEFT, Kind
    >>> room = Room(width=98, height=48, kerf=2, kinds=(Kind(48, 48, LEFT),), demand=(3,))
    >>> worths_by_area(room)
    (5000000,)
    """
    module = grown(room.width, room.height, room.kerf)
    return tuple(SCALE * grown(k.width, k.height, room.kerf) // module for k in room.kinds)


def _worked(trees: Sequence[Tree], room: Room, bound: int) -> Fewest:
    """Say what each slot gives; a slot that gives nothing is none, nor is such a module."""
    given = zip(trees, _given(trees, room), strict=True)
    used = [pruned(tree, kinds, whole(room), room) for tree, kinds in given]
    kept = tuple(tree for tree in used if tree)
    return Fewest(trees=kept, kinds=tuple(_kinds(tree, room) for tree in kept), bound=bound)


def _kinds(tree: Tree, room: Room) -> tuple[int, ...]:
    slots = leaves(tree, whole(room), room.kerf)
    return tuple(room.ways[leaf.way][0] for leaf, _ in slots if leaf)


def _cuts(trees: Sequence[Tree], room: Room) -> int:
    """Count the cuts that the pieces of a plan need."""
    return sum(saw_cuts(tree, room) for tree in _worked(trees, room, 0).trees)


def _completed(trees: tuple[Tree, ...], room: Room) -> tuple[Tree, ...]:
    """Add what a plan wants of pieces: one that a solver stopped at may."""
    count = Counter(kind for kinds in _given(trees, room) for kind in kinds)
    left = tuple(wanted - count[number] for number, wanted in enumerate(room.demand))
    return trees + greedy(replace(room, demand=left))


def _by_area(room: Room) -> int:
    """Bound the modules by area alone."""
    areas = (grown(kind.width, kind.height, room.kerf) for kind in room.kinds)
    total = sum(area * count for area, count in zip(areas, room.demand, strict=True))
    return -(-total // grown(room.width, room.height, room.kerf))


def grown(width: int, height: int, kerf: int) -> int:
    """Return the area of a box with a kerf at two of its sides.

    Parameters
    ----------
    width, height
        The box, in units.
    kerf
        Width of a cut, in units.

    Returns
    -------
    int
        What it takes of a module that is grown the same way.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> grown(48, 48, 2)
    2500
    """
    return (width + kerf) * (height + kerf)


class _Search:
    """Patterns found so far, and the linear programme over them."""

    def __init__(self, room: Room, quick: Sequence[Tree]) -> None:
        """Begin with one pattern for each kind, and with those of a plan at hand."""
        self.room = room
        self.ways = room.ways
        demand = [*room.demand, *([0] * (len(self.ways) - len(room.kinds)))]
        self.effort = Effort(SEARCHING)
        self.pricing = Effort(PRICING)
        self.cover = Covering(demand, _exchanges(room), self.effort)
        self.worth: list[int] = []
        self.trees: list[Tree] = []
        self.seen: set[Tree] = set()
        for tree in (*(Leaf(way) for way in range(len(room.kinds))), *quick):
            self._add(tree)

    def _add(self, tree: Tree) -> bool:
        if tree in self.seen:
            return False
        self.seen.add(tree)
        self.trees.append(tree)
        parts = leaves(tree, whole(self.room), self.room.kerf)
        self.cover.add(Counter(leaf.way for leaf, _ in parts if leaf), saw_cuts(tree, self.room))
        return True

    def generate(self, rounds: int, *, aim: int) -> int:
        """Add patterns until none is worth having, or the bound meets what is aimed at.

        In the last round, or when all work is done, the worths so far make the bound: any do.
        """
        bound = 0
        for left in reversed(range(rounds)):
            number, worth = self.cover.relaxed()
            worth = worth[: len(self.room.kinds)]
            last = left == 0 or self.effort.left <= 0
            good = () if last else good_patterns(self.room, worth)
            if sum([self._add(tree) for _, tree in good]):
                continue
            self.worth = np.floor(worth * SCALE).astype(np.int64).tolist()
            try:
                found, pattern = _certified(self.room, self.worth, self.pricing)
            except TooMuchError:
                break
            bound = max(bound, found)
            if last or bound >= min(aim, ceil(number - HAIR)) or not self._add(pattern):
                break
        return bound

    def closed(self, best: tuple[Tree, ...], bound: int) -> tuple[tuple[Tree, ...], int]:
        """Look for plans of as few modules as the bound, or show that there are none."""
        effort = Effort(CLOSING)
        while len(best) > bound and self.worth:
            found = one_plan(self.room, self.worth, modules=bound, effort=effort)
            if found is None:
                break
            best, bound = found or best, bound + (not found)
        return best, bound

    def whole(self, bound: int) -> tuple[Tree, ...]:
        """Return a plan of whole patterns, completed where it wants of pieces."""
        count = self.cover.whole(least=bound)
        pairs = zip(self.trees, count, strict=True)
        return _completed(tuple(tree for tree, n in pairs for _ in range(n)), self.room)


def _certified(room: Room, worth: Sequence[int], effort: Effort) -> tuple[int, Tree]:
    """Return a bound in whole numbers, and the pattern that is worth most."""
    table = Worths(room, worth, effort)
    total = sum(w * n for w, n in zip(worth, room.demand, strict=True))
    return -(-total // max(table.most, 1)), table.pattern()


def _exchanges(room: Room) -> Iterator[tuple[int, int]]:
    """Yield from which slots each way may be served: the nearest that are no smaller."""
    kinds = [kind for _, kind in room.ways]
    order = sorted(range(len(kinds)), key=lambda way: kinds[way].width * kinds[way].height)
    slots = [kinds[way] for way in order]
    step = max(BLOCK // max(len(kinds), 1), 1)
    for first in range(0, len(kinds), step):
        serves = np.ascontiguousarray(_serves(slots, kinds[first : first + step]).T)
        for to, row in enumerate(serves, start=first):
            found = (order[place] for place in np.flatnonzero(row)[: NEAR + 1].tolist())
            for slot in islice((way for way in found if way != to), NEAR):
                yield slot, to
    half = len(room.kinds)
    for number in range(half) if room.half_turn else ():
        yield number, number + half
        yield number + half, number


def _serves(slots: Sequence[Kind], wanted: Sequence[Kind]) -> Flags:
    """Tell for every two whether a slot of the first can give a piece of the second."""
    wide, high, keeps, sheds, clear_x, clear_y = (row[:, np.newaxis] for row in _rows(slots))
    width, height, kept, shed, own_x, own_y = _rows(wanted)
    # A slot that an edge is kept at gives no piece that sheds it; one clear of it does.
    found: Flags = np.logical_and(wide >= width, high >= height)
    found &= kept & ~keeps == 0
    found &= shed & ~sheds == 0
    found &= (shed == 0) | (wide + clear_x >= width + own_x)
    found &= (shed == 0) | (high + clear_y >= height + own_y)
    return found


def _rows(kinds: Sequence[Kind]) -> NDArray[np.int64]:
    columns = [(k.width, k.height, k.keeps, k.sheds, *k.clear) for k in kinds]
    return np.array(columns, dtype=np.int64).reshape(-1, 6).T


def _given(trees: Sequence[Tree], room: Room) -> tuple[tuple[int | None, ...], ...]:
    """Say which kind each slot gives: its own as far as it is wanted, else another that fits."""
    ways = room.ways
    left = list(room.demand)
    given: list[list[int | None]] = []
    spare: list[tuple[int, int, int]] = []
    for place, tree in enumerate(trees):
        own = [leaf.way for leaf, _ in leaves(tree, whole(room), room.kerf) if leaf]
        given.append([None] * len(own))
        for slot, way in enumerate(own):
            number = ways[way][0]
            if left[number]:
                left[number] -= 1
                given[place][slot] = number
            else:
                spare.append((place, slot, way))
    free: dict[int, list[tuple[int, int]]] = {}
    for place, slot, way in reversed(spare):
        free.setdefault(way, []).append((place, slot))
    counts = {way: len(slots) for way, slots in free.items()}
    for way, number, count in _exchanged(counts, left, room):
        for _ in range(count):
            place, slot = free[way].pop()
            given[place][slot] = number
    return tuple(tuple(row) for row in given)


def _exchanged(
    spare: Mapping[int, int], wanted: Sequence[int], room: Room
) -> Iterator[tuple[int, int, int]]:
    """Yield from how many slots of each way each kind that is still wanted is cut."""
    ways = sorted(spare)
    numbers = [number for number, count in enumerate(wanted) if count]
    if not ways or not numbers:
        return
    kinds = [room.kinds[number] for number in numbers]
    serves = _serves([room.ways[way][1] for way in ways], kinds)
    if room.half_turn:
        serves |= _serves([room.ways[way][1] for way in ways], [kind.turned() for kind in kinds])
    # From a source over the slots and the kinds to a sink, as much as there is of each.
    rows, columns = np.nonzero(serves)
    slots, pieces = np.arange(len(ways)) + 1, np.arange(len(numbers)) + len(ways) + 1
    size = len(ways) + len(numbers) + 2
    most = [wanted[number] for number in numbers]
    caps = [*(spare[way] for way in ways), *([max(wanted)] * len(rows)), *most]
    tails = np.concatenate([np.zeros_like(slots), slots[rows], pieces])
    heads = np.concatenate([slots, pieces[columns], np.full_like(pieces, size - 1)])
    graph = csr_array((np.array(caps, dtype=np.int32), (tails, heads)), shape=(size, size))
    flow = maximum_flow(graph, 0, size - 1).flow[1 : len(ways) + 1].tocoo()
    for row, column, count in zip(flow.row, flow.col, flow.data, strict=True):
        if count > 0:
            yield ways[row], numbers[column - len(ways) - 1], int(count)
