"""Paper: what writing every file of a plan takes, against making the plan, and what it weighs."""

from collections.abc import Callable, Iterator
from datetime import date
from functools import partial
from time import process_time
from typing import TypeVar

from bench.timing import Row, shown
from gaugerod.app.plan_job import papers
from gaugerod.cli.planning import plan_writers
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.job.document import Job
from gaugerod.core.pipeline import plan
from gaugerod.store.shelf import Library

T = TypeVar("T")
DEMOS: tuple[tuple[str, Display, str], ...] = (
    ("alcove-1962", IMPERIAL, "USD"),
    ("niche-tile", METRIC, "GBP"),
)
SECONDS = 2.0
"""All papers of a plan are to take no more of one core."""
BYTES = 2_000_000
"""And no file is to weigh more."""


class _Day:
    """Any day: calendars bear the one that they are made on."""

    def today(self) -> date:
        """Return the day."""
        return date(2026, 2, 1)


def rows() -> Iterator[Row]:
    """Yield the time of all papers against that of planning, and the heaviest file."""
    library = Library()
    writers = plan_writers(_Day())
    for name, display, currency in DEMOS:
        source = next(demo for demo in library.demos() if demo.name == f"{name}.toml")
        job = source.read(_accept)
        words = library.words(display, currency=currency)
        materials, rules, rates = library.materials(), library.rules(), library.rates()
        made, planning = _timed(partial(plan, job, materials, rules, rates[job.rates]))
        _, first = _timed(partial(papers, made, words, writers))
        files, taken = _timed(partial(papers, made, words, writers))
        what = f"{len(files)} papers of {name} (CPU)"
        yield _row(what, taken, planning, "planning the same job")
        yield _row(f"{what}, first time", first, SECONDS, "the most that they may take")
        heaviest = max(files, key=lambda file: len(files[file]))
        yield Row(
            what=f"{heaviest} of {name}",
            ours=f"{len(files[heaviest]) / 1000:.0f} kB",
            theirs=f"{BYTES / 1000:.0f} kB",
            ratio=BYTES / len(files[heaviest]),
            against="the most that a file may weigh",
        )


def _row(what: str, ours: float, theirs: float, against: str) -> Row:
    return Row(
        what=what, ours=shown(ours), theirs=shown(theirs), ratio=theirs / ours, against=against
    )


def _accept(job: Job) -> None:
    """Find nothing wrong with a job."""


def _timed(call: Callable[[], T]) -> tuple[T, float]:
    """Return what a call returns and the processor time it took. [s]."""
    start = process_time()
    made = call()
    return made, process_time() - start
