"""What was done on site, as a book keeps it beside a job: days, ticks and lots.

The days are a document of the core. Ticks and lots are of the pages alone and stand beside it.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from gaugerod.core.base.lengths import Unit

DAYS = ("format", "unit", "day")
TICKS, LOTS, CARDS, GATES = "ticks", "lots", "cards", "gates"
_FOUND = ("line", "gap", "broken", "reading")


_WHERE = {
    "gap": ("wall", "course", "side", "reads"),
    "line": ("wall", "course", "left", "right"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """Something that was found on site, and what is said of it."""

    what: str
    values: Mapping[str, str]

    @property
    def name(self) -> str:
        """What its photos are kept under."""
        said = (self.values.get(key, "") for key in ("on", "wall", "course", "side"))
        return " ".join([self.what, *filter(None, said)])


def days_of(day: Mapping[str, Any]) -> dict[str, Any]:
    """Return the days on site alone; nothing before the first."""
    return {name: day[name] for name in DAYS if name in day} if "day" in day else {}


def kept(day: Mapping[str, Any], what: str) -> dict[str, Any]:
    """Return what is kept beside the days under a name."""
    found: dict[str, Any] = day.get(TICKS, {}).get(what, {})
    return found


def keep(day: dict[str, Any], what: str, values: Mapping[str, Any]) -> None:
    """Keep something beside the days."""
    day[TICKS] = {**day.get(TICKS, {}), what: dict(values)}


def token(*words: str) -> str:
    """Return a name for a line to tick; when the line says something else, it has another."""
    return sha256("\n".join(words).encode()).hexdigest()[:16]


def do(day: dict[str, Any], done: str, tag: str, *, on: str, unit: Unit) -> None:
    """Write down that a piece was cut or set; after a surprise, in a new part of the day."""
    last = _last(day, on=on, unit=unit)
    if any(name in last for name in _FOUND):
        last = _new(day, on)
    last[done] = [*last.get(done, []), tag]


def undo(day: dict[str, Any], done: str, tag: str) -> None:
    """Take back that a piece was cut or set."""
    for entry in day.get("day", []):
        if tag in entry.get(done, []):
            entry[done] = [one for one in entry[done] if one != tag]
            if not entry[done]:
                del entry[done]
    day["day"] = [entry for entry in day.get("day", []) if entry.keys() - {"on"}]
    if not day["day"]:
        for name in DAYS:
            day.pop(name, None)


def find(day: dict[str, Any], what: str, found: object, *, on: str, unit: Unit) -> None:
    """Write down something that was found."""
    last = _last(day, on=on, unit=unit)
    if isinstance(found, int):
        last[what] = last.get(what, 0) + found
    else:
        last[what] = [*last.get(what, []), found]


def done_in(day: Mapping[str, Any], done: str) -> frozenset[str]:
    """Return the tags that were cut or set."""
    return frozenset(tag for entry in day.get("day", []) for tag in entry.get(done, []))


def found_in(day: Mapping[str, Any]) -> Iterator[Found]:
    """Yield what was found on the days on site, in turn."""
    for entry in day.get("day", []):
        on = str(entry.get("on", ""))
        for what in ("gap", "line"):
            for one in entry.get(what, []):
                where = {key: str(one.get(key, "")) for key in _WHERE[what]}
                yield Found(what=what, values={"on": on, **where})
        if entry.get("broken"):
            yield Found(what="broken", values={"on": on, "broken": str(entry["broken"])})


def _last(day: dict[str, Any], *, on: str, unit: Unit) -> dict[str, Any]:
    day.setdefault("format", 1)
    day.setdefault("unit", unit)
    entries: list[dict[str, Any]] = day.setdefault("day", [])
    return entries[-1] if entries and entries[-1].get("on") == on else _new(day, on)


def _new(day: dict[str, Any], on: str) -> dict[str, Any]:
    made: dict[str, Any] = {"on": on}
    day["day"].append(made)
    return made
