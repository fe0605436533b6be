"""Options from the command line: told, drawn, and another asked about."""

from collections.abc import Sequence
from functools import partial
from pathlib import Path

import typer

from gaugerod.app.options_job import asked_of, options_papers, weigh_job
from gaugerod.app.options_story import tell_options
from gaugerod.app.plan_job import Ready, make_ready
from gaugerod.app.ports import JobSource, Library
from gaugerod.app.writers import SheetWriters
from gaugerod.cli.planning import default_words
from gaugerod.cli.speech import spoken
from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Choices
from gaugerod.store.folder import OutputFolder
from gaugerod.store.past_file import past_jobs
from gaugerod.writers.pdf import pdf
from gaugerod.writers.svg import svg

WRITERS = SheetWriters(drawing=svg, paper=partial(pdf, draw=svg))
ASKABLE = ("turn", "bond", "step", "finish", "first_height", "centre", "phase")
BY_WALL = ("centre", "phase")


def weigh_and_tell(
    source: JobSource,
    library: Library,
    folder: Path | None,
    asked: Sequence[str],
    *,
    past: Path | None = None,
) -> None:
    """Tell the options of a job, draw them, and answer why not another."""
    with spoken(default_words(library)):
        ready = make_ready(source, library, past=past_jobs(past) if past else None)
    words = ready.words
    with spoken(words):
        made = weigh_job(ready, _asked(ready, asked))
        files = options_papers(made, words, WRITERS) if folder else {}
        if folder:
            OutputFolder(path=folder).write(files)
    for line in tell_options(made, words):
        typer.echo(line)
    if folder:
        typer.echo(words.text("cli.written", folder=str(folder), files=", ".join(files)))


def _asked(ready: Ready, asked: Sequence[str]) -> Choices | None:
    wanted: dict[str, object] = {}
    for each in asked:
        key, _, value = (part.strip() for part in each.partition("="))
        name, _, wall = key.partition(".")
        if name not in ASKABLE or not value or (name in BY_WALL) != bool(wall):
            raise JobError(Message("options.bad-ask", read=each, known=", ".join(ASKABLE)))
        if wall:
            others = wanted.setdefault(name, {})
            wanted[name] = {**(others if isinstance(others, dict) else {}), wall: value}
        else:
            wanted[name] = _number(value) if name == "bond" else value
    try:
        return asked_of(ready, wanted) if wanted else None
    except ValueError as error:
        raise JobError(Message("options.bad-value", read=", ".join(asked))) from error


def _number(text: str) -> float | str:
    try:
        return float(text)
    except ValueError:
        return text
