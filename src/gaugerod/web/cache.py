"""What was worked out is kept for a while, and worked out by one thread only."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from threading import Lock
from typing import Generic, TypeVar

T = TypeVar("T")
MOST = 64
"""Results that are kept; the one that was asked for longest ago goes first."""


@dataclass(frozen=True, slots=True)
class _Place(Generic[T]):
    lock: Lock = field(default_factory=Lock)
    found: list[T] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Cache(Generic[T]):
    """Results by what they were made from. A failure is not kept."""

    most: int = MOST
    lock: Lock = field(default_factory=Lock)
    places: OrderedDict[Hashable, _Place[T]] = field(default_factory=OrderedDict)

    def get(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return the result of a key; `work` makes it where it is not there yet."""
        with self.lock:
            place = self.places.setdefault(key, _Place())
            self.places.move_to_end(key)
            while len(self.places) > self.most:
                self.places.popitem(last=False)
        with place.lock:
            if not place.found:
                place.found.append(work())
            return place.found[0]
