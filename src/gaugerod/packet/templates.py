"""The hole sheet, and full-size templates to drill by."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import show_length
from gaugerod.core.base.messages import Length
from gaugerod.core.checks.hole_measures import proud
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.corners import bites
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.rod_pages import signed
from gaugerod.core.sheet.template import Template, templates, turned_over
from gaugerod.core.sheet.template_pages import Pages, room_of, template_pages
from gaugerod.core.survey.walls import FittedHole, FittedWall
from gaugerod.packet.full_size import PAGES, full_size, may_be_cut, wait
from gaugerod.packet.paper import TICK, Block, Heading, Paper, Paragraph, Size, Table
from gaugerod.packet.phrases import length, paper

_WHOLE = {"imperial": 25.4, "metric": 10.0}
"""Whole steps at which a line stands for an edge that is far away. [mm]"""


def template_paper(
    plan: Plan, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return the hole sheet, and a full-size template for each piece that is drilled.

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
        The sheet, then each template face up and face down, but for what hangs already. A survey
        that is not fit to cut from has the sheet alone.
    """
    title = words.text("full-size.templates-title")
    made = paper(title, plan.job, (), words, revision=revision, size=size)
    blocks = (
        Heading(text=words.text("full-size.hole-sheet"), level=1),
        _centres(plan, words),
        *_depths(plan, words),
    )
    if not may_be_cut(plan):
        return full_size(made, (*blocks, wait(words)), ())
    found = _templates(plan, words, PAGES[made.size])
    drawings = (drawing for each in found for drawing in (*each.up, *each.down))
    return full_size(made, (*blocks, *_list(found, words)), drawings)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """A template, and its pages either way."""

    template: Template
    up: tuple[Drawing, ...]
    down: tuple[Drawing, ...]


def drilled(plan: Plan) -> tuple[tuple[FittedWall, FittedHole], ...]:
    """Return every hole of a plan with its wall."""
    return tuple((wall, hole) for wall in plan.walls.walls for hole in wall.holes)


def _centres(plan: Plan, words: Catalogue) -> Table:
    keys = (
        "paper.hole",
        "paper.hole-in",
        "paper.from-left",
        "paper.from-right",
        "paper.from-datum",
        "paper.drill",
        "full-size.checked",
    )
    return Table(
        header=tuple(words.text(key) for key in keys),
        rows=tuple(
            (
                hole.name,
                tags_of(plan, wall, hole),
                length(hole.x - wall.left.at(hole.y), words),
                length(wall.right.at(hole.y) - hole.x, words),
                signed(hole.y, words),
                show_length(hole.diameter, words.display, rounding="up"),
                TICK,
            )
            for wall, hole in drilled(plan)
        ),
        widths=(6, 4, 5, 5, 5.5, 4, 1.5),
        size="large",
    )


def _depths(plan: Plan, words: Catalogue) -> Iterator[Block]:
    lining = Length(plan.system.thickness + plan.system.bed)
    yield Heading(text=words.text("full-size.depths"), level=2)
    yield Paragraph(text=words.text("full-size.depths-note", lining=lining), style="plain")
    yield Table(
        header=tuple(
            words.text(key)
            for key in (
                "paper.hole",
                "paper.plate",
                "full-size.covers",
                "paper.depth",
                "full-size.proud",
                "full-size.trim-takes",
            )
        ),
        rows=tuple(
            (
                hole.name,
                length(hole.plate, words),
                length(None if hole.plate is None else (hole.plate - hole.diameter) / 2, words),
                length(hole.rough_in, words),
                length(proud(hole, wall.name, plan.job, plan.system), words),
                _limits(hole, words),
            )
            for wall, hole in drilled(plan)
        ),
        widths=(4, 3, 3, 3.5, 4, 5),
        size="clear",
    )


def tags_of(plan: Plan, wall: FittedWall, hole: FittedHole) -> str:
    """Return the tags of the pieces that a hole goes through, else the name of its wall."""
    tags = [
        piece.tag
        for piece in plan.pieces
        if piece.wall == wall.name
        and hole.name
        in {*(drill.name for drill in piece.holes), *(b.name for b in bites(piece, wall.holes))}
    ]
    return " ".join(tags) or wall.name


def _limits(hole: FittedHole, words: Catalogue) -> str:
    if hole.rough_in_limits is None:
        return words.text("paper.none")
    least, most = map(Length, hole.rough_in_limits)
    return words.text("full-size.between", least=least, most=most)


def _templates(plan: Plan, words: Catalogue, pages: Pages) -> tuple[_Drawn, ...]:
    room, step = room_of(pages, words), _WHOLE[words.display.system]
    return tuple(
        _Drawn(
            template=template,
            up=template_pages(template, words, pages=pages),
            down=template_pages(turned_over(template), words, pages=pages),
        )
        for wall in plan.walls.walls
        for piece in plan.pieces
        if piece.wall == wall.name and piece.tag not in plan.done
        for template in templates(piece, wall.holes, room=room, step=step)
    )


def _list(found: Sequence[_Drawn], words: Catalogue) -> Iterator[Block]:
    if not found:
        return
    yield Heading(text=words.text("full-size.templates"), level=2)
    yield Paragraph(text=words.text("full-size.templates-how"), style="plain")
    keys = ("card.module", "full-size.holes-in", "full-size.pages")
    yield Table(
        header=tuple(words.text(key) for key in keys),
        rows=tuple(
            (
                each.template.tag,
                ", ".join(drill.name for drill in each.template.drills),
                str(len(each.up)),
            )
            for each in found
        ),
        widths=(2, 6, 2),
        size="plain",
    )
    yield Paragraph(text=words.text("full-size.how"), style="boxed")
