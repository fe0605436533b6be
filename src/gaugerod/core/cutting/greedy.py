"""A plan of cuts at once: largest piece first, each from the smallest part that gives it."""

from collections.abc import Callable, Iterator

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.cutting.rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Cut,
    Kind,
    Leaf,
    Part,
    Room,
    Tree,
    leaves,
    whole,
)

MANY = 3000
"""Over so many pieces one order is tried, not three."""

_ORDERS: tuple[Callable[[Kind], tuple[int, int]], ...] = (
    lambda kind: (-kind.width * kind.height, 0),
    lambda kind: (-kind.width, -kind.height),
    lambda kind: (-kind.height, -kind.width),
)


def greedy(room: Room) -> tuple[Tree, ...]:
    """Cut every piece, out of parts where it can be, else out of new modules.

    Parameters
    ----------
    room
        The room, its sizes in units.

    Returns
    -------
    tuple of Tree
        The cuts of each module.

    Notes
    -----
    Largest first (by area, by width, by height: the fewest modules, then the fewest cuts, of
    the three), each from the smallest part that has the edges it keeps; the rest is split
    the way that leaves the larger part. Source: own design; best-fit decreasing.

    Examples
    --------
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT), Kind(49, 50, RIGHT)),
    ...     demand=(2, 1))
    >>> len(greedy(room))
    2
    """
    orders = _ORDERS if sum(room.demand) <= MANY else _ORDERS[:1]
    tries = [_Bench(room).cut_all(order) for order in orders]
    return min(tries, key=lambda trees: (len(trees), sum(saw_cuts(t, room) for t in trees)))


def saw_cuts(tree: Tree, room: Room, part: Part | None = None) -> int:
    """Count the cuts of a module, or of a part of one.

    Parameters
    ----------
    tree
        How it is cut up.
    room
        The room.
    part
        What is cut up, if not a whole module.

    Returns
    -------
    int
        Cuts that part it, and those that trim a piece out of its part.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(40, 30, 0),), demand=(1,))
    >>> saw_cuts(Leaf(0), room)
    2
    """
    ways = room.ways
    count = _parted(tree)
    for leaf, own in leaves(tree, part or whole(room), room.kerf):
        if leaf:
            kind = ways[leaf.way][1]
            count += _trims(kind, own.edges, longer=own.right - own.left > kind.width, axis=0)
            count += _trims(kind, own.edges, longer=own.top - own.bottom > kind.height, axis=1)
    return count


def _trims(kind: Kind, edges: int, *, longer: bool, axis: int) -> int:
    """Count the cuts that trim a piece along one axis, if its part is longer."""
    ends = (LEFT | RIGHT, BOTTOM | TOP)[axis]
    at_both = kind.sheds & edges & ends == ends and kind.clear[axis] > 0
    return longer * (1 + at_both)


def _parted(tree: Tree) -> int:
    return 1 + _parted(tree.first) + _parted(tree.second) if isinstance(tree, Cut) else 0


class _Bench:
    """Modules on the bench: every free part with its size, its edges, and where it belongs."""

    def __init__(self, room: Room) -> None:
        """Start with no module."""
        self.room = room
        self.ways = room.ways
        self.least = min(min(kind.width, kind.height) for kind in room.kinds) if room.kinds else 0
        clear = [(0, 0), *(kind.clear for kind in room.kinds)]
        self.clear = tuple(max(sizes) for sizes in zip(*clear, strict=True))
        self.sizes: NDArray[np.int64] = np.zeros((3, 64), dtype=np.int64)
        self.count = 0
        # What belongs to a part once its tree is built: (parent, which half), or a new module.
        self.nodes: list[tuple[Part, tuple[int, int] | None, object]] = []
        self.open: list[int] = []

    def cut_all(self, order: Callable[[Kind], tuple[int, int]]) -> tuple[Tree, ...]:
        """Cut every piece in one order, and return the cuts of each module."""
        room = self.room
        for number in sorted(range(len(room.kinds)), key=lambda n: (order(room.kinds[n]), n)):
            turned = (number + len(room.kinds),) if room.half_turn else ()
            for _ in range(room.demand[number]):
                self._place((number, *turned))
        return tuple(self._tree(n) for n, (_, up, _) in enumerate(self.nodes) if up is None)

    def _place(self, ways: tuple[int, ...]) -> None:
        best: tuple[int, int, int] | None = None
        for way in ways:
            found = self._smallest(self.ways[way][1])
            if found and (best is None or found[0] < best[0]):
                best = (*found, way)
        if best is None:
            node = self._add(whole(self.room), None)
            self._cut(node, ways[0])
        else:
            slot = best[1]
            self.sizes[:2, slot] = -1
            self._cut(self.open[slot], best[2])

    def _smallest(self, kind: Kind) -> tuple[int, int] | None:
        """Return the area and the place of the smallest free part that gives a piece."""
        wide, high, edges = self.sizes[:, : self.count]
        need_x, need_y = kind.width, kind.height
        fits = edges & kind.keeps == kind.keeps
        if kind.sheds:
            off = kind.sheds & edges
            fits &= wide >= need_x + kind.clear[0] * (
                (off & LEFT > 0).astype(int) + (off & RIGHT > 0)
            )
            fits &= high >= need_y + kind.clear[1] * (
                (off & BOTTOM > 0).astype(int) + (off & TOP > 0)
            )
        across = kind.keeps & (LEFT | RIGHT) == LEFT | RIGHT
        up = kind.keeps & (BOTTOM | TOP) == BOTTOM | TOP
        fits &= (wide == need_x) if across else (wide >= need_x)
        fits &= (high == need_y) if up else (high >= need_y)
        places = np.flatnonzero(fits)
        if not len(places):
            return None
        areas = wide[places] * high[places]
        best = int(np.argmin(areas))
        return int(areas[best]), int(places[best])

    def _add(self, part: Part, up: tuple[int, int] | None) -> int:
        self.nodes.append((part, up, None))
        return len(self.nodes) - 1

    def _free(self, node: int) -> None:
        """Put a part back on the bench, if any piece could come out of it."""
        part = self.nodes[node][0]
        wide, high = part.right - part.left, part.top - part.bottom
        if min(wide, high) >= self.least:
            if self.count == self.sizes.shape[1]:
                self.sizes = np.concatenate([self.sizes, np.zeros_like(self.sizes)], axis=1)
            self.sizes[:, self.count] = wide, high, part.edges
            self.open.append(node)
            self.count += 1

    def _cut(self, node: int, way: int) -> None:
        """Cut a piece out of a part; what is left beside and over it goes back on the bench."""
        for tree_cut in self._cuts(self.nodes[node][0], self.ways[way][1]):
            part, up, _ = self.nodes[node]
            cut, keep = tree_cut
            halves = part.halves(cut, self.room.kerf)
            first, second = self._add(halves[0], (node, 0)), self._add(halves[1], (node, 1))
            self.nodes[node] = (part, up, (cut, first, second))
            node, rest = (first, second) if keep == 0 else (second, first)
            self._free(rest)
        part, up, _ = self.nodes[node]
        self.nodes[node] = (part, up, Leaf(way))

    def _cuts(self, part: Part, kind: Kind) -> Iterator[tuple[Cut, int]]:
        """Yield the one or two cuts that free a piece, and which half of each it lies in."""
        kerf = self.room.kerf
        wide, high = part.right - part.left, part.top - part.bottom
        far_x = _at_far(kind, part.edges, LEFT, RIGHT)
        far_y = _at_far(kind, part.edges, BOTTOM, TOP)
        # What is cut off takes the edge there along, so the piece need not lie clear of it.
        own_x = kind.width + _clear(kind, part.edges, RIGHT if far_x else LEFT)
        own_y = kind.height + _clear(kind, part.edges, TOP if far_y else BOTTOM)
        beside, over = wide - own_x - kerf, high - own_y - kerf
        upright = (True, own_x, beside, far_x, part.edges & (LEFT if far_x else RIGHT))
        level = (False, own_y, over, far_y, part.edges & (BOTTOM if far_y else TOP))
        both = (upright, level) if beside * high >= over * wide else (level, upright)
        for is_upright, own, rest, far, edge in both:
            # A strip that does not take all of a groove along is trimmed off the piece alone.
            off = self.clear[not is_upright] - kerf if edge else 0
            if rest > 0 and rest >= off:
                yield Cut(is_upright, rest if far else own, None, None), int(far)

    def _tree(self, node: int) -> Tree:
        made = self.nodes[node][2]
        if isinstance(made, tuple):
            cut, first, second = made
            return Cut(cut.upright, cut.at, self._tree(first), self._tree(second))
        return made if isinstance(made, Leaf) else None


def _clear(kind: Kind, edges: int, edge: int) -> int:
    """Return how far a piece lies from an edge that it sheds."""
    return kind.clear[edge in {BOTTOM, TOP}] if kind.sheds & edges & edge else 0


def _at_far(kind: Kind, edges: int, near: int, far: int) -> bool:
    """Lie at the far edge if that is kept or the near one shed, or to spare the near one."""
    if kind.keeps & far or kind.sheds & edges & near:
        return True
    return not kind.keeps & near and bool(edges & near) and not edges & far
