"""A reading taken again on the day: what hangs stays, the rest follows what it reads now."""

from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Annotated, Any, TypeAlias

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.lengths import Unit
from gaugerod.web import urls
from gaugerod.web.desk import Desk, ready_of, replanned
from gaugerod.web.entries import entry_at
from gaugerod.web.fields import PARTS_OF_INCH, STRENGTHS, Field, fields_of, part_of
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.render import show
from gaugerod.web.retaken import now_of, rows_of
from gaugerod.web.site import find
from gaugerod.web.waiting import waiting
from gaugerod.web.wall_edit import hangs
from gaugerod.web.walls import (
    READINGS,
    called,
    entries_of,
    model_of,
    unit_of,
    wall_of,
)

ROUTES = APIRouter()
_INSTEAD = "instead"


@dataclass(frozen=True, slots=True, kw_only=True)
class RetakePage:
    """The form of one reading; `planned` is what stands in the job, `name` what it is called."""

    head: JobHead
    name: str
    called: str
    planned: str
    unit: Unit
    fields: tuple[Field, ...]
    parts: tuple[tuple[int, str], ...]
    strengths: tuple[str, ...]
    hangs: bool
    mend: str
    how: str
    on: str
    action: str
    wrong: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """Which reading, as its address says."""

    job: str
    wall: str
    place: str


WhereHere: TypeAlias = Annotated[Where, Depends(Where)]


@ROUTES.get(urls.RETAKE)
def page(request: Request, desk: DeskHere, where: WhereHere) -> Response:
    """Show the form of a reading that is taken again."""
    return _page(request, desk, desk.book.head("job", where.job), where)


@ROUTES.post(urls.RETAKE)
def save(request: Request, desk: DeskHere, form: FormHere, where: WhereHere) -> Response:
    """Keep what it reads now with the days on site, and plan the rest again."""
    seen = desk.book.revision("job", where.job, form.seen)
    entry = _entry(seen, where)
    unit = unit_of(seen.document)

    def edit(made: Edit) -> None:
        reading = part_of(model_of(READINGS, str(entry["kind"])), form, unit)
        # It goes by the name of what it replaces; beside that, it needs one of its own.
        reading.pop("id", None)
        found: dict[str, Any] = {"wall": where.wall, "reading": reading}
        if form.text("how") == _INSTEAD:
            found["instead_of"] = form.text("name")
        find(made.day, "reading", found, on=form.text("on"), unit=unit)
        try:
            replanned(desk, replace(seen, day=made.day))
        except GaugerodError as error:
            raise FieldError("reads", error.message) from error

    note = ready_of(desk, seen).words.text("web.retake.note", name=form.text("name"))
    try:
        change(desk, where.job, form, edit, note=note)
    except FieldError as error:
        return _page(request, desk, seen, where, form=form, error=error)
    return RedirectResponse(f"{urls.to(urls.FOUND, job=where.job)}#told", HTTPStatus.SEE_OTHER)


def _entry(revision: Revision, where: Where) -> dict[str, Any]:
    entries = entries_of(wall_of(revision.document, where.wall), READINGS)
    return dict(entry_at(entries, where.place))


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    where: Where,
    *,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    planned = _entry(revision, where)
    try:
        ready = ready_of(desk, revision)
    except GaugerodError as wrong:
        return waiting(request, desk, revision, "cut", wrong)
    number = [one.name for one in ready.job.wall].index(where.wall)
    row = rows_of(revision, ready.job, number)[int(where.place)]
    kind, unit = str(planned["kind"]), unit_of(revision.document)
    to = {"job": revision.id, "wall": where.wall, "place": where.place}
    now = now_of(revision.day, where.wall).get(row.name, planned)
    context = RetakePage(
        head=head_of(revision, "cut"),
        name=row.name,
        called=called(READINGS, kind),
        planned=row.was,
        unit=unit,
        fields=fields_of(model_of(READINGS, kind), now, unit, form),
        parts=PARTS_OF_INCH,
        strengths=STRENGTHS,
        hangs=hangs(revision.day),
        mend=urls.to(urls.ENTRY, **to, slot=READINGS),
        how=form.text("how") if form else _INSTEAD,
        on=desk.now().date().isoformat(),
        action=urls.to(urls.RETAKE, **to),
        wrong=error.name if error else "",
        said=ready.words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "retake", context, ready.words, status=status)
