"""Good patterns of cuts in a hurry: strips of at most two pieces, two or three side by side."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

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
    Room,
    Tree,
)

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

MOST = 400
"""Patterns that are returned at once."""
NONE = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class Side:
    """The best strip that fits each width, on one side of a module.

    `worth[x]` is that of the best strip at most x wide; `low` and `high` are its ways, `low`
    alone where one piece takes the strip.
    """

    worth: Floats
    low: Ints
    high: Ints


def good_patterns(room: Room, worth: Floats) -> Iterator[tuple[float, Tree]]:
    """Yield patterns of cuts with their worth, the best first.

    Parameters
    ----------
    room
        The room, its sizes in units.
    worth
        What one piece of each kind is worth, shape ``(n,)``. [1]

    Yields
    ------
    tuple of float and Tree
        The worth of a pattern, and the pattern; at most `MOST` are worth more than 1.

    Notes
    -----
    Upright strips keep both level edges of the module, level ones both upright edges. A strip
    gives one piece, or one over the other. Source: own derivation.

    Examples
    --------
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT), Kind(49, 50, RIGHT)),
    ...     demand=(1, 1))
    >>> next(good_patterns(room, np.array([0.7, 0.8])))[0]
    1.5
    """
    found: list[tuple[float, Tree]] = []
    for upright in (True, False):
        strips = _Strips(room, worth, upright=upright)
        found += strips.joined()
    found.sort(key=lambda one: -one[0])
    seen: set[Tree] = set()
    for value, tree in found:
        if tree not in seen and len(seen) < MOST:
            seen.add(tree)
            yield value, tree


class _Strips:
    """Strips of one direction: what is said of width and left holds for height and bottom too."""

    def __init__(self, room: Room, worth: Floats, *, upright: bool) -> None:
        """Sort the pieces by what they keep and shed."""
        self.upright = upright
        self.kerf = room.kerf
        ways = room.ways
        self.width, self.height = _along(room.width, room.height, upright=upright)
        kinds = [_facing(kind, upright=upright) for _, kind in ways]
        columns = zip(*((k.width, k.height, k.keeps, k.sheds) for k in kinds), strict=True)
        self.wide, self.high, self.keeps, self.sheds = (np.array(column) for column in columns)
        self.worth = worth[[number for number, _ in ways]]
        self.clear_x = np.array([k.clear[0] for k in kinds])
        self.clear_y = np.array([k.clear[1] for k in kinds])

    def joined(self) -> list[tuple[float, Tree]]:
        """Return strips side by side: one at each end, and one between."""
        left, free, right = (self._side(edge) for edge in (LEFT, 0, RIGHT))
        alone = self._side(LEFT | RIGHT)
        found = [(float(alone.worth[-1]), self._strip(alone, self.width))]
        # Where nothing is shed at the left, what has no edge there may begin the module too.
        for first in (left,) if self._shed_by(LEFT) else (left, free):
            starts = _steps(first.worth)
            rests = self.width - self.kerf - starts
            values = self._with_end(first.worth[starts], right, rests)
            found += [
                (float(values[place]), self._beside(first, right, self.width, int(starts[place])))
                for place in _best(values)
            ]
        starts, middles = _steps(left.worth), _steps(free.worth)
        rests = self.width - self.kerf - starts
        three = left.worth[starts][:, np.newaxis] + free.worth[middles]
        three = self._with_end(three, right, rests[:, np.newaxis] - self.kerf - middles)
        for place in _best(three.ravel()):
            row, column = divmod(int(place), len(middles))
            at, middle = int(starts[row]), int(middles[column])
            rest = self._beside(free, right, self.width - self.kerf - at, middle)
            tree = Cut(self.upright, at, self._strip(left, at), rest)
            found.append((float(three[row, column]), tree))
        return [one for one in found if one[0] > 1 + 1e-7]

    def _beside(self, first: Side, right: Side, width: int, at: int) -> Tree:
        """Cut a part of a width in two, unless the first strip fills it."""
        strip = self._strip(first, at)
        rest = self._strip(right, max(width - self.kerf - at, 0))
        return Cut(self.upright, at, strip, rest) if at < width else strip

    def _with_end(self, worth: Floats, right: Side, rests: Ints) -> Floats:
        """Add the worth of the strip at the end.

        One with nothing in it must be wide enough to take a groove along that is shed: else
        all is worth nothing.
        """
        ends = np.where(rests >= 0, right.worth[np.maximum(rests, 0)], 0.0)
        sound = (ends > 0) | (rests + self.kerf >= self._shed_by(RIGHT))
        return np.where(sound, worth + ends, 0.0)

    def _shed_by(self, edge: int) -> int:
        """Return how far at most a piece must lie clear of an edge that it sheds."""
        return int(np.max(self.clear_x * (self.sheds & edge > 0)))

    def _strip(self, side: Side, width: int) -> Tree:
        low, high = int(side.low[width]), int(side.high[width])
        if high == NONE:
            return Leaf(low) if low != NONE else None
        at = int(self.high[low] + self._off(low, BOTTOM))
        return Cut(not self.upright, at, Leaf(low), Leaf(high))

    def _off(self, way: int, edge: int) -> int:
        return int(self.clear_y[way]) if int(self.sheds[way]) & edge else 0

    def _side(self, edge: int) -> Side:
        """Find the best strip for each width among those with one, no or both upright edges."""
        shed = self.sheds & edge
        wide = self.wide + self.clear_x * ((shed & LEFT > 0).astype(int) + (shed & RIGHT > 0))
        fits = (self.keeps & ~(edge | BOTTOM | TOP)) == 0
        high = self.high + self.clear_y * (
            (self.sheds & BOTTOM > 0).astype(int) + (self.sheds & TOP > 0)
        )
        ones = np.flatnonzero(fits & (high <= self.height) & (wide <= self.width))
        worth = np.zeros(self.width + 1)
        low = np.full(self.width + 1, NONE)
        top = low.copy()
        order = ones[np.argsort(self.worth[ones], kind="stable")]
        worth[wide[order]], low[wide[order]] = self.worth[order], order
        self._pairs(wide, fits, worth, low, top)
        return _accumulated(worth, low, top)

    def _pairs(
        self, wide: Ints, fits: NDArray[np.bool_], worth: Floats, low: Ints, top: Ints
    ) -> None:
        """Put one piece over the other wherever that is worth more than one alone."""
        tops, lows = (fits & (self.keeps & edge == 0) for edge in (BOTTOM, TOP))
        up = self.high + self.clear_y * (self.sheds & TOP > 0)
        down = self.high + self.clear_y * (self.sheds & BOTTOM > 0)
        over = np.flatnonzero(tops & (up < self.height) & (wide <= self.width))
        under = np.flatnonzero(lows & (down < self.height) & (wide <= self.width))
        if not len(over) or not len(under):
            return
        # Tops by the sizes that there are; before the first of each there is none.
        xs, ys = np.unique(wide[over]), np.unique(up[over])
        table = np.zeros((len(xs) + 1, len(ys) + 1))
        which = np.full(table.shape, NONE)
        order = over[np.argsort(self.worth[over], kind="stable")]
        cells = np.searchsorted(xs, wide[order]) + 1, np.searchsorted(ys, up[order]) + 1
        table[cells], which[cells] = self.worth[order], order
        _spread(table, which, axis=0)
        _spread(table, which, axis=1)
        left = self.height - self.kerf - down[under]
        under, left = under[left >= 0], left[left >= 0]
        columns = np.searchsorted(ys, left, side="right")
        for x in np.union1d(xs, wide[under]):
            here = np.flatnonzero(wide[under] <= x)
            row = int(np.searchsorted(xs, x, side="right"))
            sums = self.worth[under[here]] + table[row, columns[here]]
            best = int(np.argmax(sums)) if len(here) else NONE
            other = int(which[row, columns[here[best]]]) if len(here) else NONE
            if other != NONE and sums[best] > worth[x]:
                worth[x], low[x], top[x] = sums[best], under[here[best]], other


def _spread(table: Floats, which: Ints, *, axis: int) -> None:
    """Let every cell hold the best of those before it along an axis, and whose it is."""
    best = np.maximum.accumulate(table, axis=axis)
    places = np.arange(table.shape[axis]).reshape((-1, 1) if axis == 0 else (1, -1))
    source = np.maximum.accumulate(np.where(table >= best, places, 0), axis=axis)
    which[:] = np.take_along_axis(which, source, axis=axis)
    table[:] = best


def _accumulated(worth: Floats, low: Ints, top: Ints) -> Side:
    best = np.maximum.accumulate(worth)
    source = np.maximum.accumulate(np.where(worth >= best, np.arange(len(worth)), 0))
    return Side(worth=best, low=low[source], high=top[source])


def _steps(worth: Floats) -> Ints:
    """Return every width at which the worth grows."""
    return np.flatnonzero(np.diff(worth) > 0) + 1


def _best(values: Floats) -> Sequence[int]:
    """Return where the greatest values over 1 are."""
    over = np.flatnonzero(values > 1 + 1e-7)
    if len(over) > MOST:
        over = over[np.argpartition(-values[over], MOST)[:MOST]]
    return over.tolist()


def _along(x: int, y: int, *, upright: bool) -> tuple[int, int]:
    return (x, y) if upright else (y, x)


def _facing(kind: Kind, *, upright: bool) -> Kind:
    """Return a piece as strips of one direction see it: for level ones, mirrored over."""
    if upright:
        return kind
    clear = kind.clear[::-1]
    return Kind(kind.height, kind.width, _mirrored(kind.keeps), _mirrored(kind.sheds), clear)


def _mirrored(edges: int) -> int:
    return (edges & 3) << 2 | edges >> 2
