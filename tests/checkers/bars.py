"""Plans of bars checked without the planner, and the fewest bars by trying everything."""

from collections.abc import Iterator, Sequence
from functools import cache

from gaugerod.core.cutting.bars import BarPlan

NOISE = 1e-6
"""What a sum of floats may be out by. [mm]"""


def faults(plan: BarPlan, lengths: Sequence[float], *, stock: float, kerf: float) -> list[str]:
    """What would go wrong at the saw, and what the plan claims without cause."""
    found = []
    given = sorted((cut.piece, cut.length) for bar in plan.bars for cut in bar.cuts)
    if given != list(enumerate(lengths)):
        found.append("not each piece once")
    for number, bar in enumerate(plan.bars):
        end = -kerf
        for cut in bar.cuts:
            if cut.start < end + kerf - NOISE:
                found.append(f"bar {number}: piece {cut.piece} lies in the cut before it")
            end = cut.start + cut.length
        if not bar.cuts:
            found.append(f"bar {number} is empty")
        if end > stock + NOISE:
            found.append(f"bar {number} is too short")
        if bar.offcut > max(0.0, stock - end - kerf) + NOISE or bar.offcut < 0:
            found.append(f"bar {number} leaves less than it says")
    if plan.lower_bound > len(plan.bars):
        found.append("bound over the plan")
    if plan.proven != (plan.lower_bound == len(plan.bars)):
        found.append("proof without a bound")
    return found


def first_fit(lengths: Sequence[int], *, stock: int, kerf: int) -> int:
    """How many bars it takes with the longest first, each into the first that has room."""
    rooms: list[int] = []
    for length in sorted(lengths, reverse=True):
        for bar, room in enumerate(rooms):
            if room >= length + kerf:
                rooms[bar] -= length + kerf
                break
        else:
            rooms.append(stock - length)
    return len(rooms)


def without_waste(lengths: Sequence[int], *, stock: int) -> bool:
    """Whether all pieces fill bars to the last step, no kerf taken, over every way to try."""
    if not lengths:
        return True
    first, *others = sorted(lengths, reverse=True)

    def ways(room: int, left: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        if room == 0:
            yield left
        for at, length in enumerate(left):
            if length <= room and length not in left[:at]:
                yield from ways_from(room - length, left, at)

    def ways_from(room: int, left: tuple[int, ...], at: int) -> Iterator[tuple[int, ...]]:
        for rest in ways(room, left[at + 1 :]):
            yield (*left[:at], *rest)

    return any(without_waste(left, stock=stock) for left in ways(stock - first, tuple(others)))


def fewest(lengths: Sequence[int], *, stock: int, kerf: int) -> int:
    """The fewest bars, over every set of pieces that one bar may give."""
    sums = [0] * (1 << len(lengths))
    for chosen in range(1, len(sums)):
        low = chosen & -chosen
        sums[chosen] = sums[chosen ^ low] + lengths[low.bit_length() - 1] + kerf

    @cache
    def least(left: int) -> int:
        if not left:
            return 0
        first = left & -left
        others = rest = left ^ first
        best = len(lengths)
        while True:
            if sums[first | rest] <= stock + kerf:
                best = min(best, 1 + least(others ^ rest))
            if not rest:
                return best
            rest = (rest - 1) & others

    return least(len(sums) - 1)
