"""Own materials and rates as TOML files, in and out of the book."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus
from pathlib import Path
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.errors import GaugerodError, MaterialError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document
from gaugerod.store.likeness import completed
from gaugerod.store.toml_file import document, read_toml
from gaugerod.store.toml_text import toml_text
from gaugerod.web import urls
from gaugerod.web.desk import Desk, library, plain_words
from gaugerod.web.form import DeskHere, FormHere
from gaugerod.web.own.check import faults
from gaugerod.web.own.family import Family, FamilyHere, both
from gaugerod.web.own.keep import Written, jobs_with, keep, may_be_id
from gaugerod.web.own.slots import slots_of
from gaugerod.web.pages.conflict import Difference, differences_of
from gaugerod.web.pages.own_list import own_list
from gaugerod.web.render import show

ROUTES = APIRouter()
TEXT = "text"


@dataclass(frozen=True, slots=True, kw_only=True)
class TakenPage:
    """A file that speaks of what the book has already: what it would change, and for which jobs."""

    family: str
    id: str
    title: str
    rows: tuple[Difference, ...]
    jobs: tuple[str, ...]
    seen: int
    text: str
    file: str
    action: str
    back: str


@both(ROUTES, "POST", urls.OWN_FILE)
def take_in(request: Request, desk: DeskHere, form: FormHere, family: FamilyHere) -> Response:
    """Take in a file as a new document, or show what it would change in one that is there."""
    file, source = form.files.get("file", (form.text("file"), form.text(TEXT).encode()))
    try:
        tables = _read(desk, family, Path(file).name, source)
    except GaugerodError as error:
        return own_list(request, desk, family, said=plain_words(desk).say(error.message))
    name = str(tables["id"])
    history = desk.book.history(family.kind, name)
    sent_before = next((one for one in history if one.key == form.key), None)
    if history and not sent_before and not form.text(TEXT):
        return _ask(request, desk, family, history[-1], tables=tables, source=source)
    day = history[-1].day if history else {}
    seen = sent_before.n - 1 if sent_before else form.onto
    note = plain_words(desk).text("web.own.taken-in")
    written = Written(document=tables, day=sent_before.day if sent_before else day, note=note)
    keep(desk, family, name, form, written, seen=seen)
    address = urls.to(urls.OWN_ONE, family=family.name, name=name)
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)


@both(ROUTES, "GET", urls.OWN_OUT)
def take_out(desk: DeskHere, family: FamilyHere, name: str) -> Response:
    """Give a document as a file that a person can read and write over."""
    head = desk.book.head(family.kind, name)
    text = toml_text(_in_order(family.model, head.document))
    headers = {"Content-Disposition": f'attachment; filename="{name}.toml"'}
    return Response(text.encode(), media_type="application/toml", headers=headers)


def _read(desk: Desk, family: Family, name: str, source: bytes) -> dict[str, Any]:
    """Return the tables of a file that is a whole document of the family."""
    if not source:
        raise BookError(Message("web.moving.no-file"))
    whole = {id_: file.tables for id_, file in library(desk).files(family.name).items()}
    raw = read_toml(source, name=name, error=MaterialError)
    (file,) = completed([raw], whole)
    document(file, family.model, error=MaterialError)
    for at, wrong in faults(family, file.tables).items():
        raise MaterialError(file.at(at, wrong))
    tables = dict(file.tables)
    if not may_be_id(str(tables["id"])):
        wrong = Message("web.own.reserved", read=str(tables["id"]))
        raise MaterialError(file.at(("id",), wrong))
    return tables


def _ask(
    request: Request,
    desk: Desk,
    family: Family,
    head: Revision,
    *,
    tables: Mapping[str, Any],
    source: bytes,
) -> Response:
    page = TakenPage(
        family=family.name,
        id=head.id,
        title=head.title,
        rows=differences_of(head.document, tables),
        jobs=tuple(job.title for job in jobs_with(desk, family, head.id)),
        seen=head.n,
        text=source.decode("utf-8-sig"),
        file=f"{head.id}.toml",
        action=urls.to(urls.OWN_FILE, family=family.name),
        back=urls.to(urls.OWN, family=family.name),
    )
    return show(request, "own-taken", page, plain_words(desk))


def _in_order(model: type[Document], tables: Mapping[str, Any]) -> dict[str, Any]:
    """Return the tables in the order of the model: the book has them by the alphabet."""
    found: dict[str, Any] = {}
    for slot in slots_of(model):
        if slot.name not in tables:
            continue
        value = tables[slot.name]
        if slot.model and slot.sort == "table":
            value = _in_order(slot.model, value)
        elif slot.model and slot.sort == "rows":
            value = [_in_order(slot.model, row) for row in value]
        elif slot.model:
            value = {key: _in_order(slot.model, row) for key, row in value.items()}
        found[slot.name] = value
    return found
