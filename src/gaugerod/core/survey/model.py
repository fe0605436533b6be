"""How each reading follows from the shape of the alcove: predicted value and partials.

The unknowns are named. For wall ``B``: ``width B`` at the datum, ``left B`` and ``right B``
(slopes of its edges, x per y). Corners are numbered from the left end: ``deck 0`` is the
deck at the left edge of the first wall, ``deck 1`` where it meets the second, and so on;
``ceiling 0`` likewise: neighbours share their corner. A ledge or platform of a wall is a
line of its own, ``ledge B level`` at the middle of the wall and ``ledge B fall``. A wall
whose readings reject a straight line has ``bend deck B 700``: how far the deck at station
700 lies over the line from corner to corner. A hole has ``hole B/valve x`` and
``... y``, an opening its four edges.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import NamedTuple, TypeAlias

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
Bends: TypeAlias = tuple["Bend", ...]


class Predicted(NamedTuple):
    """What a reading would be, and its partials by the unknowns it depends on. [mm]."""

    value: float
    partials: Row


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """How far a reading's own corners stand in from the corners of the bonding face. [mm].

    `out` is the same distance out from the wall itself; `left` and `right` are nought where
    the wall ends open.
    """

    out: float
    left: float
    right: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bend:
    """Where a straight line gives way: `what` of a wall bends at `at`, between two ends. [mm].

    `what` is ``deck`` or ``ceiling``, with stations along the wall, or ``width``, with
    heights from the datum: the edges then bow apart, each by half.
    """

    wall: str
    what: str
    at: float
    ends: tuple[float, float]

    @property
    def unknown(self) -> str:
        """Name of the unknown: how far the line lies off at the bend. [mm]."""
        return f"bend {self.what} {self.wall} {self.at:g}"

    def share(self, at: float) -> float:
        """Return how much of the bend is felt at a place.

        Parameters
        ----------
        at
            Station or height. [mm]

        Returns
        -------
        float
            One at the bend, nought at the ends and beyond, straight between. [1]

        Notes
        -----
        Source: own derivation, a hat function.

        Examples
        --------
        >>> Bend(wall="B", what="deck", at=700.0, ends=(0.0, 1500.0)).share(1100.0)
        0.5
        """
        start, end = self.ends
        if at <= self.at:
            return max(0.0, (at - start) / (self.at - start))
        return max(0.0, (end - at) / (end - self.at))

    def rise(self, at: float) -> float:
        """Return how fast the share grows at a place.

        Parameters
        ----------
        at
            Station or height. [mm]

        Returns
        -------
        float
            Growth of `share` per millimetre. [1/mm]

        Notes
        -----
        Source: own derivation, the slope of a hat function.

        Examples
        --------
        >>> Bend(wall="B", what="width", at=100.0, ends=(0.0, 500.0)).rise(50.0)
        0.01
        """
        start, end = self.ends
        if start < at <= self.at:
            return 1.0 / (self.at - start)
        return -1.0 / (end - self.at) if self.at < at < end else 0.0


PLAIN = Seat(out=0.0, left=0.0, right=0.0)
"""The seat of a reading taken to the bonding face itself."""


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
        Names of unknowns, bends left out.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> sorted(unknowns_of(Width(kind="width", at=0, reads=1524), "B", 1))
    ['left B', 'right B', 'width B']
    """
    return tuple(predict(reading, wall, place, _Zero()).partials)


class _Zero(dict[str, float]):
    """A state in which every wall is 1 mm wide and all else is nought."""

    def __missing__(self, key: str) -> float:
        return 1.0 if key.startswith("width ") else 0.0


def predict(
    reading: Reading,
    wall: str,
    place: int,
    state: State,
    *,
    seat: Seat = PLAIN,
    bends: Bends = (),
) -> Predicted:
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
    seat
        Where the surface it was taken to stands.
    bends
        Where lines of this wall are not straight.

    Returns
    -------
    Predicted
        Value and partials; no partials where the reading is no part of the fit. [mm]

    Notes
    -----
    On the wall the left edge is ``x = left * y``, the right edge ``x = width + right * y``;
    deck and ceiling are straight from corner to corner; a bend adds a hat to either.
    Source: own derivation, ``docs/theory/survey.md``.

    Examples
    --------
    >>> state = {"width B": 1524.0, "left B": 0.0, "right B": -0.01}
    >>> predict(Width(kind="width", at=100, reads=1520), "B", 1, state).value
    1523.0
    """
    at = _At(wall=wall, place=place, state=state, seat=seat, bends=bends)
    match reading:
        case Width():
            found = at.across(reading.at, reading.at)
        case CornerToCorner():
            found = _diagonal(reading, at)
        case Lean():
            found = _lean(reading, at)
        case Deck() | Ceiling() | Height() | Floor():
            found = _upright(reading, at)
        case Drain():
            found = at.linear({"drain": -1.0})
        case HoleCentre() | FixturePlace() | RoughIn():
            found = _centre(reading, at)
        case OpeningEdge():
            found = _opening(reading, at)
        case _:
            found = Predicted(value=reading.reads, partials={})
    return found


class _At(NamedTuple):
    """The wall and the state that a reading is predicted for."""

    wall: str
    place: int
    state: State
    seat: Seat
    bends: Bends

    def linear(self, partials: Row, constant: float = 0.0) -> Predicted:
        """Sum unknowns by their rates. [mm]."""
        value = constant + sum(rate * self.state[name] for name, rate in partials.items())
        return Predicted(value=value, partials=partials)

    def edge(self, side: str, y: float) -> Predicted:
        """Return x of an edge at a height, as met on the surface of the reading. [mm]."""
        partials = {f"{side} {self.wall}": y}
        if side == "right":
            partials[f"width {self.wall}"] = 1.0
        half = 0.5 if side == "right" else -0.5
        partials |= {name: half * rate for name, rate in self._bent("width", y).items()}
        inward = self.seat.left if side == "left" else -self.seat.right
        return self.linear(partials, inward)

    def slope(self, side: str, y: float) -> float:
        """Return how fast x of an edge grows with the height. [mm per mm]."""
        half = 0.5 if side == "right" else -0.5
        bows = (bend for bend in self.bends if (bend.wall, bend.what) == (self.wall, "width"))
        bowed = sum(half * bend.rise(y) * self.state[bend.unknown] for bend in bows)
        return self.state[f"{side} {self.wall}"] + bowed

    def across(self, left_at: float, right_at: float) -> Predicted:
        """Return the level distance between the edges, each at its height. [mm]."""
        return minus(self.edge("right", right_at), self.edge("left", left_at))

    def level(self, name: str, station: float) -> Predicted:
        """Return the height of deck or ceiling at a station from the left corner. [mm]."""
        low, high = f"{name} {self.place}", f"{name} {self.place + 1}"
        rise = self.state[high] - self.state[low]
        y = (self.state[high] + self.state[low]) / 2
        # The corners stand apart by the width at the level itself, not at the datum. Widths and
        # leans tell how far; a height that is badly out must not move a wall, hence no partials.
        lean = self.state[f"right {self.wall}"] - self.state[f"left {self.wall}"]
        width = self.state[f"width {self.wall}"] + lean * y
        share = (station + self.seat.left) / width
        nearer = rise * share / width * lean / 2
        partials = {low: 1.0 - share - nearer, high: share - nearer}
        bent = self._bent(name, station)
        value = self.state[low] + rise * share
        value += sum(rate * self.state[unknown] for unknown, rate in bent.items())
        return Predicted(value=value, partials=partials | bent)

    def part(self, name: str, station: float) -> Predicted:
        """Return the height of a ledge or platform at a station. [mm]."""
        half = self.state[f"width {self.wall}"] / 2
        from_middle = station + self.seat.left - half
        fall = f"{name} {self.wall} fall"
        partials = {f"{name} {self.wall} level": 1.0, fall: from_middle}
        found = self.linear(partials)
        across = {f"width {self.wall}": -self.state[fall] / 2}
        return Predicted(value=found.value, partials=partials | across)

    def _bent(self, what: str, at: float) -> Row:
        if not self.bends:
            return {}
        return {
            bend.unknown: bend.share(at)
            for bend in self.bends
            if bend.wall == self.wall and bend.what == what
        }


def minus(first: Predicted, second: Predicted) -> Predicted:
    """Return the difference of two predictions.

    Parameters
    ----------
    first, second
        The predictions. [mm]

    Returns
    -------
    Predicted
        The first less the second. [mm]

    Notes
    -----
    Source: arithmetic.

    Examples
    --------
    >>> minus(Predicted(value=3.0, partials={"a": 1.0}), Predicted(value=1.0, partials={"a": 4.0}))
    Predicted(value=2.0, partials={'a': -3.0})
    """
    partials = dict(first.partials)
    for name, rate in second.partials.items():
        partials[name] = partials.get(name, 0.0) - rate
    return Predicted(value=first.value - second.value, partials=partials)


_NOTHING = Predicted(value=0.0, partials={})


def _diagonal(reading: CornerToCorner, at: _At) -> Predicted:
    across = at.across(reading.left_at, reading.right_at)
    length = hypot(across.value, reading.right_at - reading.left_at)
    share = across.value / length
    return Predicted(
        value=length, partials={name: share * rate for name, rate in across.partials.items()}
    )


def _lean(reading: Lean, at: _At) -> Predicted:
    """Return the offset of an edge over a height, taken as straight."""
    rate = reading.over if reading.edge == "left" else -reading.over
    return at.linear({f"{reading.edge} {at.wall}": rate})


def _upright(reading: Deck | Ceiling | Height | Floor, at: _At) -> Predicted:
    if isinstance(reading, Ceiling):
        return at.level("ceiling", reading.at)
    if isinstance(reading, Deck) and reading.part != "rim":
        return minus(_NOTHING, at.part(reading.part, reading.at))
    deck = at.level("deck", reading.at)
    if isinstance(reading, Deck):
        return minus(_NOTHING, deck)
    if isinstance(reading, Floor):
        return minus(deck, at.linear({"floor": 1.0}))
    return minus(at.level("ceiling", reading.at), deck)


def _centre(reading: HoleCentre | FixturePlace | RoughIn, at: _At) -> Predicted:
    thing = f"{'fixture' if reading.kind == 'fixture' else 'hole'} {at.wall}/{reading.of}"
    if isinstance(reading, RoughIn):
        return at.linear({f"{thing} rough-in": 1.0}, -at.seat.out)
    if reading.start == "datum":
        return at.linear({f"{thing} y": 1.0})
    return _from_edge(reading.start, f"{thing} x", {f"{thing} y": 1.0}, at)


def _from_edge(start: str, x: str, height: Row, at: _At) -> Predicted:
    """Return the level distance from an edge to `x`, at a height made of other unknowns."""
    y = sum(rate * at.state[name] for name, rate in height.items())
    edge = at.edge(start, y)
    slope = at.slope(start, y)
    tilted = edge.partials | {name: slope * rate for name, rate in height.items()}
    edge = Predicted(value=edge.value, partials=tilted)
    place = at.linear({x: 1.0})
    return minus(place, edge) if start == "left" else minus(edge, place)


def _opening(reading: OpeningEdge, at: _At) -> Predicted:
    name = f"opening {at.wall}/{reading.of}"
    spans: dict[str, Row] = {
        "sill": {f"{name} sill": 1.0},
        "head": {f"{name} head": 1.0},
        "width": {f"{name} right": 1.0, f"{name} left": -1.0},
        "height": {f"{name} head": 1.0, f"{name} sill": -1.0},
    }
    if reading.edge == "jamb depth":
        return at.linear({f"{name} depth": 1.0}, at.seat.out)
    if reading.edge in spans:
        return at.linear(spans[reading.edge])
    middle = {f"{name} sill": 0.5, f"{name} head": 0.5}
    return _from_edge(reading.start, f"{name} {reading.edge}", middle, at)
