"""From what the work costs to what it is sold at: contingency, then mark-up or margin."""

from dataclasses import dataclass
from decimal import Decimal

from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.hours import MINUTES
from gaugerod.core.pricing.money import exact, half_up, times


@dataclass(frozen=True, slots=True, kw_only=True)
class Sale:
    """What comes on top of the direct cost. [cents]."""

    contingency: int
    cost: int
    markup: int
    price: int


def burdened(rates: RateTable) -> int:
    """Return what one hour of one person costs the shop.

    Parameters
    ----------
    rates
        The rate itself, or the wage with what comes on top of it.

    Returns
    -------
    int
        The rate in whole cents, as the line of the labour prints it. [cents]

    Notes
    -----
    ``wage (1 + burden) / billable``. Source: common practice, no source.

    Examples
    --------
    A wage of 28.00 with 35 % on top, four hours in five of them billed:

    >>> from gaugerod.core.job.sample import sample_rates
    >>> crew = {"wage": 28, "burden": 0.35, "billable": 0.8}
    >>> own = sample_rates().model_dump() | {"labour": None, "crew": crew}
    >>> burdened(RateTable.model_validate(own))
    4725
    """
    crew = rates.crew
    if crew is None:
        return rates.labour or 0
    return half_up(crew.wage * (1 + exact(crew.burden)) / exact(crew.billable))


def labour_of(minutes: int, rates: RateTable) -> int:
    """Return what so many minutes of one person cost the shop.

    Parameters
    ----------
    minutes
        Minutes of all people together.
    rates
        The burdened rate.

    Returns
    -------
    int
        The labour, rounded half up once. [cents]

    Notes
    -----
    Source: see `burdened`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> labour_of(38 * 60, sample_rates())
    182400
    """
    return half_up(Decimal(minutes * burdened(rates)) / MINUTES)


def sale_of(direct: int, allowances: int, rates: RateTable) -> Sale:
    """Return what a direct cost is sold at.

    Parameters
    ----------
    direct
        Labour, material, freight, tax, subs, permit and disposal. [cents]
    allowances
        What allowances cost; contingency is not taken on them. [cents]
    rates
        Contingency, and mark-up or margin.

    Returns
    -------
    Sale
        Contingency, cost, mark-up and price. [cents]

    Notes
    -----
    A mark-up is a share of the cost, ``price = cost (1 + mark-up)``; a margin is a share of the
    price, ``price = cost / (1 - margin)``. The line of the mark-up is the price less the cost.
    Source: *Markup vs margin explained*, contractorcfo.org, 2026.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> sale_of(439_900, 0, sample_rates())
    Sale(contingency=21995, cost=461895, markup=230948, price=692843)
    """
    contingency = times(direct, rates.contingency)
    cost = direct + contingency + allowances
    if rates.margin is None:
        price = cost + times(cost, rates.markup or 0)
    else:
        price = half_up(cost / (1 - exact(rates.margin)))
    return Sale(contingency=contingency, cost=cost, markup=price - cost, price=price)
