"""How each reading follows from the shape of the alcove: predicted value and partials.

The unknowns are named. For wall ``B``: ``width B`` at the datum, ``left B`` and ``right B``
(slopes of its edges, x per y). Corners are numbered from the left end: ``deck 0`` is the
deck at the left edge of the first wall, ``deck 1`` where it meets the second, and so on;
``ceiling 0`` likewise: neighbours share their corner. A hole has ``hole B/valve x`` and
``... y``, an opening its four edges.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import TypeAlias

from gaugerod.core.job.readings import (
    Ceiling,
    CornerToCorner,
    Deck,
    Drain,
    FixturePlace,
    Floor,
    Height,
    HoleCentre,
    Lean,
    OpeningEdge,
    Reading,
    RoughIn,
    Width,
)

State: TypeAlias = Mapping[str, float]
Row: TypeAlias = dict[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Predicted:
    """What a reading would be, and its partials by the unknowns it depends on. [mm]."""

    value: float
    partials: Row


def unknowns_of(reading: Reading, wall: str, place: int) -> tuple[str, ...]:
    """Return the unknowns that a reading depends on, empty where it is no part of the fit.

    Parameters
    ----------
    reading
        The reading.
    wall
        Name of its wall.
    place
        Number of the wall from the left, from 0.

    Returns
    -------
    tuple of str
        Names of unknowns.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> unknowns_of(Width(kind="width", at=0, reads=1524), "B", 1)
    ('width B', 'left B', 'right B')
    """
    zero = _Zero()
    return tuple(predict(reading, wall, place, zero).partials)


class _Zero(dict[str, float]):
    """A state in which every wall is 1 mm wide and all else is nought."""

    def __missing__(self, key: str) -> float:
        return 1.0 if key.startswith("width ") else 0.0


def predict(reading: Reading, wall: str, place: int, state: State) -> Predicted:
    """Return what a reading would be for a given shape of the alcove.

    Parameters
    ----------
    reading
        The reading.
    wall
        Name of its wall.
    place
        Number of the wall from the left, from 0.
    state
        Value of every unknown. [mm, or mm per mm for slopes]

    Returns
    -------
    Predicted
        Value and partials; no partials where the reading is no part of the fit. [mm]

    Notes
    -----
    On the wall the left edge is ``x = left * y``, the right edge ``x = width + right * y``;
    deck and ceiling are straight from corner to corner. Source: own derivation,
    ``docs/theory/survey.md``.

    Examples
    --------
    >>> state = {"width B": 1524.0, "left B": 0.0, "right B": -0.01}
    >>> predict(Width(kind="width", at=100, reads=1520), "B", 1, state).value
    1523.0
    """
    match reading:
        case Width():
            found = _linear(_across(wall, reading.at, reading.at), state)
        case CornerToCorner():
            found = _diagonal(reading, wall, state)
        case Lean():
            rate = reading.over if reading.edge == "left" else -reading.over
            found = _linear({f"{reading.edge} {wall}": rate}, state)
        case Deck(part="rim") | Ceiling() | Height() | Floor():
            found = _upright(reading, wall, place, state)
        case Drain():
            found = _linear({"drain": -1.0}, state)
        case HoleCentre() | FixturePlace() | RoughIn():
            found = _centre(reading, wall, state)
        case OpeningEdge():
            found = _opening(reading, wall, state)
        case _:
            found = Predicted(value=reading.reads, partials={})
    return found


def _linear(partials: Row, state: State) -> Predicted:
    value = sum(rate * state[name] for name, rate in partials.items())
    return Predicted(value=value, partials=partials)


def _across(wall: str, left_at: float, right_at: float) -> Row:
    return {f"width {wall}": 1.0, f"left {wall}": -left_at, f"right {wall}": right_at}


def _diagonal(reading: CornerToCorner, wall: str, state: State) -> Predicted:
    across = _linear(_across(wall, reading.left_at, reading.right_at), state)
    length = hypot(across.value, reading.right_at - reading.left_at)
    share = across.value / length
    return Predicted(
        value=length, partials={name: share * rate for name, rate in across.partials.items()}
    )


def _level(name: str, wall: str, place: int, at: float, state: State) -> Predicted:
    """Height of the deck or ceiling at a station, straight between its corners."""
    width = state[f"width {wall}"]
    low, high = f"{name} {place}", f"{name} {place + 1}"
    share = at / width
    rise = state[high] - state[low]
    return Predicted(
        value=state[low] + rise * share,
        partials={low: 1.0 - share, high: share, f"width {wall}": -rise * share / width},
    )


def _minus(first: Predicted, second: Predicted) -> Predicted:
    partials = dict(first.partials)
    for name, rate in second.partials.items():
        partials[name] = partials.get(name, 0.0) - rate
    return Predicted(value=first.value - second.value, partials=partials)


_NOTHING = Predicted(value=0.0, partials={})


def _upright(
    reading: Deck | Ceiling | Height | Floor, wall: str, place: int, state: State
) -> Predicted:
    if isinstance(reading, Ceiling):
        return _level("ceiling", wall, place, reading.at, state)
    deck = _level("deck", wall, place, reading.at, state)
    if isinstance(reading, Deck):
        return _minus(_NOTHING, deck)
    if isinstance(reading, Floor):
        return _minus(deck, _linear({"floor": 1.0}, state))
    return _minus(_level("ceiling", wall, place, reading.at, state), deck)


def _centre(reading: HoleCentre | FixturePlace | RoughIn, wall: str, state: State) -> Predicted:
    thing = f"{'fixture' if reading.kind == 'fixture' else 'hole'} {wall}/{reading.of}"
    if isinstance(reading, RoughIn):
        return _linear({f"{thing} rough-in": 1.0}, state)
    if reading.start == "datum":
        return _linear({f"{thing} y": 1.0}, state)
    return _from_edge(reading.start, wall, f"{thing} x", {f"{thing} y": 1.0}, state)


def _from_edge(start: str, wall: str, x: str, height: Row, state: State) -> Predicted:
    """Distance along the level from an edge to `x`, at a height made of other unknowns."""
    y = sum(rate * state[name] for name, rate in height.items())
    slope = state[f"{start} {wall}"]
    tilt = {name: slope * rate for name, rate in height.items()}
    edge = Predicted(value=slope * y, partials={f"{start} {wall}": y, **tilt})
    place = _linear({x: 1.0}, state)
    if start == "left":
        return _minus(place, edge)
    return _minus(_minus(_linear({f"width {wall}": 1.0}, state), place), _minus(_NOTHING, edge))


def _opening(reading: OpeningEdge, wall: str, state: State) -> Predicted:
    name = f"opening {wall}/{reading.of}"
    spans: dict[str, Row] = {
        "sill": {f"{name} sill": 1.0},
        "head": {f"{name} head": 1.0},
        "width": {f"{name} right": 1.0, f"{name} left": -1.0},
        "height": {f"{name} head": 1.0, f"{name} sill": -1.0},
    }
    if reading.edge == "jamb depth":
        return Predicted(value=reading.reads, partials={})
    if reading.edge in spans:
        return _linear(spans[reading.edge], state)
    middle = {f"{name} sill": 0.5, f"{name} head": 0.5}
    return _from_edge(reading.start, wall, f"{name} {reading.edge}", middle, state)
