"""The survey page: every reading beside what the fit makes of it, suspects boxed."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import FINE_IMPERIAL, FINE_METRIC, show_length
from gaugerod.core.base.messages import Length
from gaugerod.core.pipeline import Plan
from gaugerod.core.survey.walls import FittedReading, Suspect, Walls
from gaugerod.packet.paper import Block, Columns, Heading, Paragraph, Table
from gaugerod.packet.phrases import wall_name


def readings(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the survey with its residuals, wall by wall."""
    walls = plan.walls
    yield Heading(text=words.text("paper.survey"), level=1)
    fit = "paper.fit-for-cut" if walls.fit_for == "cut" else "paper.fit-for-price"
    yield Paragraph(text=words.text(fit), style="strong" if walls.fit_for == "cut" else "boxed")
    for reason in walls.reasons:
        yield Paragraph(text=words.say(reason), style="plain")
    for suspect in walls.suspects:
        yield Paragraph(text=_suspect(suspect, words), style="boxed")
    yield Paragraph(text=words.text("paper.residuals", n=walls.dof), style="small")
    yield Columns(blocks=tuple(_tables(walls, words)))


def _tables(walls: Walls, words: Catalogue) -> Iterator[Block]:
    for wall in walls.walls:
        mine = [reading for reading in walls.readings if reading.wall == wall.name]
        suspected = {name for suspect in walls.suspects for name in suspect.readings}
        yield Heading(text=wall_name(wall.name, words), level=2)
        yield Table(
            header=tuple(
                words.text(key)
                for key in ("paper.reading", "paper.read", "paper.off", "paper.off-in-sigma")
            ),
            rows=tuple(_row(reading, words) for reading in mine),
            widths=(9, 5, 4, 3),
            boxed=tuple(i for i, reading in enumerate(mine) if reading.id in suspected),
        )


def _suspect(suspect: Suspect, words: Catalogue) -> str:
    said = words.text("paper.suspect", readings=", ".join(suspect.readings), w=abs(suspect.w))
    return said if suspect.guess is None else f"{said} {words.say(suspect.guess)}"


def _row(reading: FittedReading, words: Catalogue) -> tuple[str, str, str, str]:
    # Half the step of the readings: a residual is finer than what is read.
    fine = FINE_IMPERIAL if words.display.system == "imperial" else FINE_METRIC
    return (
        reading.id,
        words.show(Length(reading.value)),
        show_length(reading.residual, fine),
        f"{round(reading.w, 1) + 0.0:+.1f}",
    )
