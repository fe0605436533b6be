"""A page of a job that cannot be shown yet, and what has to be mended first."""

from dataclasses import dataclass

from fastapi import Request
from starlette.responses import Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.web.bench.errors import UnfinishedError
from gaugerod.web.desk import Desk, words_for
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.planning import planning
from gaugerod.web.render import show


@dataclass(frozen=True, slots=True, kw_only=True)
class WaitingPage:
    """One line that says what is missing; the way on is to measure, or back in the history."""

    head: JobHead
    here: str
    said: str


def waiting(
    request: Request, desk: Desk, revision: Revision, here: str, error: GaugerodError
) -> Response:
    """Show a page of a job that needs something else first."""
    if isinstance(error, UnfinishedError):
        return planning(request, desk, revision, here, error)
    words = words_for(desk, revision)
    page = WaitingPage(head=head_of(revision, here), here=here, said=words.say(error.message))
    return show(request, "waiting", page, words)
