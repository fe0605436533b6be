"""The price in plain words: what it is, how far it may be off, how it is paid."""

from collections.abc import Iterator
from math import ceil

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message, Money
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.learning import Lesson


def tell_price(made: Plan) -> Iterator[Message]:
    """Yield what is told of a price; never more than a few lines."""
    price, spread = made.price, made.spread
    yield Message("app.story.price", price=Money(price.price), hours=price.minutes / 60)
    if spread.low < spread.high:
        yield Message(
            "app.story.spread",
            low=Money(spread.low),
            high=Money(spread.high),
            over=ceil(100 * spread.over),
        )
    yield from _payments(made)
    if made.agreement.account:
        yield Message(
            "app.story.contract",
            signed=str(made.agreement.account.signed),
            first=Money(made.agreement.account.first),
            total=Money(made.agreement.account.total),
            waiting=sum(order.signed is None for order in made.agreement.account.orders),
        )


def _payments(made: Plan) -> Iterator[Message]:
    terms = made.agreement.payments
    if terms is None:
        return
    deposit, *draws = (Money(payment.due) for payment in terms.payments)
    then = Message("app.story.draw", due=draws[0])
    for due in draws[1:]:
        then = Message("app.story.draw-after", before=then, due=due)
    yield Message("app.story.payments", deposit=deposit, then=then)
    law = made.agreement.place.deposit if made.agreement.place else None
    if law is None:
        region = made.job.site.region
        yield (
            Message("app.story.no-law", region=region) if region else Message("app.story.no-place")
        )
    elif terms.cap is not None:
        key = "app.story.capped" if terms.capped else "app.story.within-cap"
        yield Message(key, cap=Money(terms.cap), source=law.source, sure=law.sure)


def tell_lesson(lesson: Lesson, words: Catalogue) -> list[str]:
    """Return what past jobs say of the hours, line by line."""
    lines = [words.text("app.story.lesson", tasks=len(lesson.tasks), scatter=lesson.scatter)]
    lines += [
        words.text(
            "app.story.learned",
            task=task.id,
            factor=task.factor,
            least=task.least,
            most=task.most,
            records=task.records,
            raw=task.raw,
        )
        for task in lesson.tasks
    ]
    if lesson.unknown:
        lines.append(words.text("app.story.unlearned", tasks=", ".join(lesson.unknown)))
    return lines
