"""The supplier's paper: what is wanted, how packed, where and by when; prices are left blank."""

from collections.abc import Iterator
from itertools import groupby

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import show_length
from gaugerod.core.base.messages import Length, Mass, Message, Volume
from gaugerod.core.job.materials import System
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.order import OrderLine, Quantities
from gaugerod.packet.paper import Block, Form, Heading, Paper, Paragraph, Size, Table
from gaugerod.packet.phrases import day, facts, moment, packed, paper

KINDS = ("lining", "trims", "setting", "backing", "supplies")
"""In this order a shop picks an order together."""
_KIND = {
    "modules": "lining",
    **dict.fromkeys(("adhesive", "mortar", "grout", "sealant", "membrane"), "setting"),
    "backer": "backing",
}
_LITRE = 1e6  # [mm3]


def supplier_paper(
    plan: Plan, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return what is to be bought for one alcove as a paper for its supplier.

    Parameters
    ----------
    plan
        The plan.
    words
        Sentences, and how lengths are shown.
    revision
        Number of the revision, on every page.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        Packages with what they hold, sorted by kind, what must be of one lot, where to and by
        when, and blanks for price and day. It shows no price of ours and none of the job.
    """
    title = words.text("supplier.title")
    blocks = (
        Heading(text=title, level=1),
        *_where(plan, words),
        *_lots(plan, words),
        *_wanted(plan, words),
        Paragraph(text=words.text("supplier.in-date"), style="plain"),
        Paragraph(text=words.text("supplier.no-price"), style="plain"),
        Form(fields=((words.text("supplier.quoted"), 1), (words.text("supplier.valid"), 1))),
    )
    return paper(title, plan.job, blocks, words, revision=revision, size=size)


def _where(plan: Plan, words: Catalogue) -> Iterator[Block]:
    if plan.job.scenario:
        yield Paragraph(text=plan.job.scenario, style="small")
    needed, order_by = plan.days.needed, plan.days.order_by
    yield facts(
        (
            (words.text("supplier.ship-to"), plan.job.site.address),
            (words.text("supplier.order-by"), day(order_by, words) if order_by else ""),
            (words.text("supplier.deliver-by"), moment(needed, words) if needed else ""),
            (words.text("supplier.ships"), words.text("supplier.at-once")),
        )
    )


def _lots(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Say what must be of one lot: what has a shade that the eye would see change."""
    bought = {line.id: line for line in plan.order.lines if line.count}
    for of in ("modules", "grout"):
        if of in bought and bought[of].count > 1:
            line = bought[of]
            text = words.text(
                "supplier.one-lot", name=line.name, n=line.count, pack=packed(line, words)
            )
            yield Paragraph(text=text, style="boxed" if of == "modules" else "strong")


def _wanted(plan: Plan, words: Catalogue) -> Iterator[Block]:
    def kind(line: OrderLine) -> str:
        return kind_of(line, plan.system)

    bought = sorted(
        (line for line in plan.order.lines if line.count), key=lambda line: KINDS.index(kind(line))
    )
    rows: list[tuple[str, ...]] = []
    for named, lines in groupby(bought, key=kind):
        head = words.text(f"supplier.kind-{named}")
        for line in lines:
            count = words.text("paper.packs", n=line.count, pack=packed(line, words))
            holds = package(line, plan.system, plan.order.quantities, words)
            rows.append((head, count, line.name, holds, "", ""))
            head = ""
    keys = ("kind", "count", "item", "holds", "each", "when")
    yield Table(
        header=tuple(words.text(f"supplier.{key}") for key in keys),
        rows=tuple(rows),
        widths=(4, 5, 9, 9, 4, 4),
        size="open",
    )


def kind_of(line: OrderLine, system: System) -> str:
    """Return the kind of goods that a line is of, one of `KINDS`."""
    if line.id in {f"trim-{trim.id}" for trim in system.trim}:
        return "trims"
    return _KIND.get(line.id, "supplies")


def package(line: OrderLine, system: System, used: Quantities, words: Catalogue) -> str:
    """Say what one package holds; empty where its name says it all."""
    of_each = {supply.id for supply in system.supply if supply.per == "hole size"}
    if line.id in of_each:
        sizes = (
            show_length(size, words.display, rounding="up")
            for size in dict.fromkeys(size for size, _ in used.hole_sizes)
        )
        return words.text("supplier.of-each", sizes=", ".join(sizes))
    held = dict(_held(system)).get(line.id)
    return "" if held is None else words.say(held)


def _held(system: System) -> Iterator[tuple[str, Message]]:
    wide, high = system.face
    each = {"width": Length(wide), "height": Length(high), "thick": Length(system.thickness)}
    yield "modules", Message("supplier.in-box", n=system.per_box, **each)
    for trim in system.trim:
        yield f"trim-{trim.id}", Message("supplier.long", length=Length(trim.stock))
    tubes = {"adhesive": system.adhesive, "sealant": system.sealant}
    for name, tube in tubes.items():
        if tube is not None:
            yield name, Message("supplier.amount", amount=Volume(tube.cartridge * _LITRE))
    if system.grout is not None:
        yield "grout", Message("supplier.amount", amount=Mass(system.grout.bag))
    if system.membrane is not None:
        yield "membrane", Message("supplier.amount", amount=Volume(system.membrane.bucket * _LITRE))
    if system.backer is not None:
        width, height = system.backer.size
        yield "backer", Message("supplier.board", width=Length(width), height=Length(height))
