"""Stock lengths against published instances: `python -m bench.literature_1d FOLDER`.

FOLDER holds `1d_bpplib.csv`: columns `instance`, `set`, `stock_length`, `best_known` and
`sizes(length:demand)`. The instances of the BPPLIB (M. Delorme, M. Iori, S. Martello, *BPPLIB:
a library for bin packing and cutting stock problems*, Optim. Lett. 12:235-250, 2018) may be
measured with and not passed on, so they are not part of this project.
"""

import csv
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from pathlib import Path
from time import perf_counter

from bench.timing import Row
from gaugerod.core.cutting.bars import fewest_bars

CLASSICAL = (
    "Falkenauer_U",
    "Falkenauer_T",
    "Scholl_1",
    "Scholl_2",
    "Scholl_3",
    "Waescher",
    "Schwerin_1",
    "Schwerin_2",
    "Hard28",
)
"""The sets that every method is measured on."""
EFFORT = 5_000_000_000
"""Work for one instance: under ten seconds on an ordinary machine. [table cells]"""
LIMIT = 10.0
"""An instance counts as proven if it took no longer than this. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """One instance: what came out, what is known, and how long it took. [s]."""

    of: str
    bars: int
    bound: int
    known: int
    took: float

    @property
    def proven(self) -> bool:
        """Whether the bound was met in time."""
        return self.bars == self.bound and self.took <= LIMIT


def one_d(folder: Path) -> Iterator[Row]:
    """Yield how many instances of each set are proven, then of all classical ones."""
    with (folder / "1d_bpplib.csv").open(encoding="utf-8", newline="") as file:
        solved = [_solved(row) for row in csv.DictReader(file)]
    for name, group in groupby(sorted(solved, key=_set), key=_set):
        yield _row(name, list(group))
    yield _row("all classical", [one for one in solved if one.of in CLASSICAL])


def _set(one: Solved) -> str:
    return one.of


def _solved(row: dict[str, str]) -> Solved:
    pairs = (pair.split(":") for pair in row["sizes(length:demand)"].split())
    lengths = [int(length) for length, count in pairs for _ in range(int(count))]
    stock = int(row["stock_length"])
    start = perf_counter()
    plan = fewest_bars(lengths, stock=stock, kerf=0, step=Fraction(1), effort=EFFORT)
    took = perf_counter() - start
    known = int(row["best_known"])
    assert plan.lower_bound <= known <= len(plan.bars), row["instance"]
    given = sorted(cut.piece for bar in plan.bars for cut in bar.cuts)
    assert given == list(range(len(lengths))), row["instance"]
    full = max(sum(lengths[cut.piece] for cut in bar.cuts) for bar in plan.bars)
    assert full <= stock, row["instance"]
    return Solved(
        of=row["set"], bars=len(plan.bars), bound=plan.lower_bound, known=known, took=took
    )


def _row(name: str, solved: list[Solved]) -> Row:
    proven = sum(one.proven for one in solved)
    best = sum(one.bars == one.known for one in solved)
    times = [one.took for one in solved]
    return Row(
        what=f"bars proven, {name}",
        ours=str(proven),
        theirs=str(len(solved)),
        ratio=proven / len(solved),
        against=f"instances; optimum found in {best}; "
        f"{sum(times):.1f} s in all, {max(times):.1f} s at most",
    )


def main() -> None:
    """Print the table."""
    write = sys.stdout.write
    write(f"{'what':<34} {'ours':>5} {'of':>5}  against what\n")
    for row in one_d(Path(sys.argv[1])):
        write(f"{row.what:<34} {row.ours:>5} {row.theirs:>5}  {row.against}\n")


if __name__ == "__main__":
    main()
