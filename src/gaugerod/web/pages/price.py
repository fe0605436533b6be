"""Price: what it costs and why, and what the job says of its own."""

from collections.abc import Mapping
from dataclasses import dataclass
from http import HTTPStatus

from fastapi import APIRouter, Request
from starlette.responses import RedirectResponse, Response

from gaugerod.app.job_book import Revision
from gaugerod.app.price_story import tell_price
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message, Money
from gaugerod.web import urls
from gaugerod.web.desk import Desk, planned, ready_of
from gaugerod.web.figure_change import keep_figure
from gaugerod.web.figures import TABLE, Own
from gaugerod.web.form import DeskHere, FieldError, Form, FormHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.price_figures import FIGURE, KINDS, own_prices, say
from gaugerod.web.render import show
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """A line of the price: what, how it is reckoned, how much."""

    name: str
    arithmetic: str
    cost: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PricePage:
    """The price of a job as tables, and what the job may say of its own, by its table."""

    head: JobHead
    strip: tuple[Stop, ...]
    told: tuple[str, ...]
    lines: tuple[PriceRow, ...]
    total: str
    own: Mapping[str, tuple[Own, ...]]
    papers: tuple[PaperLink, ...]
    action: str
    wrong: str
    said: str


@ROUTES.get(urls.PRICE)
def price(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the price of a job."""
    return _price(request, desk, desk.book.head("job", job))


@ROUTES.post(urls.PRICE)
def say_price(request: Request, desk: DeskHere, form: FormHere, job: str) -> Response:
    """Write a figure of the job's own, or take it back."""
    wrong = keep_figure(desk, job, form, say, tables={*KINDS, FIGURE}, note="web.price.note")
    if wrong:
        return _price(request, desk, desk.book.revision("job", job, form.seen), form, wrong)
    address = f"{urls.to(urls.PRICE, job=job)}#{form.text(TABLE)}"
    return RedirectResponse(address, HTTPStatus.SEE_OTHER)


def _price(
    request: Request,
    desk: Desk,
    revision: Revision,
    form: Form | None = None,
    error: FieldError | None = None,
) -> Response:
    try:
        made = planned(desk, revision)
    except GaugerodError as wrong:
        return waiting(request, desk, revision, "price", wrong)
    ready = ready_of(desk, revision)
    words = ready.words
    page = PricePage(
        head=head_of(revision, "price"),
        strip=strip_of(made, words),
        told=tuple(words.say(line) for line in tell_price(made)),
        lines=tuple(
            PriceRow(
                name=words.say(line.name) if isinstance(line.name, Message) else line.name,
                arithmetic=words.say(line.arithmetic),
                cost=words.show(Money(line.cost)),
            )
            for line in made.price.lines
        ),
        total=words.show(Money(made.price.price)),
        own=own_prices(revision.document, made, ready, form),
        papers=links(revision, made, ("customer.pdf", "changes.pdf")),
        action=urls.to(urls.PRICE, job=revision.id),
        wrong=error.name if error else "",
        said=words.say(error.message) if error else "",
    )
    status = HTTPStatus.UNPROCESSABLE_ENTITY if error else HTTPStatus.OK
    return show(request, "price", page, words, status=status)
