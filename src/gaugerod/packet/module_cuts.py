"""How modules are parted for several pieces: cut by cut, each from a factory edge."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Display
from gaugerod.core.cutting.pieces import SawCut
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.accents import signed
from gaugerod.core.sheet.chain import bare_length
from gaugerod.core.sheet.modules import ACROSS, draw_modules
from gaugerod.packet.paper import Block, Heading, Paragraph, Picture, Table
from gaugerod.packet.products import signs_in

ROW = 22.0
"""Height of a row of modules. [mm]"""
MOST = 200.0
"""Height of the picture, at the most. [mm]"""


def module_cuts(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the modules that are parted, in the order in which they are needed."""
    parted = [stock for stock in plan.cuts.stock if stock.sequence]
    if plan.walls.fit_for != "cut" or not parted:
        return
    yield Heading(text=words.text("card.modules"), level=1)
    yield Paragraph(text=words.text("card.modules-how"), style="small")
    signs = signs_in(plan)
    heads = ("card.module", "card.module-cuts")
    yield Table(
        header=tuple(words.text(key) for key in heads),
        rows=tuple(
            (signed(stock, signs), " ".join(_cuts(stock.sequence, words))) for stock in parted
        ),
        widths=(1, 11),
    )
    drawing = replace(draw_modules(parted, signs), title=words.text("card.modules"))
    rows = -(-len(parted) // ACROSS)
    yield Picture(drawing=drawing, height=min(rows * ROW, MOST))


def _cuts(sequence: Sequence[SawCut], words: Catalogue) -> Iterator[str]:
    display = _fine(words.display)
    for number, cut in enumerate(sequence, start=1):
        key = "card.module-cut" if cut.stands else "card.module-cut-marked"
        yield words.text(
            key,
            n=number,
            side=words.text(f"card.{cut.start}"),
            at=bare_length(cut.at, display),
            near=_tags(cut.near, words),
            far=_tags(cut.far, words),
        )


def _tags(tags: Sequence[str], words: Catalogue) -> str:
    return ", ".join(tags) or words.text("card.module-rest")


def _fine(display: Display) -> Display:
    """Cuts that part a module fall on half steps: two pieces and a kerf may fill it."""
    return replace(display, step=display.step * Fraction(1, 2))
