"""The jobs of the book, and who is at this browser."""

from dataclasses import dataclass
from datetime import datetime
from http import HTTPStatus
from urllib.parse import quote

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.web import urls
from gaugerod.web.desk import plain_words
from gaugerod.web.form import BY_COOKIE, DeskHere, FormHere
from gaugerod.web.render import show

ROUTES = APIRouter()
_A_YEAR = 365 * 24 * 3600


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRow:
    """A job in the list; the one that was written last comes first."""

    link: str
    title: str
    n: int
    by: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class JobsPage:
    """The list of jobs, and the invented ones that can be looked at."""

    jobs: tuple[JobRow, ...]
    demos: tuple[str, ...]


@ROUTES.get(urls.JOBS)
def jobs(request: Request, desk: DeskHere) -> Response:
    """Show the jobs of the book."""
    found = sorted(desk.book.contents("job"), key=lambda heading: heading.at, reverse=True)
    rows = tuple(
        JobRow(
            link=urls.to(urls.JOB, job=heading.id),
            title=heading.title,
            n=heading.n,
            by=heading.by,
            at=heading.at,
        )
        for heading in found
    )
    demos = tuple(demo.name for demo in desk.shelf.demos())
    return show(request, "jobs", JobsPage(jobs=rows, demos=demos), plain_words(desk))


@ROUTES.post(urls.NAME)
def name(form: FormHere) -> Response:
    """Remember who is at this browser: what he changes bears his name."""
    answer = RedirectResponse(urls.JOBS, HTTPStatus.SEE_OTHER)
    by = quote(form.text("by")[:80])
    answer.set_cookie(BY_COOKIE, by, max_age=_A_YEAR, httponly=True, samesite="strict")
    return answer
