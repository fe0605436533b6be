"""Use case: from a job file to a plan and its papers."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from gaugerod.app.in_file import in_file
from gaugerod.app.ports import Folder, HardStop, JobSource, Library, StoppedError
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.base.messages import Message
from gaugerod.core.job.at_hand import at_hand
from gaugerod.core.job.consistent import consistent
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.past import PastJobs
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.pipeline import Plan, plan
from gaugerod.core.pricing.learning import Lesson, learn, with_lesson
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.solids import Model
from gaugerod.core.takeoff.order import Order
from gaugerod.packet.changes import changes_paper
from gaugerod.packet.crew import crew_packet
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.paper import Paper, Size
from gaugerod.packet.picture import model, picture
from gaugerod.packet.rod import rod_paper
from gaugerod.packet.supplier import supplier_paper
from gaugerod.packet.templates import template_paper
from gaugerod.packet.walls import elevation


@dataclass(frozen=True, slots=True, kw_only=True)
class Ready:
    """A job that was read and checked, with all that planning needs.

    `lesson` is what the hours of `rates` were corrected by, where past jobs were given.
    """

    name: str
    job: Job
    materials: Materials
    rules: Rules
    rates: RateTable
    words: Catalogue
    lesson: Lesson | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Writers:
    """How plans, drawings and papers become text or bytes."""

    plan: Callable[[Plan, Catalogue], str]
    drawing: Callable[[Drawing], str]
    cad: Callable[[Drawing, Display], bytes]
    model: Callable[[Model], bytes]
    paper: Callable[[Paper], bytes]
    full_size: Callable[[Paper], bytes]
    order: Callable[[Order, Catalogue], str]
    workbook: Callable[[Order, Catalogue, str, date], bytes]
    days: Callable[[Plan, Catalogue], bytes]


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A plan, and the names of the files that were written.

    `stopped` says why the fewest modules were not looked for, if they were not.
    """

    plan: Plan
    files: tuple[str, ...]
    stopped: Message | None = None


def make_ready(source: JobSource, library: Library, *, past: PastJobs | None = None) -> Ready:
    """Read a job and what it needs, and check that they go together.

    Parameters
    ----------
    source
        Where the job comes from.
    library
        The data beside it.
    past
        Past jobs, where the hours are to be corrected by them.

    Raises
    ------
    JobError
        The job cannot be read, or its parts do not go together.
    MaterialError
        A file of materials cannot be read.
    """
    materials, tables, rules = library.materials(), library.rates(), library.rules()

    def check(job: Job) -> None:
        consistent(job, materials)
        at_hand(job, tables, rules)

    job = source.read(check)
    metric = job.display == "metric" or (job.display is None and job.unit != "in")
    rates = tables[job.rates]
    lesson = learn(past, rates) if past else None
    return Ready(
        name=source.name,
        job=job,
        materials=materials,
        rules=rules,
        rates=with_lesson(rates, lesson) if lesson else rates,
        words=library.words(METRIC if metric else IMPERIAL, currency=rates.currency),
        lesson=lesson,
    )


def plan_job(
    ready: Ready,
    folder: Folder,
    *,
    writers: Writers,
    stop: HardStop,
    seed: int = 0,
    size: Size | None = None,
) -> Planned:
    """Plan a job and write all its papers, on sheets of a size or what goes with its units.

    Stopped once, it plans again without looking for the fewest modules, and has as long for it:
    then what is cut from what is planned at once, beside a number that no plan can go under.

    Raises
    ------
    GaugerodError
        The readings give no walls, no layout keeps the limits, the material cannot do it, the
        work was stopped again, or the papers cannot be written. The message names the job.
    """
    with in_file(ready.name):
        made, stopped = _planned(ready, stop, seed)
    files = papers(made, ready.words, writers, size=size)
    folder.write(files)
    return Planned(plan=made, files=tuple(files), stopped=stopped)


def _planned(ready: Ready, stop: HardStop, seed: int) -> tuple[Plan, Message | None]:
    def work(*, proven: bool) -> Plan:
        job, materials, rules, rates = ready.job, ready.materials, ready.rules, ready.rates
        return plan(job, materials, rules, rates, seed=seed, proven=proven)

    try:
        return stop.run(lambda: work(proven=True)), None
    except StoppedError as error:
        return stop.run(lambda: work(proven=False)), Message(
            "app.cut-short", **error.message.values
        )


def papers(
    made: Plan, words: Catalogue, writers: Writers, *, size: Size | None = None
) -> dict[str, bytes]:
    """Return every file of a plan by its name; `size` is that of all paper."""
    files = {"plan.json": writers.plan(made, words).encode()}
    for wall in made.walls.walls:
        drawing = elevation(made, wall, words)
        files[f"elevation-{wall.name}.svg"] = writers.drawing(drawing).encode()
        files[f"wall-{wall.name}.dxf"] = writers.cad(drawing, words.display)
    files["picture.svg"] = writers.drawing(picture(made, words)).encode()
    files["alcove.glb"] = writers.model(model(made))
    files["packet.pdf"] = writers.paper(crew_packet(made, words, size=size))
    files["rod.pdf"] = writers.full_size(rod_paper(made, words, size=size))
    if any(wall.holes for wall in made.walls.walls):
        files["templates.pdf"] = writers.full_size(template_paper(made, words, size=size))
    files["customer.pdf"] = writers.paper(customer_paper(made, words, size=size))
    account = made.agreement.account
    if account and account.orders:
        files["changes.pdf"] = writers.paper(changes_paper(made.job, account, words, size=size))
    files["order.pdf"] = writers.paper(supplier_paper(made, words, size=size))
    files["order.csv"] = writers.order(made.order, words).encode()
    start = made.job.calendar.start
    files["order.xlsx"] = writers.workbook(made.order, words, made.job.name, start)
    files["days.ics"] = writers.days(made, words)
    return files
