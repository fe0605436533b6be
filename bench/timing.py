"""Time a call against another in the same run, turn and turn about."""

from collections.abc import Callable
from dataclasses import dataclass
from statistics import median
from time import perf_counter

ROUNDS = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the table."""

    what: str
    ours: str
    theirs: str
    ratio: float
    against: str


def seconds(call: Callable[[], object]) -> float:
    """Time one call. [s]."""
    start = perf_counter()
    call()
    return perf_counter() - start


def versus(
    what: str,
    ours: Callable[[], object],
    theirs: Callable[[], object],
    against: str,
    *,
    rounds: int = ROUNDS,
) -> Row:
    """Compare two calls by the median of their ratios, taken in pairs."""
    ours()
    theirs()
    pairs = [(seconds(ours), seconds(theirs)) for _ in range(rounds)]
    return Row(
        what=what,
        ours=shown(median(mine for mine, _ in pairs)),
        theirs=shown(median(other for _, other in pairs)),
        ratio=median(other / mine for mine, other in pairs),
        against=against,
    )


def shown(time: float) -> str:
    """Show a time in milliseconds."""
    return f"{time * 1000:.3g} ms"
