"""How far a price may turn out otherwise, by simulation of the hours."""

import numpy as np
from numpy.typing import NDArray
from scipy.special import betaincinv

from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.hours import MODE
from gaugerod.core.pricing.price import Price, Spread, TaskHours
from gaugerod.core.pricing.sale import labour_of, sale_of

DRAWS = 2000
"""Jobs drawn by lot: a share of them is sure to about one in a hundred."""
LOW, HALF, HIGH = 0.1, 0.5, 0.9
"""Shares of the jobs that take less than the low, the likely and the high hours. [1]"""


def spread_of(price: Price, rates: RateTable, *, draws: int = DRAWS, seed: int = 0) -> Spread:
    """Return how far the hours of a job, and what they would be priced at, may spread.

    Parameters
    ----------
    price
        The price, with the hours of its tasks.
    rates
        The rates that it was made with.
    draws
        How many jobs are drawn, >= 1.
    seed
        Seed of the draws: the same seed gives the same spread.

    Returns
    -------
    Spread
        Low, likely and high price, with their hours. [cents, minutes]

    Notes
    -----
    Only the hours are drawn (see `drawn_minutes`); material, subs and fees stay. A price grows
    with its minutes and with nothing else, so the price of the minutes that one job in ten
    stays under is the price that one job in ten stays under: three sums in whole cents, no sum
    for each draw. Source: own derivation, ``docs/theory/price.md``.

    Examples
    --------
    Hours of which only the likely ones are known do not spread:

    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_rates, sample_system
    >>> from gaugerod.core.pricing.job import price_job
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> rates, system = sample_rates(), sample_system()
    >>> price = price_job(sample_order(), plan_cuts((), system), rates, system)
    >>> spread = spread_of(price, rates)
    >>> spread.low == spread.likely == spread.high == price.price
    True
    """
    minutes = drawn_minutes(price.tasks, together=rates.together, draws=draws, seed=seed)
    quantiles = np.quantile(minutes, (LOW, HALF, HIGH), method="inverted_cdf")
    low, likely, high = (round(quantile) for quantile in quantiles.tolist())
    return Spread(
        low=_priced(low, price, rates),
        likely=_priced(likely, price, rates),
        high=_priced(high, price, rates),
        low_minutes=low,
        likely_minutes=likely,
        high_minutes=high,
        over=float(np.mean(np.rint(minutes) > price.minutes)),
    )


def drawn_minutes(
    tasks: tuple[TaskHours, ...], *, together: float, draws: int = DRAWS, seed: int = 0
) -> NDArray[np.float64]:
    """Draw the minutes of whole jobs.

    Parameters
    ----------
    tasks
        The tasks, with their low, likely and high minutes.
    together
        How far tasks run late together: 0 each by itself, 1 all at once. [1]
    draws
        How many jobs are drawn, >= 1.
    seed
        Seed of the draws.

    Returns
    -------
    ndarray of float, shape (draws,)
        Minutes of all people together, job by job. [minutes]

    Notes
    -----
    Each task has the beta distribution of PERT on its low to high minutes, with ``1 + 4 (likely
    - low) / (high - low)`` and ``1 + 4 (high - likely) / (high - low)`` for parameters: mean
    ``(low + 4 likely + high) / 6``, variance ``(mean - low) (high - mean) / 7``. It is drawn
    once from each of `draws` equal layers, which leaves no error in how it is spread by
    itself; the order in which layers of different tasks meet is drawn by lot, by the ranks of
    normal deviates that are correlated by `together`. Tasks are taken by their id, so that
    their order in the table changes nothing. Source: PERT, Malcolm and others, Operations
    Research 7(5), 1959; layers (Latin hypercube), McKay, Beckman and Conover, Technometrics
    21(2), 1979; ranks, Iman and Conover, Communications in Statistics B 11(3), 1982 (all from
    memory).

    Examples
    --------
    >>> task = TaskHours(id="a", name="A", count=1, minutes=70, low=30, likely=60, high=150)
    >>> drawn = drawn_minutes((task,), together=0.0)
    >>> round(float(drawn.mean()))
    70
    """
    lots = np.random.default_rng(seed)
    shared = np.sqrt(together) * lots.standard_normal(draws)
    layers = (np.arange(draws) + 0.5) / draws
    total = np.zeros(draws)
    for task in sorted(tasks, key=lambda task: task.id):
        deviates = shared + np.sqrt(1.0 - together) * lots.standard_normal(draws)
        total += task.people * _quantiles(task, layers)[np.argsort(np.argsort(deviates))]
    return total


def _quantiles(task: TaskHours, shares: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the minutes that such shares of the jobs stay under, in the beta of PERT."""
    width = task.high - task.low
    if not width:
        return np.full_like(shares, task.likely)
    alpha = 1 + MODE * (task.likely - task.low) / width
    beta = 1 + MODE * (task.high - task.likely) / width
    found: NDArray[np.float64] = task.low + width * betaincinv(alpha, beta, shares)
    return found


def _priced(minutes: int, price: Price, rates: RateTable) -> int:
    """Return what the job would be priced at if it took so many minutes."""
    others = price.cost - price.contingency - price.allowances - price.labour
    sale = sale_of(labour_of(minutes, rates) + others, price.allowances, rates)
    return sale.price + price.charges
