"""The survey on paper: what closes and what does not, then each wall as it was measured."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.document import Job
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.patch_map import draw_patch, draw_shims
from gaugerod.core.sheet.survey_drawing import draw_survey
from gaugerod.core.sheet.survey_letters import lettered
from gaugerod.core.survey.closures import Closure
from gaugerod.core.survey.flatness import WallFlatness
from gaugerod.core.survey.walls import Walls
from gaugerod.packet.paper import Block, Heading, PageBreak, Paper, Paragraph, Picture, Size, Table
from gaugerod.packet.phrases import paper, wall_name

_TALL = 205.0
"""Height of a drawing that leaves room for its heading. [mm]"""
_WITH_NOTES = 165.0
"""Height of a drawing that leaves room for its suspects too. [mm]"""
_VERDICTS = {
    "go": "survey-sheet.go",
    "look again": "survey-sheet.look-again",
    "re-measure": "survey-sheet.re-measure",
}


def survey_drawings(job: Job, walls: Walls, words: Catalogue) -> tuple[Drawing, ...]:
    """Return one drawing for each wall."""
    return tuple(
        draw_survey(wall, fitted, walls.suspects, words)
        for wall, fitted in zip(job.wall, walls.walls, strict=True)
    )


def flatness_drawings(
    walls: Walls, flatness: Sequence[WallFlatness], words: Catalogue
) -> tuple[Drawing, ...]:
    """Return the patch maps and the shims of all walls whose depths were read."""
    fitted = {wall.name: wall for wall in walls.walls}
    return tuple(
        drawing
        for flat in flatness
        for drawing in (
            *(
                draw_patch(fitted[flat.wall], patch, surface.surface, words)
                for surface in flat.surfaces
                for patch in surface.patches
            ),
            *([draw_shims(fitted[flat.wall], flat.shims, words)] if flat.shims else []),
        )
    )


def survey_paper(
    job: Job,
    closures: Sequence[Closure],
    walls: Walls,
    flatness: Sequence[WallFlatness],
    words: Catalogue,
    *,
    size: Size | None = None,
) -> Paper:
    """Return the survey of one alcove as a paper.

    Parameters
    ----------
    job
        The job.
    closures
        Its closures, the worst first.
    walls
        Its walls.
    flatness
        How flat they are, where that was read.
    words
        Sentences, and how lengths are shown.
    size
        Size of the sheets; else what goes with the reader's units.

    Returns
    -------
    Paper
        What the survey is fit for, closures, suspects and what to take, then a page for each
        wall with its readings where they were taken, and one for each patch map.
    """
    blocks = (
        *_verdict(walls, words),
        *_suspects(walls, words),
        *_list("measure.take", [words.say(one) for one in walls.take], words),
        *_closures(closures, words),
        *_list("measure.notes", [words.say(one) for one in walls.notes], words),
        *_list(
            "measure.flatness",
            [words.say(note) for wall in flatness for note in wall.notes],
            words,
        ),
        *_walls(job, walls, words),
        *_maps(walls, flatness, words),
    )
    title = words.text("survey-sheet.title")
    return paper(title, job, blocks, words, revision=1, size=size)


def _verdict(walls: Walls, words: Catalogue) -> Iterator[Block]:
    yield Heading(text=words.text("survey-sheet.title"), level=1)
    cut = walls.fit_for == "cut"
    fit = words.text("measure.fit-to-cut" if cut else "measure.fit-to-price")
    yield Paragraph(text=fit, style="strong" if cut else "boxed")
    for reason in walls.reasons:
        if reason.key != "survey.suspect":
            yield Paragraph(text=words.say(reason), style="plain")


def _suspects(walls: Walls, words: Catalogue) -> Iterator[Block]:
    if not walls.suspects:
        return
    yield Heading(text=words.text("measure.suspects"), level=2)
    rows = []
    for letter, suspect in lettered(walls.suspects):
        names = ", ".join(suspect.readings)
        said = [
            words.text("survey.suspect", readings=names, w=abs(suspect.w)),
            *(words.say(one) for one in (suspect.guess, suspect.decide) if one is not None),
        ]
        rows.append((letter, " ".join(said)))
    yield Table(
        header=(), rows=tuple(rows), widths=(1, 24), boxed=tuple(range(len(rows))), size="plain"
    )


def _closures(closures: Sequence[Closure], words: Catalogue) -> Iterator[Block]:
    if not closures:
        return
    yield Heading(text=words.text("survey-sheet.closures"), level=2)
    yield Table(
        header=(words.text("survey-sheet.verdict"), words.text("survey-sheet.sum")),
        rows=tuple((words.text(_VERDICTS[c.verdict]), words.say(c.message)) for c in closures),
        widths=(3, 16),
        boxed=tuple(i for i, c in enumerate(closures) if c.verdict == "re-measure"),
    )


def _list(head: str, lines: Sequence[str], words: Catalogue) -> Iterator[Block]:
    if lines:
        yield Heading(text=words.text(head), level=2)
        for line in lines:
            yield Paragraph(text=line, style="plain")


def _walls(job: Job, walls: Walls, words: Catalogue) -> Iterator[Block]:
    for drawing, wall in zip(survey_drawings(job, walls, words), walls.walls, strict=True):
        mine = {reading.id for reading in walls.readings if reading.wall == wall.name}
        held = [
            words.text("measure.suspect", letter=letter, said=suspect.guess)
            for letter, suspect in lettered(walls.suspects)
            if suspect.guess is not None and mine & set(suspect.readings)
        ]
        yield PageBreak()
        yield Heading(text=wall_name(wall.name, words), level=1)
        yield Picture(drawing=drawing, height=_WITH_NOTES if held else _TALL)
        for line in held:
            yield Paragraph(text=line, style="boxed")
        yield Paragraph(text=words.text("survey-sheet.how"), style="small")


def _maps(walls: Walls, flatness: Sequence[WallFlatness], words: Catalogue) -> Iterator[Block]:
    for drawing in flatness_drawings(walls, flatness, words):
        shims = drawing.name.endswith("-shims")
        yield PageBreak()
        yield Heading(text=drawing.title, level=1)
        yield Picture(drawing=drawing, height=_TALL)
        how = words.text("patch-map.shims-how" if shims else "patch-map.how")
        yield Paragraph(text=how, style="small")
