"""What the pages work with: a book of jobs, the data beside it, writers and a clock."""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import partial
from typing import Any, TypeVar

from gaugerod.app.job_book import KINDS, Revision
from gaugerod.app.measure_job import Measured, measure
from gaugerod.app.options_job import Weighed
from gaugerod.app.plan_job import Ready, Writers, make_ready, papers
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.replan import Replanned
from gaugerod.store.book.book import Book
from gaugerod.store.kept import KeptDays, KeptJob, kept_file
from gaugerod.store.shelf import Library
from gaugerod.web import works
from gaugerod.web.bench.bench import Bench
from gaugerod.web.cache import Cache
from gaugerod.web.read_once import ReadOnce
from gaugerod.web.site import days_of

T = TypeVar("T")
_OF_A_SURVEY = {"ready", "survey"}
_RECORDS = {"bought"}
"""What a job keeps that no plan is made from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """All that a page may reach. One for each process; threads share it.

    Surveys have a place of their own: somebody who measures does not wait for a plan. Both are
    made on benches; where there are none, in this process. What moves with a finger is always
    worked out here, and kept apart.
    """

    book: Book
    shelf: Library
    writers: Writers
    now: Callable[[], datetime]
    surveys: Cache[Any] = field(default_factory=Cache)
    plans: Cache[Any] = field(default_factory=Cache)
    bench: Bench | None = None
    survey_bench: Bench | None = None
    hands: Cache[Any] = field(default_factory=lambda: Cache(most=512))


def plain_words(desk: Desk) -> Catalogue:
    """Return the sentences to speak in where no job says how it wants lengths shown."""
    return _words(desk, IMPERIAL)


def words_for(desk: Desk, revision: Revision) -> Catalogue:
    """Return the sentences in the units of a job, which may be half-filled yet."""
    tables = revision.document
    metric = tables.get("display", "imperial" if tables.get("unit") == "in" else "metric")
    return _words(desk, METRIC if metric == "metric" else IMPERIAL)


def _words(desk: Desk, display: Display) -> Catalogue:
    words: Catalogue = desk.surveys.get(
        ("words", display), lambda: desk.shelf.words(display, currency="USD")
    )
    return words


def library(desk: Desk) -> ReadOnce:
    """Return the data at hand: packaged, the user's own, and what the book keeps."""

    def work() -> ReadOnce:
        materials, rates = (
            tuple(
                kept_file(heading.id, desk.book.head(kind, heading.id).document)
                for heading in desk.book.contents(kind)
            )
            for kind in ("material", "rates")
        )
        return ReadOnce(replace(desk.shelf, kept_materials=materials, kept_rates=rates))

    found: ReadOnce = desk.surveys.get(("library", _own(desk)), work)
    return found


def _own(desk: Desk) -> tuple[tuple[str, str, int], ...]:
    """Return which materials and rates the book keeps, each with its revision."""
    return tuple(
        (kind, heading.id, heading.n)
        for kind in KINDS
        if kind != "job"
        for heading in desk.book.contents(kind)
    )


def ready_of(desk: Desk, revision: Revision) -> Ready:
    """Return a job that was read and checked, with all that planning needs.

    Raises
    ------
    GaugerodError
        It is no whole job yet.
    """
    source = KeptJob(name=revision.title, tables=revision.document)
    return once(desk, "ready", revision, lambda: make_ready(source, library(desk)))


def measured(desk: Desk, revision: Revision) -> Measured:
    """Return what the survey of a job says."""
    limits = library(desk).tolerances()
    return once(desk, "survey", revision, partial(measure, ready_of(desk, revision), limits))


def weighed(desk: Desk, revision: Revision) -> Weighed:
    """Return the options of a job."""
    return _options(desk, revision)[0]


def option_pictures(desk: Desk, revision: Revision) -> Mapping[str, str]:
    """Return a small picture of each option of a job, by its letter."""
    return _options(desk, revision)[1]


def _options(desk: Desk, revision: Revision) -> tuple[Weighed, Mapping[str, str]]:
    ready = ready_of(desk, revision)
    return once(desk, "options", revision, partial(works.options, ready, desk.writers.drawing))


def planned(desk: Desk, revision: Revision) -> Plan:
    """Return the plan of a job before its first day on site."""
    # To weigh the layouts is most of the work, and Set out has done it as a rule.
    work = partial(works.plan_weighed, ready_of(desk, revision), weighed(desk, revision))
    return once(desk, "plan", revision, work)


def replanned(desk: Desk, revision: Revision) -> Replanned:
    """Return the plan of a job as it stands after its days on site."""
    on_site = days_of(revision.day)
    made, rules = planned(desk, revision), ready_of(desk, revision).rules
    if not on_site:
        return Replanned(plan=made, cut=frozenset(), changes=(), short=0)
    days = KeptDays(name=revision.title, tables=on_site)
    return once(desk, "again", revision, partial(works.again, made, days, rules), on_site)


def plan_at_hand(desk: Desk, revision: Revision) -> Plan | None:
    """Return the plan of a job where it was made already; nothing is worked out for it."""
    place = _place(desk, "plan")
    again = place.at_hand(_of(desk, "again", revision, days_of(revision.day)))
    if isinstance(again, Replanned):
        return again.plan
    made = place.at_hand(_of(desk, "plan", revision))
    return made if isinstance(made, Plan) else None


def papers_of(desk: Desk, revision: Revision) -> dict[str, bytes]:
    """Return every paper of a job by its name."""
    made, words = replanned(desk, revision).plan, ready_of(desk, revision).words
    work = partial(papers, made, words, desk.writers)
    return once(desk, "papers", revision, work, days_of(revision.day))


def once(desk: Desk, what: str, revision: Revision, work: Callable[[], T], day: object = None) -> T:
    """Return what is worked out of a job and of `day`, worked out before if it was."""
    found: T = _place(desk, what).get(_of(desk, what, revision, day), work)
    return found


def _of(desk: Desk, what: str, revision: Revision, day: object = None) -> Hashable:
    """Return what a result is kept by: all that it is made from."""
    # The same document gives the same plan, whatever else a revision changed.
    records = () if what in _OF_A_SURVEY else _RECORDS
    made_from = {key: said for key, said in revision.document.items() if key not in records}
    return what, repr(made_from), repr(day), _own(desk)


def _place(desk: Desk, what: str) -> Cache[Any] | Bench:
    if what == "ready":
        return desk.surveys
    if what == "hand":
        return desk.hands
    if what == "survey":
        return desk.survey_bench or desk.surveys
    return desk.bench or desk.plans
