"""The plan of modules against published rows: `python -m bench.literature --data FOLDER`.

FOLDER holds `2d_bwmv_binpacking.csv` and `2d_guillotine_other.csv`, and for the part on stock
lengths `1d_bpplib.csv`. None of them is part of this project. No edge is kept, the kerf is nought
and nothing is turned: what is left of our problem is the one that has been published. Each row is
planned in a process that ends after so many seconds of processor time.
"""

import argparse
import sys
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import groupby
from pathlib import Path
from sys import maxsize
from types import MappingProxyType

from bench import literature_1d, peers
from bench.published import Found, Knapsack, Published, knapsacks, last_of, packing, plan
from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.guillotine import Worths
from gaugerod.core.cutting.rooms import leaves, whole

LIMIT = 10
"""Seconds of processor for a row. [s]"""
EVERY = 5
"""Of the large set every fifth row is given to the peers, and all of the small ones."""

Pair = tuple[Published, Found]


def main() -> None:
    """Print the tables."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    parser.add_argument("--data", type=Path, required=True)
    parser.add_argument("--limit", type=int, default=LIMIT)
    parser.add_argument("--parts", nargs="+", choices=PARTS, default=list(PARTS))
    given = parser.parse_args()
    for part in given.parts:
        _print(PARTS[part](given.data, given.limit))


def _print(lines: Iterable[str]) -> None:
    for line in lines:
        sys.stdout.write(f"{line}\n")
        sys.stdout.flush()
    sys.stdout.write("\n")


def _lengths(folder: Path, _limit: int) -> Iterator[str]:
    yield "| stock lengths | rows | proven | against |"
    yield "|---|---|---|---|"
    for row in literature_1d.one_d(folder):
        yield f"| {row.what} | {row.theirs} | {row.ours} | {row.against} |"


def _planned(one: Published, limit: int) -> Pair:
    """Plan a row, and hold it to what has been published of it."""
    found = plan(one, limit=limit)
    assert found.sheets is not None
    assert found.bound <= one.best, f"{one.name}: bound {found.bound}, {one.best} do"
    assert found.sheets >= one.least, f"{one.name}: {found.sheets}, {one.least} are needed"
    mark = "" if found.sheets == found.bound else "  not proven"
    sys.stderr.write(
        f"{one.name}: {found.sheets}, bound {found.bound}, published {one.best}, "
        f"{found.took:.1f} s{'' if found.ended else '  stopped'}{mark}\n"
    )
    return one, found


def _sheets(folder: Path, limit: int) -> Iterator[str]:
    solved = [_planned(one, limit) for one in packing(folder)]
    yield (
        "| set | rows | sheets | our bounds | published best | proved by others | proven "
        "| as good as published | better | stopped | mean gap | s, sum |"
    )
    yield "|---|---|---|---|---|---|---|---|---|---|---|---|"
    for name, group in groupby(solved, key=lambda pair: pair[0].of):
        yield _line(name, list(group))
    yield _line("**all**", solved)


def _line(name: str, pairs: Sequence[Pair]) -> str:
    sheets = [found.sheets or 0 for _, found in pairs]
    bounds = [found.bound for _, found in pairs]
    best = [one.best for one, _ in pairs]
    gaps = [(ours - bound) / bound for ours, bound in zip(sheets, bounds, strict=True)]
    both = list(zip(sheets, best, strict=True))
    cells = (
        name,
        len(pairs),
        sum(sheets),
        sum(bounds),
        sum(best),
        sum(one.least for one, _ in pairs) or "",
        sum(gap == 0 for gap in gaps),
        sum(ours == known for ours, known in both),
        sum(ours < known for ours, known in both),
        sum(not found.ended for _, found in pairs),
        f"{100 * sum(gaps) / len(gaps):.1f} %",
        f"{sum(found.took for _, found in pairs):.0f}",
    )
    return f"| {' | '.join(str(cell) for cell in cells)} |"


def _knapsacks(folder: Path, limit: int) -> Iterator[str]:
    """Fill one sheet: `Worths` says what it may be worth at most, without counting the copies."""
    yield "| one sheet | rows | worth at most | published best | equal | within copies | stopped |"
    yield "|---|---|---|---|---|---|---|"
    rows = sorted(knapsacks(folder), key=lambda row: not row.guillotine)
    for guillotine, group in groupby(rows, key=lambda row: row.guillotine):
        told = [(row, _worth(row, limit)) for row in group]
        ended = [(row, *worth) for row, worth in told if worth]
        if guillotine:
            assert all(most >= row.best for row, most, _ in ended)
        cells = (
            "two stages" if guillotine else "any layout",
            len(told),
            sum(most for _, most, _ in ended),
            sum(row.best for row, _, _ in ended),
            sum(most == row.best for row, most, _ in ended),
            sum(within for _, _, within in ended),
            len(told) - len(ended),
        )
        yield f"| {' | '.join(str(cell) for cell in cells)} |"


def _worth(row: Knapsack, limit: int) -> tuple[int, bool] | None:
    one = Published(name=row.name, of="", room=row.room, best=row.best, least=0)

    def work(_: Published) -> Iterator[tuple[int, bool] | None]:
        yield None
        # The limit on the processor's time ends it, not one on the work.
        table = Worths(row.room, row.worth, Effort(maxsize))
        parts = leaves(table.pattern(), whole(row.room), 0)
        used = [leaf.way for leaf, _ in parts if leaf]
        assert sum(row.worth[number] for number in used) == table.most, row.name
        yield table.most, all(used.count(n) <= d for n, d in enumerate(row.room.demand))

    return last_of(work, one, limit=limit)


def _side_by_side(folder: Path, limit: int) -> Iterator[str]:
    """Give the same rows to every peer that is installed."""
    rows = list(packing(folder))
    large = [one for one in rows if one.least]
    chosen = large[::EVERY] + [one for one in rows if not one.least]
    sample = [_planned(one, limit) for one in chosen]
    for name in peers.missing():
        yield f"{name}: not on this Python."
    yield f"| {len(sample)} rows, the same | sheets | bounds | proven | none found | s, sum |"
    yield "|---|---|---|---|---|---|"
    yield _peer("ours", [found for _, found in sample])
    for name, call in peers.here():
        yield _peer(name, [_by(call, one, ours, limit) for one, ours in sample])
    yield f"| published best | {sum(one.best for one, _ in sample)} | | | | |"


def _by(call: Callable[[Published, int], Found], one: Published, ours: Found, limit: int) -> Found:
    found = call(one, limit)
    # A bound of packing in any layout is one of cutting too.
    assert found.bound <= (ours.sheets or 0), one.name
    fewer = found.sheets is not None and found.sheets < ours.bound
    sys.stderr.write(f"{one.name}: {found}{'  under our bound' if fewer else ''}\n")
    return found


def _peer(name: str, found: Sequence[Found]) -> str:
    got = [one for one in found if one.sheets is not None]
    cells = (
        name,
        sum(one.sheets or 0 for one in got),
        sum(one.bound for one in found) or "",
        sum(one.sheets == one.bound for one in got),
        len(found) - len(got),
        f"{sum(one.took for one in found):.0f}",
    )
    return f"| {' | '.join(str(cell) for cell in cells)} |"


PARTS: Mapping[str, Callable[[Path, int], Iterator[str]]] = MappingProxyType(
    {
        "lengths": _lengths,
        "sheets": _sheets,
        "one-sheet": _knapsacks,
        "peers": _side_by_side,
    }
)


if __name__ == "__main__":
    main()
