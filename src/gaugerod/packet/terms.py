"""What the customer reads of money: price, payments, allowances, the right to cancel."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.job.places import Place
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.terms import Payments
from gaugerod.packet.paper import Block, Heading, Paragraph, Table


def price_blocks(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the price, how it is paid, and what it allows for; no cost, no share of it."""
    yield Heading(text=words.text("paper.price"), level=2)
    yield Paragraph(text=_price(plan, words), style="boxed")
    for allowance in plan.rates.allowance:
        text = words.text(
            "paper.allowance",
            name=allowance.name,
            included=allowance.included,
            unit=allowance.unit,
            beyond=Money(allowance.beyond),
        )
        yield Paragraph(text=text, style="plain")
    if not plan.agreement.account:
        for charge in plan.rates.charge:
            key = "paper.charge" if charge.price >= 0 else "paper.let-off"
            text = words.text(key, what=charge.what, price=Money(abs(charge.price)))
            yield Paragraph(text=text, style="plain")
    if plan.agreement.payments:
        yield from _payments(plan.agreement.payments, plan.agreement.place, words)
    if plan.agreement.place and plan.agreement.place.cancel:
        cancel = plan.agreement.place.cancel
        counted = words.text(f"paper.counted-{cancel.counted.split()[0]}")
        text = words.text("paper.cancel", days=cancel.days, counted=counted, source=cancel.source)
        yield Paragraph(text=text, style="plain")


def _price(plan: Plan, words: Catalogue) -> str:
    account = plan.agreement.account
    if account is None:
        return words.text("paper.price-line", price=Money(plan.price.price))
    return words.text(
        "paper.price-agreed",
        first=Money(account.first),
        signed=str(account.signed),
        total=Money(account.total),
    )


def _payments(terms: Payments, place: Place | None, words: Catalogue) -> Iterator[Block]:
    yield Table(
        header=tuple(words.text(f"paper.{key}") for key in ("payment", "due", "paid-by-then")),
        rows=tuple(
            (words.show(one.name), words.show(Money(one.due)), words.show(Money(one.paid)))
            for one in terms.payments
        ),
        widths=(6, 3, 3),
        size="plain",
    )
    if terms.cap is not None and place and place.deposit:
        text = words.text("paper.cap", cap=Money(terms.cap), source=place.deposit.source)
        yield Paragraph(text=text, style="small")
