"""The plan of modules: how many against the bound and a greedy plan, how long, how it grows.

Times are of the processor, not of the clock: they do not count what else the machine does.
"""

from collections.abc import Callable, Iterator
from dataclasses import replace
from random import Random
from time import process_time
from typing import TypeVar

from bench.plain_patterns import fewest_by_listing
from bench.published import check_cuts
from bench.timing import Row, shown
from gaugerod.core.cutting.fewest import fewest
from gaugerod.core.cutting.greedy import greedy
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.cutting.rooms import BOTTOM, LEFT, RIGHT, TOP, Kind, Room, pooled
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.store.shelf import Library

Got = TypeVar("Got")

INCH = 32
"""Units of an inch."""
MODULE = 24 * INCH, 12 * INCH
KERF = INCH // 8
STEP = 2
"""Rooms are measured to 1/16 in, so that hardly two of many pieces are alike."""
LEAST = 2 * INCH
"""No end and no course is cut narrower."""
WALLS = (32, 60, 32)
"""About how wide the walls of an alcove are. [in]"""
SIZES = (60, 200, 1000, 5000, 20_000)
ROOMS = 5


def rows() -> Iterator[Row]:
    """Yield the demo jobs, then rooms of many sizes, then what the edges cost."""
    yield from _demos()
    yield from _listed()
    yield from _grown()
    yield from _huge()
    yield from _edges()


def alcoves(seed: int, count: int) -> Room:
    """Make so many cut pieces of alcoves with three walls, lying, in stack or in half bond."""
    random = Random(seed)  # noqa: S311  (rooms, not secrets)
    kinds: list[Kind] = []
    while len(kinds) < count:
        for about in WALLS:
            kinds += _wall(random, about)
    order, demand = pooled(kinds[:count])
    return Room(width=MODULE[0], height=MODULE[1], kerf=KERF, kinds=order, demand=demand)


def _wall(random: Random, about: int) -> Iterator[Kind]:
    """Yield the pieces of a wall that are cut; its width changes a little from course to course."""
    wide = (about + random.randint(-4, 4)) * INCH
    first, top = (random.randrange(LEAST, MODULE[1], STEP) for _ in range(2))
    left = random.randrange(LEAST, MODULE[0] - LEAST, STEP)
    half_bond = random.random() < 1 / 2
    courses = random.randint(5, 7)
    for course in range(courses):
        high, keeps = MODULE[1], BOTTOM | TOP
        if course == 0:
            high, keeps = first, TOP
        elif course == courses - 1:
            high, keeps = top, BOTTOM
        start = (left + (MODULE[0] // 2 if half_bond and course % 2 else 0)) % MODULE[0]
        rest = wide + STEP * random.randint(-4, 4) - start
        if start >= LEAST:
            yield Kind(start, high, keeps | RIGHT)
        if rest % MODULE[0] >= LEAST:
            yield Kind(rest % MODULE[0], high, keeps | LEFT)
        if high < MODULE[1]:
            yield from [Kind(MODULE[0], high, keeps | LEFT | RIGHT)] * (rest // MODULE[0])


def _busy(call: Callable[[], Got]) -> tuple[Got, float]:
    start = process_time()
    got = call()
    return got, process_time() - start


def _demos() -> Iterator[Row]:
    """Yield the modules of each demo job."""
    library = Library()
    systems, tables = library.materials().systems, library.rates()
    for source in library.demos():
        job = source.read(lambda _: None)
        system = systems[job.choices.material]
        walls = fit_walls(job)
        short = set_out(walls, job.choices, system, tables[job.rates].looks)
        pieces = make_pieces(short.layouts[0], walls, system)
        plan = plan_cuts(pieces, system)
        name = f"modules, {source.name}"
        yield _counts(name, plan.modules, plan.lower_bound, "lower bound")
        yield _counts(name, plan.modules, len(pieces), "a module for each piece")


def _listed() -> Iterator[Row]:
    """Yield a small room against the plain way."""
    room = alcoves(1, SIZES[0])
    found, ours = _busy(lambda: fewest(room))
    plain, theirs = _busy(lambda: fewest_by_listing(room))
    # More than four pieces of a module are not listed, so it may need more; never fewer.
    assert found.bound <= len(found.trees) <= plain
    what = f"{SIZES[0]} pieces, {len(found.trees)} modules"
    yield _times(what, ours, theirs, f"every pattern listed, {plain} modules")


def _grown() -> Iterator[Row]:
    """Yield the plan of rooms of many sizes."""
    before: tuple[int, float] | None = None
    for size in SIZES:
        room = alcoves(size, size)
        found, ours = _busy(lambda room=room: fewest(room))  # type: ignore[misc]  # bound early
        check_cuts(found, room)
        quick, theirs = _busy(lambda room=room: greedy(room))  # type: ignore[misc]  # the same
        modules = len(found.trees)
        what = f"{size} pieces, {len(room.kinds)} kinds"
        against = "lower bound: proven" if modules == found.bound else "lower bound"
        yield _counts(f"modules, {what}", modules, found.bound, against)
        yield _counts(f"modules, {what}", modules, len(quick), "greedy")
        yield _times(f"time, {what}", ours, theirs, "greedy alone")
        if before:
            # How many times as long for each piece as in the room before.
            ratio = ours / before[1] * before[0] / size
            yield Row(
                what=f"time for each piece, {size} pieces",
                ours=shown(ours / size),
                theirs=shown(before[1] / before[0]),
                ratio=ratio,
                against=f"times as long as with {before[0]}",
            )
        before = size, ours


def _huge() -> Iterator[Row]:
    """Yield rooms of twenty thousand pieces: all alike, and hardly two alike."""
    count = SIZES[-1]
    for what, room in (("alike", _alike(count)), ("of any size", _scattered(1, count))):
        found, ours = _busy(lambda room=room: fewest(room))  # type: ignore[misc]  # bound early
        check_cuts(found, room)
        quick, theirs = _busy(lambda room=room: greedy(room))  # type: ignore[misc]  # the same
        name = f"{count} pieces {what}, {len(room.kinds)} kinds"
        modules = len(found.trees)
        against = "lower bound: proven" if modules == found.bound else "lower bound"
        yield _counts(f"modules, {name}", modules, found.bound, against)
        yield _counts(f"modules, {name}", modules, len(quick), "greedy")
        yield _times(f"time, {name}", ours, theirs, "greedy alone")


def _alike(count: int) -> Room:
    end = Kind(10 * INCH, MODULE[1], LEFT | BOTTOM | TOP)
    return Room(width=MODULE[0], height=MODULE[1], kerf=KERF, kinds=(end,), demand=(count,))


def _scattered(seed: int, count: int) -> Room:
    """Make pieces of any size with any of six sets of edges: no room, but hard to cut."""
    random = Random(seed)  # noqa: S311  (rooms, not secrets)
    sets = (0, BOTTOM, LEFT | TOP, LEFT | BOTTOM | TOP, RIGHT | BOTTOM | TOP, LEFT | RIGHT | BOTTOM)
    kinds: list[Kind] = []
    for _ in range(count):
        keeps = random.choice(sets)
        wide, high = (random.randrange(LEAST, size, STEP) for size in MODULE)
        wide = MODULE[0] if keeps & (LEFT | RIGHT) == LEFT | RIGHT else wide
        high = MODULE[1] if keeps & (BOTTOM | TOP) == BOTTOM | TOP else high
        kinds.append(Kind(wide, high, keeps))
    order, demand = pooled(kinds)
    return Room(width=MODULE[0], height=MODULE[1], kerf=KERF, kinds=order, demand=demand)


def _edges() -> Iterator[Row]:
    """Yield what a plan would claim that knew nothing of kept edges."""
    for size in (20, 40, 60):
        kept = ignored = bound = 0
        for seed in range(ROOMS):
            room = alcoves(seed, size)
            kept += len(fewest(room).trees)
            bare, demand = _without_edges(room)
            blind = fewest(replace(room, kinds=bare, demand=demand))
            ignored, bound = ignored + len(blind.trees), bound + blind.bound
        what = f"modules, {ROOMS} rooms of {size}, edges kept"
        yield _counts(what, kept, ignored, f"edges ignored, at least {bound}")


def _without_edges(room: Room) -> tuple[tuple[Kind, ...], tuple[int, ...]]:
    kinds = [
        Kind(kind.width, kind.height, keeps=0)
        for kind, count in zip(room.kinds, room.demand, strict=True)
        for _ in range(count)
    ]
    return pooled(kinds)


def _counts(what: str, ours: int, theirs: int, against: str) -> Row:
    return Row(what=what, ours=str(ours), theirs=str(theirs), ratio=theirs / ours, against=against)


def _times(what: str, ours: float, theirs: float, against: str) -> Row:
    return Row(
        what=what, ours=shown(ours), theirs=shown(theirs), ratio=theirs / ours, against=against
    )
