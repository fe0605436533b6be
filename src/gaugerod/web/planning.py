"""What is shown while a plan is made, and when it was ended: nothing that can be lost."""

from dataclasses import dataclass
from http import HTTPStatus

from fastapi import Request
from starlette.responses import Response

from gaugerod.app.job_book import Revision
from gaugerod.web import urls
from gaugerod.web.bench.errors import EndedError, UnfinishedError
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.form import Form
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.render import show

_LOOK_AGAIN = 2
"""Seconds until the page asks by itself whether the plan is there."""
_READING = ("GET", "HEAD")


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanningPage:
    """A plan that is not there: `said` is why it was ended, empty while it is made.

    `back` is the page that it is for. Where a form was sent instead, nothing was saved yet, and
    its `fields` are there to be sent again, as they were, to `send_to`.
    """

    head: JobHead
    action: str
    ticket: str
    back: str
    seconds: int
    most: int
    before: int
    said: str
    send_to: str
    fields: tuple[tuple[str, str], ...]


def planning(
    request: Request,
    desk: Desk,
    revision: Revision,
    here: str,
    error: UnfinishedError,
) -> Response:
    """Show how far a plan is, with a way to stop it; or why it was ended, with a way to go on."""
    words = words_for(desk, revision)
    reads, path = request.method in _READING, request.url.path
    ended = isinstance(error, EndedError)
    page = PlanningPage(
        head=head_of(revision, here),
        action=urls.to(urls.PLANNING, job=revision.id),
        ticket=error.ticket,
        back=path,
        seconds=int(error.seconds),
        most=round(error.most),
        before=error.before,
        said=words.say(error.message) if ended else "",
        send_to="" if reads else path,
        fields=() if reads else tuple(_sent(request).values.items()),
    )
    if ended and not reads and desk.bench:
        desk.bench.again(error.ticket)  # who sends his form again wants it made again
    waits = reads and not ended
    status = HTTPStatus.ACCEPTED if waits else HTTPStatus.SERVICE_UNAVAILABLE
    answer = show(request, "planning", page, words, status=status)
    if waits:
        answer.headers["Refresh"] = str(_LOOK_AGAIN)
    return answer


def _sent(request: Request) -> Form:
    form: Form = request.state.form
    return form
