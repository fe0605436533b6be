"""Published rows of pieces to be cut from sheets, and our plan of one under a hard stop."""

import csv
import multiprocessing
import resource
from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from multiprocessing.connection import Connection
from pathlib import Path
from time import process_time
from typing import TypeAlias, TypeVar

from gaugerod.core.cutting.bound import Need, lower_bound
from gaugerod.core.cutting.fewest import Fewest, at_once, fewest
from gaugerod.core.cutting.rooms import Kind, Room, gives, leaves, whole

Told = TypeVar("Told")
Raw: TypeAlias = dict[str, str]

BEST = (
    "bks_guillotine_3stage_oriented",
    "best_known_guillotine_any_stage_oriented",
)
"""Columns with numbers of sheets that guillotine cuts are known to do with."""
PROVED = "lower_bound_guillotine_any_stage_oriented"
"""The column with a number of sheets that they are proved to need."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Published:
    """One row: its pieces, the fewest sheets known, and those that are proved to be needed."""

    name: str
    of: str
    room: Room
    best: int
    least: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """A number of sheets, a bound where there is one, and how long it took. [s].

    `ended` is false where the hard stop came first: then it is the plan at once.
    """

    sheets: int | None
    bound: int
    took: float
    ended: bool = True


def packing(folder: Path) -> Iterator[Published]:
    """Yield the rows of bin packing, then those of other sets that want the fewest sheets."""
    for row in _read(folder / "2d_bwmv_binpacking.csv"):
        yield Published(
            name=row["instance"],
            of=row["instance"].partition(".")[0].replace("_", " "),
            room=_room(row, row["pieces(w x h:demand)"]),
            best=min(int(row[column]) for column in BEST if row[column]),
            least=int(row[PROVED]),
        )
    for row in _read(folder / "2d_guillotine_other.csv"):
        if row["objective"].startswith("min"):
            yield Published(
                name=row["instance"],
                of="other sets",
                room=_room(row, row["pieces(w x h:copies[:profit])"]),
                best=int(row["best_known"]),
                # Proved for three stages only, so not for any number of them.
                least=0,
            )


@dataclass(frozen=True, slots=True, kw_only=True)
class Knapsack:
    """One sheet to be filled with what is worth most, no more of a kind than there are."""

    name: str
    guillotine: bool
    room: Room
    worth: tuple[int, ...]
    best: int


def knapsacks(folder: Path) -> Iterator[Knapsack]:
    """Yield the rows that fill one sheet."""
    for row in _read(folder / "2d_guillotine_other.csv"):
        if row["objective"].startswith("max"):
            pieces = row["pieces(w x h:copies[:profit])"]
            room = _room(row, pieces)
            given = [part.split(":")[2:] for part in pieces.split()]
            areas = [kind.width * kind.height for kind in room.kinds]
            yield Knapsack(
                name=row["instance"],
                guillotine=not row["cut_rule"].startswith("none"),
                room=room,
                worth=tuple(
                    int(own[0]) if own else area for own, area in zip(given, areas, strict=True)
                ),
                best=int(row["best_known"]),
            )


def _read(path: Path) -> Iterator[Raw]:
    with path.open(encoding="utf-8", newline="") as file:
        yield from csv.DictReader(file)


def _room(row: Raw, pieces: str) -> Room:
    parts = [part.replace("x", ":").split(":") for part in pieces.split()]
    return Room(
        width=int(row["stock_w"]),
        height=int(row["stock_h"]),
        kerf=0,
        kinds=tuple(Kind(int(part[0]), int(part[1]), keeps=0) for part in parts),
        demand=tuple(int(part[2]) for part in parts),
    )


def plan(one: Published, *, limit: int) -> Found:
    """Plan a row as a job is planned, and stop hard after so many seconds of processor. [s]."""
    found = last_of(_planned, one, limit=limit)
    return found if found.ended else replace(found, took=float(limit))


def _planned(one: Published) -> Iterator[Found]:
    room = one.room
    needs = [
        Need(tag="", width=kind.width, height=kind.height, keeps=frozenset())
        for kind, count in zip(room.kinds, room.demand, strict=True)
        for _ in range(count)
    ]
    known = lower_bound(needs, size=(room.width, room.height), kerf=0)
    quick = at_once(room)
    yield _checked(quick, room, max(quick.bound, known), ended=False)
    best = fewest(room, known=known)
    yield _checked(best, room, best.bound, ended=True)


def _checked(found: Fewest, room: Room, bound: int, *, ended: bool) -> Found:
    # Of a process of its own, so it began at nought.
    took = process_time()
    check_cuts(found, room)
    return Found(sheets=len(found.trees), bound=bound, took=took, ended=ended)


def check_cuts(found: Fewest, room: Room) -> None:
    """Check that every piece comes out of a part that gives it, and that none is wanting."""
    count: Counter[int] = Counter()
    for tree, kinds in zip(found.trees, found.kinds, strict=True):
        parts = [part for leaf, part in leaves(tree, whole(room), room.kerf) if leaf]
        for part, number in zip(parts, kinds, strict=True):
            assert 0 <= part.left < part.right <= room.width
            assert 0 <= part.bottom < part.top <= room.height
            if number is not None:
                kind = room.kinds[number]
                assert gives(kind, part) or (room.half_turn and gives(kind.turned(), part))
                count[number] += 1
    assert tuple(count[number] for number in range(len(room.kinds))) == room.demand


def last_of(work: Callable[[Published], Iterator[Told]], one: Published, *, limit: int) -> Told:
    """Run work in a process of its own, and return the last that it told before the stop. [s]."""
    context = multiprocessing.get_context("fork")
    mine, its = context.Pipe(duplex=False)
    process = context.Process(target=_tell, args=(work, one, its, limit))
    process.start()
    its.close()
    told: list[Told] = []
    try:
        while True:
            told.append(mine.recv())
    except EOFError:
        process.join()
    assert told, one.name
    assert process.exitcode is not None
    # Nought, or ended by the stop: anything else is a fault.
    assert process.exitcode <= 0, one.name
    return told[-1]


def _tell(
    work: Callable[[Published], Iterator[Told]], one: Published, to: Connection, limit: int
) -> None:
    resource.setrlimit(resource.RLIMIT_CPU, (limit, limit + 1))
    for told in work(one):
        to.send(told)
