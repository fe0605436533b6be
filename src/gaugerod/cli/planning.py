"""Planning from the command line: one job, from its source to papers and a story."""

from datetime import UTC, datetime, time
from functools import partial
from pathlib import Path

import typer

from gaugerod import __version__
from gaugerod.app.editions_story import tell_editions
from gaugerod.app.plan_job import Writers, make_ready, plan_job
from gaugerod.app.ports import Clock, HardStop, JobSource, Library
from gaugerod.app.price_story import tell_lesson
from gaugerod.app.story import forbidding, tell
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.speech import complain, spoken
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, Display
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.packet.paper import Size
from gaugerod.store.folder import OutputFolder
from gaugerod.store.past_file import past_jobs
from gaugerod.writers.csv_order import order_csv
from gaugerod.writers.glb import glb
from gaugerod.writers.ics import ics
from gaugerod.writers.pdf import pdf
from gaugerod.writers.plan_json import plan_json
from gaugerod.writers.svg import svg
from gaugerod.writers.xlsx_order import order_xlsx


def _dxf(drawing: Drawing, display: Display) -> bytes:
    """Write a drawing as DXF; what writes it is slow to load, so only planning loads it."""
    from gaugerod.writers.dxf import dxf  # noqa: PLC0415  (the other commands do without)

    return dxf(drawing, display)


def plan_writers(clock: Clock) -> Writers:
    """Return the writers of a plan, with the day that the calendar is made on."""
    stamp = datetime.combine(clock.today(), time(), tzinfo=UTC)
    return Writers(
        plan=partial(plan_json, version=__version__),
        drawing=svg,
        cad=_dxf,
        model=glb,
        paper=partial(pdf, draw=svg),
        full_size=partial(pdf, draw=partial(svg, black=True, edged=False), black=True),
        order=order_csv,
        workbook=order_xlsx,
        days=partial(ics, stamp=stamp),
    )


def default_words(library: Library) -> Catalogue:
    """Return the sentences to speak in before a job has said how it wants lengths shown."""
    return library.words(IMPERIAL, currency="USD")


def plan_and_tell(
    source: JobSource,
    library: Library,
    folder: Path,
    stop: HardStop,
    *,
    past: Path | None = None,
    size: Size | None = None,
) -> bool:
    """Plan a job, write its papers, tell its story; return whether it may be cut."""
    with spoken(default_words(library)):
        ready = make_ready(source, library, past=past_jobs(past) if past else None)
    words = ready.words
    with spoken(words):
        planned = plan_job(
            ready,
            OutputFolder(path=folder),
            writers=plan_writers(SystemClock()),
            stop=stop,
            size=size,
        )
    for line in tell(planned.plan, words):
        typer.echo(line)
    if planned.stopped:
        typer.echo(words.say(planned.stopped))
    for line in tell_editions(ready.job, ready.rules, words):
        typer.echo(line)
    for line in tell_lesson(ready.lesson, words) if ready.lesson else ():
        typer.echo(line)
    typer.echo(words.text("cli.written", folder=str(folder), files=", ".join(planned.files)))
    forbids = len(forbidding(planned.plan))
    if forbids:
        complain(words.text("cli.forbidden", job=source.name, forbids=forbids))
    return not forbids
