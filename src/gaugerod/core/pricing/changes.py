"""Change orders: the running sum of a contract."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date

from gaugerod.core.job.contract import Change, Contract


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeOrder:
    """One change order, with the sum of the contract before and after it. [cents, days].

    One that is not signed changes nothing: its sum after is what it would be.
    """

    number: int
    what: str
    why: str
    price: int
    days: int
    signed: date | None
    by: str | None
    before: int
    after: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """A contract with its changes: what was agreed first, and what is agreed now. [cents]."""

    first: int
    signed: date
    orders: tuple[ChangeOrder, ...]
    total: int
    days: int


def account_of(contract: Contract, changes: Sequence[Change]) -> Account:
    """Return the running sum of a contract.

    Parameters
    ----------
    contract
        The contract as it was signed.
    changes
        Its changes, numbered from 1 as they stand in the file.

    Returns
    -------
    Account
        Changes in the order of their signing, those without a signature last. [cents]

    Notes
    -----
    Only what is signed is added. Source: common practice, no source.

    Examples
    --------
    >>> found = {"what": "New sill plate", "why": "Rot", "price": "240.00"}
    >>> later = {"what": "A second niche", "why": "Wish", "price": 310, "signed": "2026-03-05"}
    >>> contract = Contract.model_validate({"sum": "6928.43", "signed": "2026-02-20"})
    >>> made = account_of(contract, [Change.model_validate(one) for one in (found, later)])
    >>> [(order.number, order.before, order.after) for order in made.orders], made.total
    ([(2, 692843, 723843), (1, 723843, 747843)], 723843)
    """
    orders = tuple(_orders(contract.sum, changes))
    agreed = [order for order in orders if order.signed]
    return Account(
        first=contract.sum,
        signed=contract.signed,
        orders=orders,
        total=contract.sum + sum(order.price for order in agreed),
        days=sum(order.days for order in agreed),
    )


def _orders(first: int, changes: Sequence[Change]) -> Iterator[ChangeOrder]:
    before = first
    numbered = sorted(enumerate(changes, 1), key=lambda one: one[1].signed or date.max)
    for number, change in numbered:
        after = before + change.price
        yield ChangeOrder(
            number=number,
            what=change.what,
            why=change.why,
            price=change.price,
            days=change.days,
            signed=change.signed,
            by=change.by,
            before=before,
            after=after,
        )
        before = after if change.signed else before
