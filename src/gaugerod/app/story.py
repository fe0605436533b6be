"""The story of a plan in plain words: what was decided, and why, on one screen."""

from collections.abc import Collection, Iterator, Sequence
from datetime import date, datetime
from itertools import islice
from math import ceil
from typing import get_args

from gaugerod.app.price_story import tell_price
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message, Money
from gaugerod.core.checks.finding import Finding
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import ModuleCount
from gaugerod.core.cutting.products import counts_of
from gaugerod.core.job.products import MODULES, modules_of
from gaugerod.core.job.rules import Severity
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.odds import LimitOdds
from gaugerod.core.takeoff.order import OrderLine
from gaugerod.core.takeoff.reuse import Reuse
from gaugerod.packet.phrases import day, rule_name
from gaugerod.packet.products import besides, of_product

MOST_LINES = 80
"""More than any job has said yet: a stop, so that no job floods the screen."""
_MOST_TO_BUY = 8
_MOST_OF_A_KIND = 6
_MOST_WALLS = 12


def forbidding(made: Plan) -> tuple[Finding, ...]:
    """Return the findings that forbid cutting."""
    return tuple(found for found in made.findings if found.severity == "forbid")


def tell(made: Plan, words: Catalogue) -> list[str]:
    """Return the story of a plan, line by line."""
    lines = [
        *_job(made, words),
        *_survey(made),
        *made.layout.reasons[:_MOST_WALLS],
        *_options(made),
        *_pieces(made),
        *_order(made),
        *tell_price(made),
        *_days(made),
        *_findings(made),
        *_day_by_day(made, words),
    ]
    return [words.say(line) for line in lines[:MOST_LINES]]


def _job(made: Plan, words: Catalogue) -> Iterator[Message]:
    job, layout = made.job, made.layout
    yield Message("app.story.job", name=job.name, scenario=job.scenario)
    yield Message("app.story.material", name=made.system.name, turn=layout.turn, bond=layout.bond)
    for text in islice(besides(made, words), _MOST_OF_A_KIND):
        yield Message("app.story.besides", what=text)


def _survey(made: Plan) -> Iterator[Message]:
    walls = made.walls
    yield Message(
        "app.story.survey",
        readings=len(walls.readings),
        spare=walls.dof,
        scatter=float(walls.sigma0),
    )
    key = {"cut": "app.story.fit-to-cut", "price": "app.story.fit-to-price"}[walls.fit_for]
    yield Message(key)
    yield from walls.reasons[:_MOST_OF_A_KIND]
    for suspect in walls.suspects[:_MOST_OF_A_KIND]:
        yield from filter(None, (suspect.guess, suspect.decide))
    yield from walls.notes[:_MOST_OF_A_KIND]
    if walls.take:
        yield Message("app.story.take", reading=walls.take[0])


def _options(made: Plan) -> Iterator[Message]:
    options = made.options
    yield Message("app.story.options", tried=options.tried, options=len(options.options))
    for option in options.options:
        if option.picks:
            chosen = option.id == made.chosen.id
            yield Message(
                "app.story.chosen" if chosen else "app.story.pick",
                picks=", ".join(option.picks),
                price=Money(option.price),
                reason=option.reason,
            )
        if option.id == made.chosen.id and made.chosen.odds.limits:
            yield _weakest(made.chosen.odds.limits)


def _weakest(limits: Sequence[LimitOdds]) -> Message:
    """Say which limit of the chosen layout is the likeliest to fail on the day."""
    weakest = min(limits, key=lambda one: one.chance)
    return Message(
        "app.story.odds",
        wall=weakest.wall,
        fails=ceil(100 * (1 - weakest.chance)),
        limit=Message(f"setout.limit-{weakest.limit}"),
    )


def _pieces(made: Plan) -> Iterator[Message]:
    pieces = (*made.pieces, *pieces_inside(made.insides))
    cut = sum(not piece.whole for piece in pieces)
    in_place = sum(piece.measure_in_place for piece in pieces)
    yield Message("app.story.pieces", pieces=len(pieces), cut=cut, in_place=in_place)
    counts = counts_of(made.cuts, made.system.id)[:_MOST_OF_A_KIND]
    for count, reuse in zip(counts, made.reuse, strict=False):
        for said in _modules(count, reuse):
            yield of_product(made, count.product, said)


def _modules(count: ModuleCount, reuse: Reuse) -> Iterator[Message]:
    """Say how few modules do, and how that is known."""
    yield Message(
        "app.story.fewest" if count.proven else "app.story.not-proven",
        modules=count.modules,
        bound=count.lower_bound,
    )
    if reuse.alone > count.modules:
        saved = Money(reuse.saved)
        yield Message("app.story.reuse", pieces=reuse.alone, modules=count.modules, saved=saved)
    if reuse.edgeless < count.modules:
        yield Message("app.story.edgeless", edgeless=reuse.edgeless)


def _order(made: Plan) -> Iterator[Message]:
    order = made.order
    lines = {one.product: modules_of(one.product) for one in order.products}
    lines[made.system.id] = MODULES
    for one in order.products[:_MOST_OF_A_KIND]:
        yield of_product(made, one.product, _boxes(order.lines, lines[one.product]))
    if order.trim_counts:
        trims = sum(count.lengths for count in order.trim_counts)
        bound = sum(count.lower_bound for count in order.trim_counts)
        proven = all(count.proven for count in order.trim_counts)
        key = "app.story.trims" if proven else "app.story.trims-not-proven"
        yield Message(key, trims=trims, bound=bound)
    yield from _to_buy(order.lines, lines.values())


def _boxes(lines: Sequence[OrderLine], modules: str) -> Message:
    for line in lines:
        if line.id == modules:
            return Message(
                "app.story.boxes", boxes=line.count, pack=_pack(line), arithmetic=line.arithmetic
            )
    return Message("app.story.boxes-none")


def _pack(line: OrderLine) -> Message:
    return Message(f"takeoff.one-{line.pack}" if line.count == 1 else f"paper.{line.pack}")


def _to_buy(lines: Sequence[OrderLine], modules: Collection[str]) -> Iterator[Message]:
    """Yield the rest of the order, line by line; the file has it all."""
    others = [line for line in lines if line.id not in modules and line.count]
    shown = others if len(others) <= _MOST_TO_BUY else others[: _MOST_TO_BUY - 1]
    for line in shown:
        yield Message(
            "app.story.buy",
            count=line.count,
            pack=_pack(line),
            name=line.name,
            arithmetic=line.arithmetic,
        )
    if len(shown) < len(others):
        yield Message("app.story.buy-more", n=len(others) - len(shown))


def _days(made: Plan) -> Iterator[Message]:
    days = made.days
    yield Message(
        "app.story.days",
        start=_moment(min(task.start for task in days.tasks)),
        finish=_moment(days.finish),
        water=_moment(days.no_water_until),
    )
    if days.order_by and days.needed:
        yield Message(
            "app.story.order-by", day=days.order_by.isoformat(), needed=_moment(days.needed)
        )
    yield from days.notes[:_MOST_OF_A_KIND]


def _day_by_day(made: Plan, words: Catalogue) -> Iterator[Message]:
    """Yield a line for each day of work: when, and what."""
    worked: dict[date, list[tuple[datetime, datetime, str]]] = {}
    for task in made.days.tasks:
        for since, until in task.stretches:
            worked.setdefault(since.date(), []).append((since, until, task.name))
    for on in sorted(worked):
        first = min(since for since, _, _ in worked[on])
        yield Message(
            "app.story.day",
            day=day(first, words),
            opens=f"{first:%H:%M}",
            closes=f"{max(until for _, until, _ in worked[on]):%H:%M}",
            tasks="; ".join(name for _, _, name in worked[on]),
        )


def _moment(when: datetime) -> str:
    return f"{when:%Y-%m-%d %H:%M}"


def _findings(made: Plan) -> Iterator[Message]:
    by = {of: [one for one in made.findings if one.severity == of] for of in get_args(Severity)}
    count = {of: len(found) for of, found in by.items() if of != "tick"}
    yield Message("app.story.findings", **count)
    for found in by["forbid"][:_MOST_OF_A_KIND]:
        what = {"statement": found.statement, "advice": found.advice}
        if found.where:
            yield Message("app.story.forbids", where=found.where, **what)
        else:
            yield Message("app.story.forbids-all", **what)
    yield from _warnings(by["warn"])
    for of, key in (("ask", "app.story.asks"), ("caution", "app.story.cautions")):
        names = dict.fromkeys(rule_name(found.rule) for found in by[of])
        if names:
            yield Message(key, names=", ".join(names))


def _warnings(found: Sequence[Finding]) -> Iterator[Message]:
    """Say each rule that is not kept in one line, with the places."""
    places: dict[str, list[str]] = {}
    for one in found:
        places.setdefault(one.statement, []).append(one.where)
    for statement, where in list(places.items())[:_MOST_OF_A_KIND]:
        if any(where):
            yield Message("app.story.warns", where=", ".join(where), statement=statement)
        else:
            yield Message("app.story.warns-all", statement=statement)
