"""How a price is paid: a deposit within the cap of the place, then draws that close the sum."""

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import ROUND_FLOOR

from gaugerod.core.base.messages import Message
from gaugerod.core.job.places import DepositCap, Place
from gaugerod.core.job.terms import Terms
from gaugerod.core.pricing.money import exact, half_up


@dataclass(frozen=True, slots=True, kw_only=True)
class Payment:
    """One payment, when it falls due, and what has been paid with it. [cents]."""

    name: str | Message
    due: int
    paid: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Payments:
    """How a sum is paid; the payments add up to it. [cents].

    `cap` is the most that the place allows as a deposit, where a law of it is known and binds;
    `capped` says that the shop would have asked for more.
    """

    total: int
    payments: tuple[Payment, ...]
    cap: int | None
    capped: bool


def deposit_cap(total: int, law: DepositCap) -> int | None:
    """Return the most that a law allows as a deposit.

    Parameters
    ----------
    total
        The sum of the contract. [cents]
    law
        The law.

    Returns
    -------
    int or None
        The lesser of its share and its amount, rounded down: half up could ask for half a
        cent too much. None where the law does not bind so small a contract. [cents]

    Notes
    -----
    Source: the law itself, which each place names.

    Examples
    --------
    A tenth, but no more than 1,000.00:

    >>> law = DepositCap(share=0.1, most=1000, source="a law", sure="from memory")
    >>> deposit_cap(692_843, law), deposit_cap(2_000_000, law), deposit_cap(10_005, law)
    (69284, 100000, 1000)
    """
    if total <= law.over:
        return None
    share = exact(1 if law.share is None else law.share)
    allowed = int((total * share).to_integral_value(rounding=ROUND_FLOOR))
    return allowed if law.most is None else min(allowed, law.most)


def payments_of(total: int, terms: Terms, place: Place | None) -> Payments:
    """Return how a sum is paid.

    Parameters
    ----------
    total
        The sum of the contract, or the price that is proposed. [cents]
    terms
        The deposit and the draws that the shop asks for.
    place
        Whose law binds; None where it is not known.

    Returns
    -------
    Payments
        The deposit and the draws. [cents]

    Notes
    -----
    What is paid by each draw is that share of the sum, rounded half up once; a payment is what
    is paid by it less what was paid before, so that the payments add up to the sum. What a cap
    takes off the deposit is due with the first draw: never before its work is done. Source: own
    derivation.

    Examples
    --------
    >>> draws = [{"name": "walls set", "share": 0.6}, {"name": "done", "share": 0.2}]
    >>> terms = Terms.model_validate({"deposit": 0.2, "draw": draws})
    >>> [payment.due for payment in payments_of(692_843, terms, None).payments]
    [138569, 415705, 138569]
    """
    law = place.deposit if place else None
    cap = deposit_cap(total, law) if law else None
    deposit = half_up(total * exact(terms.deposit))
    asked = deposit if cap is None else min(deposit, cap)
    return Payments(
        total=total,
        payments=tuple(_payments(total, terms, asked)),
        cap=cap,
        capped=asked < deposit,
    )


def _payments(total: int, terms: Terms, deposit: int) -> Iterator[Payment]:
    yield Payment(name=Message("pricing.deposit"), due=deposit, paid=deposit)
    share, paid = exact(terms.deposit), deposit
    for draw in terms.draw:
        share += exact(draw.share)
        by_now = half_up(total * share)
        yield Payment(name=draw.name, due=by_now - paid, paid=by_now)
        paid = by_now
