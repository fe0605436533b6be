"""The readings of a job with what was read of them on the day."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from gaugerod.app.job_book import Revision
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.survey.naming import named
from gaugerod.web import urls
from gaugerod.web.walls import READINGS, entries_of, walls_of


@dataclass(frozen=True, slots=True, kw_only=True)
class RetakenRow:
    """A reading: its name, what it was planned on, and what it reads where it was taken again."""

    link: str
    name: str
    was: str
    reads: str
    again: bool


def retaken(revision: Revision, job: Job) -> tuple[tuple[str, tuple[RetakenRow, ...]], ...]:
    """Return the readings of each wall."""
    return tuple(
        (wall.name, tuple(rows_of(revision, job, number))) for number, wall in enumerate(job.wall)
    )


def rows_of(revision: Revision, job: Job, number: int) -> list[RetakenRow]:
    """Return the readings of one wall, in the order that they stand in."""
    wall = job.wall[number]
    entries = entries_of(walls_of(revision.document)[number], READINGS)
    now = now_of(revision.day, wall.name)
    return [
        RetakenRow(
            link=urls.to(urls.RETAKE, job=revision.id, wall=wall.name, place=place),
            name=name,
            was=str(entries[place]["reads"]),
            reads=str(now.get(name, entries[place])["reads"]),
            again=name in now,
        )
        for place, (name, _) in enumerate(named(wall))
    ]


def now_of(day: Mapping[str, Any], wall: str) -> dict[str, dict[str, Any]]:
    """Return the readings of a wall that were taken again, by the name of what they replace."""
    return {
        found["instead_of"]: found["reading"]
        for one in day.get("day", [])
        for found in one.get("reading", [])
        if found["wall"] == wall and "instead_of" in found
    }


def disagrees(readings: tuple[str, ...], w: float) -> Message:
    """Return what is said of readings that do not agree with the rest, where no slip is guessed."""
    return Message("survey.suspect", readings=", ".join(readings), w=abs(w))
