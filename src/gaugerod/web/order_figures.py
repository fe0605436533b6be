"""What a job says of its own order: what is there, what was ordered and came, lines beside it."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gaugerod.app.plan_job import Ready
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Length, Money
from gaugerod.core.job.document import OffcutAtHand, OnHand, WorkingWeek
from gaugerod.core.job.own_order import Bought, Extra
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.deliveries import standing
from gaugerod.packet.phrases import packed
from gaugerod.web.figures import (
    BACK,
    ENTRY,
    Box,
    Kind,
    Own,
    checked,
    entries,
    filled,
    is_of,
    named,
    put,
    text_of,
    told,
)
from gaugerod.web.form import Form
from gaugerod.web.naming import name_in_links

ON_HAND, BOUGHT, EXTRA, OFFCUT, DELIVERED = "on_hand", "bought", "extra", "offcut", "delivered"
NEW = ""
KINDS: Mapping[str, Kind] = {
    ON_HAND: Kind(
        path=(ON_HAND,),
        model=OnHand,
        named="item",
        boxes=(Box(name="count", sort="number", needed=True), Box(name="same_lot", sort="tick")),
    ),
    BOUGHT: Kind(
        path=(BOUGHT,),
        model=Bought,
        boxes=(
            Box(name="item", sort="choice", needed=True),
            Box(name="count", sort="number", needed=True),
            Box(name="ordered", sort="date"),
            Box(name="arrived", sort="date"),
            Box(name="lot"),
            Box(name="price", sort="number"),
            Box(name="supplier"),
        ),
    ),
    EXTRA: Kind(
        path=(EXTRA,),
        model=Extra,
        named="id",
        boxes=(
            Box(name="name", needed=True),
            Box(name="count", sort="number", needed=True),
            Box(name="price", sort="number", needed=True),
        ),
    ),
    OFFCUT: Kind(
        path=(OFFCUT,),
        model=OffcutAtHand,
        named="name",
        boxes=(
            Box(name="name", needed=True),
            Box(name="size", sort="pair", needed=True),
            Box(name="keeps", sort="sides"),
            Box(name="lot"),
            Box(name="material", sort="choice"),
        ),
    ),
    DELIVERED: Kind(
        path=("calendar", DELIVERED),
        model=WorkingWeek,
        boxes=(Box(name=DELIVERED, sort="date", needed=True),),
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Standings:
    """How far a line of the order is, in words."""

    ordered: int
    arrived: int
    to_order: int
    over: int
    lots: str
    dearer: str
    cheaper: str


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """A line of the order; `pay` is nothing where what is on hand will do.

    `on_hand` is the form of what is there; of a line beside the plan there is none.
    """

    id: str
    name: str
    count: int
    pack: str
    unit_price: str
    pay: str
    arithmetic: str
    standing: Standings
    on_hand: Own | None


def say(document: dict[str, Any], form: Form, table: str, unit: Unit) -> None:
    """Write what a form says of the order into a job.

    Raises
    ------
    FieldError
        A box has to be mended.
    """
    kind = KINDS[table]
    if table == DELIVERED:
        made = {} if form.text(BACK) else checked(kind, form, unit, **_week(document))
        put(document, kind.path, made.get(DELIVERED))
    elif table == EXTRA:
        entry = form.text(ENTRY) or name_in_links(form.text("name"), form.key)
        told(document, kind, form, unit, id=entry)
    elif table == ON_HAND:
        told(document, kind, form, unit, item=form.text(ENTRY))
    else:
        told(document, kind, form, unit)


def rows(
    document: Mapping[str, Any], plan: Plan, ready: Ready, sent: Form | None
) -> Iterator[OrderRow]:
    """Yield the lines of the order."""
    words, job = ready.words, ready.job
    said, boxes = named(document, (ON_HAND,), "item"), KINDS[ON_HAND].boxes
    beside = {extra.id for extra in job.extra}
    far = {one.item: one for one in standing(plan.order.lines, job.bought)}
    for line in plan.order.lines:
        mine, one = line.id in said, far[line.id]
        own = Own(
            table=ON_HAND,
            entry=line.id,
            title=words.text("web.figure.there"),
            now=_there(said.get(line.id, {}), words) if mine else words.text("web.figure.none"),
            own=mine,
            boxes=filled(
                boxes, said.get(line.id, {}), sent if is_of(sent, ON_HAND, line.id) else None
            ),
        )
        yield OrderRow(
            id=line.id,
            name=line.name,
            count=line.count,
            pack=packed(line, words),
            unit_price=words.show(Money(line.unit_price)),
            pay=words.show(Money(line.count * line.unit_price)) if line.count else "",
            arithmetic=words.say(line.arithmetic),
            standing=Standings(
                ordered=one.ordered,
                arrived=one.arrived,
                to_order=one.to_order,
                over=one.over,
                lots=", ".join(one.lots),
                dearer=words.show(Money(one.dearer)) if one.dearer > 0 else "",
                cheaper=words.show(Money(-one.dearer)) if one.dearer < 0 else "",
            ),
            on_hand=None if line.id in beside else own,
        )


def own_order(
    document: Mapping[str, Any], plan: Plan, ready: Ready, sent: Form | None
) -> Mapping[str, tuple[Own, ...]]:
    """Return what may be said of an order beside its lines, by its table."""
    return {
        BOUGHT: tuple(_bought(document, plan, ready, sent)),
        EXTRA: tuple(_extra(document, ready, sent)),
        OFFCUT: tuple(_offcuts(document, plan, ready.words, sent)),
        DELIVERED: (_delivered(document, ready, sent),),
    }


def _week(document: Mapping[str, Any]) -> dict[str, Any]:
    week = document.get("calendar")
    return dict(week) if isinstance(week, dict) else {}


def _there(entry: Mapping[str, Any], words: Catalogue) -> str:
    key = "web.figure.there-same-lot" if entry.get("same_lot") is True else "web.figure.there-count"
    return words.text(key, count=float(entry["count"]))


def _bought(
    document: Mapping[str, Any], plan: Plan, ready: Ready, sent: Form | None
) -> Iterator[Own]:
    words = ready.words
    names = {line.id: line.name for line in plan.order.lines}
    boxes, path = KINDS[BOUGHT].boxes, KINDS[BOUGHT].path
    for number, (there, one) in enumerate(
        zip(entries(document, path), ready.job.bought, strict=True), 1
    ):
        options = {"item": _options({one.item: names.get(one.item, one.item)} | names)}
        yield Own(
            table=BOUGHT,
            entry=str(number),
            title=f"{one.count} × {names.get(one.item, one.item)}",
            now=", ".join(_told(one, words)),
            own=True,
            was=text_of(there),
            boxes=filled(boxes, there, sent if is_of(sent, BOUGHT, str(number)) else None, options),
        )
    yield Own(
        table=BOUGHT,
        entry=NEW,
        title=words.text("web.figure.new-bought"),
        boxes=filled(
            boxes, {}, sent if is_of(sent, BOUGHT, NEW) else None, {"item": _options(names)}
        ),
    )


def _told(one: Bought, words: Catalogue) -> Iterator[str]:
    if one.arrived:
        yield words.text("web.figure.arrived", on=str(one.arrived))
    elif one.ordered:
        yield words.text("web.figure.ordered", on=str(one.ordered))
    else:
        yield words.text("web.figure.no-day")
    if one.lot:
        yield words.text("web.figure.of-lot", lot=one.lot)
    if one.price is not None:
        yield words.text("web.figure.each", price=Money(one.price))


def _extra(document: Mapping[str, Any], ready: Ready, sent: Form | None) -> Iterator[Own]:
    words = ready.words
    said, boxes = named(document, (EXTRA,), "id"), KINDS[EXTRA].boxes
    for one in ready.job.extra:
        yield Own(
            table=EXTRA,
            entry=one.id,
            title=one.name,
            now=words.text("web.figure.times", count=one.count, price=Money(one.price)),
            own=True,
            boxes=filled(boxes, said[one.id], sent if is_of(sent, EXTRA, one.id) else None),
        )
    yield Own(
        table=EXTRA,
        entry=NEW,
        title=words.text("web.figure.new-extra"),
        boxes=filled(boxes, {"count": 1}, sent if is_of(sent, EXTRA, NEW) else None),
    )


def _offcuts(
    document: Mapping[str, Any], plan: Plan, words: Catalogue, sent: Form | None
) -> Iterator[Own]:
    said, boxes = named(document, (OFFCUT,), "name"), KINDS[OFFCUT].boxes
    products = {"": words.text("web.figure.main-product")}
    products |= {one.id: one.name for one in plan.products.systems[1:]}
    options = {"material": _options(products)}
    for one in plan.job.offcut:
        size = " × ".join(words.show(Length(side)) for side in one.size)
        yield Own(
            table=OFFCUT,
            entry=one.name,
            title=one.name,
            now=size,
            own=True,
            boxes=filled(
                boxes, said[one.name], sent if is_of(sent, OFFCUT, one.name) else None, options
            ),
        )
    yield Own(
        table=OFFCUT,
        entry=NEW,
        title=words.text("web.figure.new-offcut"),
        boxes=filled(boxes, {}, sent if is_of(sent, OFFCUT, NEW) else None, options),
    )


def _delivered(document: Mapping[str, Any], ready: Ready, sent: Form | None) -> Own:
    words, there = ready.words, ready.job.calendar.delivered
    return Own(
        table=DELIVERED,
        entry=NEW,
        title=words.text("web.figure.delivered-day"),
        now=str(there) if there else words.text("web.figure.not-said"),
        own=there is not None,
        boxes=filled(
            KINDS[DELIVERED].boxes,
            _week(document),
            sent if is_of(sent, DELIVERED, NEW) else None,
        ),
    )


def _options(names: Mapping[str, str]) -> tuple[tuple[str, str], ...]:
    return tuple(names.items())
