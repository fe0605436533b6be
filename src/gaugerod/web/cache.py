"""What was worked out is kept for a while; nothing is worked out twice, or two things at once."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from threading import Lock, RLock
from typing import Generic, TypeVar

T = TypeVar("T")
MOST = 64
"""Results that are kept; the one that was asked for longest ago goes first."""


@dataclass(frozen=True, slots=True)
class Cache(Generic[T]):
    """Results by what they were made from. A failure is not kept.

    One result is made at a time: the solvers are not known to bear two threads, and planning two
    jobs at once on one interpreter would not make either sooner. What is there already is
    given without waiting.
    """

    most: int = MOST
    results: OrderedDict[Hashable, T] = field(default_factory=OrderedDict)
    shelf: Lock = field(default_factory=Lock)
    bench: RLock = field(default_factory=RLock)

    def get(self, key: Hashable, work: Callable[[], T]) -> T:
        """Return the result of a key; `work` makes it where it is not there yet."""
        found = self._found(key)
        if found:
            return found[0]
        with self.bench:
            again = self._found(key)
            if again:
                return again[0]
            made = work()
            with self.shelf:
                self.results[key] = made
                while len(self.results) > self.most:
                    self.results.popitem(last=False)
            return made

    def get_now(self, key: Hashable, work: Callable[[], T]) -> T | None:
        """Return the result of a key if it is there or its turn is now; else wait for nothing."""
        found = self._found(key)
        if found:
            return found[0]
        if not self.bench.acquire(blocking=False):
            return None
        try:
            return self.get(key, work)
        finally:
            self.bench.release()

    def at_hand(self, key: Hashable) -> T | None:
        """Return the result of a key if it is there, and wait for nothing."""
        found = self._found(key)
        return found[0] if found else None

    def _found(self, key: Hashable) -> list[T]:
        with self.shelf:
            if key not in self.results:
                return []
            self.results.move_to_end(key)
            return [self.results[key]]
