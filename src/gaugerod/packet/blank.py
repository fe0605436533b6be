"""Blank survey sheets to write on in the room, black on white."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.sheet.survey_blank import blank_survey
from gaugerod.packet.paper import Block, Heading, PageBreak, Paper, Paragraph, Picture, Size
from gaugerod.packet.phrases import wall_name

_WALLS = ("L", "B", "R")


def blank_paper(words: Catalogue, *, size: Size | None = None) -> Paper:
    """Return blank sheets for the three walls of an alcove and for one more.

    Parameters
    ----------
    words
        Sentences, and how lengths are shown.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        A page for each wall: two sheets printed on both sides.
    """
    imperial = words.display.system == "imperial"
    own: Size = "us-letter" if imperial else "a4"
    unit = "blank-sheet.inches" if imperial else "blank-sheet.millimetres"
    return Paper(
        title=words.text("blank-sheet.title"),
        job=words.text("blank-sheet.whose"),
        revision=words.text(unit),
        page=words.text("paper.page"),
        of=words.text("paper.of"),
        size=size or own,
        sections=tuple(_pages(words)),
    )


def _pages(words: Catalogue) -> Iterator[Block]:
    titles = [wall_name(name, words) for name in _WALLS]
    for name, title in zip(
        (*_WALLS, "more"), (*titles, words.text("blank-sheet.more")), strict=True
    ):
        drawing = blank_survey(name, words)
        yield PageBreak()
        yield Heading(text=title, level=1)
        yield Picture(drawing=drawing, height=drawing.bounds.height)
        yield Paragraph(text=words.text("blank-sheet.how"), style="plain")
