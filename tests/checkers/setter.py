"""A setter who does what a cut card says, and knows nothing else.

He has the card as it is printed, and a module (or the part of one that its cuts right through
left him) with the factory edges that it still has. He reads words and figures, draws lines and
saws. Written apart from the code that makes the marks.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

import shapely
import shapely.ops
from shapely.geometry.base import BaseGeometry

from gaugerod.packet.paper import Card, CardMark

FAR = 1e4
ACROSS = ("LEFT", "RIGHT")
SWAPPED = {"LEFT": "RIGHT", "RIGHT": "LEFT"}


def read_figure(text: str) -> float:
    """Read a figure off a card: inches with their sign, or millimetres without. [mm]."""
    if not text.endswith('"'):
        return float(text)
    return float(sum(Fraction(part) for part in text.removesuffix('"').split()) * Fraction("25.4"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """What lies on the bench, face up: its size, and which of its edges are the factory's."""

    width: float
    height: float
    factory: frozenset[str]


@dataclass(slots=True, kw_only=True)
class Built:
    """The piece in the frame of what lay on the bench, face up, and what was measured from."""

    shape: BaseGeometry
    holes: dict[str, tuple[float, float]] = field(default_factory=dict)
    checks: dict[str, tuple[float, float]] = field(default_factory=dict)
    bitten: list[tuple[float, float, float]] = field(default_factory=list)
    measured_from: set[str] = field(default_factory=set)
    trued: frozenset[str] = frozenset()


class Setter:
    """One card at the bench; with `face_down` all is read in its face-down version."""

    def __init__(self, card: Card, bench: Bench, *, face_down: bool) -> None:
        self.card, self.down = card, face_down
        self.width, self.height = bench.width, bench.height
        self.reach = bench.height
        swap = SWAPPED if face_down else {}
        self.factory = {swap.get(side, side) for side in bench.factory}
        self.shape: BaseGeometry = shapely.box(0, 0, bench.width, bench.height)
        said = " | ".join(card.orders_down if face_down else card.orders)
        assert ("FACE DOWN" in said) == face_down
        assert ("FACE UP" in said) != face_down
        self.waste = _named(r"waste ([A-Z+]+)", said)
        self.kept = _named(r"Keep ([A-Z+]+)", said)
        self.trued = _named(r"Cut ([A-Z+]+) first, straight", said)
        self.built = Built(shape=self.shape, trued=frozenset(self.trued))

    def work(self) -> Built:
        """Length, rip, then corners and holes; then turn the piece face up again."""
        lines = list(self._lines())
        # From an edge that is cut first the height is drawn, and the length is read up to it.
        if self.trued & {"BOTTOM", "TOP"}:
            reach = [max(line[2:]) for line in lines if line[0] not in ACROSS]
            # Where the other side is joined point by point, it ends with the farthest of them.
            joined = [p for p in self.card.points if p.name.startswith(("scribe ", "corner "))]
            reach += [read_figure(point.up.value) for point in joined]
            self.reach = max(reach, default=self.height)
        for across in (True, False):
            cuts = [self._half_plane(*line) for line in lines if (line[0] in ACROSS) == across]
            for cut in cuts:
                self.shape = self.shape.difference(cut)
        self._points()
        for x, y, drill in self.built.bitten:
            # What a drill cuts loose from the rest falls out with the core.
            drilled = self.shape.difference(shapely.Point(x, y).buffer(drill / 2))
            self.shape = max(shapely.get_parts(drilled), key=lambda part: part.area)
        self.built.shape = self.shape
        return self._face_up() if self.down else self.built

    def _label(self, mark: CardMark) -> str:
        return mark.down if self.down else mark.label

    def _from(self, side: str) -> str:
        self.built.measured_from.add(side)
        return side

    def _lines(self) -> Iterator[tuple[str, str, float, float]]:
        """Yield each straight cut: from which edge, on which side its waste is, its two figures."""
        found: list[tuple[str, float, float]] = []
        waiting: dict[str, float] = {}
        for mark in self.card.marks:
            said = r"(From |Beyond |beyond )?([A-Z]+), (.+)"
            way, start, end = re.fullmatch(said, self._label(mark)).groups()  # type: ignore[union-attr]  # a label that does not match is to fail here
            value = read_figure(mark.value)
            if (way or "").lower() == "beyond ":
                value = -value
            if end == "square":
                found.append((self._from(start), value, value))
                continue
            pair = {"at bottom": "at top", "at left": "at right"}
            pair |= {other: one for one, other in pair.items()}
            if pair[end] in waiting:
                ends = {end: value, pair[end]: waiting.pop(pair[end])}
                names = ("at bottom", "at top") if "at top" in ends else ("at left", "at right")
                found.append((self._from(start), ends[names[0]], ends[names[1]]))
            else:
                waiting[end] = value
        assert not waiting, "a taper without its other end"
        for start, first, last in found:
            axis = ACROSS if start in ACROSS else ("BOTTOM", "TOP")
            far = axis[1 - axis.index(start)]
            own = [line for line in found if line[0] == start]
            sides = self.waste & set(axis)
            if sides == {far} or (start in self.trued and len(own) == 1):
                waste = far
            elif sides == {start}:
                waste = start
            else:
                # Both sides are cut: the nearer line takes off this side, the farther the other.
                assert sides == set(axis)
                assert len(own) == 2
                waste = start if first + last == min(a + b for _, a, b in own) else far
            yield start, waste, first, last

    def _half_plane(self, start: str, waste: str, first: float, last: float) -> BaseGeometry:
        """What a cut takes off, for good measure far beyond the module."""
        if start in ACROSS:
            xs = [self._across(start, value) for value in (first, last)]
            low = self.height - self.reach if "TOP" in self.trued else 0.0
            a, b = (xs[0], low), (xs[1], low + self.reach)
        else:
            ys = [self._up(start, value) for value in (first, last)]
            # A mark that rounding put off the edge is made on the edge.
            _, low, _, high = self.shape.bounds
            ends = [self.shape.intersection(_level(min(max(y, low), high))).bounds for y in ys]
            a, b = (ends[0][0], ys[0]), (ends[1][2], ys[1])
        (x0, y0), (x1, y1) = a, b
        reach = FAR / shapely.LineString([a, b]).length
        a = (x0 - (x1 - x0) * reach, y0 - (y1 - y0) * reach)
        b = (x1 + (x1 - x0) * reach, y1 + (y1 - y0) * reach)
        dx, dy = {"LEFT": (-1, 0), "RIGHT": (1, 0), "BOTTOM": (0, -1), "TOP": (0, 1)}[waste]
        over = [(x + dx * 3 * FAR, y + dy * 3 * FAR) for x, y in (b, a)]
        return shapely.Polygon([a, b, *over])

    def _across(self, side: str, value: float) -> float:
        beyond = side.startswith("beyond ")
        side, value = side.removeprefix("beyond "), -value if beyond else value
        return value if side == "LEFT" else self.width - value

    def _up(self, side: str, value: float) -> float:
        beyond = side.startswith("beyond ")
        side, value = side.removeprefix("beyond "), -value if beyond else value
        return value if side == "BOTTOM" else self.height - value

    def _points(self) -> None:
        runs: dict[tuple[str, str], list[tuple[float, float]]] = {}
        bite: list[tuple[float, float]] = []
        for point in self.card.points:
            name = point.down if self.down else point.name
            starts = [self._label(mark) for mark in (point.across, point.up)]
            values = [read_figure(mark.value) for mark in (point.across, point.up)]
            at = self._across(starts[0], values[0]), self._up(starts[1], values[1])
            if name.startswith("check "):
                self.built.checks[name.removeprefix("check ")] = (values[0], values[1])
                continue
            for start in starts:
                self._from(start.removeprefix("beyond "))
            if found := re.match(r"take out (LOWER|UPPER) (LEFT|RIGHT) to", name):
                corner = self._corner(*found.groups())
                self.shape = self.shape.difference(shapely.box(*_around(corner, at)))
            elif found := re.match(r"U out, open at the ([A-Z]+)", name):
                bite.append(at)
                if len(bite) == 2:
                    self.shape = self.shape.difference(self._u(found[1], bite))
                    bite = []
            elif found := re.match(r"(corner|scribe ([A-Z]+)) ([a-z])\d+", name):
                runs.setdefault((found[2] or "", found[3]), []).append(at)
            elif found := re.match(r"(.+) on the joint, drill (.+)", name):
                self.built.bitten.append((*at, read_figure(found[2].removesuffix(" mm"))))
            else:
                hole = re.match(r"(.+), drill (.+)", name)
                assert hole, name
                self.built.holes[hole[1]] = at
        for (waste, _), run in runs.items():
            self._saw_along(run, waste)

    def _corner(self, up: str, across: str) -> tuple[float, float]:
        return (
            0.0 if across == "LEFT" else self.width,
            0.0 if up == "LOWER" else self.height,
        )

    def _u(self, side: str, corners: list[tuple[float, float]]) -> BaseGeometry:
        (x0, y0), (x1, y1) = corners
        out = {"LEFT": (0.0, y0), "RIGHT": (self.width, y0), "BOTTOM": (x0, 0.0)}
        mouth = {**out, "TOP": (x0, self.height)}[side]
        xs, ys = (x0, x1, mouth[0]), (y0, y1, mouth[1])
        return shapely.box(min(xs), min(ys), max(xs), max(ys))

    def _saw_along(self, run: list[tuple[float, float]], waste: str) -> None:
        """Saw along points, a hair over at both ends.

        What is scribed loses the side named; else what has more of the edges to keep is kept. A
        point that rounding put off the edge is marked on it, and two that it put on one place
        are one mark.
        """
        run = list(dict.fromkeys(run))
        run = [(min(max(x, 0), self.width), min(max(y, 0), self.height)) for x, y in run]
        line = shapely.LineString([_over(run[1], run[0]), *run, _over(run[-2], run[-1])])
        parts = list(shapely.ops.split(self.shape, line).geoms)
        edges: dict[str, list[tuple[float, float]]] = {
            "LEFT": [(0, 0), (0, self.height)],
            "RIGHT": [(self.width, 0), (self.width, self.height)],
            "BOTTOM": [(0, 0), (self.width, 0)],
            "TOP": [(0, self.height), (self.width, self.height)],
        }
        outwards = {"LEFT": (-1, 0), "RIGHT": (1, 0), "BOTTOM": (0, -1), "TOP": (0, 1)}
        if waste:
            dx, dy = outwards[waste]
            self.shape = min(parts, key=lambda part: dx * part.centroid.x + dy * part.centroid.y)
            return
        keep = shapely.union_all([shapely.LineString(edges[side]) for side in self.kept])
        self.shape = max(
            parts, key=lambda part: (part.boundary.intersection(keep).length, part.area)
        )

    def _face_up(self) -> Built:
        """Turn the piece over again, like the page of a book."""
        built = self.built

        def over(x: float) -> float:
            return self.width - x

        turned = shapely.transform(self.shape, lambda c: c * (-1, 1) + (self.width, 0))
        return Built(
            shape=turned,
            holes={name: (over(x), y) for name, (x, y) in built.holes.items()},
            checks=built.checks,
            bitten=[(over(x), y, drill) for x, y, drill in built.bitten],
            measured_from={SWAPPED.get(side, side) for side in built.measured_from},
            trued=frozenset(SWAPPED.get(side, side) for side in built.trued),
        )


def _named(pattern: str, said: str) -> set[str]:
    found = re.search(pattern, said)
    return set(found[1].split("+")) if found else set()


def _level(y: float) -> BaseGeometry:
    return shapely.LineString([(-FAR, y), (FAR, y)])


def _over(before: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    (x0, y0), (x1, y1) = before, end
    length = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
    return x1 + (x1 - x0) / length * 2, y1 + (y1 - y0) / length * 2


def _around(a: tuple[float, float], b: tuple[float, float]) -> tuple[float, float, float, float]:
    return min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])


def strays(
    one: shapely.Polygon,
    other: shapely.Polygon,
    most: float,
    *,
    beside: Sequence[tuple[float, float, float]] = (),
) -> list[tuple[float, float]]:
    """Return the vertices of two polygons that miss the other's outline by too much. [mm].

    A vertex may miss it by `most` in x and in y. Those in or on a drilled circle are left out.
    """
    return [
        (x, y)
        for a, b in ((one, other), (other, one))
        for x, y in shapely.get_coordinates(a.exterior)
        if all((x - u) ** 2 + (y - v) ** 2 > (d / 2 * 1.02 + most) ** 2 for u, v, d in beside)
        if not shapely.box(x - most, y - most, x + most, y + most).intersects(b.exterior)
    ]


def holes_miss(card: Card, bench: Bench) -> list[float]:
    """How far each hole and its check together miss the size of what lies on the bench. [mm]."""
    figures = {
        point.name: [read_figure(mark.value) for mark in (point.across, point.up)]
        for point in card.points
    }
    missed = []
    for name, (across, up) in figures.items():
        if ", drill" in name and "on the joint" not in name:
            check = figures[f"check {name.split(', drill')[0]}"]
            missed += [abs(across + check[0] - bench.width), abs(up + check[1] - bench.height)]
    return missed
