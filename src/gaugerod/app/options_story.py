"""The options on one screen: what each costs, what it gives up, and why not another."""

from collections.abc import Iterator

from gaugerod.app.options_job import Weighed
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message, Money, Value
from gaugerod.core.options.ask import Answer
from gaugerod.core.options.option import Option
from gaugerod.packet.options import laid, named, picked_first

_MOST = 7
"""Options told; the paper has them all."""


def tell_options(made: Weighed, words: Catalogue) -> list[str]:
    """Return the options of a job, line by line; never more than a screen."""
    job, options = made.ready.job, made.options
    told = picked_first(options)[:_MOST]
    lines = [
        words.text("app.story.job", name=job.name, scenario=job.scenario),
        words.text("options.tried", tried=options.tried, options=len(options.options)),
        *(line for option in told for line in _told(option, words)),
    ]
    if len(told) < len(options.options):
        lines.append(words.text("options.rest", n=len(options.options) - len(told)))
    lines.append(words.text("options.chosen", option=named(made.chosen, words)))
    if made.answer is not None:
        lines += _answered(made.answer, made.chosen, words)
    return lines


def _told(option: Option, words: Catalogue) -> Iterator[str]:
    price = Money(option.price)
    yield words.text(
        "options.told", option=named(option, words), price=price, laid=laid(option, words)
    )
    yield words.text("options.under", said=words.say(option.reason))
    if option.picks:
        yield words.text("options.under", said=_minded(option, words))
        gives = words.say(option.gives_up)
        yield words.text("options.under", said=words.text("options-sheet.gives-up", gives=gives))


def _minded(option: Option, words: Catalogue) -> str:
    faults = option.layout.faults
    if not faults:
        return words.text("options.minds-nothing")
    parts = (
        words.text("options.fault", fault=words.text(f"options.fault-{name}"), price=Money(cents))
        for name, cents in faults
    )
    return words.text("options.minds", faults=", ".join(parts))


def _answered(answer: Answer, chosen: Option, words: Catalogue) -> Iterator[str]:
    option = answer.option
    yield words.text("options.asked", laid=laid(option, words))
    if answer.broken:
        yield words.text("options.not-legal")
        yield from (words.text("options.under", said=words.say(one)) for one in answer.broken)
    else:
        yield words.text("options.legal")
    figures: tuple[tuple[str, Value, Value], ...] = (
        ("price", Money(option.price), Money(chosen.price)),
        ("cuts", option.cuts, chosen.cuts),
        ("modules", option.modules, chosen.modules),
        ("looks", Money(option.looks), Money(chosen.looks)),
    )
    for name, asked, picked in figures:
        what = Message(f"options-sheet.{name}")
        yield words.text("options.against", what=what, asked=asked, picked=picked)
    yield words.text("options.under", said=_minded(option, words))
