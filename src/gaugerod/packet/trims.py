"""Trims to cut: from which length, where each piece begins, how long, and what for."""

from collections.abc import Iterator
from itertools import groupby

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.order import TrimCut, TrimStock
from gaugerod.packet.paper import Block, Heading, Paragraph, Table
from gaugerod.packet.phrases import length, together, wall_name

_MOST_TOGETHER = 24
"""So many pieces go on one sheet for sure."""


def trims_to_cut(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the stock lengths of all trims, each with its pieces in the order they are cut."""
    if plan.walls.fit_for != "cut" or not plan.order.trims:
        return
    names = {trim.id: trim.name for trim in plan.system.trim}
    rows: list[tuple[str, ...]] = []
    for trim, lengths in groupby(plan.order.trims, key=_trim):
        for number, stock in enumerate(lengths, start=1):
            bar = words.text("card.trim-number", name=names[trim], number=number)
            rows += _rows(stock, bar, words)
    heads = ("card.trim-from", "card.trim-begins", "card.trim-long", "card.trim-for")
    head = Heading(text=words.text("card.trims"), level=2)
    how = Paragraph(text=words.text("card.trims-how"), style="small")
    table = Table(
        header=(*(words.text(key) for key in heads), words.text("card.trim-left")),
        rows=tuple(rows),
        widths=(5, 2, 2, 6, 2),
        size="plain",
    )
    if len(rows) > _MOST_TOGETHER:
        yield from (head, how, table)
    else:
        yield together(head, how, table)


def _trim(stock: TrimStock) -> str:
    return stock.trim


def _rows(stock: TrimStock, bar: str, words: Catalogue) -> Iterator[tuple[str, ...]]:
    for cut in stock.runs:
        first, last = cut is stock.runs[0], cut is stock.runs[-1]
        yield (
            bar if first else "",
            length(cut.start, words),
            length(cut.length, words),
            "".join(_for(cut, words)),
            length(stock.offcut, words) if last else "",
        )


def _for(cut: TrimCut, words: Catalogue) -> Iterator[str]:
    yield words.text(
        "card.trim-place",
        wall=wall_name(cut.wall, words),
        place=words.text(f"takeoff.at-{cut.place}"),
    )
    if cut.parts > 1:
        yield words.text("card.trim-part", part=cut.part, parts=cut.parts)
    for end in cut.mitred:
        side = {"start": "left", "end": "right"}[end] if cut.place == "top" else "top"
        yield words.text("card.trim-mitre", at=words.text(f"card.at-{side}"))
