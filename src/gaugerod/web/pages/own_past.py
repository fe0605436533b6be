"""The history of a user's own material or rates, the way back, and what is put aside."""

from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.web import urls
from gaugerod.web.desk import plain_words
from gaugerod.web.form import DeskHere, FormHere
from gaugerod.web.head import head_of
from gaugerod.web.own.family import FamilyHere, both
from gaugerod.web.own.keep import ASIDE, Written, jobs_with, keep
from gaugerod.web.pages.past import PastPage, past_rows
from gaugerod.web.render import show

ROUTES = APIRouter()


@both(ROUTES, "GET", urls.OWN_PAST)
def past(request: Request, desk: DeskHere, family: FamilyHere, name: str) -> Response:
    """Show the revisions."""
    head = desk.book.head(family.kind, name)
    where = {"family": family.name, "name": name}
    page = PastPage(
        head=head_of(head, "own-past"),
        rows=past_rows(desk.book.history(family.kind, name)),
        out=urls.to(urls.OWN_OUT, **where),
        undo=urls.to(urls.OWN_UNDO, **where),
        own=True,
        jobs=tuple(job.title for job in jobs_with(desk, family, name)),
    )
    return show(request, "history", page, plain_words(desk))


@both(ROUTES, "POST", urls.OWN_UNDO)
def back(desk: DeskHere, form: FormHere, family: FamilyHere, name: str) -> Response:
    """Write a new revision that says what an old one said."""
    to = form.text("to")
    if not to.isdecimal():
        raise BookError(Message("web.form.no-revision"))
    desk.book.undo(
        family.kind, name, to=int(to), seen=form.onto, key=form.key, by=form.by, at=desk.now()
    )
    address = urls.to(urls.OWN_PAST, family=family.name, name=name)
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)


@both(ROUTES, "POST", urls.OWN_ASIDE)
def aside(desk: DeskHere, form: FormHere, family: FamilyHere, name: str) -> Response:
    """Offer it to new jobs no more, or again; jobs that use it keep it."""
    seen = desk.book.revision(family.kind, name, form.onto)
    away = form.text("to") == ASIDE
    note = plain_words(desk).text("web.own.put-aside" if away else "web.own.put-back")
    day = {ASIDE: True} if away else {}
    written = Written(document=seen.document, day=day, note=note)
    keep(desk, family, name, form, written, seen=seen.n)
    address = urls.to(urls.OWN_ONE, family=family.name, name=name)
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)
