"""One sheet of what else a job says: its questions as one form, and its lists."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.web import urls
from gaugerod.web.account import AccountView, account_view
from gaugerod.web.answering import value_of
from gaugerod.web.asking import Ask, Offered, Question, at, put, question, texts_of, touched
from gaugerod.web.checked import checked
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import DeskHere, Edit, FieldError, Form, FormHere, change
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.offered import offered_for
from gaugerod.web.render import show
from gaugerod.web.sheets import SHEETS, Listed, Sheet
from gaugerod.web.sketch import NEW
from gaugerod.web.walls import entries_of, no_place

ROUTES = APIRouter()
_ACCOUNT = "money"
_HANGS_ON = {"contract": "change"}
"""What stands or falls with something else: change orders with their contract."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedRow:
    """An entry of a list: what it says first, what else, and the way to its form."""

    link: str
    first: str
    more: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedView:
    """A list of a job, and the way to something new in it."""

    name: str
    rows: tuple[ListedRow, ...]
    new: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetPage:
    """The questions and lists of a sheet; `near` is the page that it belongs to."""

    head: JobHead
    sheet: str
    near: tuple[str, str]
    questions: tuple[Question, ...]
    lists: tuple[ListedView, ...]
    account: AccountView | None
    wrong: str
    said: str


def sheet_called(name: str) -> Sheet:
    """Return a sheet by its name.

    Raises
    ------
    BookError
        There is none.
    """
    if name not in SHEETS:
        raise BookError(no_place())
    return SHEETS[name]


@ROUTES.get(urls.SHEET)
def page(request: Request, desk: DeskHere, job: str, sheet: str) -> Response:
    """Show a sheet."""
    return _page(request, desk, desk.book.head("job", job), sheet_called(sheet))


@ROUTES.post(urls.SHEET)
def save(request: Request, desk: DeskHere, form: FormHere, job: str, sheet: str) -> Response:
    """Write what was touched on a sheet as a new revision."""
    asked = sheet_called(sheet)
    seen = desk.book.revision("job", job, form.seen)
    words = words_for(desk, seen)
    offered = offered_for(desk, seen, asked.asks, words)

    def edit(made: Edit) -> None:
        found = [ask for ask in asked.asks if touched(ask, form, offered)]
        for ask in found:
            texts = texts_of(ask, form, offered)
            old = at(made.document, ask.path)
            put(made.document, ask.path, value_of(texts, ask, offered, old))
        others = {_HANGS_ON[ask.path[0]] for ask in found if ask.path[0] in _HANGS_ON}
        places = [*(ask.path for ask in found), *((one,) for one in others)]
        title = str(made.document.get("name", seen.title))
        checked(desk, replace(seen, document=made.document, title=title), places)

    note = words.text("web.sheet.note", sheet=words.text(f"web.sheet.{sheet}"))
    try:
        change(desk, job, form, edit, note=note)
    except FieldError as error:
        return _page(request, desk, seen, asked, form=form, error=error)
    return RedirectResponse(urls.to(urls.SHEET, job=job, sheet=sheet), HTTPStatus.SEE_OTHER)


def field_named(name: str, keys: Iterable[str]) -> str:
    """Return the question that a place of a job belongs to, or the place itself."""
    return next((key for key in keys if f"{name}.".startswith(f"{key}.")), name)


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    asked: Sheet,
    *,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    words = words_for(desk, revision)
    offered = offered_for(desk, revision, asked.asks, words)
    keys = [ask.key for ask in asked.asks]
    context = SheetPage(
        head=head_of(revision, asked.near),
        sheet=asked.name,
        near=(asked.near, _NEAR[asked.near]),
        questions=tuple(question(ask, revision.document, offered, form) for ask in asked.asks),
        lists=tuple(_list(desk, revision, asked, listed, words) for listed in asked.lists),
        account=account_view(desk, revision) if asked.name == _ACCOUNT else None,
        wrong=field_named(error.name, keys) if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "sheet", context, words, status=status)


_NEAR = {
    "about": urls.ABOUT,
    "measure": urls.MEASURE,
    "set-out": urls.SET_OUT,
    "price": urls.PRICE,
    "ready": urls.READY,
}


def _list(
    desk: Desk, revision: Revision, asked: Sheet, listed: Listed, words: Catalogue
) -> ListedView:
    offered = offered_for(desk, revision, listed.asks, words)
    to = {"job": revision.id, "sheet": asked.name, "listed": listed.name}
    holder = at(revision.document, listed.path[:-1]) or {}
    return ListedView(
        name=listed.name,
        rows=tuple(
            _row(urls.to(urls.LISTED, **to, place=place), entry, listed.asks, offered)
            for place, entry in enumerate(entries_of(holder, listed.name))
        ),
        new=urls.to(urls.LISTED, **to, place=NEW),
    )


def _row(link: str, entry: Mapping[str, Any], asks: tuple[Ask, ...], offered: Offered) -> ListedRow:
    first, *more = (" ".join(_said(ask, entry, offered)) for ask in asks)
    return ListedRow(link=link, first=first, more=", ".join(text for text in more if text))


def _said(ask: Ask, entry: Mapping[str, Any], offered: Offered) -> list[str]:
    """Return an answer in the words that were offered for it."""
    value = at(entry, ask.path)
    called = dict(offered.of(ask)) if ask.options or ask.of else {}
    values = value if isinstance(value, list) else [] if value is None else [value]
    return [called.get(str(one), str(one)) for one in values]
