"""The walls of a job as it is kept: half-filled, and still to be read."""

from collections.abc import Mapping
from typing import Any, get_args

from gaugerod.app.job_book import BookError
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Fixture, Hole, Hollow, Opening
from gaugerod.core.job.fields import Document
from gaugerod.core.job.readings import Reading

READINGS = "readings"
KINDS: Mapping[str, type[Document]] = {
    get_args(model.model_fields["kind"].annotation)[0]: model
    for model in get_args(get_args(Reading)[0])
}
"""The kinds of readings, each with its model."""
PARTS: Mapping[str, type[Document]] = {
    "hole": Hole,
    "opening": Opening,
    "fixture": Fixture,
    "hollow": Hollow,
}
"""What pierces a wall or sits on it, by its table in the job."""
_CALLED = {"hole": "hole-centre", "opening": "opening-edge", "fixture": "place-of-fixture"}
"""Readings whose kind is also the name of a part."""
_UNITS: Mapping[object, Unit] = {"in": "in", "mm": "mm", "cm": "cm"}


def unit_of(document: Mapping[str, Any]) -> Unit:
    """Return the unit of plain numbers of a job."""
    return _UNITS.get(document.get("unit"), "mm")


def walls_of(document: Mapping[str, Any]) -> list[dict[str, Any]]:
    """Return the walls of a job; what is no wall is left out."""
    walls = document.get("wall")
    found = walls if isinstance(walls, list) else []
    return [wall for wall in found if isinstance(wall, dict) and "name" in wall]


def wall_of(document: Mapping[str, Any], name: str) -> dict[str, Any]:
    """Return a wall by its name.

    Raises
    ------
    BookError
        There is none.
    """
    for wall in walls_of(document):
        if wall["name"] == name:
            return wall
    raise BookError(no_place())


def entries_of(wall: Mapping[str, Any], slot: str) -> list[dict[str, Any]]:
    """Return the readings of a wall, or one of its tables of parts."""
    found = wall.get(slot)
    entries = found if isinstance(found, list) else []
    return [entry if isinstance(entry, dict) else {} for entry in entries]


def model_of(slot: str, kind: str) -> type[Document]:
    """Return the model of an entry.

    Raises
    ------
    BookError
        There is no such slot, or no such kind of reading.
    """
    models = KINDS if slot == READINGS else PARTS
    name = kind if slot == READINGS else slot
    if name not in models:
        raise BookError(no_place())
    return models[name]


def called(slot: str, kind: str) -> str:
    """Return the key under which an entry's name stands in the catalogue."""
    if slot != READINGS:
        return slot
    return _CALLED.get(kind, kind.replace(" ", "-")) if kind in KINDS else "unknown"


def no_place() -> Message:
    """Return what is said of a place that a job has not."""
    return Message("web.trouble.no-such-place")
