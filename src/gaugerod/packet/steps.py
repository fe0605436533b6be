"""The order of work on a piece in words, and the tools with their cautions."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.cutting.steps import ORDER, THROUGH, steps_of, tool_for
from gaugerod.core.job.materials import Cutting
from gaugerod.core.pipeline import Plan


def order_of_work(piece: Piece, cutting: Cutting, words: Catalogue) -> Iterator[str]:
    """Say in what order a piece is worked; straight cuts alone are made as their figures stand."""
    steps = steps_of(piece, cutting)
    if len(steps) > 1 and steps[-1].work not in THROUGH:
        named = ", ".join(words.text(f"card.work-{step.work}") for step in steps)
        yield words.text("card.order", steps=named)


def tools(plan: Plan, words: Catalogue) -> str:
    """Say which tool straight cuts, shaped cuts and holes take, and what is to be minded."""
    cutting = plan.system.cutting
    used = dict.fromkeys(tool_for(work, cutting) for work in ORDER)
    straight, shaped, hole = (
        words.text(f"card.tool-{tool_for(work, cutting).replace(' ', '-')}")
        for work in ("length", "notch", "hole")
    )
    said = [words.text("card.tools", straight=straight, shaped=shaped, hole=hole)]
    said += [words.text(f"card.mind-{tool.replace(' ', '-')}") for tool in used]
    return " ".join(said)
