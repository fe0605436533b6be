"""Planning again from the command line, after what happened on site."""

from pathlib import Path

import typer

from gaugerod.app.plan_job import make_ready
from gaugerod.app.ports import HardStop, JobSource, Library
from gaugerod.app.replan_job import replan_job
from gaugerod.app.replan_story import tell_again
from gaugerod.app.story import forbidding
from gaugerod.cli.clock import SystemClock
from gaugerod.cli.planning import default_words, plan_writers
from gaugerod.cli.speech import complain, spoken
from gaugerod.core.base.errors import JobError
from gaugerod.packet.paper import Size
from gaugerod.store.folder import OutputFolder
from gaugerod.store.on_site_file import OnSiteFile
from gaugerod.store.toml_file import read_bytes


def replan_and_tell(
    source: JobSource,
    days: Path,
    library: Library,
    folder: Path,
    stop: HardStop,
    *,
    size: Size | None = None,
) -> bool:
    """Plan a job again after the days on site, tell what changed; return whether it may be cut."""
    with spoken(default_words(library)):
        on_site = OnSiteFile(name=str(days), source=read_bytes(days, error=JobError))
        ready = make_ready(source, library)
    words = ready.words
    with spoken(words):
        again = replan_job(
            ready,
            on_site,
            OutputFolder(path=folder),
            writers=plan_writers(SystemClock()),
            stop=stop,
            size=size,
        )
    for line in tell_again(again.replanned, words):
        typer.echo(line)
    typer.echo(words.text("cli.written", folder=str(folder), files=", ".join(again.files)))
    forbids = len(forbidding(again.replanned.plan))
    if forbids:
        complain(words.text("cli.forbidden", job=source.name, forbids=forbids))
    return not forbids
