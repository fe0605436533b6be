"""Measuring from the command line: a survey held against itself, told and drawn."""

from functools import partial
from pathlib import Path

import typer

from gaugerod.app.blank_survey import NAME, blank_sheets
from gaugerod.app.measure_job import measure, survey_papers, unclosed
from gaugerod.app.measure_story import tell_survey
from gaugerod.app.plan_job import make_ready
from gaugerod.app.ports import JobSource, Library
from gaugerod.app.writers import SheetWriters
from gaugerod.cli.planning import default_words
from gaugerod.cli.speech import complain, spoken
from gaugerod.core.base.lengths import Display
from gaugerod.packet.paper import Size
from gaugerod.store.folder import OutputFolder
from gaugerod.writers.pdf import pdf
from gaugerod.writers.svg import svg

BLACK = partial(pdf, draw=partial(svg, black=True), black=True)
WRITERS = SheetWriters(drawing=svg, paper=partial(pdf, draw=svg))


def measure_and_tell(source: JobSource, library: Library, folder: Path | None) -> bool:
    """Tell what the survey of a job says, draw it, return whether its readings may stand."""
    with spoken(default_words(library)):
        ready = make_ready(source, library)
    words = ready.words
    with spoken(words):
        made = measure(ready, library.tolerances())
        files = survey_papers(made, words, WRITERS) if folder else {}
        if folder:
            OutputFolder(path=folder).write(files)
    for line in tell_survey(made, words):
        typer.echo(line)
    if folder:
        typer.echo(words.text("cli.written", folder=str(folder), files=", ".join(files)))
    suspects, open_ends = len(made.walls.suspects), len(unclosed(made))
    if suspects or open_ends:
        complain(words.text("cli.measured", job=source.name, suspects=suspects, closures=open_ends))
        return False
    return True


def write_blank(library: Library, folder: Path, display: Display, size: Size | None) -> None:
    """Write blank sheets to take a survey on."""
    words = library.words(display, currency="USD")
    with spoken(words):
        blank_sheets(words, OutputFolder(path=folder), BLACK, size=size)
    typer.echo(words.text("cli.written", folder=str(folder), files=NAME))
