"""One entry of a list of a job, such as a change order or an accent: entered, mended, taken out."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Annotated, Any, TypeAlias

from fastapi import APIRouter, Depends, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.messages import Message
from gaugerod.web import urls
from gaugerod.web.answering import value_of
from gaugerod.web.asking import Offered, Question, at, put, question, texts_of, touched
from gaugerod.web.checked import checked
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.entries import entry_at, place_of, text_of
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change, writer_of
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.offered import offered_for
from gaugerod.web.pages.sheet import field_named, sheet_called
from gaugerod.web.render import show
from gaugerod.web.sheets import CHANGES, OVERRIDES, Listed, Sheet
from gaugerod.web.sketch import NEW
from gaugerod.web.walls import entries_of, no_place

ROUTES = APIRouter()
WAS = "was"


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedPage:
    """The form of one entry; `was` is what stands there now, so that it is found again."""

    head: JobHead
    sheet: str
    listed: str
    place: str
    questions: tuple[Question, ...]
    was: str
    action: str
    remove: str
    wrong: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Where:
    """Where in a job an entry stands, as its address says."""

    job: str
    sheet: str
    listed: str
    place: str


WhereHere: TypeAlias = Annotated[Where, Depends(Where)]


@ROUTES.get(urls.LISTED)
def page(request: Request, desk: DeskHere, where: WhereHere) -> Response:
    """Show the form of a new entry or of one that is there."""
    revision = desk.book.head("job", where.job)
    sheet, listed = _places(where)
    if where.place == NEW:
        signs = {"on": desk.now().date().isoformat(), "by": writer_of(request)}
        entry: Mapping[str, Any] = signs if listed is OVERRIDES else {}
    else:
        entry = entry_at(_entries(revision.document, listed), where.place)
    return _page(request, desk, revision, where, sheet, entry=entry)


@ROUTES.post(urls.LISTED)
def save(request: Request, desk: DeskHere, form: FormHere, where: WhereHere) -> Response:
    """Write an entry as a new revision of its job."""
    seen = desk.book.revision("job", where.job, form.seen)
    sheet, listed = _places(where)
    words = words_for(desk, seen)
    offered = offered_for(desk, seen, listed.asks, words)

    def edit(made: Edit) -> None:
        entries = _entries(made.document, listed)
        place = len(entries) if where.place == NEW else place_of(entries, form.text(WAS))
        old = {} if where.place == NEW else entries[place]
        entries[place:] = [_answered(form, listed, offered, old), *entries[place + 1 :]]
        put(made.document, listed.path, entries)
        _see(desk, replace(seen, document=made.document), listed, place)

    key = "web.listed.added" if where.place == NEW else "web.listed.mended"
    try:
        note = words.text(key, what=words.text(f"web.one.{listed.name}"))
        change(desk, where.job, form, edit, note=note)
    except FieldError as error:
        return _page(request, desk, seen, where, sheet, form=form, error=error)
    return _back(where)


@ROUTES.post(urls.LISTED_OUT)
def take_out(desk: DeskHere, form: FormHere, where: WhereHere) -> Response:
    """Take an entry out, in a new revision; the old ones have it still."""
    seen = desk.book.revision("job", where.job, form.seen)
    _, listed = _places(where)

    def edit(made: Edit) -> None:
        entries = _entries(made.document, listed)
        del entries[place_of(entries, form.text(WAS))]
        put(made.document, listed.path, entries or None)

    words = words_for(desk, seen)
    note = words.text("web.listed.removed", what=words.text(f"web.one.{listed.name}"))
    change(desk, where.job, form, edit, note=note)
    return _back(where)


def _places(where: Where) -> tuple[Sheet, Listed]:
    sheet = sheet_called(where.sheet)
    for listed in sheet.lists:
        if listed.name == where.listed:
            return sheet, listed
    raise BookError(no_place())


def _entries(document: Mapping[str, Any], listed: Listed) -> list[dict[str, Any]]:
    return [*entries_of(at(document, listed.path[:-1]) or {}, listed.name)]


def _answered(
    form: Form, listed: Listed, offered: Offered, old: Mapping[str, Any]
) -> dict[str, Any]:
    entry = dict(old)
    for ask in listed.asks:
        # What is offered in a new form counts as said; what was not touched stays as written.
        if not old or touched(ask, form, offered):
            texts = texts_of(ask, form, offered)
            put(entry, ask.path, value_of(texts, ask, offered, at(old, ask.path)))
    return entry


def _see(desk: Desk, made: Revision, listed: Listed, place: int) -> None:
    """See that an entry can be read and goes with the rest."""
    if listed is CHANGES and "contract" not in made.document:
        raise FieldError("", Message("job.change-without-contract"))
    try:
        checked(desk, made, [listed.path])
    except FieldError as error:
        inside = ".".join((*listed.path, str(place), ""))
        raise FieldError(error.name.removeprefix(inside), error.message) from error


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    where: Where,
    sheet: Sheet,
    *,
    entry: Mapping[str, Any] | None = None,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    words = words_for(desk, revision)
    _, listed = _places(where)
    offered = offered_for(desk, revision, listed.asks, words)
    there = entry or {}
    to = {"job": revision.id, "sheet": sheet.name, "listed": listed.name, "place": where.place}
    context = ListedPage(
        head=head_of(revision, sheet.near),
        sheet=sheet.name,
        listed=listed.name,
        place=where.place,
        questions=tuple(
            replace(question(ask, there, offered, form), called=f"{listed.name}-{ask.called}")
            for ask in listed.asks
        ),
        was=form.text(WAS) if form else text_of(there),
        action=urls.to(urls.LISTED, **to),
        remove="" if where.place == NEW else urls.to(urls.LISTED_OUT, **to),
        wrong=field_named(error.name, [ask.key for ask in listed.asks]) if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "listed", context, words, status=status)


def _back(where: Where) -> Response:
    address = urls.to(urls.SHEET, job=where.job, sheet=where.sheet)
    return RedirectResponse(f"{address}#{where.listed}", HTTPStatus.SEE_OTHER)
