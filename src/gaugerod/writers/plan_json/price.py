"""The price in `plan.json`: hours, lines, spread, payments, changes. Money in cents."""

from dataclasses import asdict
from datetime import date

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.changes import Account
from gaugerod.core.pricing.terms import Payments
from gaugerod.writers.plan_json.part import Part


class TaskHoursPart(Part):
    """The time one task takes by the clock, in minutes; `minutes` is what is planned with."""

    id: str
    name: str
    count: float
    minutes: int
    low: int
    likely: int
    high: int
    people: int


class PriceLinePart(Part):
    """One line of the price."""

    id: str
    name: str
    cost: int
    arithmetic: str


class SpreadPart(Part):
    """What one job in ten, one in two, nine in ten stay under; `over` take longer than priced."""

    low: int
    likely: int
    high: int
    low_minutes: int
    likely_minutes: int
    high_minutes: int
    over: float


class PaymentPart(Part):
    """One payment, and what has been paid with it, in cents."""

    name: str
    due: int
    paid: int


class PaymentsPart(Part):
    """How the price is paid; `cap` is what the place allows as a deposit, where that is known."""

    total: int
    cap: int | None
    capped: bool
    payments: tuple[PaymentPart, ...]


class ChangePart(Part):
    """One change order, with the sum of the contract before and after it, in cents."""

    number: int
    what: str
    why: str
    price: int
    days: int
    signed: date | None
    by: str | None
    before: int
    after: int


class ContractPart(Part):
    """What was agreed first, every change, and what is agreed now, in cents."""

    first: int
    signed: date
    total: int
    days: int
    changes: tuple[ChangePart, ...]


class PricePart(Part):
    """The price and what it is made of, in cents."""

    currency: str
    price: int
    cost: int
    labour: int
    material: int
    freight: int
    tax: int
    other: int
    contingency: int
    allowances: int
    charges: int
    margin: float
    minutes: int
    lines: tuple[PriceLinePart, ...]
    tasks: tuple[TaskHoursPart, ...]
    spread: SpreadPart
    payments: PaymentsPart | None
    contract: ContractPart | None


def price_part(plan: Plan, words: Catalogue) -> PricePart:
    """Return the price of a plan as a part."""
    price = plan.price
    return PricePart(
        currency=price.currency,
        price=price.price,
        cost=price.cost,
        labour=price.labour,
        material=price.material,
        freight=price.freight,
        tax=price.tax,
        other=price.other,
        contingency=price.contingency,
        allowances=price.allowances,
        charges=price.charges,
        margin=price.margin,
        minutes=price.minutes,
        lines=tuple(
            PriceLinePart(
                id=line.id,
                name=words.show(line.name),
                cost=line.cost,
                arithmetic=words.say(line.arithmetic),
            )
            for line in price.lines
        ),
        tasks=tuple(TaskHoursPart.model_validate(asdict(task)) for task in price.tasks),
        spread=SpreadPart.model_validate(asdict(plan.spread)),
        payments=_payments(plan.agreement.payments, words) if plan.agreement.payments else None,
        contract=_contract(plan.agreement.account) if plan.agreement.account else None,
    )


def _payments(made: Payments, words: Catalogue) -> PaymentsPart:
    return PaymentsPart(
        total=made.total,
        cap=made.cap,
        capped=made.capped,
        payments=tuple(
            PaymentPart(name=words.show(one.name), due=one.due, paid=one.paid)
            for one in made.payments
        ),
    )


def _contract(account: Account) -> ContractPart:
    return ContractPart(
        first=account.first,
        signed=account.signed,
        total=account.total,
        days=account.days,
        changes=tuple(ChangePart.model_validate(asdict(one)) for one in account.orders),
    )
