"""Order: what to buy, what is there, what was ordered and came."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Money
from gaugerod.web import urls
from gaugerod.web.desk import Desk, planned, ready_of
from gaugerod.web.figure_change import keep_figure
from gaugerod.web.figures import TABLE, Own
from gaugerod.web.form import DeskHere, FieldError, Form, FormHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.order_figures import KINDS, ON_HAND, OrderRow, own_order, rows, say
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.render import show
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPage:
    """What to buy for a job, and what the job says of it, by its table."""

    head: JobHead
    strip: tuple[Stop, ...]
    rows: tuple[OrderRow, ...]
    total: str
    own: Mapping[str, tuple[Own, ...]]
    papers: tuple[PaperLink, ...]
    action: str
    wrong: str
    said: str


@ROUTES.get(urls.ORDER)
def order(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the order of a job."""
    return _page(request, desk, desk.book.head("job", job))


@ROUTES.post(urls.ORDER)
def say_order(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write what is there, what was ordered or came, or a line beside the plan."""
    wrong = keep_figure(desk, job, form, say, tables=KINDS, note="web.order.kept")
    if wrong:
        return _page(request, desk, desk.book.revision("job", job, form.seen), form, wrong)
    table = form.text(TABLE)
    where = "lines" if table == ON_HAND else table
    return RedirectResponse(f"{urls.to(urls.ORDER, job=job)}#{where}", HTTPStatus.SEE_OTHER)


def _page(
    request: Request,
    desk: Desk,
    revision: Revision,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    try:
        made, ready = planned(desk, revision), ready_of(desk, revision)
    except GaugerodError as wrong:
        return waiting(request, desk, revision, "order", wrong)
    words, lines = ready.words, made.order.lines
    page = OrderPage(
        head=head_of(revision, "order"),
        strip=strip_of(made, words),
        rows=tuple(rows(revision.document, made, ready, form)),
        total=words.show(Money(sum(line.count * line.unit_price for line in lines))),
        own=own_order(revision.document, made, ready, form),
        papers=links(revision, made, ("order.pdf", "order.csv", "order.xlsx")),
        action=urls.to(urls.ORDER, job=revision.id),
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "order", page, words, status=status)
