"""Own materials and rates in the book: who uses them, which are offered, how they are written."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gaugerod.app.job_book import Draft, Heading, Revision
from gaugerod.core.job.document import Job
from gaugerod.web.desk import Desk, library
from gaugerod.web.form import Form
from gaugerod.web.naming import plain_name
from gaugerod.web.own.family import MATERIALS, RATES, Family

ASIDE = "aside"
"""What a revision says beside its document: it is not offered for new jobs."""
_TAKEN = ("new", "file")
"""Addresses of pages of their own."""
USUAL_RATES: str = Job.model_fields["rates"].default


@dataclass(frozen=True, slots=True, kw_only=True)
class Written:
    """What is to be kept of a document: its tables, and whether it is put aside."""

    document: Mapping[str, Any]
    day: Mapping[str, Any]
    note: str


def keep(
    desk: Desk, family: Family, name: str, form: Form, written: Written, *, seen: int
) -> Revision:
    """Write the next revision of a document.

    Raises
    ------
    ConflictError
        Somebody else was quicker.
    BookError
        It cannot be kept.
    """
    return desk.book.write(
        Draft(
            kind=family.kind,
            id=name,
            seen=seen,
            key=form.key,
            by=form.by,
            at=desk.now(),
            note=written.note,
            document=written.document,
            day=written.day,
        )
    )


def is_aside(revision: Revision) -> bool:
    """Tell whether a document is put aside."""
    return revision.day.get(ASIDE) is True


def free_id(desk: Desk, family: Family, title: str, key: str) -> str:
    """Return an id for a new document: its title in plain letters where nothing has that yet.

    A form that is sent twice is given the same one twice.
    """
    plain = plain_name(title)
    first = next(iter(desk.book.history(family.kind, plain)), None) if plain else None
    if first is not None and first.key == key:
        return plain
    if plain and plain not in {*desk.shelf.files(family.name), *_TAKEN} and first is None:
        return plain
    return f"{plain or family.kind}-{key[:6]}"


def may_be_id(name: str) -> bool:
    """Tell whether a document of that id has an address of its own."""
    return name not in _TAKEN


def named_by(family: Family, job: Mapping[str, Any]) -> set[str]:
    """Return what a job names of a family."""
    if family is RATES:
        return {str(job.get("rates", USUAL_RATES))}
    choices = job.get("choices")
    if not isinstance(choices, Mapping):
        return set()
    accents = choices.get("accent")
    others = accents if isinstance(accents, list) else []
    return {str(one.get("material")) for one in (choices, *others) if isinstance(one, Mapping)}


def uses(desk: Desk, family: Family) -> Mapping[str, tuple[Heading, ...]]:
    """Return the jobs that name a document, by its id."""
    found: dict[str, tuple[Heading, ...]] = {}
    for heading in desk.book.contents("job"):
        for name in named_by(family, desk.book.head("job", heading.id).document):
            found[name] = (*found.get(name, ()), heading)
    return found


def jobs_with(desk: Desk, family: Family, name: str) -> tuple[Heading, ...]:
    """Return the jobs that name a document."""
    return uses(desk, family).get(name, ())


def offered(desk: Desk, family: Family, *, stands: str = "") -> tuple[tuple[str, str], ...]:
    """Return what a job may be set to, each by id and name; what `stands` there is among it."""
    aside = {
        heading.id
        for heading in desk.book.contents(family.kind)
        if heading.id != stands and is_aside(desk.book.head(family.kind, heading.id))
    }
    files = library(desk).files(family.name)
    return tuple(
        (name, str(files[name].tables.get("name", name)))
        for name in sorted(files)
        if name not in aside
    )


def materials_offered(desk: Desk, stands: str = "") -> tuple[tuple[str, str], ...]:
    """Return the materials that a job may be lined with."""
    return offered(desk, MATERIALS, stands=stands)


def rates_offered(desk: Desk, stands: str = "") -> tuple[tuple[str, str], ...]:
    """Return the rates that a job may be priced by."""
    return offered(desk, RATES, stands=stands)
