"""One reading, hole, opening or fixture: entered, mended, taken out."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from typing import Annotated, Any, TypeAlias

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision, Subject
from gaugerod.core.base.lengths import Unit
from gaugerod.web import urls
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.entries import entry_at, place_of, text_of
from gaugerod.web.fields import PARTS_OF_INCH, STRENGTHS, Field, fields_of, part_of
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.photos import Hook, hook, name_of
from gaugerod.web.render import show
from gaugerod.web.sketch import NEW, next_spot
from gaugerod.web.wall_edit import hangs
from gaugerod.web.walls import READINGS, called, entries_of, model_of, unit_of, wall_of

ROUTES = APIRouter()
WAS, KIND, THEN, SAVED = "was", "of-kind", "then", "saved"


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryPage:
    """The form of one entry. `was` is what stands there now, so that it is found again."""

    head: JobHead
    wall: str
    slot: str
    kind: str
    called: str
    place: str
    unit: Unit
    fields: tuple[Field, ...]
    parts: tuple[tuple[int, str], ...]
    strengths: tuple[str, ...]
    saved: str
    again: str
    next: bool
    was: str
    action: str
    remove: str
    photos: Hook | None
    wrong: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """Where in a job an entry stands, as its address says."""

    job: str
    wall: str
    slot: str
    place: str


WhereHere: TypeAlias = Annotated[Where, Depends(Where)]


@ROUTES.get(urls.ENTRY)
def form(request: Request, desk: DeskHere, at: WhereHere) -> Response:
    """Show the form of a new entry or of one that is there."""
    revision = desk.book.head("job", at.job)
    entries = entries_of(wall_of(revision.document, at.wall), at.slot)
    values = dict(request.query_params) if at.place == NEW else entry_at(entries, at.place)
    page = _page(desk, revision, at, values=values)
    return show(request, "entry", page, words_for(desk, revision))


@ROUTES.post(urls.ENTRY)
def save(request: Request, desk: DeskHere, sent: FormHere, at: WhereHere) -> Response:
    """Write an entry as a new revision of its job."""
    seen = desk.book.revision("job", at.job, sent.seen)
    words = words_for(desk, seen)
    kind = sent.text(KIND)
    try:
        part = part_of(model_of(at.slot, kind), sent, unit_of(seen.document))
    except FieldError as error:
        page = _page(desk, seen, at, sent=sent, error=error)
        return show(request, "entry", page, words, status=HTTPStatus.UNPROCESSABLE_ENTITY)

    def edit(made: Edit) -> None:
        there = wall_of(made.document, at.wall)
        entries = [*entries_of(there, at.slot)]
        if at.place == NEW:
            entries.append(part)
        else:
            entries[place_of(entries, sent.text(WAS))] = part
        there[at.slot] = entries

    key = "web.entry.added" if at.place == NEW else "web.entry.mended"
    note = words.text(key, wall=at.wall, what=kind or at.slot)
    made = change(desk, at.job, sent, edit, note=note)
    spot = next_spot(at.job, made.document, at.wall) if sent.text(THEN) else None
    if spot is None:
        return _measure(at)
    return RedirectResponse(f"{spot.link}&{SAVED}={made.n}", HTTPStatus.SEE_OTHER)


@ROUTES.post(urls.REMOVE)
def remove(desk: DeskHere, sent: FormHere, at: WhereHere) -> Response:
    """Take an entry out, in a new revision; the old ones have it still."""

    def edit(made: Edit) -> None:
        there = wall_of(made.document, at.wall)
        entries = [*entries_of(there, at.slot)]
        del entries[place_of(entries, sent.text(WAS))]
        there[at.slot] = entries

    words = words_for(desk, desk.book.revision("job", at.job, sent.seen))
    note = words.text("web.entry.removed", wall=at.wall, what=sent.text(KIND) or at.slot)
    change(desk, at.job, sent, edit, note=note)
    return _measure(at)


def _page(
    desk: Desk,
    revision: Revision,
    at: Where,
    *,
    values: Mapping[str, Any] | None = None,
    sent: Form | None = None,
    error: FieldError | None = None,
) -> EntryPage:
    there = values or {}
    unit = unit_of(revision.document)
    kind = sent.text(KIND) if sent else str(there.get("kind", ""))
    to = {"job": revision.id, "wall": at.wall, "slot": at.slot, "place": at.place}
    return EntryPage(
        head=head_of(revision, "measure"),
        wall=at.wall,
        slot=at.slot,
        kind=kind,
        called=called(at.slot, kind),
        place=at.place,
        unit=unit,
        fields=fields_of(model_of(at.slot, kind), there, unit, sent),
        parts=PARTS_OF_INCH,
        strengths=STRENGTHS,
        saved=revision.note if str(there.get(SAVED)) == str(revision.n) else "",
        again=_again(revision, at),
        next=at.slot == READINGS and at.place == NEW,
        was=sent.text(WAS) if sent else text_of(there),
        action=urls.to(urls.ENTRY, **to),
        remove="" if at.place == NEW else urls.to(urls.REMOVE, **to),
        photos=None if sent or at.place == NEW else _photos(desk, at, there),
        wrong=error.name if error else "",
        said=words_for(desk, revision).say(error.message) if error else "",
    )


def _again(revision: Revision, at: Where) -> str:
    """Return the way to take a reading again once pieces hang; nothing before that."""
    if at.slot != READINGS or not hangs(revision.day):
        return ""
    if at.place == NEW:
        return f"{urls.to(urls.FOUND, job=at.job)}#again"
    return urls.to(urls.RETAKE, job=at.job, wall=at.wall, place=at.place)


def _photos(desk: Desk, at: Where, entry: Mapping[str, Any]) -> Hook:
    to = {"job": at.job, "wall": at.wall, "slot": at.slot, "place": at.place}
    subject: Subject = "reading" if at.slot == READINGS else "hole"
    name = name_of(at.wall, entry)
    return hook(desk, at.job, subject, name, back=urls.to(urls.ENTRY, **to))


def _measure(at: Where) -> Response:
    address = f"{urls.to(urls.MEASURE, job=at.job)}#wall-{at.wall}"
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)
