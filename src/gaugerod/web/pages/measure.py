"""Measure: each wall as a picture to tap on, and what the readings say of each other."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fastapi import APIRouter, Request
from markupsafe import Markup
from starlette.responses import Response

from gaugerod.app.job_book import Revision
from gaugerod.app.measure_job import Measured
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.sheet.survey_letters import lettered
from gaugerod.core.survey.naming import named
from gaugerod.packet.survey import survey_drawings
from gaugerod.web import urls
from gaugerod.web.desk import Desk, measured, words_for
from gaugerod.web.form import DeskHere
from gaugerod.web.head import JobHead, head_of
from gaugerod.web.photos import Hook, Shot, hook, inside_wall
from gaugerod.web.render import drawn, show
from gaugerod.web.retaken import disagrees
from gaugerod.web.sketch import NEW, Spot, spots_of
from gaugerod.web.strip import Stop, strip_at_hand
from gaugerod.web.walls import KINDS, PARTS, READINGS, called, entries_of, walls_of

ROUTES = APIRouter()
_SAID_APART = {"kind", "reads", "name"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """A reading or a part of a wall: what it is, what it says, whether it is suspected."""

    link: str
    kind: str
    name: str
    place: str
    reads: str
    letter: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to a form for something new."""

    kind: str
    link: str


@dataclass(frozen=True, slots=True, kw_only=True)
class WallView:
    """One wall: the picture to tap on, the drawing with all readings, both as lists."""

    name: str
    spots: tuple[Spot, ...]
    drawing: Markup
    readings: tuple[Row, ...]
    parts: tuple[Row, ...]
    ways: tuple[Way, ...]
    more: tuple[Way, ...]
    photos: Hook
    inside: tuple[Shot, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What one sum of readings says: go, look again or re-measure."""

    kind: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Survey:
    """What the readings say of each other; `wrong` stands alone where they can't be read yet."""

    wrong: str = ""
    fit_for: str = ""
    closures: tuple[Verdict, ...] = ()
    suspects: tuple[tuple[str, str, str], ...] = ()
    take: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class MeasurePage:
    """The survey of a job; `next` is the place that asks for a hand first."""

    head: JobHead
    strip: tuple[Stop, ...]
    survey: Survey
    next: tuple[str, Spot] | None
    walls: tuple[WallView, ...]


@ROUTES.get(urls.MEASURE)
def page(request: Request, desk: DeskHere, job: str) -> Response:
    """Show the survey of a job."""
    revision = desk.book.head("job", job)
    words = words_for(desk, revision)
    made, survey = _survey(desk, revision, words)
    walls = tuple(_walls(desk, revision, made, words))
    asked = ((wall.name, spot) for wall in walls for spot in wall.spots if spot.asked)
    context = MeasurePage(
        head=head_of(revision, "measure"),
        strip=strip_at_hand(desk, revision, words),
        survey=survey,
        next=next(asked, None),
        walls=walls,
    )
    return show(request, "measure", context, words)


def _survey(desk: Desk, revision: Revision, words: Catalogue) -> tuple[Measured | None, Survey]:
    try:
        made = measured(desk, revision)
    except GaugerodError as error:
        return None, Survey(wrong=words.say(error.message))
    walls = made.walls
    return made, Survey(
        fit_for=walls.fit_for,
        closures=tuple(
            Verdict(kind=one.verdict.replace(" ", "-"), said=words.say(one.message))
            for one in made.closures
        ),
        suspects=tuple(
            (
                letter,
                words.say(one.guess or disagrees(one.readings, one.w)),
                words.say(one.decide) if one.decide else "",
            )
            for letter, one in lettered(walls.suspects)
        ),
        take=tuple(words.say(one) for one in walls.take),
        notes=tuple(words.say(one) for one in (*walls.reasons, *walls.notes)),
    )


def _walls(
    desk: Desk, revision: Revision, made: Measured | None, words: Catalogue
) -> Iterator[WallView]:
    suspects = made.walls.suspects if made else ()
    letters = {name: letter for letter, one in lettered(suspects) for name in one.readings}
    photos = desk.book.photos(revision.id)
    drawings = survey_drawings(made.job, made.walls, words) if made else ()
    for number, wall in enumerate(walls_of(revision.document)):
        names = [name for name, _ in named(made.job.wall[number])] if made else []
        drawing = drawn(desk.writers.drawing(drawings[number]) if made else "")
        to = {"job": revision.id, "wall": wall["name"]}
        yield WallView(
            name=wall["name"],
            spots=spots_of(revision.id, revision.document, wall),
            drawing=drawing,
            readings=tuple(_rows(to, wall, READINGS, names, letters)),
            parts=tuple(row for slot in PARTS for row in _rows(to, wall, slot, [], {})),
            ways=tuple(
                Way(kind=slot, link=urls.to(urls.ENTRY, **to, slot=slot, place=NEW))
                for slot in PARTS
            ),
            more=tuple(
                Way(
                    kind=called(READINGS, kind),
                    link=urls.to(urls.ENTRY, **to, slot=READINGS, place=NEW, kind=kind),
                )
                for kind in KINDS
            ),
            photos=hook(desk, revision.id, "wall", wall["name"], back=_back(to)),
            inside=inside_wall(photos, wall["name"]),
        )


def _back(to: Mapping[str, str]) -> str:
    return f"{urls.to(urls.MEASURE, job=to['job'])}#wall-{to['wall']}"


def _rows(
    to: Mapping[str, str],
    wall: Mapping[str, Any],
    slot: str,
    names: list[str],
    letters: Mapping[str, str],
) -> Iterator[Row]:
    for number, entry in enumerate(entries_of(wall, slot)):
        name = names[number] if names else ""
        yield Row(
            link=urls.to(urls.ENTRY, **to, slot=slot, place=number),
            kind=called(slot, str(entry.get("kind", ""))),
            name=name,
            place=", ".join(_said(entry)),
            reads=str(entry.get("reads", entry.get("name", ""))),
            letter=letters.get(name, ""),
        )


def _new(to: Mapping[str, str], kind: str) -> Way:
    link = urls.to(urls.ENTRY, **to, slot=READINGS, place=NEW, kind=kind)
    return Way(kind=called(READINGS, kind), link=link)


def _said(entry: Mapping[str, Any]) -> Iterator[str]:
    """Yield what an entry says beside its value, as a job file has it."""
    for key, value in entry.items():
        if key not in _SAID_APART:
            shown = ", ".join(map(str, value)) if isinstance(value, list) else str(value)
            yield f"{key} = {shown}"
