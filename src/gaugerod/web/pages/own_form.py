"""One material, or one table of rates: entered, looked at, mended."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from http import HTTPStatus
from typing import Any, get_args

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.materials import Kind
from gaugerod.web import urls
from gaugerod.web.desk import Desk, library, plain_words
from gaugerod.web.form import ONTO, SEEN, DeskHere, Form, FormHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.on_top import as_kept, on_top
from gaugerod.web.own.check import faults, in_form
from gaugerod.web.own.family import MATERIALS, RATES, Family, FamilyHere, both, unit_of
from gaugerod.web.own.keep import Written, free_id, is_aside, jobs_with, keep
from gaugerod.web.own.sent import Sent, sent
from gaugerod.web.own.shape import Group, Item, flat, groups
from gaugerod.web.pages.own_list import beginning
from gaugerod.web.render import show

ROUTES = APIRouter()
MORE, CALLED = "more", "called"
"""Which list is to have more rows, what a new one is called."""
_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class UsedBy:
    """A job that names the document."""

    link: str
    title: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnForm:
    """The form; without a head it is that of a new one.

    `wrong` is what is wrong by the name of the item, `apart` what is wrong in none that is shown,
    and `mend` the items that are wrong in their order.
    """

    head: JobHead | None
    family: str
    unit: Unit
    kind: str
    called: str | None
    groups: tuple[Group, ...]
    action: str
    back: str
    seen: int
    onto: int
    jobs: tuple[UsedBy, ...]
    aside: bool
    wrong: Mapping[str, str]
    apart: tuple[str, ...]
    mend: tuple[Item, ...]


@both(ROUTES, "GET", urls.OWN_NEW)
def blank(request: Request, desk: DeskHere, family: FamilyHere) -> Response:
    """Ask what a new one is to be like, or show its form."""
    asked = request.query_params
    files = library(desk).files(family.name)
    if asked.get("like", "") in files:
        tables = files[asked["like"]].tables
        values = flat(family, tables, unit_of(tables)) | {"name": "", "of": asked["like"]}
    elif family is RATES and "like" in asked:
        values = {}
    elif asked.get("kind") in get_args(Kind):
        values = {"kind": asked["kind"], "unit": unit_of(asked)}
    else:
        return beginning(request, desk, family)
    return _shown(request, desk, family, Form(values=values))


@both(ROUTES, "POST", urls.OWN_NEW)
def make(request: Request, desk: DeskHere, form: FormHere, family: FamilyHere) -> Response:
    """Keep a new one and open it."""
    if form.text(MORE):
        return _shown(request, desk, family, form)
    title = form.text("name" if family is MATERIALS else CALLED)
    name = free_id(desk, family, title, form.key)
    kept = {"format": _FORMAT, "id": name}
    if family is MATERIALS:
        kept |= {"unit": form.text("unit"), "kind": form.text("kind")}
    made = sent(family, form.values)
    document = {**kept, **made.tables}
    wrong = _wrong(family, document, made, form)
    if not title:
        wrong.setdefault("name" if family is MATERIALS else CALLED, Message("web.own.empty"))
    if wrong:
        return _shown(request, desk, family, form, wrong)
    note = plain_words(desk).text("web.own.made")
    keep(desk, family, name, form, Written(document=document, day={}, note=note), seen=0)
    return _to(family, name)


@both(ROUTES, "GET", urls.OWN_ONE)
def one(request: Request, desk: DeskHere, family: FamilyHere, name: str) -> Response:
    """Show the form of one, with what stands in it."""
    head = desk.book.head(family.kind, name)
    unit = unit_of(head.document)
    values = flat(family, head.document, unit) | {SEEN: str(head.n), ONTO: str(head.n)}
    return _shown(request, desk, family, Form(values=values), head=head)


@both(ROUTES, "POST", urls.OWN_ONE)
def save(
    request: Request,
    desk: DeskHere,
    form: FormHere,
    family: FamilyHere,
    name: str,
) -> Response:
    """Write what the form says as the next revision."""
    seen = desk.book.revision(family.kind, name, form.onto)
    fixed = {name: seen.document[name] for name in family.fixed}
    values = {**form.values, **{name: str(value) for name, value in fixed.items()}}
    form = replace(form, values=values)
    if form.text(MORE):
        return _shown(request, desk, family, form, head=seen)
    made = sent(family, values)
    document = {**fixed, **made.tables}
    wrong = _wrong(family, document, made, form)
    if not wrong and form.seen != seen.n:
        # He saw what another wrote, and puts on top of it what he changed, not what he left.
        before = desk.book.revision(family.kind, name, form.seen)
        document = on_top(before.document, as_kept(document), seen.document)
        wrong = _wrong(family, document, made, form)
    if wrong:
        return _shown(request, desk, family, form, wrong, head=seen)
    note = plain_words(desk).text("web.own.mended")
    written = Written(document=document, day=seen.day, note=note)
    keep(desk, family, name, form, written, seen=seen.n)
    return _to(family, name)


def _wrong(
    family: Family, document: Mapping[str, Any], made: Sent, form: Form
) -> dict[str, Message]:
    return in_form(faults(family, document), made.names, form.values) | made.wrong


def _shown(
    request: Request,
    desk: Desk,
    family: Family,
    form: Form,
    wrong: Mapping[str, Message] | None = None,
    *,
    head: Revision | None = None,
) -> Response:
    words = plain_words(desk)
    said = {name: words.say(message) for name, message in (wrong or {}).items()}
    shaped = groups(family, form.values, wrong=frozenset(said), more=form.text(MORE))
    items = [item for group in shaped for item in _walk(group.items)]
    mend = tuple(item for item in items if item.at in said)
    places = {item.at for item in items} | {CALLED}
    where = {"family": family.name, **({"name": head.id} if head else {})}
    page = OwnForm(
        head=head_of(head, "own") if head else None,
        family=family.name,
        unit=unit_of(form.values),
        kind=form.text("kind"),
        called=form.text(CALLED) if family is RATES and not head else None,
        groups=shaped,
        action=urls.to(urls.OWN_ONE if head else urls.OWN_NEW, **where),
        back=urls.to(urls.OWN, family=family.name),
        seen=form.seen if head else 0,
        onto=head.n if head else 0,
        jobs=tuple(_users(desk, family, head)) if head else (),
        aside=is_aside(head) if head else False,
        wrong=said,
        apart=tuple(text for name, text in said.items() if name not in places),
        mend=mend,
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if said else HTTPStatus.OK
    return show(request, "own-form", page, words, status=status)


def _users(desk: Desk, family: Family, head: Revision) -> Iterator[UsedBy]:
    for job in jobs_with(desk, family, head.id):
        yield UsedBy(link=urls.to(urls.JOB, job=job.id), title=job.title)


def _walk(items: tuple[Item, ...]) -> Iterator[Item]:
    for item in items:
        yield item
        yield from _walk(item.items)
        for row in item.rows:
            yield from _walk(row.items)


def _to(family: Family, name: str) -> Response:
    address = urls.to(urls.OWN_ONE, family=family.name, name=name)
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)
