from dataclasses import replace

import pytest
from tests.unit.app.conftest import FakeLibrary, FakeSource

from gaugerod.app.measure_job import Measured, measure, survey_papers, unclosed
from gaugerod.app.plan_job import Ready, make_ready
from gaugerod.app.writers import SheetWriters
from gaugerod.core.base.errors import SurveyError
from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import Gap, Reading, Width


def with_readings(job: Job, *readings: Reading) -> Job:
    """The job with more readings of its back wall."""
    left, back, right = job.wall
    more = back.model_copy(update={"readings": (*back.readings, *readings)})
    return job.model_copy(update={"wall": (left, more, right)})


@pytest.fixture
def ready(source: FakeSource, library: FakeLibrary) -> Ready:
    return make_ready(source, library)


def measured(ready: Ready, library: FakeLibrary, *readings: Reading) -> Measured:
    return measure(replace(ready, job=with_readings(ready.job, *readings)), library.tolerances())


def test_a_sound_survey_closes(ready: Ready, library: FakeLibrary) -> None:
    made = measured(ready, library)
    assert made.closures
    assert (unclosed(made), made.walls.suspects, made.flatness) == ((), (), ())


def test_a_width_out_by_a_hundred_does_not_close(ready: Ready, library: FakeLibrary) -> None:
    made = measured(ready, library, Width(kind="width", at=0.0, reads=1600.0))
    assert "B width 4" in {name for closure in unclosed(made) for name in closure.readings}
    assert [suspect.readings for suspect in made.walls.suspects] == [("B width 4",)]


def test_flatness_is_judged_where_gaps_were_read(ready: Ready, library: FakeLibrary) -> None:
    gap = Gap(kind="gap", at=750, height=300, straightedge=1800, held="level", reads=30)
    (back,) = measured(ready, library, gap).flatness
    assert (back.wall, back.verdict) == ("B", "out")


def test_readings_that_give_no_walls_are_told_with_the_job(
    ready: Ready, library: FakeLibrary
) -> None:
    left, back, right = ready.job.wall
    bare = back.model_copy(
        update={"readings": tuple(r for r in back.readings if r.kind != "width")}
    )
    job = ready.job.model_copy(update={"wall": (left, bare, right)})
    with pytest.raises(SurveyError) as caught:
        measure(replace(ready, job=job), library.tolerances())
    assert ready.words.say(caught.value.message).startswith("sample.toml: Wall B has no width.")


def test_every_wall_is_drawn_beside_the_paper(ready: Ready, library: FakeLibrary) -> None:
    writers = SheetWriters(
        drawing=lambda drawing: drawing.title, paper=lambda paper: paper.job.encode()
    )
    assert survey_papers(measured(ready, library), ready.words, writers) == {
        "survey-L.svg": b"Wall L",
        "survey-B.svg": b"Wall B",
        "survey-R.svg": b"Wall R",
        "survey.pdf": b"Sample alcove",
    }
