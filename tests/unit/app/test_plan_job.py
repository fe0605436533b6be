from typing import Protocol

import pytest

from gaugerod.app.plan_job import Writers, make_ready, plan_job
from gaugerod.app.ports import Folder, HardStop, Library, OutputError, StoppedError
from gaugerod.core.base.errors import JobError, SurveyError
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError

PLAIN = Writers(
    plan=lambda made, words: f"{made.job.name} {words.display.system}",
    drawing=lambda drawing: drawing.name,
    cad=lambda drawing, display: f"{drawing.name} {display.system}".encode(),
    model=lambda model: model.title.encode(),
    paper=lambda paper: paper.job.encode(),
    full_size=lambda paper: paper.size.encode(),
    order=lambda order, words: words.currency + str(len(order.lines)),
    workbook=lambda order, words, job, wanted: (
        f"{job} {wanted} {words.currency} {len(order.lines)}".encode()
    ),
    days=lambda made, words: f"{words.currency} {made.days.finish.date()}".encode(),
)


class Source(Protocol):
    job: Job

    @property
    def name(self) -> str: ...

    def read(self, check: object) -> Job: ...


class Remembering(Folder, Protocol):
    files: dict[str, bytes]


def changed(source: Source, **changes: object) -> Source:
    source.job = source.job.model_copy(update=changes)
    return source


def test_a_job_is_planned_and_its_papers_written(
    source: Source, library: Library, folder: Remembering, patient: HardStop
) -> None:
    planned = plan_job(make_ready(source, library), folder, writers=PLAIN, stop=patient)
    assert planned.files == tuple(folder.files)
    assert list(folder.files) == [
        "plan.json",
        "elevation-L.svg",
        "wall-L.dxf",
        "elevation-B.svg",
        "wall-B.dxf",
        "elevation-R.svg",
        "wall-R.dxf",
        "picture.svg",
        "alcove.glb",
        "packet.pdf",
        "rod.pdf",
        "templates.pdf",
        "customer.pdf",
        "order.pdf",
        "order.csv",
        "order.xlsx",
        "days.ics",
    ]
    assert folder.files["plan.json"] == b"Sample alcove metric"
    assert folder.files["wall-B.dxf"] == b"elevation-B metric"
    assert folder.files["picture.svg"] == b"picture"
    assert folder.files["alcove.glb"] == b"Sample alcove"
    assert folder.files["packet.pdf"] == b"Sample alcove"
    assert folder.files["order.csv"].startswith(b"USD")
    assert folder.files["order.xlsx"] == b"Sample alcove 2026-03-02 USD 5"
    assert {piece.wall for piece in planned.plan.pieces} == {"L", "B", "R"}


@pytest.mark.parametrize(
    ("unit", "display", "shown"),
    [
        ("in", None, IMPERIAL),
        ("mm", None, METRIC),
        ("cm", None, METRIC),
        ("in", "metric", METRIC),
        ("mm", "imperial", IMPERIAL),
    ],
)
def test_lengths_are_shown_as_the_job_asks_else_as_it_is_written(
    source: Source, library: Library, unit: str, display: str | None, shown: Display
) -> None:
    ready = make_ready(changed(source, unit=unit, display=display), library)
    assert ready.words.display == shown


def test_a_job_that_is_not_consistent_is_refused(source: Source, library: Library) -> None:
    with pytest.raises(JobError) as caught:
        make_ready(changed(source, timezone="Nowhere"), library)
    assert caught.value.message.values["where"] == "timezone"


def test_rates_are_among_those_at_hand(source: Source, library: Library) -> None:
    with pytest.raises(InconsistentError) as caught:
        make_ready(changed(source, rates="none"), library)
    assert caught.value.at == ("rates",)
    wrong = Message("job.unknown-rates", read="none", known="shop")
    assert caught.value.message == Message("job.at", where="rates", wrong=wrong)


def test_an_error_of_a_stage_names_the_job(
    source: Source, library: Library, folder: Remembering, patient: HardStop
) -> None:
    wall = source.job.wall[1].model_copy(update={"readings": source.job.wall[1].readings[3:]})
    walls = (source.job.wall[0], wall, source.job.wall[2])
    ready = make_ready(changed(source, wall=walls), library)
    with pytest.raises(SurveyError) as caught:
        plan_job(ready, folder, writers=PLAIN, stop=patient)
    assert caught.value.message.values["file"] == "sample.toml"
    assert folder.files == {}


def test_stopped_work_writes_nothing(
    source: Source, library: Library, folder: Remembering, impatient: HardStop
) -> None:
    with pytest.raises(StoppedError):
        plan_job(make_ready(source, library), folder, writers=PLAIN, stop=impatient)
    assert folder.files == {}


def test_stopped_once_the_modules_are_planned_at_once_with_their_bound(
    source: Source, library: Library, folder: Remembering, patient: HardStop, hasty: HardStop
) -> None:
    best = plan_job(make_ready(source, library), folder, writers=PLAIN, stop=patient)
    quick = plan_job(make_ready(source, library), folder, writers=PLAIN, stop=hasty)
    assert best.stopped is None
    assert quick.stopped == Message("app.cut-short", seconds=0)
    assert quick.files == best.files
    cuts = quick.plan.cuts
    assert cuts.lower_bound <= best.plan.cuts.modules <= cuts.modules
    assert cuts.proven == (cuts.lower_bound == cuts.modules)


def test_what_cannot_be_written_is_told(
    source: Source, library: Library, full_folder: Folder, patient: HardStop
) -> None:
    with pytest.raises(OutputError):
        plan_job(make_ready(source, library), full_folder, writers=PLAIN, stop=patient)
