"""The survey page: each wall's faults, every reading beside what the fit makes of it."""

from collections.abc import Iterator
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import FINE_IMPERIAL, FINE_METRIC, show_length
from gaugerod.core.base.messages import Length
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.faults import draw_faults
from gaugerod.core.sheet.survey_shape import shape_of_wall
from gaugerod.core.survey.walls import FittedReading, Suspect, Walls
from gaugerod.packet.paper import Beside, Block, Columns, Heading, Paragraph, Picture, Table
from gaugerod.packet.phrases import wall_name

ACROSS = 3
"""So many walls stand side by side."""
_MOST_BESIDE = 26
"""So many readings of a wall go on the sheet under its picture."""
_WIDE, _TALL = 57.0, 75.0
"""Room for a picture on the narrower of the two sheets. [mm]"""
_CAPITALS = 2.6
"""Height of the capitals of ten points on paper. [mm]"""
_AROUND = 5
"""Room at both sides of a wall for its figures, in capitals."""


def readings(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the survey: its verdict, suspects boxed, faults made larger, residuals."""
    walls = plan.walls
    yield Heading(text=words.text("paper.survey"), level=1)
    fit = "paper.fit-for-cut" if walls.fit_for == "cut" else "paper.fit-for-price"
    yield Paragraph(text=words.text(fit), style="strong" if walls.fit_for == "cut" else "boxed")
    for reason in walls.reasons:
        yield Paragraph(text=words.say(reason), style="plain")
    for suspect in walls.suspects:
        yield Paragraph(text=_suspect(suspect, words), style="boxed")
    yield Paragraph(text=words.text("paper.faults"), style="small")
    yield Beside(across=ACROSS, cells=tuple(_faults(walls, words)))
    yield Paragraph(text=words.text("paper.residuals", n=walls.dof), style="small")
    tables = dict(_tables(walls, words))
    if max(len(table.rows) for table in tables.values()) <= _MOST_BESIDE:
        yield Beside(across=ACROSS, cells=tuple((table,) for table in tables.values()))
    else:
        named = ((Heading(text=name, level=2), table) for name, table in tables.items())
        yield Columns(blocks=tuple(block for pair in named for block in pair))


def _faults(walls: Walls, words: Catalogue) -> Iterator[tuple[Block, ...]]:
    """Yield each wall in one scale, its figures as large as ten points."""
    wide = max(wall.right.offset - wall.left.offset for wall in walls.walls)
    high = max(max(y for _, y in wall.outline) for wall in walls.walls)
    high -= min(min(y for _, y in wall.outline) for wall in walls.walls)
    room = _AROUND * _CAPITALS
    height = _CAPITALS * max(wide / (_WIDE - room), high / (_TALL - room))
    drawn = [draw_faults(wall, words, height=height) for wall in walls.walls]
    frame = (max(one.bounds.width for one in drawn), max(one.bounds.height for one in drawn))
    for wall, drawing in zip(walls.walls, drawn, strict=True):
        factor = words.text("survey-sheet.factor", factor=shape_of_wall(wall).factor)
        yield (
            Heading(text=wall_name(wall.name, words), level=2),
            Picture(drawing=_framed(drawing, *frame), height=_TALL),
            Paragraph(text=factor, style="plain"),
        )


def _framed(drawing: Drawing, width: float, height: float) -> Drawing:
    """Return a drawing in the middle of a frame, so that all come out in one scale. [mm]."""
    box = drawing.bounds
    x, y = (width - box.width) / 2, (height - box.height) / 2
    bounds = Box(left=box.left - x, bottom=box.bottom - y, right=box.right + x, top=box.top + y)
    return replace(drawing, bounds=bounds)


def _tables(walls: Walls, words: Catalogue) -> Iterator[tuple[str, Table]]:
    suspected = {name for suspect in walls.suspects for name in suspect.readings}
    keys = ("paper.reading", "paper.read", "paper.off", "paper.off-in-sigma")
    for wall in walls.walls:
        mine = [reading for reading in walls.readings if reading.wall == wall.name]
        yield (
            wall_name(wall.name, words),
            Table(
                header=tuple(words.text(key) for key in keys),
                rows=tuple(_row(reading, words) for reading in mine),
                widths=(7.5, 7.6, 6.9, 4.2),
                boxed=tuple(i for i, reading in enumerate(mine) if reading.id in suspected),
            ),
        )


def _suspect(suspect: Suspect, words: Catalogue) -> str:
    said = words.text("paper.suspect", readings=", ".join(suspect.readings), w=abs(suspect.w))
    return said if suspect.guess is None else f"{said} {words.say(suspect.guess)}"


def _row(reading: FittedReading, words: Catalogue) -> tuple[str, str, str, str]:
    # Half the step of the readings: a residual is finer than what is read.
    fine = FINE_IMPERIAL if words.display.system == "imperial" else FINE_METRIC
    return (
        reading.id.removeprefix(f"{reading.wall} "),
        words.show(Length(reading.value)),
        show_length(reading.residual, fine),
        f"{round(reading.w, 1) + 0.0:+.1f}",
    )
