"""Measuring from the command line: a survey held against itself, told and drawn."""

import typer

from gaugerod.app.measure_job import measure, unclosed
from gaugerod.app.measure_story import tell_survey
from gaugerod.app.plan_job import make_ready
from gaugerod.app.ports import JobSource, Library
from gaugerod.cli.planning import default_words
from gaugerod.cli.speech import complain, spoken


def measure_and_tell(source: JobSource, library: Library) -> bool:
    """Tell what the survey of a job says; return whether its readings may stand."""
    with spoken(default_words(library)):
        ready = make_ready(source, library)
    words = ready.words
    with spoken(words):
        made = measure(ready, library.tolerances())
    for line in tell_survey(made, words):
        typer.echo(line)
    suspects, open_ends = len(made.walls.suspects), len(unclosed(made))
    if suspects or open_ends:
        complain(words.text("cli.measured", job=source.name, suspects=suspects, closures=open_ends))
        return False
    return True
