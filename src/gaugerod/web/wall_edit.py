"""Walls added, renamed, moved and taken out, with everything of the job that names them."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gaugerod.core.base.messages import Message
from gaugerod.web.form import Edit, FieldError
from gaugerod.web.site import CARDS, keep, kept
from gaugerod.web.walls import PARTS, READINGS, entries_of, walls_of

_NAME = re.compile(r"[A-Z]{1,2}")
_MOST = 24
_BY_WALL = ("centre", "phase")
"""Choices that are made wall by wall."""
_FOUND = ("line", "gap", "reading")
"""What is found on the day, and names its wall."""


@dataclass(frozen=True, slots=True, kw_only=True)
class GoesWith:
    """What a wall takes with it when it is taken out: how many of each, and the key of its name."""

    called: str
    count: int


def fresh_name(document: Mapping[str, Any], text: str, *, old: str = "") -> str:
    """Return a name that a wall may have.

    Raises
    ------
    FieldError
        It is no name of a wall, or another wall has it.
    """
    name = text.upper()
    others = {wall["name"] for wall in walls_of(document)} - {old}
    if not _NAME.fullmatch(name):
        raise FieldError("name", Message("web.wall.bad-name"))
    if name in others:
        raise FieldError("name", Message("web.wall.taken", name=name))
    return name


def add_wall(made: Edit, name: str, *, after: str) -> None:
    """Put a wall without readings to the right of another, or at the left of all."""
    walls = walls_of(made.document)
    if len(walls) >= _MOST:
        raise FieldError("name", Message("web.wall.too-many", most=_MOST))
    place = next((n for n, wall in enumerate(walls, 1) if wall["name"] == after), 0)
    walls.insert(place, {"name": name, READINGS: []})
    made.document["wall"] = walls
    order = _choices(made.document).get("wall_order")
    if order:
        order.append(name)
    _no_corner_beyond(made.document)


def rename_wall(made: Edit, old: str, new: str) -> None:
    """Give a wall another name, and have everything that names it say so."""
    for wall in walls_of(made.document):
        if wall["name"] == old:
            wall["name"] = new
    choices = _choices(made.document)
    for names in _lists(choices):
        names[:] = [new if name == old else name for name in names]
    for key in _BY_WALL:
        if isinstance(choices.get(key), dict):
            choices[key] = {new if n == old else n: value for n, value in choices[key].items()}
    for day in _days(made.day):
        _rename_day(day, old, new)
    cards = kept(made.day, CARDS)
    if cards:
        keep(made.day, CARDS, {_retagged(tag, old, new): steps for tag, steps in cards.items()})


def move_wall(made: Edit, name: str, by: int) -> None:
    """Move a wall past its neighbours: minus to the left, plus to the right."""
    walls = walls_of(made.document)
    here = next(n for n, wall in enumerate(walls) if wall["name"] == name)
    there = min(max(here + by, 0), len(walls) - 1)
    walls.insert(there, walls.pop(here))
    made.document["wall"] = walls
    _no_corner_beyond(made.document)


def take_out_wall(made: Edit, name: str) -> None:
    """Take a wall out, with its readings and every choice that was made for it."""
    made.document["wall"] = [w for w in walls_of(made.document) if w["name"] != name]
    choices = _choices(made.document)
    if isinstance(choices.get("accent"), list):
        choices["accent"] = [*_accents_without(choices["accent"], name, made.document)]
    for names in _lists(choices):
        names[:] = [one for one in names if one != name]
    for key in _BY_WALL:
        if isinstance(choices.get(key), dict):
            choices[key].pop(name, None)
    for key in ("wall_order", "accent", *_BY_WALL):
        if key in choices and not choices[key]:
            del choices[key]
    cards = kept(made.day, CARDS)
    if cards:
        rest = {tag: steps for tag, steps in cards.items() if not _is_of(tag, name)}
        keep(made.day, CARDS, rest)
    _no_corner_beyond(made.document)


def goes_with(document: Mapping[str, Any], day: Mapping[str, Any], name: str) -> list[GoesWith]:
    """Return what a wall takes with it."""
    wall = next(wall for wall in walls_of(document) if wall["name"] == name)
    found = {slot: len(entries_of(wall, slot)) for slot in (READINGS, *PARTS)}
    choices = _choices(document)
    found["choices"] = sum(name in (choices.get(key) or ()) for key in ("wall_order", *_BY_WALL))
    accents = _entries(choices.get("accent"))
    after = {**document, "wall": [w for w in walls_of(document) if w["name"] != name]}
    found["accents"] = len(accents) - len([*_accents_without(accents, name, after)])
    found["ticks"] = sum(_is_of(tag, name) for tag in kept(day, CARDS))
    walls = walls_of(document)
    if walls[-1] is wall and len(walls) > 1 and walls[-2].get("corner") == "outside":
        found["corners"] = 1
    return [GoesWith(called=called, count=count) for called, count in found.items() if count]


def hangs(day: Mapping[str, Any], name: str = "") -> bool:
    """Tell whether the days on site speak of a wall, or of any."""
    for one in day.get("day", []):
        tags = [*one.get("set", []), *one.get("cut", [])]
        walls = {str(found.get("wall")) for key in _FOUND for found in one.get(key, [])}
        if name in walls or any(_is_of(tag, name) for tag in tags):
            return True
        if not name and (tags or walls):
            return True
    return False


def _is_of(tag: str, wall: str) -> bool:
    """Tell whether a tag is of a wall: B2-1, B2, B and B-niche-sill are of wall B."""
    return tag.startswith(wall) and not tag[len(wall) : len(wall) + 1].isalpha()


def _retagged(tag: str, old: str, new: str) -> str:
    return new + tag[len(old) :] if _is_of(tag, old) else tag


def _rename_day(day: dict[str, Any], old: str, new: str) -> None:
    for key in ("set", "cut"):
        if key in day:
            day[key] = [_retagged(tag, old, new) for tag in day[key]]
    for key in _FOUND:
        for found in day.get(key, []):
            if found.get("wall") == old:
                found["wall"] = new
                # A reading without a name of its own goes by its wall.
                if str(found.get("instead_of", "")).startswith(f"{old} "):
                    found["instead_of"] = new + found["instead_of"][len(old) :]


def _accents_without(
    accents: list[Any], name: str, after: Mapping[str, Any]
) -> Iterator[dict[str, Any]]:
    """Yield the accents that still stand somewhere when a wall is gone."""
    left = {
        opening.get("name") for wall in walls_of(after) for opening in entries_of(wall, "opening")
    }
    for accent in _entries(accents):
        if accent.get("walls") != [name] and accent.get("inside", None) in {None, *left}:
            yield accent


def _lists(choices: Mapping[str, Any]) -> Iterator[list[Any]]:
    """Yield the lists of walls in the choices of a job."""
    accents = (accent.get("walls") for accent in _entries(choices.get("accent")))
    yield from (names for names in (choices.get("wall_order"), *accents) if isinstance(names, list))


def _entries(found: object) -> list[dict[str, Any]]:
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def _choices(document: Mapping[str, Any]) -> dict[str, Any]:
    found = document.get("choices")
    return found if isinstance(found, dict) else {}


def _days(day: Mapping[str, Any]) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = day.get("day", [])
    return found


def _no_corner_beyond(document: Mapping[str, Any]) -> None:
    """Right of the last wall there is no corner: an outside one there is forgotten."""
    *_, last = walls_of(document)
    if last.get("corner") == "outside":
        del last["corner"]
