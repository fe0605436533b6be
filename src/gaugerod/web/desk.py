"""What the pages work with: a book of jobs, the data beside it, writers and a clock."""

from collections.abc import Callable, Hashable, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime
from typing import Any, TypeVar

from gaugerod.app.job_book import KINDS, Revision
from gaugerod.app.measure_job import Measured, measure
from gaugerod.app.options_job import Weighed, option_drawings, weigh_job
from gaugerod.app.plan_job import Ready, Writers, make_ready, papers
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display
from gaugerod.core.pipeline import Plan, plan
from gaugerod.core.replan.replan import Replanned, replan
from gaugerod.store.book.book import Book
from gaugerod.store.kept import KeptDays, KeptJob, kept_file
from gaugerod.store.shelf import Library
from gaugerod.web.cache import Cache
from gaugerod.web.site import days_of

T = TypeVar("T")
_OF_A_SURVEY = {"ready", "survey"}
_RECORDS = {"bought"}
"""What a job keeps that no plan is made from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Desk:
    """All that a page may reach. One for each process; threads share it.

    Surveys have a cache of their own: somebody who measures does not wait for a plan.
    """

    book: Book
    shelf: Library
    writers: Writers
    now: Callable[[], datetime]
    surveys: Cache[Any] = field(default_factory=Cache)
    plans: Cache[Any] = field(default_factory=Cache)


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


def library(desk: Desk) -> Library:
    """Return the data at hand: packaged, the user's own, and what the book keeps."""
    materials, rates = (
        tuple(
            kept_file(heading.id, desk.book.head(kind, heading.id).document)
            for heading in desk.book.contents(kind)
        )
        for kind in ("material", "rates")
    )
    return replace(desk.shelf, kept_materials=materials, kept_rates=rates)


def ready_of(desk: Desk, revision: Revision) -> Ready:
    """Return a job that was read and checked, with all that planning needs.

    Raises
    ------
    GaugerodError
        It is no whole job yet.
    """
    source = KeptJob(name=revision.title, tables=revision.document)
    return _once(desk, "ready", revision, lambda: make_ready(source, library(desk)))


def measured(desk: Desk, revision: Revision) -> Measured:
    """Return what the survey of a job says."""
    limits = desk.shelf.tolerances()
    return _once(desk, "survey", revision, lambda: measure(ready_of(desk, revision), limits))


def weighed(desk: Desk, revision: Revision) -> Weighed:
    """Return the options of a job."""
    return _once(desk, "options", revision, lambda: weigh_job(ready_of(desk, revision), None))


def option_pictures(desk: Desk, revision: Revision) -> Mapping[str, str]:
    """Return a small picture of each option of a job, by its letter."""

    def work() -> Mapping[str, str]:
        made, ready = weighed(desk, revision), ready_of(desk, revision)
        return {
            name: desk.writers.drawing(drawing)
            for name, drawing in option_drawings(made, ready.words).items()
        }

    return _once(desk, "pictures", revision, work)


def planned(desk: Desk, revision: Revision) -> Plan:
    """Return the plan of a job before its first day on site."""

    def work() -> Plan:
        ready = ready_of(desk, revision)
        return plan(ready.job, ready.materials, ready.rules, ready.rates)

    return _once(desk, "plan", revision, work)


def replanned(desk: Desk, revision: Revision) -> Replanned:
    """Return the plan of a job as it stands after its days on site."""
    on_site = days_of(revision.day)

    def work() -> Replanned:
        made, rules = planned(desk, revision), ready_of(desk, revision).rules
        if not on_site:
            return Replanned(plan=made, cut=frozenset(), changes=(), short=0)
        days = KeptDays(name=revision.title, tables=on_site)
        return days.use(lambda found: replan(made, found, rules))

    return _once(desk, "again", revision, work, on_site)


def plan_at_hand(desk: Desk, revision: Revision) -> Plan | None:
    """Return the plan of a job where it was made already; nothing is worked out for it."""
    again = desk.plans.at_hand(_of(desk, "again", revision, days_of(revision.day)))
    if isinstance(again, Replanned):
        return again.plan
    made = desk.plans.at_hand(_of(desk, "plan", revision))
    return made if isinstance(made, Plan) else None


def papers_of(desk: Desk, revision: Revision) -> dict[str, bytes]:
    """Return every paper of a job by its name."""

    def work() -> dict[str, bytes]:
        made, words = replanned(desk, revision).plan, ready_of(desk, revision).words
        return papers(made, words, desk.writers)

    return _once(desk, "papers", revision, work, days_of(revision.day))


def _once(
    desk: Desk, what: str, revision: Revision, work: Callable[[], T], day: object = None
) -> T:
    cache = desk.surveys if what in _OF_A_SURVEY else desk.plans
    found: T = cache.get(_of(desk, what, revision, day), work)
    return found


def _of(desk: Desk, what: str, revision: Revision, day: object = None) -> Hashable:
    """Return what a result is kept by: all that it is made from."""
    own = tuple(
        (kind, heading.id, heading.n)
        for kind in KINDS
        for heading in desk.book.contents(kind)
        if kind != "job"
    )
    # The same document gives the same plan, whatever else a revision changed.
    records = () if what in _OF_A_SURVEY else _RECORDS
    made_from = {key: said for key, said in revision.document.items() if key not in records}
    return what, repr(made_from), repr(day), own
