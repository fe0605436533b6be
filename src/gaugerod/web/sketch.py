"""A wall as a picture to tap on: each edge and line leads to the reading that is taken there."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.lengths import Unit, parse_length
from gaugerod.web import urls
from gaugerod.web.walls import READINGS, entries_of, unit_of, walls_of

NEW = "new"
_HEIGHTS = {"high": 1000, "middle": 150, "low": -700}
"""Where widths are taken as a rule, from the datum. [mm]"""
_IN_INCHES = {"high": "40", "middle": "6", "low": "-28"}
# x, y, width and height of each place to tap, in a picture of 360 by 372; 48 is a fingertip. In
# the order of measuring: how wide a wall is says where its right end is.
_BOXES: Mapping[str, tuple[int, int, int, int]] = {
    "width-high": (72, 64, 216, 52),
    "width-middle": (72, 126, 216, 52),
    "width-low": (72, 250, 216, 52),
    "deck-left": (0, 314, 176, 52),
    "deck-right": (184, 314, 176, 52),
    "ceiling-left": (0, 0, 176, 52),
    "ceiling-right": (184, 0, 176, 52),
    "diagonal-up": (72, 188, 104, 52),
    "diagonal-down": (184, 188, 104, 52),
    "lean-left": (0, 64, 64, 238),
    "lean-right": (296, 64, 64, 238),
}
_CHECKS = {"diagonal-up", "diagonal-down", "lean-left", "lean-right"}
"""Readings that check the others: worth taking, not asked for at first."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """A place to tap: where it lies in the picture, what stands there, where it leads.

    `reads` are the readings taken there, as they were written; without one the place is open, and
    asks for a hand where the survey cannot do without it.
    """

    name: str
    box: tuple[int, int, int, int]
    link: str
    reads: tuple[str, ...]
    asked: bool


def spots_of(job: str, document: Mapping[str, Any], wall: Mapping[str, Any]) -> tuple[Spot, ...]:
    """Return the places to tap on a wall, in the order of measuring."""
    unit = unit_of(document)
    entries = entries_of(wall, READINGS)
    taken = [_place(entry, unit) for entry in entries]
    across = next((str(e.get("reads", "")) for e in entries if e.get("kind") == "width"), "")
    return tuple(
        _spot(job, wall["name"], name, entries, taken, _begun(name, unit, across))
        for name in sorted(_BOXES, key=lambda name: name in _CHECKS)
    )


def next_spot(job: str, document: Mapping[str, Any], wall: str) -> Spot | None:
    """Return the place to measure after the last reading of a wall: there first, then beyond."""
    walls = walls_of(document)
    here = next(n for n, one in enumerate(walls) if one["name"] == wall)
    spots = [spot for one in walls[here:] + walls[:here] for spot in spots_of(job, document, one)]
    last = _place(entries_of(walls[here], READINGS)[-1], unit_of(document))
    after = next((n for n, spot in enumerate(spots[: len(_BOXES)]) if spot.name == last), 0)
    return next((spot for spot in spots[after:] + spots[:after] if spot.asked), None)


def _spot(  # noqa: PLR0917  (each is one thing that a spot is made of)
    job: str,
    wall: str,
    name: str,
    entries: Sequence[Mapping[str, Any]],
    taken: Sequence[str],
    begun: Mapping[str, str],
) -> Spot:
    here = [number for number, place in enumerate(taken) if place == name]
    to = {"job": job, "wall": wall, "slot": READINGS}
    if here:
        link = urls.to(urls.ENTRY, **to, place=here[-1])
    else:
        link = urls.to(urls.ENTRY, **to, place=NEW, **begun)
    return Spot(
        name=name,
        box=_BOXES[name],
        link=link,
        reads=tuple(str(entries[number].get("reads", "")) for number in here),
        asked=not here and name not in _CHECKS,
    )


def _begun(name: str, unit: Unit, across: str) -> dict[str, str]:
    """Return what is known of a reading before it is taken."""
    kind, _, side = name.partition("-")
    high, low = _height("high", unit), _height("low", unit)
    if kind == "width":
        return {"kind": kind, "at": _height(side, unit)}
    if kind == "lean":
        return {"kind": kind, "edge": side}
    if kind == "diagonal":
        left, right = (low, high) if side == "up" else (high, low)
        return {"kind": "corner to corner", "left_at": left, "right_at": right}
    return {"kind": kind, "at": "0" if side == "left" else across}


def _height(name: str, unit: Unit) -> str:
    if unit == "in":
        return _IN_INCHES[name]
    return str(_HEIGHTS[name] // (10 if unit == "cm" else 1))


def _place(entry: Mapping[str, Any], unit: Unit) -> str:
    """Return the name of the place where a reading was taken, or nothing."""
    kind = entry.get("kind")
    if kind == "lean":
        return f"lean-{entry.get('edge')}"
    numbers = {key: _mm(entry.get(key), unit) for key in ("at", "left_at", "right_at")}
    if kind == "corner to corner":
        return "diagonal-up" if numbers["left_at"] < numbers["right_at"] else "diagonal-down"
    if kind == "width":
        nearest = min(_HEIGHTS.items(), key=lambda item: abs(item[1] - numbers["at"]))
        return f"width-{nearest[0]}"
    if kind in {"deck", "ceiling"} and entry.get("part", "rim") == "rim":
        return f"{kind}-{'right' if numbers['at'] else 'left'}"
    return ""


def _mm(value: object, unit: Unit) -> float:
    try:
        return float(parse_length(str(value), unit=unit))
    except LengthError:
        return 0.0
