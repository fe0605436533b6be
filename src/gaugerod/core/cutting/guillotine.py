"""The worth of the best pattern of cuts, exactly: any number of stages, every edge kept."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from itertools import cycle, product
from math import prod
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.rooms import ALL_EDGES, Cut, Leaf, Room, Tree, needed

Ints = NDArray[np.int64]

LARGEST = 2**26
"""No table has more cells: half a gigabyte."""
ALONE = 1_000_000_000
"""Work that is done for one table if nothing else is said. [table cells]"""
_SPLITS = ((0, 0, 0), (1, 1, 0), (2, 0, 2), (3, 1, 2))
"""Factory edges across of a part, and of its first and second part: none, left, right, both."""
_BOTH = 3


class TooMuchError(Exception):
    """The table takes more work than may be done, or more room than there is."""


class Place(NamedTuple):
    """Where the table tells of a part: its factory edges across and up, its width and height."""

    across: int
    up: int
    i: int
    j: int


class Worths:
    """The greatest worth of pieces that parts of every size can give.

    Axes of the table: the factory edges of the part across (none, left, right, both) and up
    (none, bottom, top, both), then its width and height among the sizes that pieces side by
    side can reach. Both opposite edges belong to parts that span the module only. Sizes are
    padded by a kerf, so that those of parts side by side add up.
    """

    __slots__ = ("_best", "_room", "_worth", "_xs", "_ys")

    def __init__(self, room: Room, worth: Iterable[int], effort: Effort | None = None) -> None:
        """Fill the tables: `worth` is that of one piece of each kind, >= 0.

        Raises
        ------
        TooMuchError
            That would take more work than may be done.
        """
        self._room = room
        self._worth = tuple(worth)
        self._xs = _reachable(room, self._worth, across=True)
        self._ys = _reachable(room, self._worth, across=False)
        shape = 4, 4, len(self._xs), len(self._ys)
        if prod(shape) > LARGEST:
            raise TooMuchError
        self._best = np.zeros(shape, dtype=np.int64)
        self._seed()
        effort = effort or Effort(ALONE)
        sweeps = cycle(((self._best, self._xs), (self._best.transpose(1, 0, 3, 2), self._ys)))
        _sweep(*next(sweeps), effort)
        while _sweep(*next(sweeps), effort):
            pass

    @property
    def most(self) -> int:
        """The worth of the best pattern of a whole module."""
        return self.at(self.whole())

    def whole(self, edges: int = ALL_EDGES) -> Place:
        """Return where the table tells of what is cut up whole, with the factory edges it has."""
        return Place(edges & 3, edges >> 2, len(self._xs) - 1, len(self._ys) - 1)

    def at(self, place: Place) -> int:
        """Return the greatest worth that a part can give."""
        return int(self._best[place])

    def worth(self, pieces: Iterable[int]) -> int:
        """Return what pieces of some kinds are worth together."""
        return sum(self._worth[number] for number in pieces)

    def gives(self, place: Place, way: int) -> bool:
        """Tell whether a part gives a piece as it lies one way."""
        size = needed(self._room.ways[way][1], place.across | place.up << 2)
        kerf = self._room.kerf
        wide, high = int(self._xs[place.i]), int(self._ys[place.j])
        return size is not None and size[0] + kerf <= wide and size[1] + kerf <= high

    def splits(self, place: Place, *, slack: int = 0) -> Iterator[tuple[bool, int, Place, Place]]:
        """Yield how a part is cut in two that lose no more than so much on its best.

        Whether upright, how wide or high the first part is, and both parts; each is worth
        something.
        """
        least, kerf = self.at(place) - slack, self._room.kerf
        across, up, i, j = place
        _, first, second = _SPLITS[across]
        tables = self._best[first, up, :, j], self._best[second, up, :, j]
        for at, rest in _split(*tables, self._xs, i, least):
            parts = Place(first, up, at, j), Place(second, up, rest, j)
            yield True, int(self._xs[at]) - kerf, *parts
        _, first, second = _SPLITS[up]
        tables = self._best[across, first, i], self._best[across, second, i]
        for at, rest in _split(*tables, self._ys, j, least):
            parts = Place(across, first, i, at), Place(across, second, i, rest)
            yield False, int(self._ys[at]) - kerf, *parts

    def pattern(self, edges: int = ALL_EDGES) -> Tree:
        """Return a pattern of cuts with the greatest worth."""
        return self._tree(self.whole(edges))

    def _seed(self) -> None:
        room = self._room
        for across, up in product(range(4), range(4)):
            cell = self._best[across, up]
            for number, kind in room.ways:
                size = needed(kind, across | up << 2)
                if size and size[0] <= room.width and size[1] <= room.height:
                    i = int(np.searchsorted(self._xs, size[0] + room.kerf))
                    j = int(np.searchsorted(self._ys, size[1] + room.kerf))
                    cell[i, j] = max(cell[i, j], self._worth[number])
        np.maximum.accumulate(self._best, axis=2, out=self._best)
        np.maximum.accumulate(self._best, axis=3, out=self._best)

    def _tree(self, place: Place) -> Tree:
        """Trace back how a part gets its worth."""
        worth = self.at(place)
        if not worth:
            return None
        for way, (number, _) in enumerate(self._room.ways):
            if self._worth[number] == worth and self.gives(place, way):
                return Leaf(way)
        upright, at, first, second = next(self.splits(place))
        return Cut(upright, at, self._tree(first), self._tree(second))


def _split(first: Ints, second: Ints, sizes: Ints, i: int, least: int) -> Iterator[tuple[int, int]]:
    """Yield where a part of a size is cut to have at least so much from two parts."""
    rests = np.searchsorted(sizes, sizes[i] - sizes[1:i], side="right") - 1
    enough = (first[1:i] > 0) & (second[rests] > 0) & (first[1:i] + second[rests] >= least)
    for at in np.flatnonzero(enough).tolist():
        yield at + 1, int(rests[at])


def _reachable(room: Room, worth: Sequence[int], *, across: bool) -> Ints:
    """Return nought, every sum of padded sizes within the module, and the module's own.

    No more of a size than pieces that have it are wanted: no plan cuts more side by side.
    """
    most = (room.width if across else room.height) + room.kerf
    sizes: Counter[int] = Counter()
    for number, kind in room.ways:
        if worth[number]:
            found = (needed(kind, edges) for edges in range(16))
            for own in {size[not across] + room.kerf for size in found if size}:
                sizes[own] += room.demand[number]
    reach, within = 1, (1 << most + 1) - 1
    for padded, wanted in sorted(sizes.items()):
        for _ in range(min(most // padded, wanted)):
            reach |= reach << padded & within
    bits = (reach >> place & 1 for place in range(most + 1))
    return np.array([*(place for place, bit in enumerate(bits) if bit and place < most), most])


def _sweep(best: Ints, sizes: Ints, effort: Effort) -> bool:
    """Cut parts of every size in two along the third axis; tell whether anything is gained.

    One of the two parts has no factory edge across, but where a cut parts the whole module.
    Such parts grow in worth at few sizes only: no other size of theirs needs to be tried.
    """
    # Cells only ever grow.
    before = int(best.sum())
    last = len(sizes) - 1
    for up in range(4):
        steps: list[int] = []
        for i in range(1, last + 1):
            effort.spend(3 * (len(steps) + 1) * best.shape[3])
            if effort.left < 0:
                raise TooMuchError
            free = np.array(steps, dtype=np.int64)
            rests = np.searchsorted(sizes, sizes[i] - sizes[free], side="right") - 1
            added = best[0, up, free] if steps else None
            for state in range(3):
                mine = best[state, up, i]
                np.maximum(mine, best[state, up, i - 1], out=mine)
                if added is not None:
                    np.maximum(mine, _joined(added, best[state, up, rests]).max(axis=0), out=mine)
            if np.any(best[0, up, i] > best[0, up, i - 1]):
                steps.append(i)
    rests = np.searchsorted(sizes, sizes[last] - sizes[1:last], side="right") - 1
    if last > 1:
        both = _joined(best[1][:, 1:last], best[2][:, rests])
        np.maximum(best[_BOTH, :, last], both.max(axis=1), out=best[_BOTH, :, last])
    return int(best.sum()) > before


def _joined(one: Ints, other: Ints) -> Ints:
    """Return what parts side by side are worth, where both are worth something.

    A strip of waste may be too narrow to clear the edge that it takes along, and is never needed:
    a piece that sheds an edge may lie clear of it in a larger part.
    """
    found: Ints = np.where((one > 0) & (other > 0), one + other, 0)
    return found
