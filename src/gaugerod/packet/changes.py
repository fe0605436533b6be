"""The paper of the change orders: each with its price, and the running sum of the contract."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.job.document import Job
from gaugerod.core.pricing.changes import Account, ChangeOrder
from gaugerod.packet.paper import Block, Form, Heading, Paper, Paragraph, Size, Table
from gaugerod.packet.phrases import facts, paper


def changes_paper(
    job: Job, account: Account, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return the change orders of a contract as a paper for the customer.

    Parameters
    ----------
    job
        The job.
    account
        Its contract and changes.
    words
        Sentences, and how money is shown.
    revision
        Number of the revision, on every page.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        What was agreed first, each change with the sum before and after it, what is agreed
        now, and a place to sign for each that waits.
    """
    title = words.text("paper.changes-title")
    waiting = [order for order in account.orders if order.signed is None]
    blocks = (
        Heading(text=title, level=1),
        facts(
            (
                (words.text("paper.contract-sum"), words.show(Money(account.first))),
                (words.text("paper.contract-signed"), str(account.signed)),
                (words.text("paper.contract-now"), words.show(Money(account.total))),
                (words.text("paper.change-days"), str(account.days)),
            )
        ),
        _table(account, words),
        *(block for order in waiting for block in _to_sign(order, words)),
    )
    return paper(title, job, blocks, words, revision=revision, size=size)


_COLUMNS = ("number", "what", "why", "price", "days", "signed", "before", "after")


def _table(account: Account, words: Catalogue) -> Table:
    return Table(
        header=tuple(words.text(f"paper.changes-{key}") for key in _COLUMNS),
        rows=tuple(
            (
                str(order.number),
                order.what,
                order.why,
                words.show(Money(order.price)),
                str(order.days),
                _signed(order, words),
                words.show(Money(order.before)),
                words.show(Money(order.after)),
            )
            for order in account.orders
        ),
        widths=(1, 4, 4, 3, 1, 3, 3, 3),
        boxed=tuple(row for row, order in enumerate(account.orders) if order.signed is None),
    )


def _signed(order: ChangeOrder, words: Catalogue) -> str:
    if order.signed is None:
        return words.text("paper.changes-waiting")
    return " ".join(filter(None, (str(order.signed), order.by)))


def _to_sign(order: ChangeOrder, words: Catalogue) -> Iterator[Block]:
    text = words.text("paper.changes-one", number=order.number, what=order.what)
    yield Heading(text=text, level=2)
    would = words.text(
        "paper.changes-would",
        price=Money(order.price),
        before=Money(order.before),
        after=Money(order.after),
        days=order.days,
    )
    yield Paragraph(text=would, style="plain")
    yield Paragraph(text=words.text("paper.change-note"), style="strong")
    fields = ("change-customer", "change-by", "change-date")
    yield Form(fields=tuple((words.text(f"paper.{key}"), 1) for key in fields))
