"""Planning from the command line: one job, from its source to papers and a story."""

from datetime import UTC, datetime, time
from functools import partial
from pathlib import Path

import typer

from gaugerod import __version__
from gaugerod.app.plan_job import Writers, make_ready, plan_job
from gaugerod.app.ports import Clock, HardStop, JobSource, Library
from gaugerod.app.story import forbidding, tell
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.speech import complain, spoken
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL
from gaugerod.store.folder import OutputFolder
from gaugerod.writers.csv_order import order_csv
from gaugerod.writers.ics import ics
from gaugerod.writers.pdf import pdf
from gaugerod.writers.plan_json import plan_json
from gaugerod.writers.svg import svg


def plan_writers(clock: Clock) -> Writers:
    """Return the writers of a plan, with the day that the calendar is made on."""
    stamp = datetime.combine(clock.today(), time(), tzinfo=UTC)
    return Writers(
        plan=partial(plan_json, version=__version__),
        drawing=svg,
        paper=partial(pdf, draw=svg),
        order=order_csv,
        days=partial(ics, stamp=stamp),
    )


def default_words(library: Library) -> Catalogue:
    """Return the sentences to speak in before a job has said how it wants lengths shown."""
    return library.words(IMPERIAL, currency="USD")


def plan_and_tell(source: JobSource, library: Library, folder: Path, stop: HardStop) -> bool:
    """Plan a job, write its papers, tell its story; return whether it may be cut."""
    with spoken(default_words(library)):
        ready = make_ready(source, library)
    words = ready.words
    with spoken(words):
        planned = plan_job(
            ready, OutputFolder(path=folder), writers=plan_writers(SystemClock()), stop=stop
        )
    for line in tell(planned.plan, words):
        typer.echo(line)
    typer.echo(words.text("cli.written", folder=str(folder), files=", ".join(planned.files)))
    forbids = len(forbidding(planned.plan))
    if forbids:
        complain(words.text("cli.forbidden", job=source.name, forbids=forbids))
    return not forbids
