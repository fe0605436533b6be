"""The customer's paper: what is done, how it will look, when, and for how much."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.field import low_point
from gaugerod.core.sheet.elevation import draw_face
from gaugerod.packet.care import care
from gaugerod.packet.choices import choices
from gaugerod.packet.paper import (
    Block,
    Columns,
    Form,
    Heading,
    PageBreak,
    Paper,
    Paragraph,
    Picture,
    Size,
)
from gaugerod.packet.phrases import day, facts, moment, paper, together, wall_name
from gaugerod.packet.picture import picture
from gaugerod.packet.products import besides, signs_in
from gaugerod.packet.terms import price_blocks

EXCLUSIONS = 6
"""How many exclusions the catalogue holds."""
_ALONE = 200.0  # [mm]; a page has that under a heading and a note
_TALL = 100.0  # [mm]; two pictures to a column


def customer_paper(
    plan: Plan, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return the proposal for the customer.

    Parameters
    ----------
    plan
        The plan.
    words
        Sentences, and how lengths and money are shown.
    revision
        Number of the revision, on every page.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        Scope, set-outs to choose from, price, payments, dates, what is not included, pictures,
        and how to care for it all.
        It holds prices that the customer pays: no cost, no hours, no share of either.
    """
    title = words.text("paper.customer-title")
    blocks = (
        Heading(text=title, level=1),
        *_where(plan, words),
        *_scope(plan, words),
        *choices(plan, words),
        *_terms(plan, words),
        PageBreak(),
        *_pictures(plan, words),
        PageBreak(),
        *care(plan, words),
    )
    return paper(title, plan.job, blocks, words, revision=revision, size=size)


def _where(plan: Plan, words: Catalogue) -> Iterator[Block]:
    if plan.job.scenario:
        yield Paragraph(text=plan.job.scenario, style="small")
    yield facts(
        (
            (words.text("paper.address"), plan.job.site.address),
            (words.text("paper.start"), day(plan.days.tasks[0].start, words)),
            (words.text("paper.finish"), day(plan.days.finish, words)),
        )
    )


def _scope(plan: Plan, words: Catalogue) -> Iterator[Block]:
    walls = "; ".join(wall_name(wall.name, words) for wall in plan.walls.walls)
    _, deck = low_point(plan.walls)
    lines = [
        words.text("paper.scope-line", module=plan.system.name, walls=walls),
        *(words.text("paper.scope-besides", what=text) for text in besides(plan, words)),
        words.text("paper.scope-height", height=Length(plan.layout.top - deck)),
    ]
    trims = [trim.name for trim in plan.system.trim]
    if trims:
        lines.append(words.text("paper.scope-trims", trims=", ".join(trims)))
    lines.append(words.text("paper.scope-spares", n=plan.order.spares))
    yield Heading(text=words.text("paper.scope"), level=2)
    for line in lines:
        yield Paragraph(text=line, style="plain")


def _terms(plan: Plan, words: Catalogue) -> Iterator[Block]:
    yield from price_blocks(plan, words)
    yield Heading(text=words.text("paper.after"), level=2)
    clock = moment(plan.days.no_water_until, words)
    yield Paragraph(text=words.text("paper.no-water", until=clock), style="strong")
    yield together(*_excluded(words), *_signatures(words))


def _excluded(words: Catalogue) -> Iterator[Block]:
    yield Heading(text=words.text("paper.excluded"), level=2)
    for number in range(1, EXCLUSIONS + 1):
        yield Paragraph(text=words.text(f"paper.excluded-{number}"), style="plain")


def _signatures(words: Catalogue) -> Iterator[Block]:
    fields = ("agreed", "change-date")
    yield Form(fields=tuple((words.text(f"paper.{key}"), 1) for key in fields))


def _pictures(plan: Plan, words: Catalogue) -> Iterator[Block]:
    yield Heading(text=words.text("paper.pictures"), level=1)
    yield Paragraph(text=words.text("paper.picture-note"), style="small")
    yield Picture(drawing=picture(plan, words), height=_ALONE)
    yield PageBreak()
    yield Heading(text=words.text("paper.pictures-of-walls"), level=1)
    yield Paragraph(text=words.text("paper.pictures-note"), style="small")
    yield Columns(blocks=tuple(_faces(plan, words)))


def _faces(plan: Plan, words: Catalogue) -> Iterator[Block]:
    for wall in plan.walls.walls:
        yield Heading(text=wall_name(wall.name, words), level=2)
        drawing = draw_face(wall, plan.layout, plan.pieces, words, signs=signs_in(plan))
        yield Picture(drawing=drawing, height=_TALL)
