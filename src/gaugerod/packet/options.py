"""The options on paper: small elevations one above the other, each with what it costs."""

from collections.abc import Iterator, Mapping

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length, Money
from gaugerod.core.job.document import Job
from gaugerod.core.options.option import Option, Options
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.packet.paper import Block, Heading, Paper, Paragraph, Picture, Table
from gaugerod.packet.phrases import paper

_TALL = 50.0
"""Height of a small drawing: three to a sheet. [mm]"""


def options_paper(
    job: Job, options: Options, drawings: Mapping[str, Drawing], words: Catalogue
) -> Paper:
    """Return the options of one alcove as a paper.

    Parameters
    ----------
    job
        The job.
    options
        Its options.
    drawings
        A small drawing of each, by the option's letter.
    words
        Sentences, and how lengths and money are shown.

    Returns
    -------
    Paper
        The picks, each with its picture, then all options in one table.
    """
    blocks: list[Block] = [
        Heading(text=words.text("options-sheet.title"), level=1),
        *(block for one in picked_first(options) for block in _shown(one, drawings, words)),
        Heading(text=words.text("options-sheet.all"), level=2),
        _table(options, words),
        Paragraph(text=words.text("options-sheet.how"), style="small"),
    ]
    if job.choices.accent:
        blocks.append(Paragraph(text=words.text("options-sheet.dotted"), style="small"))
    return paper(words.text("options-sheet.title"), job, blocks, words, revision=1, size=None)


def picked_first(options: Options) -> tuple[Option, ...]:
    """Return the options with the picks before the others."""
    return tuple(sorted(options.options, key=lambda option: not option.picks))


def named(option: Option, words: Catalogue) -> str:
    """Return the letter of an option with the picks that it holds."""
    if not option.picks:
        return words.text("options-sheet.plain", id=option.id)
    return words.text("options-sheet.picked", id=option.id, picks=", ".join(option.picks))


def _shown(option: Option, drawings: Mapping[str, Drawing], words: Catalogue) -> Iterator[Block]:
    yield Heading(text=named(option, words), level=2)
    yield Picture(drawing=drawings[option.id], height=_TALL)
    yield Paragraph(text=laid(option, words), style="plain")
    yield Paragraph(text=words.say(option.reason), style="plain")
    gives = words.say(option.gives_up)
    yield Paragraph(text=words.text("options-sheet.gives-up", gives=gives), style="plain")


def laid(option: Option, words: Catalogue) -> str:
    """Return how an option is laid: turn, bond, first course, finish."""
    layout = option.layout
    first = next(r for r in layout.reasons if r.key in {"setout.first", "setout.row"})
    step = {-1: "options-sheet.step-left", 1: "options-sheet.step-right"}
    side = (layout.walls[0].row_shift > 0) - (layout.walls[0].row_shift < 0)
    bond = layout.bond
    if side and bond != "half":
        bond = words.text(step[side], bond=bond)
    return words.text(
        "options-sheet.laid-in-rows" if layout.pattern else "options-sheet.laid",
        turn=layout.turn,
        bond=bond,
        height=first.values["height"],
        top=Length(layout.top),
    )


def _table(options: Options, words: Catalogue) -> Table:
    keys = ("option", "hung", "price", "cuts", "modules", "looks", "smallest")
    return Table(
        header=tuple(words.text(f"options-sheet.{key}") for key in keys),
        rows=tuple(
            (
                named(option, words),
                f"{option.layout.turn}, {option.layout.bond}",
                words.show(Money(option.price)),
                str(option.cuts),
                str(option.modules),
                words.show(Money(option.looks)),
                words.show(Length(option.smallest)),
            )
            for option in picked_first(options)
        ),
        widths=(5, 4, 3, 2, 2, 3, 3),
        size="plain",
    )
