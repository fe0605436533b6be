"""One reading, hole, opening or fixture: entered, mended, taken out."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from typing import Annotated, Any, TypeAlias

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision, Subject
from gaugerod.core.base.lengths import Unit
from gaugerod.web import urls
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.fields import SIXTEENTHS, Field, fields_of, part_of
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.photos import Hook, hook, place_of
from gaugerod.web.render import show
from gaugerod.web.sketch import NEW
from gaugerod.web.walls import READINGS, called, entries_of, model_of, no_place, unit_of, wall_of

ROUTES = APIRouter()
WAS, KIND = "was", "of-kind"


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
    parts: tuple[int, ...]
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
    there = wall_of(revision.document, at.wall)
    values = dict(request.query_params) if at.place == NEW else _entry(there, at)
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
            entries[_found(entries, sent)] = part
        there[at.slot] = entries

    key = "web.entry.added" if at.place == NEW else "web.entry.mended"
    change(desk, at.job, sent, edit, note=words.text(key, wall=at.wall, what=kind or at.slot))
    return _measure(at)


@ROUTES.post(urls.REMOVE)
def remove(desk: DeskHere, sent: FormHere, at: WhereHere) -> Response:
    """Take an entry out, in a new revision; the old ones have it still."""

    def edit(made: Edit) -> None:
        there = wall_of(made.document, at.wall)
        entries = [*entries_of(there, at.slot)]
        del entries[_found(entries, sent)]
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
        parts=tuple(range(SIXTEENTHS)),
        was=sent.text(WAS) if sent else _text(there),
        action=urls.to(urls.ENTRY, **to),
        remove="" if at.place == NEW else urls.to(urls.REMOVE, **to),
        photos=None if sent or at.place == NEW else _photos(desk, at, there),
        wrong=error.name if error else "",
        said=words_for(desk, revision).say(error.message) if error else "",
    )


def _photos(desk: Desk, at: Where, entry: Mapping[str, Any]) -> Hook:
    to = {"job": at.job, "wall": at.wall, "slot": at.slot, "place": at.place}
    subject: Subject = "reading" if at.slot == READINGS else "hole"
    name = place_of(at.wall, entry)
    return hook(desk, at.job, subject, name, back=urls.to(urls.ENTRY, **to))


def _entry(wall: Mapping[str, Any], at: Where) -> dict[str, Any]:
    entries = entries_of(wall, at.slot)
    if not at.place.isdecimal() or int(at.place) >= len(entries):
        raise BookError(no_place())
    return entries[int(at.place)]


def _found(entries: list[dict[str, Any]], sent: Form) -> int:
    """Return where an entry stands that the form was made from; it may have moved since."""
    texts = [_text(entry) for entry in entries]
    if sent.text(WAS) not in texts:
        raise BookError(no_place())
    return texts.index(sent.text(WAS))


def _text(entry: Mapping[str, Any]) -> str:
    return json.dumps(entry, sort_keys=True)


def _measure(at: Where) -> Response:
    address = f"{urls.to(urls.MEASURE, job=at.job)}#wall-{at.wall}"
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)
