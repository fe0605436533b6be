"""Price and order: what it costs and why, what to buy, and the papers of both."""

from dataclasses import dataclass

from fastapi import APIRouter, Request
from starlette.responses import Response

from gaugerod.app.price_story import tell_price
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message, Money
from gaugerod.core.pipeline import Plan
from gaugerod.packet.phrases import packed
from gaugerod.web import urls
from gaugerod.web.desk import planned, ready_of
from gaugerod.web.form import DeskHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.papers import PaperLink, links
from gaugerod.web.render import show
from gaugerod.web.strip import Stop, strip_of
from gaugerod.web.waiting import waiting

ROUTES = APIRouter()
_HOUR = 60


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceRow:
    """A line of the price: what, how it is reckoned, how much."""

    name: str
    arithmetic: str
    cost: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskRow:
    """The hours of one task, the likely ones and how far they may be off."""

    name: str
    people: int
    hours: str
    low: str
    high: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PricePage:
    """The price of a job as tables."""

    head: JobHead
    strip: tuple[Stop, ...]
    told: tuple[str, ...]
    lines: tuple[PriceRow, ...]
    total: str
    tasks: tuple[TaskRow, ...]
    papers: tuple[PaperLink, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """A line of the order; `pay` is nothing where what is on hand will do."""

    name: str
    count: int
    pack: str
    unit_price: str
    pay: str
    arithmetic: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderPage:
    """What to buy for a job."""

    head: JobHead
    strip: tuple[Stop, ...]
    rows: tuple[OrderRow, ...]
    total: str
    papers: tuple[PaperLink, ...]


@ROUTES.get(urls.PRICE)
def price(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the price of a job."""
    revision = desk.book.head("job", job)
    try:
        made = planned(desk, revision)
    except GaugerodError as error:
        return waiting(request, desk, revision, "price", error)
    words = ready_of(desk, revision).words
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
        tasks=_tasks(made, words),
        papers=links(revision, made, ("customer.pdf", "changes.pdf")),
    )
    return show(request, "price", page, words)


@ROUTES.get(urls.ORDER)
def order(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the order of a job."""
    revision = desk.book.head("job", job)
    try:
        made = planned(desk, revision)
    except GaugerodError as error:
        return waiting(request, desk, revision, "order", error)
    words = ready_of(desk, revision).words
    lines = made.order.lines
    page = OrderPage(
        head=head_of(revision, "order"),
        strip=strip_of(made, words),
        rows=tuple(
            OrderRow(
                name=line.name,
                count=line.count,
                pack=packed(line, words),
                unit_price=words.show(Money(line.unit_price)),
                pay=words.show(Money(line.count * line.unit_price)) if line.count else "",
                arithmetic=words.say(line.arithmetic),
            )
            for line in lines
        ),
        total=words.show(Money(sum(line.count * line.unit_price for line in lines))),
        papers=links(revision, made, ("order.pdf", "order.csv", "order.xlsx")),
    )
    return show(request, "order", page, words)


def _tasks(made: Plan, words: Catalogue) -> tuple[TaskRow, ...]:
    return tuple(
        TaskRow(
            name=task.name,
            people=task.people,
            hours=words.show(task.minutes / _HOUR),
            low=words.show(task.low / _HOUR),
            high=words.show(task.high / _HOUR),
        )
        for task in made.price.tasks
    )
