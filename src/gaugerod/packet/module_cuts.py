"""How modules are parted for several pieces: a picture of each, its cuts in their order."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import partial

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Display
from gaugerod.core.cutting.pieces import SawCut
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.chain import bare_length
from gaugerod.core.sheet.modules import draw_module
from gaugerod.packet.paper import Beside, Block, Heading, Paragraph, Picture
from gaugerod.packet.products import signs_in

ACROSS = 3
"""So many modules stand side by side."""
TALL = 90.0
"""Height of a picture, at the most. [mm]"""
_WIDE = 57.0
"""Width of a picture on the narrower of the two sheets. [mm]"""
_CAPITALS = 2.6
"""Height of the capitals of ten points on paper. [mm]"""
_BESIDE = 4
"""Room at both sides of a module for the turns of its cuts, in capitals."""


def module_cuts(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the modules that are parted, in the order in which they are needed."""
    parted = [stock for stock in plan.cuts.stock if stock.sequence]
    if plan.walls.fit_for != "cut" or not parted:
        return
    wide, high = (max(stock.size[axis] for stock in parted) for axis in (0, 1))
    # The capitals of ten points, in millimetres of a module whose picture fits the column.
    height = _CAPITALS * max(wide / (_WIDE - _BESIDE * _CAPITALS), high / (TALL - 20))
    least = plan.system.cutting.least
    yield Heading(text=words.text("card.modules"), level=1)
    yield Paragraph(text=words.text("card.modules-how"), style="small")
    draw = partial(draw_module, height=height, least=least, wide=wide, signs=signs_in(plan))
    yield Beside(
        across=ACROSS,
        cells=tuple(
            (
                Picture(drawing=draw(stock), height=TALL),
                Paragraph(text=" · ".join(_cuts(stock.sequence, words)), style="clear"),
            )
            for stock in parted
        ),
    )


def _cuts(sequence: Sequence[SawCut], words: Catalogue) -> Iterator[str]:
    display = _fine(words.display)
    for number, cut in enumerate(sequence, start=1):
        key = "card.module-cut" if cut.stands else "card.module-cut-marked"
        yield words.text(
            key,
            n=number,
            side=words.text(f"card.{cut.start}"),
            at=bare_length(cut.at, display),
        )


def _fine(display: Display) -> Display:
    """Cuts that part a module fall on half steps: two pieces and a kerf may fill it."""
    return replace(display, step=display.step * Fraction(1, 2))
