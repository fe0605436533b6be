"""The history of a job, and the way back to any revision."""

from dataclasses import dataclass
from datetime import datetime
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import BookError, Revision
from gaugerod.core.base.messages import Message
from gaugerod.web import urls
from gaugerod.web.desk import words_for
from gaugerod.web.form import DeskHere, FormHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.render import show

ROUTES = APIRouter()
_MOST_PLACES = 6


@dataclass(frozen=True, slots=True, kw_only=True)
class PastRow:
    """One revision: who wrote it, when, why, and where it differs from the one before."""

    n: int
    by: str
    at: datetime
    note: str
    restores: int | None
    places: tuple[str, ...]
    more: int
    newest: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PastPage:
    """All revisions of a job, the newest first; or of what is a user's own, used by `jobs`."""

    head: JobHead
    rows: tuple[PastRow, ...]
    out: str
    undo: str
    own: bool = False
    jobs: tuple[str, ...] = ()


@ROUTES.get(urls.JOB)
def job(job: str) -> Response:
    """Open a job where its work begins."""
    return RedirectResponse(urls.to(urls.MEASURE, job=job), HTTPStatus.SEE_OTHER)


@ROUTES.get(urls.HISTORY)
def history(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the revisions of a job."""
    head = desk.book.head("job", job)
    found = desk.book.history("job", job)
    page = PastPage(
        head=head_of(head, "history"),
        rows=past_rows(found),
        out=urls.to(urls.EXPORT, job=job),
        undo=urls.to(urls.UNDO, job=job),
    )
    return show(request, "history", page, words_for(desk, head))


@ROUTES.post(urls.UNDO)
def undo(desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write a new revision that says what an old one said."""
    to = form.text("to")
    if not to.isdecimal():
        raise BookError(Message("web.form.no-revision"))
    desk.book.undo("job", job, to=int(to), seen=form.onto, key=form.key, by=form.by, at=desk.now())
    return RedirectResponse(urls.to(urls.HISTORY, job=job), HTTPStatus.SEE_OTHER)


def past_rows(found: tuple[Revision, ...]) -> tuple[PastRow, ...]:
    """Return the rows of a history, the newest first."""
    return tuple(_row(one, newest=one.n == len(found)) for one in reversed(found))


def _row(revision: Revision, *, newest: bool) -> PastRow:
    return PastRow(
        n=revision.n,
        by=revision.by,
        at=revision.at,
        note=revision.note,
        restores=revision.restores,
        places=revision.changed[:_MOST_PLACES],
        more=max(0, len(revision.changed) - _MOST_PLACES),
        newest=newest,
    )
