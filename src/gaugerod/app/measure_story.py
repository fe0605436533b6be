"""What a survey says, on one screen that a setter reads in a minute: what is wrong comes first."""

from collections import Counter
from collections.abc import Iterable, Iterator

from gaugerod.app.measure_job import Measured
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Message
from gaugerod.core.sheet.survey_letters import lettered
from gaugerod.core.survey.closures import Closure

_MOST_CLOSURES = 7
_MOST_SUSPECTED = 7
_MOST_TO_TAKE = 3
_MOST_NOTES = 3
_MOST_FLATNESS = 4
_MOST_REASONS = 4

_VERDICTS = {
    "go": "measure.go",
    "look again": "measure.look-again",
    "re-measure": "measure.re-measure",
}


def tell_survey(made: Measured, words: Catalogue) -> list[str]:
    """Return what a survey says, line by line; never more than a screen."""
    lines = (
        Message("measure.job", name=made.job.name, scenario=made.job.scenario),
        *_closures(made.closures),
        *_part("measure.suspects", _suspected(made), _MOST_SUSPECTED),
        *_part("measure.take", made.walls.take, _MOST_TO_TAKE),
        *_part("measure.notes", made.walls.notes, _MOST_NOTES),
        *_part("measure.flatness", _flatness(made), _MOST_FLATNESS),
        *_verdict(made),
    )
    return [words.say(line) for line in lines]


def _closures(found: tuple[Closure, ...]) -> Iterator[Message]:
    if not found:
        yield Message("measure.no-closures")
        return
    count = Counter(closure.verdict for closure in found)
    head = Message(
        "measure.closures",
        go=count["go"],
        look_again=count["look again"],
        re_measure=count["re-measure"],
    )
    told = (Message(_VERDICTS[one.verdict], said=one.message) for one in found)
    yield from _part(head, told, _MOST_CLOSURES)


def _suspected(made: Measured) -> Iterator[Message]:
    for letter, suspect in lettered(made.walls.suspects):
        names = ", ".join(suspect.readings)
        said = suspect.guess or Message("survey.suspect", readings=names, w=abs(suspect.w))
        yield Message("measure.suspect", letter=letter, said=said)
        if suspect.decide is not None:
            yield Message("measure.under-it", said=suspect.decide)


def _flatness(made: Measured) -> Iterator[Message]:
    for wall in made.flatness:
        yield from wall.notes or (Message("measure.flat", wall=wall.wall),)


def _part(head: str | Message, lines: Iterable[Message], most: int) -> Iterator[Message]:
    told = list(_lines(lines, most))
    if told:
        yield head if isinstance(head, Message) else Message(head)
        yield from told


def _lines(lines: Iterable[Message], most: int) -> Iterator[Message]:
    """Yield at most so many lines, of which the last may stand for the rest."""
    told = list(lines)
    shown = told if len(told) <= most else told[: most - 1]
    yield from (Message("measure.line", said=line) for line in shown)
    if len(shown) < len(told):
        yield Message("measure.more", n=len(told) - len(shown))


def _verdict(made: Measured) -> Iterator[Message]:
    walls = made.walls
    # Suspects have been told above, with more.
    reasons = (reason for reason in walls.reasons if reason.key != "survey.suspect")
    yield Message("measure.fit-to-cut" if walls.fit_for == "cut" else "measure.fit-to-price")
    yield from _lines(reasons, _MOST_REASONS)
    if not walls.dof:
        yield Message("measure.unchecked", readings=len(walls.readings))
        return
    yield Message(
        "measure.statistics",
        readings=len(walls.readings),
        spare=walls.dof,
        factor=float(walls.sigma0**2),
        percent=round(100 * walls.chance, 1),
    )
