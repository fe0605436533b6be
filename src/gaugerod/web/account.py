"""The contract of a job as a page shows it: the running sum, and how it is paid."""

from dataclasses import dataclass

from gaugerod.app.job_book import Revision
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Money
from gaugerod.core.job.places import at_place, nearest
from gaugerod.core.pricing.changes import account_of
from gaugerod.core.pricing.terms import payments_of
from gaugerod.web import urls
from gaugerod.web.desk import Desk, ready_of


@dataclass(frozen=True, slots=True, kw_only=True)
class AccountView:
    """What was agreed first and is agreed now, each change, and the payments; in money as text."""

    first: str
    total: str
    days: int
    waiting: int
    orders: tuple[tuple[str, str, str, str], ...]
    payments: tuple[tuple[str, str], ...]
    paper: str


def account_view(desk: Desk, revision: Revision) -> AccountView | None:
    """Return the contract of a job; nothing where none is signed, or the job can't be read yet."""
    try:
        ready = ready_of(desk, revision)
    except GaugerodError:
        # What has to be mended first is told where it stands: on Measure.
        return None
    job, words = ready.job, ready.words
    if job.contract is None:
        return None
    account = account_of(job.contract, job.change)
    place = nearest(job.site.region, {known.id: known for known in ready.rules.place})
    terms = at_place(ready.rates, job.site.region).terms
    payments = payments_of(account.first, terms, place).payments if terms else ()
    return AccountView(
        first=words.show(Money(account.first)),
        total=words.show(Money(account.total)),
        days=account.days,
        waiting=sum(order.signed is None for order in account.orders),
        orders=tuple(
            (
                f"{order.number}. {order.what}",
                words.show(Money(order.price)),
                str(order.signed or ""),
                words.show(Money(order.after)),
            )
            for order in account.orders
        ),
        payments=tuple((words.show(one.name), words.show(Money(one.due))) for one in payments),
        paper=urls.to(urls.PAPER, job=revision.id, paper="changes.pdf") if account.orders else "",
    )
