"""Use case: from a job file to what its survey says, before anything is set out."""

from dataclasses import dataclass

from gaugerod.app.in_file import in_file
from gaugerod.app.plan_job import Ready
from gaugerod.app.writers import SheetWriters
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import Depth, Gap
from gaugerod.core.job.tolerances import Tolerances, fixing_of
from gaugerod.core.survey.closures import Closure, closures
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.flatness import WallFlatness, flatness_of
from gaugerod.core.survey.walls import Walls
from gaugerod.packet.survey import flatness_drawings, survey_drawings, survey_paper

_PAPER = "survey"


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a survey says: its closures, the worst first, its walls, and how flat they are.

    `flatness` is there for walls with gaps or depths.
    """

    job: Job
    closures: tuple[Closure, ...]
    walls: Walls
    flatness: tuple[WallFlatness, ...]


def measure(ready: Ready, limits: Tolerances) -> Measured:
    """Hold the readings of a job against each other.

    Raises
    ------
    GaugerodError
        The readings give no walls. The message names the job.
    """
    job = ready.job
    with in_file(ready.name):
        walls = fit_walls(job)
    system = ready.materials.systems[job.choices.material]
    return Measured(
        job=job,
        closures=closures(job),
        walls=walls,
        flatness=tuple(
            flatness_of(
                wall,
                fitted,
                longest_edge=max(system.face),
                limits=limits,
                survey=job.survey,
                fixing=fixing_of(system),
                region=job.site.region,
                display=ready.words.display,
            )
            for wall, fitted in zip(job.wall, walls.walls, strict=True)
            if any(isinstance(reading, Gap | Depth) for reading in wall.readings)
        ),
    )


def unclosed(made: Measured) -> tuple[Closure, ...]:
    """Return the closures whose readings are to be taken again."""
    return tuple(closure for closure in made.closures if closure.verdict == "re-measure")


def survey_papers(made: Measured, words: Catalogue, writers: SheetWriters) -> dict[str, bytes]:
    """Return every file of a survey by its name."""
    files = {
        f"{drawing.name}.svg": writers.drawing(drawing).encode()
        for drawing in (
            *survey_drawings(made.job, made.walls, words),
            *flatness_drawings(made.walls, made.flatness, words),
        )
    }
    whole = survey_paper(made.job, made.closures, made.walls, made.flatness, words)
    files[f"{_PAPER}.pdf"] = writers.paper(whole)
    return files
