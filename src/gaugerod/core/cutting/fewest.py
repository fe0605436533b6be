"""The fewest modules that give the pieces of a room, with a bound that proves it."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from math import ceil

import numpy as np
from numpy.typing import NDArray
from scipy.sparse import csr_array
from scipy.sparse.csgraph import maximum_flow

from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.covering import Covering
from gaugerod.core.cutting.greedy import greedy, saw_cuts
from gaugerod.core.cutting.guillotine import Worths
from gaugerod.core.cutting.near_patterns import one_plan
from gaugerod.core.cutting.rooms import Leaf, Room, Tree, leaves, whole
from gaugerod.core.cutting.strips import good_patterns

Flags = NDArray[np.bool_]

SCALE = 10**7
"""Worths are taken to whole numbers of this part, so that the bound is exact."""
NEAR = 3
"""Each kind takes over the slots of so many kinds that are larger by the least."""
ROUNDS = 300
"""Most rounds of new patterns."""
HAIR = 1e-6
CLOSING = 200_000_000
"""Work that is done to close a gap of a few modules. [table cells]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fewest:
    """The cuts of each module, the piece that each slot gives, and a bound that none goes under.

    `kinds` has, for each module and each of its slots in the order of `leaves`, the kind of
    the piece that is cut there, or nothing where the slot is left.
    """

    trees: tuple[Tree, ...]
    kinds: tuple[tuple[int | None, ...], ...]
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
        # What a solver stopped at may want of pieces: such a plan is none.
        plans = [plan for plan in (best, search.whole(bound)) if _gives_all(plan, room)]
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
    search = _Search(room, greedy(room))
    search.generate(ROUNDS, aim=sum(room.demand))
    return tuple(search.worth)


def _worked(trees: Sequence[Tree], room: Room, bound: int) -> Fewest:
    """Say what each slot gives; a module that gives nothing is none."""
    given = zip(trees, _given(trees, room), strict=True)
    used = [(tree, kinds) for tree, kinds in given if any(kind is not None for kind in kinds)]
    return Fewest(
        trees=tuple(tree for tree, _ in used), kinds=tuple(kinds for _, kinds in used), bound=bound
    )


def _cuts(trees: Sequence[Tree], room: Room) -> int:
    return sum(saw_cuts(tree, room) for tree in trees)


def _gives_all(trees: Sequence[Tree], room: Room) -> bool:
    """Tell whether a plan gives every piece."""
    count = Counter(kind for kinds in _given(trees, room) for kind in kinds)
    return all(count[number] == wanted for number, wanted in enumerate(room.demand))


def _by_area(room: Room) -> int:
    """Bound the modules by area alone."""
    module = (room.width + room.kerf) * (room.height + room.kerf)
    grown = ((kind.width + room.kerf) * (kind.height + room.kerf) for kind in room.kinds)
    total = sum(area * count for area, count in zip(grown, room.demand, strict=True))
    return -(-total // module)


class _Search:
    """Patterns found so far, and the linear programme over them."""

    def __init__(self, room: Room, quick: Sequence[Tree]) -> None:
        """Begin with one pattern for each kind, and with those of a plan at hand."""
        self.room = room
        self.ways = room.ways
        demand = [*room.demand, *([0] * (len(self.ways) - len(room.kinds)))]
        self.cover = Covering(demand, _exchanges(room))
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
        """Add patterns until none is worth having, or the bound meets what is aimed at."""
        bound = 0
        for _ in range(rounds):
            number, worth = self.cover.relaxed()
            worth = worth[: len(self.room.kinds)]
            if sum([self._add(tree) for _, tree in good_patterns(self.room, worth)]):
                continue
            self.worth = np.floor(worth * SCALE).astype(np.int64).tolist()
            found, pattern = _certified(self.room, self.worth)
            bound = max(bound, found)
            if bound >= min(aim, ceil(number - HAIR)) or not self._add(pattern):
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
        """Return whole patterns that cover the demand."""
        count = self.cover.whole(least=bound)
        return tuple(tree for tree, n in zip(self.trees, count, strict=True) for _ in range(n))


def _certified(room: Room, worth: Sequence[int]) -> tuple[int, Tree]:
    """Return a bound in whole numbers, and the pattern that is worth most."""
    table = Worths(room, worth)
    total = sum(w * n for w, n in zip(worth, room.demand, strict=True))
    return -(-total // max(table.most, 1)), table.pattern()


def _exchanges(room: Room) -> Iterator[tuple[int, int]]:
    """Yield from which slots each way may be served: the nearest that are no smaller."""
    serves = _serves(room)
    kinds = [kind for _, kind in room.ways]
    areas = np.array([kind.width * kind.height for kind in kinds])
    for to in range(len(kinds)):
        found = np.flatnonzero(serves[:, to])
        found = found[found != to]
        for slot in found[np.argsort(areas[found], kind="stable")][:NEAR].tolist():
            yield slot, to
    half = len(room.kinds)
    for number in range(half) if room.half_turn else ():
        yield number, number + half
        yield number + half, number


def _serves(room: Room) -> Flags:
    """Tell for every two ways whether a slot of the first can give a piece of the second."""
    columns = zip(*((k.width, k.height, k.keeps, k.sheds) for _, k in room.ways), strict=True)
    wide, high, keeps, sheds = (np.array(column)[:, np.newaxis] for column in columns)
    # A slot that an edge is kept at gives no piece that sheds it; one clear of it does.
    found: Flags = np.logical_and(wide >= wide.T, high >= high.T)
    found &= keeps.T & ~keeps == 0
    found &= sheds.T & ~sheds == 0
    for place, size in enumerate((wide, high)):
        clear = np.array([[k.clear[place]] for _, k in room.ways])
        found &= (sheds.T == 0) | (size + clear >= (size + clear).T)
    return found


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
    for way, number, count in _exchanged(Counter(way for *_, way in spare), left, room):
        same = [slot for slot in spare if slot[2] == way and given[slot[0]][slot[1]] is None]
        for place, slot, _ in same[:count]:
            given[place][slot] = number
    return tuple(tuple(row) for row in given)


def _exchanged(
    spare: Mapping[int, int], wanted: Sequence[int], room: Room
) -> Iterator[tuple[int, int, int]]:
    """Yield from how many slots of each way each kind that is still wanted is cut."""
    half, ways = len(room.kinds), sorted(spare)
    numbers = [number for number, count in enumerate(wanted) if count]
    if not numbers:
        return
    serves = _serves(room)
    if room.half_turn:
        serves = serves[:, :half] | serves[:, half:]
    # From a source over the slots and the kinds to a sink, as much as there is of each.
    size = len(ways) + len(numbers) + 2
    caps = np.zeros((size, size), dtype=np.int32)
    caps[0, 1 : len(ways) + 1] = [spare[way] for way in ways]
    caps[1 : len(ways) + 1, len(ways) + 1 : -1] = serves[np.ix_(ways, numbers)] * max(wanted)
    caps[len(ways) + 1 : -1, -1] = [wanted[number] for number in numbers]
    flow = maximum_flow(csr_array(caps), 0, size - 1).flow.toarray()
    inner = flow[1 : len(ways) + 1, len(ways) + 1 : -1]
    for row, column in zip(*np.nonzero(inner > 0), strict=True):
        yield ways[row], numbers[column], int(inner[row, column])
