"""The price of a job: hours, material, mark-up, each line rounded once."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from gaugerod.core.base.messages import Message, Money
from gaugerod.core.cutting.pieces import CutPlan
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Per, RateTable
from gaugerod.core.pricing.money import Factor, counted, exact, half_up, times
from gaugerod.core.pricing.price import Price, PriceLine, TaskHours
from gaugerod.core.takeoff.order import Order, OrderLine, Quantities

MINUTES = 60
"""Minutes of an hour."""


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

    Notes
    -----
    A task takes its count times its hours, rounded half up to a minute. Straight cuts are the
    sides cut square, but no more than the cut plan has passes of the saw. Labour is all
    minutes at the burdened rate. Tax is on all material together; contingency is on labour,
    material, tax, subs, permit and disposal; the mark-up is on all of these. Each line is
    rounded half up once, and the price is the sum of the lines. Source: common practice,
    no source; mark-up and margin as told apart by *Markup vs margin explained*,
    contractorcfo.org, 2026.

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
    tasks = tuple(_tasks(_counts(order.quantities, cuts), rates, system))
    minutes = sum(task.minutes for task in tasks)
    labour = _labour(minutes, rates)
    bought = [_bought(line) for line in order.lines]
    material = sum(line.cost for line in bought)
    tax = _share("tax", Message("pricing.tax"), rates.tax, material)
    others = [_agreed(*agreed) for agreed in _others(rates)]
    other = sum(line.cost for line in others)
    direct = labour.cost + material + tax.cost + other
    contingency = _share("contingency", Message("pricing.contingency"), rates.contingency, direct)
    cost = direct + contingency.cost
    markup = _share("markup", Message("pricing.markup"), rates.markup, cost)
    price = cost + markup.cost
    lines = (labour, *bought, tax, *others, contingency, markup)
    return Price(
        currency=rates.currency,
        tasks=tasks,
        lines=tuple(line for line in lines if line.cost),
        minutes=minutes,
        labour=labour.cost,
        material=material,
        tax=tax.cost,
        other=other,
        contingency=contingency.cost,
        cost=cost,
        price=price,
        margin=markup.cost / price if price else 0.0,
    )


def _tasks(counts: Mapping[Per, float], rates: RateTable, system: System) -> Iterator[TaskHours]:
    """Yield the tasks of this kind of material of which there is anything to do."""
    for task in rates.task:
        count = counts[task.per]
        if count and task.suits(system.kind):
            minutes = half_up(counted(count) * exact(task.hours) * MINUTES)
            yield TaskHours(id=task.id, name=task.name, count=count, minutes=minutes)


def _counts(quantities: Quantities, cuts: CutPlan) -> Mapping[Per, float]:
    return {
        "alcove": 1,
        "square metre": quantities.area / 1e6,
        "piece": quantities.pieces,
        "straight cut": min(quantities.straight_cuts, cuts.cuts),
        "shaped cut": quantities.shaped_cuts,
        "hole": quantities.holes,
        "metre": (quantities.seal_length + quantities.seam_length) / 1e3,
        "niche": quantities.niches,
        "reveal": quantities.reveals,
    }


def _labour(minutes: int, rates: RateTable) -> PriceLine:
    return PriceLine(
        id="labour",
        name=Message("pricing.labour"),
        cost=half_up(Decimal(minutes * rates.labour) / MINUTES),
        arithmetic=Message(
            "pricing.labour-sum",
            hours=minutes // MINUTES,
            minutes=minutes % MINUTES,
            rate=Money(rates.labour),
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


def _share(id_: str, name: Message, share: Factor, of: int) -> PriceLine:
    percent = format((exact(share) * 100).normalize(), "f")
    return PriceLine(
        id=id_,
        name=name,
        cost=times(of, share),
        arithmetic=Message("pricing.share", percent=percent, of=Money(of)),
    )
