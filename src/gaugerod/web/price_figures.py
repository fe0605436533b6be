"""What a job says of its own price: which figures may be said, what each stands for."""

from collections.abc import Iterator, Mapping
from typing import Any

from gaugerod.app.plan_job import Ready
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Money
from gaugerod.core.job.own_figures import OwnHours, OwnPrice, Pricing
from gaugerod.core.job.own_prices import prices_of
from gaugerod.core.job.products import products_of
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.terms import Allowance, Charge
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.pricing.hours import MINUTES, task_hours
from gaugerod.core.pricing.price import TaskHours
from gaugerod.core.pricing.sale import burdened
from gaugerod.web.figures import (
    BACK,
    ENTRY,
    Box,
    Kind,
    Own,
    checked,
    entries,
    filled,
    in_percent,
    is_of,
    named,
    put,
    text_of,
    told,
)
from gaugerod.web.form import Form
from gaugerod.web.naming import name_in_links

PRICING = "pricing"
FIGURE, TASK, ITEM, ALLOWANCE, CHARGE = "figure", "task", "item", "allowance", "charge"
NEW = ""
_WHY = Box(name="why")
KINDS: Mapping[str, Kind] = {
    TASK: Kind(
        path=(PRICING, TASK),
        model=OwnHours,
        named="task",
        boxes=(
            Box(name="hours", sort="number", needed=True),
            Box(name="low", sort="number"),
            Box(name="high", sort="number"),
            _WHY,
        ),
    ),
    ITEM: Kind(
        path=(PRICING, ITEM),
        model=OwnPrice,
        named="item",
        boxes=(Box(name="price", sort="number", needed=True), _WHY),
    ),
    ALLOWANCE: Kind(
        path=(PRICING, ALLOWANCE),
        model=Allowance,
        named="id",
        boxes=(
            Box(name="name", needed=True),
            Box(name="unit", needed=True),
            Box(name="included", sort="number", needed=True),
            Box(name="cost", sort="number", needed=True),
            Box(name="beyond", sort="number", needed=True),
        ),
    ),
    CHARGE: Kind(
        path=(PRICING, CHARGE),
        model=Charge,
        boxes=(Box(name="what", needed=True), Box(name="price", sort="number", needed=True)),
    ),
}
_SHARES = ("markup", "margin", "contingency", "tax")
FIGURES = ("labour", *_SHARES, "freight", "subs", "permit", "disposal")
_OTHER = {"markup": "margin", "margin": "markup"}


def say(document: dict[str, Any], form: Form, table: str, unit: Unit) -> None:
    """Write what a form says of the price into a job.

    Raises
    ------
    FieldError
        A box has to be mended.
    """
    entry = form.text(ENTRY)
    if table == FIGURE:
        _figure(document, form, entry)
        return
    kind = KINDS[table]
    if table == ALLOWANCE and not entry:
        entry = name_in_links(form.text("name"), form.key)
    told(document, kind, form, unit, **({kind.named: entry} if kind.named else {}))


def own_prices(
    document: Mapping[str, Any], plan: Plan, ready: Ready, sent: Form | None
) -> Mapping[str, tuple[Own, ...]]:
    """Return all that may be said of a price, by its table, with what each stands for."""
    words = ready.words
    shop = rates_for(ready.rates, ready.job.model_copy(update={PRICING: Pricing()}))
    return {
        TASK: tuple(_tasks(document, plan, shop, words, sent)),
        ITEM: tuple(_items(document, plan, ready, sent)),
        FIGURE: tuple(_figures(document, plan, shop, words, sent)),
        ALLOWANCE: tuple(_allowances(document, shop, words, sent)),
        CHARGE: tuple(_charges(document, shop, words, sent)),
    }


def _figure(document: dict[str, Any], form: Form, name: str) -> None:
    if form.text(BACK):
        put(document, (PRICING, name), None)
        return
    kind = Kind(path=(PRICING,), model=Pricing, boxes=(_box(name),))
    made = dict(document.get(PRICING, {}))
    made.pop(_OTHER.get(name, ""), None)
    document[PRICING] = {**made, **checked(kind, form, "mm")}


def _tasks(
    document: Mapping[str, Any], plan: Plan, shop: RateTable, words: Catalogue, sent: Form | None
) -> Iterator[Own]:
    before = {one.id: one for one in task_hours(plan.order, plan.cuts, shop, plan.system)}
    said = named(document, KINDS[TASK].path, "task")
    for task in plan.price.tasks:
        mine = task.id in said
        was = before.get(task.id)
        yield Own(
            table=TASK,
            entry=task.id,
            title=task.name,
            now=_hours(task, words),
            instead=(_hours(was, words) if was else words.text("web.figure.none")) if mine else "",
            own=mine,
            boxes=filled(
                KINDS[TASK].boxes,
                said.get(task.id, {}),
                sent if is_of(sent, TASK, task.id) else None,
            ),
        )


def _hours(task: TaskHours, words: Catalogue) -> str:
    return words.text(
        "web.figure.hours" if task.people == 1 else "web.figure.hours-together",
        hours=task.minutes / MINUTES,
        low=task.low / MINUTES,
        high=task.high / MINUTES,
        people=task.people,
    )


def _items(
    document: Mapping[str, Any], plan: Plan, ready: Ready, sent: Form | None
) -> Iterator[Own]:
    listed = prices_of(products_of(ready.job.choices, ready.materials))
    said = named(document, KINDS[ITEM].path, "item")
    for line in plan.order.lines:
        if line.id not in listed:
            continue
        mine = line.id in said
        yield Own(
            table=ITEM,
            entry=line.id,
            title=line.name,
            now=ready.words.show(Money(line.unit_price)),
            instead=ready.words.show(Money(listed[line.id])) if mine else "",
            own=mine,
            boxes=filled(
                KINDS[ITEM].boxes,
                said.get(line.id, {}),
                sent if is_of(sent, ITEM, line.id) else None,
            ),
        )


def _figures(
    document: Mapping[str, Any], plan: Plan, shop: RateTable, words: Catalogue, sent: Form | None
) -> Iterator[Own]:
    said = document.get(PRICING, {})
    for name in FIGURES:
        other = _OTHER.get(name, "")
        mine = name in said
        instead = _figure_of(shop, name, words) or _figure_of(shop, other, words, named=True)
        yield Own(
            table=FIGURE,
            entry=name,
            title=words.text(f"web.figure.figure-{name}"),
            now=_figure_of(plan.rates, name, words) or words.text("web.figure.not-so"),
            instead=instead if mine else "",
            own=mine,
            boxes=filled((_box(name),), said, sent if is_of(sent, FIGURE, name) else None),
        )


def _figure_of(rates: RateTable, name: str, words: Catalogue, *, named: bool = False) -> str:
    value = burdened(rates) if name == "labour" else getattr(rates, name, None)
    if value is None:
        return ""
    shown = in_percent(value) + " %" if name in _SHARES else words.show(Money(value))
    return f"{shown} {words.text(f'web.figure.figure-{name}')}" if named else shown


def _allowances(
    document: Mapping[str, Any], shop: RateTable, words: Catalogue, sent: Form | None
) -> Iterator[Own]:
    said = named(document, KINDS[ALLOWANCE].path, "id")
    of_shop = {one.id: one for one in shop.allowance}
    boxes = KINDS[ALLOWANCE].boxes
    for id_ in dict.fromkeys((*of_shop, *said)):
        one = Allowance.model_validate(said[id_]) if id_ in said else of_shop[id_]
        there = said.get(id_) or _written(of_shop[id_])
        replaced = (
            _allowed(of_shop[id_], words) if id_ in of_shop else words.text("web.figure.none")
        )
        yield Own(
            table=ALLOWANCE,
            entry=id_,
            title=one.name,
            now=_allowed(one, words),
            instead=replaced if id_ in said else "",
            own=id_ in said,
            boxes=filled(boxes, there, sent if is_of(sent, ALLOWANCE, id_) else None),
        )
    yield Own(
        table=ALLOWANCE,
        entry=NEW,
        title=words.text("web.figure.new-allowance"),
        boxes=filled(boxes, {}, sent if is_of(sent, ALLOWANCE, NEW) else None),
    )


def _written(one: Allowance) -> dict[str, Any]:
    """Return an allowance of the shop as a job would have it: money in whole units."""
    money = {name: getattr(one, name) / 100 for name in ("cost", "beyond")}
    return {**one.model_dump(), **money}


def _allowed(one: Allowance, words: Catalogue) -> str:
    return words.text(
        "web.figure.allowed",
        included=one.included,
        unit=one.unit,
        cost=Money(one.cost),
        beyond=Money(one.beyond),
    )


def _charges(
    document: Mapping[str, Any], shop: RateTable, words: Catalogue, sent: Form | None
) -> Iterator[Own]:
    boxes = KINDS[CHARGE].boxes
    for charge in shop.charge:
        yield Own(
            table=CHARGE,
            entry="shop",
            title=charge.what,
            now=words.show(Money(charge.price)),
            boxes=(),
        )
    for number, there in enumerate(entries(document, KINDS[CHARGE].path), 1):
        charge = Charge.model_validate(there)
        yield Own(
            table=CHARGE,
            entry=str(number),
            title=charge.what,
            now=words.show(Money(charge.price)),
            instead=words.text("web.figure.none"),
            own=True,
            was=text_of(there),
            boxes=filled(boxes, there, sent if is_of(sent, CHARGE, str(number)) else None),
        )
    yield Own(
        table=CHARGE,
        entry=NEW,
        title=words.text("web.figure.new-charge"),
        boxes=filled(boxes, {}, sent if is_of(sent, CHARGE, NEW) else None),
    )


def _box(name: str) -> Box:
    return Box(name=name, sort="percent" if name in _SHARES else "number", needed=True)
