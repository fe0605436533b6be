"""What full-size papers have in common: the room of a page, and when there is to be none."""

from collections.abc import Iterable
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.template_pages import Pages
from gaugerod.packet.paper import Block, FullSize, PageBreak, Paper, Paragraph, Size

PAGES: dict[Size, Pages] = {
    "us-letter": Pages(upright=(185.5, 243.0), lying=(249.0, 179.5)),
    "a4": Pages(upright=(179.5, 260.5), lying=(266.5, 173.5)),
}
"""What a sheet has between its margins, less a millimetre and a hair on each side. [mm]"""


def full_size(made: Paper, blocks: Iterable[Block], drawings: Iterable[Drawing]) -> Paper:
    """Return a paper with blocks first, then drawings that fill a page each, never scaled."""
    pages = (block for drawing in drawings for block in (PageBreak(), FullSize(drawing=drawing)))
    return replace(made, sections=(*blocks, *pages), full_size=True)


def may_be_cut(plan: Plan) -> bool:
    """Tell whether anything may be drilled or struck by what the survey says."""
    return plan.walls.fit_for == "cut"


def wait(words: Catalogue) -> Block:
    """Return why there is nothing at full size."""
    return Paragraph(text=words.text("full-size.stay"), style="boxed")
