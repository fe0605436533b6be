"""The price of a job: hours, material, mark-up, each line rounded once."""

from collections.abc import Iterator
from decimal import Decimal

from gaugerod.core.base.errors import PriceError
from gaugerod.core.base.messages import Message, Money
from gaugerod.core.cutting.pieces import CutPlan
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.terms import Allowance, Charge
from gaugerod.core.pricing.hours import MINUTES, task_hours
from gaugerod.core.pricing.money import Factor, exact, times
from gaugerod.core.pricing.price import Price, PriceLine
from gaugerod.core.pricing.sale import burdened, labour_of, sale_of
from gaugerod.core.takeoff.order import Order, OrderLine


def price_job(order: Order, cuts: CutPlan, rates: RateTable, system: System) -> Price:
    """Price one alcove.

    Parameters
    ----------
    order
        What is bought, and the quantities that the tasks are counted by.
    cuts
        The cut plan: a pass of the saw that frees two pieces is one cut.
    rates
        Hours of each task, wages, tax, contingency, mark-up.
    system
        The material; tasks of another kind are left out.

    Returns
    -------
    Price
        The hours of each task and the lines. [minutes, cents]

    Raises
    ------
    PriceError
        What comes off the price is more than the price.

    Notes
    -----
    Straight cuts are the sides cut square, but no more than the cut plan has passes of the saw.
    Labour is the minutes of all people at the burdened rate. Tax is on all material together,
    and on its freight where the place taxes that; contingency is on labour, material, freight,
    tax, subs, permit and disposal; then come the allowances; the mark-up is on all of these,
    and what is charged or let off comes last. Each line is rounded half up once, and the price
    is the sum of the lines. Source: common practice, no source; mark-up and margin: see
    `sale_of`; hours: see `task_hours`.

    Examples
    --------
    36 pieces at a quarter of an hour each: nine hours at 48.00.

    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_rates, sample_system
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> system = sample_system()
    >>> price = price_job(sample_order(), plan_cuts((), system), sample_rates(), system)
    >>> price.minutes, price.labour, price.material, price.tax
    (540, 43200, 107500, 7525)
    """
    tasks = task_hours(order, cuts, rates, system)
    minutes = sum(task.minutes * task.people for task in tasks)
    labour = _labour(minutes, rates)
    bought = [_bought(line) for line in order.lines]
    material = sum(line.cost for line in bought)
    freight = _agreed("freight", Message("pricing.freight"), rates.freight if material else 0)
    taxed = material + (freight.cost if rates.freight_taxed else 0)
    tax = _share("tax", Message("pricing.tax"), rates.tax, taxed)
    others = [_agreed(*agreed) for agreed in _others(rates)]
    other = sum(line.cost for line in others)
    direct = labour.cost + material + freight.cost + tax.cost + other
    allowed = [_allowed(allowance) for allowance in rates.allowance]
    allowances = sum(line.cost for line in allowed)
    sale = sale_of(direct, allowances, rates)
    charged = [_charged(charge, number) for number, charge in enumerate(rates.charge, 1)]
    charges = sum(line.cost for line in charged)
    total = _above_nought(sale.price + charges)
    lines = (
        labour,
        *bought,
        freight,
        tax,
        *others,
        _share("contingency", Message("pricing.contingency"), rates.contingency, direct),
        *allowed,
        _markup(sale.markup, sale.price, sale.cost, rates),
        *charged,
    )
    return Price(
        currency=rates.currency,
        tasks=tasks,
        lines=tuple(line for line in lines if line.cost),
        minutes=minutes,
        labour=labour.cost,
        material=material,
        freight=freight.cost,
        tax=tax.cost,
        other=other,
        contingency=sale.contingency,
        allowances=allowances,
        cost=sale.cost,
        charges=charges,
        price=total,
        margin=(total - sale.cost) / total if total else 0.0,
    )


def _labour(minutes: int, rates: RateTable) -> PriceLine:
    return PriceLine(
        id="labour",
        name=Message("pricing.labour"),
        cost=labour_of(minutes, rates),
        arithmetic=Message(
            "pricing.labour-sum",
            hours=minutes // MINUTES,
            minutes=minutes % MINUTES,
            rate=Money(burdened(rates)),
        ),
    )


def _bought(line: OrderLine) -> PriceLine:
    return PriceLine(
        id=line.id,
        name=line.name,
        cost=line.count * line.unit_price,
        arithmetic=Message("pricing.material-sum", count=line.count, each=Money(line.unit_price)),
    )


def _others(rates: RateTable) -> Iterator[tuple[str, Message, int]]:
    yield "subs", Message("pricing.subs"), rates.subs
    yield "permit", Message("pricing.permit"), rates.permit
    yield "disposal", Message("pricing.disposal"), rates.disposal


def _agreed(id_: str, name: Message, cents: int) -> PriceLine:
    return PriceLine(id=id_, name=name, cost=cents, arithmetic=Message("pricing.agreed"))


def _allowed(allowance: Allowance) -> PriceLine:
    return PriceLine(
        id=allowance.id,
        name=allowance.name,
        cost=times(allowance.cost, allowance.included),
        arithmetic=Message(
            "pricing.allowed",
            included=_plain(exact(allowance.included)),
            unit=allowance.unit,
            each=Money(allowance.cost),
        ),
    )


def _charged(charge: Charge, number: int) -> PriceLine:
    return PriceLine(
        id=f"charge-{number}",
        name=charge.what,
        cost=charge.price,
        arithmetic=Message("pricing.agreed"),
    )


def _above_nought(price: int) -> int:
    if price < 0:
        raise PriceError(Message("pricing.below-nought", price=Money(price)))
    return price


def _share(id_: str, name: Message, share: Factor, of: int) -> PriceLine:
    return PriceLine(
        id=id_,
        name=name,
        cost=times(of, share),
        arithmetic=Message("pricing.share", percent=_percent(share), of=Money(of)),
    )


def _markup(cents: int, price: int, cost: int, rates: RateTable) -> PriceLine:
    """Return the line that makes the cost the price, in the way that the shop reckons it."""
    by_margin = rates.margin is not None
    share, of = (rates.margin, price) if by_margin else (rates.markup, cost)
    return PriceLine(
        id="markup",
        name=Message("pricing.margin" if by_margin else "pricing.markup"),
        cost=cents,
        arithmetic=Message("pricing.share", percent=_percent(share or 0), of=Money(of)),
    )


def _percent(share: Factor) -> str:
    return _plain(exact(share) * 100)


def _plain(number: Decimal) -> str:
    return format(number.normalize(), "f")
