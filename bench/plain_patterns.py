"""The plain way to the fewest modules: list every pattern of up to four pieces, then branch."""

from collections import Counter
from collections.abc import Iterator
from functools import cache
from itertools import combinations
from typing import TypeAlias

import highspy
import numpy as np

from gaugerod.core.cutting.rooms import Cut, Part, Room, gives, whole

MOST = 4
"""Pieces of a pattern. Of modules cut at ends and at first and last courses few give more."""

Pattern: TypeAlias = tuple[int, ...]


def fewest_by_listing(room: Room) -> int:
    """Return the fewest modules, none of which gives more than `MOST` pieces."""
    patterns = list(_patterns(room))
    highs = highspy.Highs()  # type: ignore[no-untyped-call]  # its stubs leave it open
    for option, value in (("output_flag", False), ("threads", 1)):
        highs.setOptionValue(option, value)
    none = np.array([], dtype=np.int32)
    for count in room.demand:
        highs.addRow(float(count), highspy.kHighsInf, 0, none, np.array([]))
    for column, pattern in enumerate(patterns):
        slots = Counter(pattern)
        rows = np.array(list(slots), dtype=np.int32)
        each = np.array(list(slots.values()), dtype=np.float64)
        highs.addCol(1.0, 0.0, highspy.kHighsInf, len(rows), rows, each)
        highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
    highs.run()
    return round(highs.getInfo().objective_function_value)


def _patterns(room: Room) -> Iterator[Pattern]:
    """Yield every pattern: without one of its pieces it is a pattern too, so grow them."""
    fits = _Fitter(room)
    last: list[Pattern] = [()]
    for _ in range(MOST):
        last = [
            longer
            for pattern in last
            for kind in range(pattern[-1] if pattern else 0, len(room.kinds))
            if fits(longer := (*pattern, kind), whole(room))
        ]
        yield from last


class _Fitter:
    """Tells whether pieces can be cut from a part, by trying every cut between them."""

    def __init__(self, room: Room) -> None:
        """Begin with nothing tried."""
        self.room = room
        self.seen: dict[tuple[Pattern, Part], bool] = {}

    def __call__(self, pattern: Pattern, part: Part) -> bool:
        """Tell whether all pieces of a pattern can be cut from a part."""
        key = pattern, part
        if key not in self.seen:
            self.seen[key] = self._fits(pattern, part)
        return self.seen[key]

    def _fits(self, pattern: Pattern, part: Part) -> bool:
        kinds = self.room.kinds
        if len(pattern) == 1:
            return gives(kinds[pattern[0]], part)
        area = (part.right - part.left) * (part.top - part.bottom)
        if sum(kinds[kind].width * kinds[kind].height for kind in pattern) > area:
            return False
        return any(
            self(first, halves[0]) and self(second, halves[1])
            for first, second in _shares(pattern)
            for cut in self._cuts(first)
            if _within(cut, part)
            for halves in (part.halves(cut, self.room.kerf),)
        )

    def _cuts(self, first: Pattern) -> Iterator[Cut]:
        """Yield the cuts at which the first pieces end: any of them, side by side."""
        kerf = self.room.kerf
        for upright in (True, False):
            sizes = [
                (self.room.kinds[kind].width if upright else self.room.kinds[kind].height)
                for kind in first
            ]
            for at in _sums(tuple(size + kerf for size in sizes)):
                yield Cut(upright, at - kerf, None, None)


def _within(cut: Cut, part: Part) -> bool:
    size = part.right - part.left if cut.upright else part.top - part.bottom
    return cut.at < size


@cache
def _sums(sizes: tuple[int, ...]) -> frozenset[int]:
    """Return the sums of some of the sizes."""
    return frozenset(
        sum(some) for count in range(1, len(sizes) + 1) for some in combinations(sizes, count)
    )


@cache
def _shares(pattern: Pattern) -> tuple[tuple[Pattern, Pattern], ...]:
    """Return every way to share pieces between a first and a second part."""
    places = range(len(pattern))
    return tuple(
        (
            tuple(pattern[place] for place in some),
            tuple(pattern[place] for place in places if place not in some),
        )
        for count in range(1, len(pattern))
        for some in combinations(places, count)
    )
