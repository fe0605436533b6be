"""The gauge rod on paper: its lines as a table, and the rod itself at full size."""

from collections.abc import Sequence
from fractions import Fraction
from math import floor

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import MM_PER_INCH, round_length
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.chain import bare_length
from gaugerod.core.sheet.rod import STEP, RodMark, rod_marks
from gaugerod.core.sheet.rod_pages import mark_name, rod_pages, signed
from gaugerod.packet.full_size import PAGES, full_size, may_be_cut, wait
from gaugerod.packet.paper import TICK, Block, Heading, Paper, Paragraph, Size, Table
from gaugerod.packet.phrases import paper


def rod_paper(
    plan: Plan, words: Catalogue, *, revision: int = 1, size: Size | None = None
) -> Paper:
    """Return the gauge rod: a table of its lines, then the rod itself at full size.

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
        Heights are exact in the drawing and in one column; each figure to mark by is rounded
        once, from the datum. A survey that is not fit to cut from has the table alone.
    """
    title = words.text("full-size.rod-title")
    made = paper(title, plan.job, (), words, revision=revision, size=size)
    marks = rod_marks(plan.walls, plan.layout)
    names = tuple(wall.name for wall in plan.walls.walls)
    blocks: list[Block] = [
        Heading(text=title, level=1),
        Paragraph(text=words.text("full-size.rod-table"), style="plain"),
        _lines(marks, names, words),
    ]
    if not may_be_cut(plan):
        return full_size(made, (*blocks, wait(words)), ())
    strips = rod_pages(marks, names, words, room=PAGES[made.size].upright)
    said = words.text("full-size.rod-strips", n=len(strips))
    blocks += [
        Paragraph(text=said, style="plain"),
        Paragraph(text=words.text("full-size.how"), style="boxed"),
    ]
    return full_size(made, blocks, strips)


def _lines(marks: Sequence[RodMark], walls: Sequence[str], words: Catalogue) -> Table:
    unit = "in" if words.display.system == "imperial" else "mm"
    exact = f"full-size.rod-exact-{unit}"
    keys = ("paper.line", exact, "paper.from-datum", "full-size.over-line")
    none = words.text("paper.none")
    return Table(
        header=(*(words.text(key) for key in keys), *walls),
        rows=tuple(
            (
                mark_name(mark, words),
                _exact(mark.height, words),
                signed(mark.height, words),
                _over(mark.height, words),
                *(TICK if wall in mark.walls else none for wall in walls),
            )
            for mark in reversed(marks)
        ),
        widths=(5.5, 4.2, 4.9, 7.2, *(1.2 for _ in walls)),
        size="large",
    )


def _exact(height: float, words: Catalogue) -> str:
    """Write a height as it is: to a thousandth of an inch, or to a hundredth of a millimetre."""
    way = "full-size.down" if height < 0 else "full-size.up"
    if words.display.system == "imperial":
        return words.text(way, height=f"{abs(height) / float(MM_PER_INCH):.3f}")
    return words.text(way, height=f"{abs(height):.2f}")


def _over(height: float, words: Catalogue) -> str:
    """Write a height from the sub-datum at or below it, so that both sum to its figure."""
    step = Fraction(str(STEP[words.display.system]))
    figure = round_length(height, words.display)
    station = floor(figure / step) * step
    rest = bare_length(figure - station, words.display)
    if not station:
        return words.text("full-size.over-datum", rest=rest)
    return words.text("full-size.over", rest=rest, station=signed(float(station), words))
