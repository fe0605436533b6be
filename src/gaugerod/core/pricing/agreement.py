"""What is agreed of money beside the price: the place, the payments, the contract."""

from collections.abc import Sequence
from dataclasses import dataclass

from gaugerod.core.job.document import Job
from gaugerod.core.job.places import Place, nearest
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.changes import Account, account_of
from gaugerod.core.pricing.price import Price
from gaugerod.core.pricing.terms import Payments, payments_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Agreement:
    """Payments where the shop says how it is paid, a contract where one is signed.

    `place` is there where something is known of the law of the site.
    """

    place: Place | None
    payments: Payments | None
    account: Account | None


def agree(price: Price, job: Job, rates: RateTable, places: Sequence[Place]) -> Agreement:
    """Return what is agreed of money beside the price.

    Parameters
    ----------
    price
        The price that is proposed.
    job
        Where the work is, the contract and its changes.
    rates
        The terms that the shop asks for.
    places
        Places whose law is known.

    Returns
    -------
    Agreement
        Payments are of the contract as it was signed; before that, of the price. [cents]

    Notes
    -----
    Changes are paid by themselves. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.pricing.job import price_job
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> rates, system = sample_rates(), sample_system()
    >>> price = price_job(sample_order(), plan_cuts((), system), rates, system)
    >>> agree(price, sample_job(), rates, ())
    Agreement(place=None, payments=None, account=None)
    """
    account = account_of(job.contract, job.change) if job.contract else None
    place = nearest(job.site.region, {known.id: known for known in places})
    total = account.first if account else price.price
    return Agreement(
        place=place,
        payments=payments_of(total, rates.terms, place) if rates.terms else None,
        account=account,
    )
