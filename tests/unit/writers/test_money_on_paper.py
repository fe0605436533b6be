"""Who may read which amount: every word of every paper, as another library reads it back."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass, replace
from datetime import UTC, datetime
from io import BytesIO

import pytest
from pydantic import BaseModel
from pypdf import PdfReader
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message, Money
from gaugerod.core.job.contract import Change, Contract
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.changes import account_of
from gaugerod.core.survey.closures import closures
from gaugerod.packet.changes import changes_paper
from gaugerod.packet.crew import crew_packet
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.paper import Paper, Paragraph
from gaugerod.packet.supplier import supplier_paper
from gaugerod.packet.survey import survey_paper
from gaugerod.writers.csv_order import order_csv
from gaugerod.writers.ics import ics
from gaugerod.writers.pdf import pdf
from gaugerod.writers.svg import svg

AMOUNT = re.compile(r"(?<![\d.,])\d[\d,]*\.\d\d(?![\d.])")
INSIDE = re.compile(
    r"\b(costs?|hours?|minutes?|mark-?ups?|margins?|labou?r|wages?|contingency|overheads?|profits?"
    r"|rates?|burdened|odds|spread)\b"
)
SIGNS = re.compile(r"[$£€]")
CONTRACT = Contract.model_validate({"sum": 6000, "signed": "2026-02-20"})
CHANGE = Change.model_validate({"what": "New sill", "why": "Rot", "price": "310.50", "days": 1})


def read(paper: Paper) -> str:
    pages = PdfReader(BytesIO(pdf(paper, draw=svg))).pages
    return "\n".join(page.extract_text() for page in pages)


def numbers(part: object) -> Iterator[float]:
    """Every number in a result, however deep; words and switches are none."""
    if isinstance(part, int | float) and not isinstance(part, bool):
        yield part
    for one in within(part):
        yield from numbers(one)


def within(part: object) -> Iterable[object]:
    """What a result is made of."""
    match part:
        case Message():
            return part.values.values()
        case tuple() | list():
            return part
        case dict():
            return part.values()
        case BaseModel():
            return [getattr(part, name) for name in type(part).model_fields]
        case _ if is_dataclass(part):
            return [getattr(part, field.name) for field in fields(part)]
        case _:
            return ()


def shown(cents: float) -> str:
    return f"{int(cents) // 100:,}.{int(cents) % 100:02d}"


def inside(plan: Plan) -> set[str]:
    """Every number that prices, spread, order, rates and options hold, as an amount of money.

    Nought and round pennies under a unit of money are no secret.
    """
    parts = (plan.price, plan.spread, plan.order.lines, plan.rates, plan.options, plan.reuse)
    cents = [number for part in parts for number in numbers(part) if number >= 100]
    totals = [line.count * line.unit_price for line in plan.order.lines]
    hours = [plan.price.minutes * 100 / 60, *(task.minutes * 100 / 60 for task in plan.price.tasks)]
    return {shown(number) for number in (*cents, *totals, *hours) if number < 1e12}


def paid(plan: Plan) -> set[str]:
    """What the customer pays or is asked to choose by."""
    payments = plan.agreement.payments
    due = [cents for one in payments.payments for cents in (one.due, one.paid)] if payments else []
    offered = [option.price for option in plan.options.options if option.picks]
    beyond = [allowance.beyond for allowance in plan.rates.allowance]
    money = {shown(cents) for cents in (plan.price.price, *due, *offered, *beyond)}
    # What an allowance includes may be written as money is: 0.75 m2.
    return money | {f"{allowance.included:.2f}" for allowance in plan.rates.allowance}


def amounts(text: str) -> set[str]:
    return set(AMOUNT.findall(text))


@pytest.fixture(params=["keyed", "tiled"])
def job(request: pytest.FixtureRequest) -> tuple[Plan, Catalogue]:
    if request.param == "keyed":
        return keyed_plan(), words_in(INCHES)
    return tiled_plan(), words_in(MILLIMETRES)


def test_what_is_inside_is_found_by_this_test(job: tuple[Plan, Catalogue]) -> None:
    """The net has no hole: costs of lines, the rate of an hour, a price of the shop, the price."""
    plan, words = job
    found = inside(plan)
    for cents in (
        *(line.cost for line in plan.price.lines if line.cost >= 100),
        plan.price.cost,
        plan.price.labour,
        plan.spread.low,
        plan.order.lines[0].unit_price,
        plan.price.price,
    ):
        assert shown(cents) in found
    paper = customer_paper(plan, words)
    for cents in (plan.price.cost, plan.price.labour):
        said = Paragraph(text=f"Labour {words.show(Money(cents))}", style="plain")
        leaking = read(replace(paper, sections=(*paper.sections, said)))
        assert amounts(leaking) - paid(plan) == {shown(cents)}
        assert INSIDE.findall(leaking.lower()) == ["labour"]


def test_the_customer_reads_no_amount_but_what_is_paid(job: tuple[Plan, Catalogue]) -> None:
    plan, words = job
    text = read(customer_paper(plan, words))
    assert amounts(text) <= paid(plan)
    assert shown(plan.price.price) in amounts(text)
    assert not amounts(text) & (inside(plan) - paid(plan))
    assert INSIDE.findall(text.lower()) == []
    assert "%" not in text


def test_a_change_order_shows_the_contract_and_the_change_alone(
    job: tuple[Plan, Catalogue],
) -> None:
    plan, words = job
    signed = CHANGE.model_copy(update={"signed": CONTRACT.signed, "by": "Owner"})
    account = account_of(CONTRACT, [signed, CHANGE])
    text = read(changes_paper(plan.job, account, words))
    assert amounts(text) == {"6,000.00", "310.50", "6,310.50", "6,621.00"}
    assert INSIDE.findall(text.lower()) == []
    with_account = replace(plan, agreement=replace(plan.agreement, account=account))
    said = read(customer_paper(with_account, words))
    assert amounts(said) <= paid(plan) | {"6,000.00", "6,310.50"}
    assert INSIDE.findall(said.lower()) == []


def test_nothing_in_the_truck_or_at_the_supplier_shows_a_price(
    job: tuple[Plan, Catalogue],
) -> None:
    plan, words = job
    survey = survey_paper(plan.job, closures(plan.job), plan.walls, (), words)
    told = [
        read(paper) for paper in (crew_packet(plan, words), supplier_paper(plan, words), survey)
    ]
    for text in told:
        assert SIGNS.findall(text) == []
        assert not amounts(text) & (inside(plan) | paid(plan))
    money = r"\b(prices?|costs?|mark-?ups?|margins?|wages?|labou?r)\b"
    assert re.findall(money, told[0].lower()) == []


def test_a_calendar_shows_no_price_and_an_order_no_share(job: tuple[Plan, Catalogue]) -> None:
    """The order as a table is the shop's own: it holds what is bought, and no more."""
    plan, words = job
    days = ics(plan, words, stamp=datetime(2026, 2, 1, tzinfo=UTC)).decode()
    assert SIGNS.findall(days) == []
    assert not amounts(days) & (inside(plan) | paid(plan))
    order = order_csv(plan.order, words)
    price = plan.price
    secret = (price.price, price.cost, price.labour, price.contingency)
    assert not amounts(order) & {shown(cents) for cents in secret}
