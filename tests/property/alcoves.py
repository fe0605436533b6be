"""Random alcoves: a true shape, the readings a setter would take of it, and a material."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any, Literal, TypeAlias

from hypothesis import assume, settings
from hypothesis import strategies as st

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_rates, sample_system
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedWall, Walls

Raw: TypeAlias = dict[str, Any]

STEP = 1.5875
"""Lengths are drawn in sixteenths of an inch, so that they can be written in any unit. [mm]"""
OVER = 1828.8
"""Height over which a lean is read. [mm]"""
LEAN_SIGMA = STEP / 4
"""Leans are read so well that the belief in plumb edges hardly moves them. [mm]"""
LOW, MIDDLE, HIGH = -650.0, 0.0, 1000.0
"""Heights at which widths are read, from the first datum. [mm]"""


def share(part: int) -> settings:
    """A part of the profile's examples, for laws that plan whole alcoves."""
    return settings(max_examples=max(settings().max_examples // part, 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueHole:
    name: str
    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueOpening:
    name: str
    kind: Literal["window", "niche"]
    box: Box


@dataclass(frozen=True, slots=True, kw_only=True)
class TrueWall:
    """A wall as it is: `width` at the first datum, `left` and `right` the leans of its edges.

    Leans are x per y, so that an edge of positive lean goes right as it goes up. `struck`
    fronts are plumb lines that nobody reads.
    """

    name: str
    width: float
    left: float
    right: float
    holes: tuple[TrueHole, ...] = ()
    openings: tuple[TrueOpening, ...] = ()

    def left_at(self, y: float) -> float:
        return self.left * y

    def right_at(self, y: float) -> float:
        return self.width + self.right * y


@dataclass(frozen=True, slots=True, kw_only=True)
class Alcove:
    """A true alcove with its material: decks and ceilings are heights at the four corners."""

    walls: tuple[TrueWall, TrueWall, TrueWall]
    decks: tuple[float, float, float, float]
    ceilings: tuple[float, float, float, float]
    floor: float
    system: System
    choices: Mapping[str, object]

    def mirrored(self) -> "Alcove":
        """The same alcove in a mirror: what was the left end wall is the right one."""
        left, back, right = (_mirrored(wall) for wall in reversed(self.walls))
        return replace(
            self,
            walls=(replace(left, name="L"), back, replace(right, name="R")),
            decks=self.decks[::-1],
            ceilings=self.ceilings[::-1],
        )


def _mirrored(wall: TrueWall) -> TrueWall:
    return replace(
        wall,
        left=-wall.right,
        right=-wall.left,
        holes=tuple(replace(hole, x=wall.width - hole.x) for hole in wall.holes),
        openings=tuple(
            replace(
                opening,
                box=Box(
                    left=wall.width - opening.box.right,
                    right=wall.width - opening.box.left,
                    bottom=opening.box.bottom,
                    top=opening.box.top,
                ),
            )
            for opening in wall.openings
        ),
    )


# --- from the shape to the readings ------------------------------------------------------------


def surveyed(alcove: Alcove, *, datum: float = 0.0) -> Raw:
    """The job a setter would write with a datum `datum` above the first one. [mm].

    Stations of right corners are the widths along deck and ceiling themselves.
    """
    return job_of(alcove, datum=datum, stations=span)


Stations: TypeAlias = Callable[[TrueWall, float, float], float]


def span(wall: TrueWall, start: float, end: float) -> float:
    """Width of a wall along its deck or ceiling, between the heights of its two corners. [mm]."""
    middle = (start + end) / 2
    return wall.right_at(middle) - wall.left_at(middle)


def width_at_datum(wall: TrueWall, _start: float, _end: float) -> float:
    """Width of a wall at the first datum, a hair more or less than along its deck. [mm]."""
    return wall.width


def job_of(alcove: Alcove, *, datum: float = 0.0, stations: Stations = width_at_datum) -> Raw:
    """The job, with the stations of right corners measured in a way of one's own."""
    return {
        "format": 1,
        "name": "Drawn by lot",
        "scenario": "Invented.",
        "unit": "mm",
        "survey": {"surface": "backer"},
        "choices": {"material": alcove.system.id, **alcove.choices},
        "calendar": {"start": "2026-03-02"},
        "wall": [
            {
                "name": wall.name,
                "hole": [{"name": h.name, "diameter": h.diameter} for h in wall.holes],
                "opening": [{"name": o.name, "kind": o.kind} for o in wall.openings],
                "readings": [
                    *_widths(wall, datum),
                    *_leans(wall, place),
                    *_levels(alcove, place, datum, stations),
                    *(r for hole in wall.holes for r in _hole(wall, hole, datum)),
                    *(r for opening in wall.openings for r in _opening(wall, opening, datum)),
                ],
            }
            for place, wall in enumerate(alcove.walls)
        ],
    }


def _widths(wall: TrueWall, datum: float) -> list[Raw]:
    readings: list[Raw] = [
        {"kind": "width", "at": y - datum, "reads": wall.right_at(y) - wall.left_at(y)}
        for y in (LOW, MIDDLE, HIGH)
    ]
    for left, right in ((LOW, HIGH), (HIGH, LOW)):
        across = wall.right_at(right) - wall.left_at(left)
        readings.append(
            {
                "kind": "corner to corner",
                "left_at": left - datum,
                "right_at": right - datum,
                "reads": (across**2 + (HIGH - LOW) ** 2) ** 0.5,
            }
        )
    return readings


def _leans(wall: TrueWall, place: int) -> list[Raw]:
    read = {"left": wall.left, "right": -wall.right}
    if place == 0 and not wall.left:
        del read["left"]
    if place == 2 and not wall.right:
        del read["right"]
    return [
        {"kind": "lean", "edge": edge, "over": OVER, "reads": lean * OVER, "sigma": LEAN_SIGMA}
        for edge, lean in read.items()
    ]


def _levels(alcove: Alcove, place: int, datum: float, stations: Stations) -> list[Raw]:
    """Deck and ceiling in both corners, and the floor below the first."""
    wall = alcove.walls[place]
    readings: list[Raw] = []
    for kind, line in (("deck", alcove.decks), ("ceiling", alcove.ceilings)):
        start, end = line[place : place + 2]
        sign = -1 if kind == "deck" else 1
        for at, height in ((0.0, start), (stations(wall, start, end), end)):
            readings.append({"kind": kind, "at": at, "reads": sign * (height - datum)})
    if place == 0:
        readings.append({"kind": "floor", "at": 0, "reads": alcove.decks[0] - alcove.floor})
    return readings


def _hole(wall: TrueWall, hole: TrueHole, datum: float) -> list[Raw]:
    places = {
        "left": hole.x - wall.left_at(hole.y),
        "right": wall.right_at(hole.y) - hole.x,
        "datum": hole.y - datum,
    }
    return [
        {"kind": "hole", "of": hole.name, "from": start, "reads": reads}
        for start, reads in places.items()
    ]


def _opening(wall: TrueWall, opening: TrueOpening, datum: float) -> list[Raw]:
    box = opening.box
    middle = (box.bottom + box.top) / 2
    places = [
        ("left", "left", box.left - wall.left_at(middle)),
        ("right", "right", wall.right_at(middle) - box.right),
        ("width", "itself", box.right - box.left),
        ("sill", "datum", box.bottom - datum),
        ("head", "datum", box.top - datum),
    ]
    return [
        {"kind": "opening", "of": opening.name, "edge": edge, "from": start, "reads": reads}
        for edge, start, reads in places
    ]


# --- from the readings to the lining -----------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Lined:
    """An alcove surveyed and set out."""

    job: Job
    system: System
    walls: Walls
    short: ShortList

    def pieces(self, layout: Layout) -> tuple[Piece, ...]:
        return make_pieces(layout, self.walls, self.system)

    def wall(self, name: str) -> FittedWall:
        return next(wall for wall in self.walls.walls if wall.name == name)


def line(raw: Mapping[str, object], system: System) -> Lined | None:
    """Survey and set out; nothing where no layout keeps every limit."""
    job = Job.model_validate(raw, context={"unit": raw["unit"]})
    walls = fit_walls(job)
    try:
        short = set_out(walls, job.choices, system, sample_rates().looks)
    except LayoutError:
        return None
    return Lined(job=job, system=system, walls=walls, short=short)


def lined(raw: Mapping[str, object], system: System) -> Lined:
    """Survey and set out; an alcove without a layout says nothing about layouts."""
    found = line(raw, system)
    assume(found is not None)
    assert found is not None
    return found


# --- strategies --------------------------------------------------------------------------------


def lengths(least: float, most: float) -> st.SearchStrategy[float]:
    """Lengths in whole steps. [mm]."""
    steps = st.integers(round(least / STEP), round(most / STEP))
    return steps.map(lambda count: count * STEP)


def grouted(*, face: tuple[float, float], joint: float, kerf: float, gap: float) -> System:
    """A plain-edged tile."""
    return System.model_validate(
        {
            "format": 1,
            "id": "tile",
            "name": "Tile drawn by lot",
            "unit": "mm",
            "kind": "grouted",
            "face": face,
            "thickness": 9,
            "bed": 4,
            "joint": (joint, joint),
            "weight": 3.6,
            "per_box": 8,
            "price": "38.40",
            "breakage": 0.05,
            "spares": 2,
            "turns": ("lying", "standing"),
            "wall_order": ("B", "L", "R"),
            "cutting": {
                "kerf": kerf,
                "least": 40,
                "half_turn": False,
                "tool": "wet saw",
                "material": "porcelain",
            },
            "gaps": {
                "deck": gap,
                "corner": gap,
                "butt": gap + 0.5,
                "opening": gap,
                "ceiling": gap,
                "front": 2,
                "hole_clear": 10,
            },
            "sealant": {
                "name": "Sealant",
                "cartridge": 0.3,
                "fillet": 6,
                "usable": 0.8,
                "price": 9,
                "hold_hours": 24,
            },
            "mortar": {
                "name": "Mortar",
                "notch_depth": 10,
                "notch_width": 10,
                "notch_gap": 10,
                "bag_yield": 13.5,
                "price": 21,
                "hold_hours": 24,
            },
            "grout": {
                "name": "Grout",
                "density": 1.6,
                "bag": 5,
                "price": 12,
                "hold_hours": 72,
            },
        }
    )


@st.composite
def tiles(draw: st.DrawFn) -> System:
    """Plain-edged modules with a joint."""
    wide = draw(lengths(300, 610))
    return grouted(
        face=(wide, draw(lengths(200, min(wide, 400)))),
        joint=draw(st.sampled_from([2.0, 3.0, 5.0])),
        kerf=draw(st.sampled_from([0.0, 2.0, 3.0])),
        gap=draw(st.sampled_from([2.0, 3.0, 4.0])),
    )


@st.composite
def keyed(draw: st.DrawFn) -> System:
    """Modules with tongues right and up, grooves left and down, and no joint."""
    system = sample_system()
    wide = draw(lengths(400, 620))
    return system.model_copy(
        update={
            "face": (wide, draw(lengths(240, 320))),
            "cutting": system.cutting.model_copy(update={"least": 40.0}),
        }
    )


def holes(wall: TrueWall, deck: float, floor: float) -> st.SearchStrategy[tuple[TrueHole, ...]]:
    """No holes, or a valve, a spout and an arm over each other."""

    def over_each_other(x: float, y: float, diameter: float) -> tuple[TrueHole, ...]:
        return (
            TrueHole(name="valve", x=x, y=y, diameter=diameter),
            TrueHole(name="spout", x=x + STEP, y=deck + 120.65, diameter=31.75),
            TrueHole(name="arm", x=x - STEP, y=floor + 2032.0, diameter=38.1),
        )

    middle = wall.width / 2
    some = st.builds(
        over_each_other,
        lengths(middle - 150, middle + 150),
        lengths(deck + 260, deck + 500),
        st.sampled_from([76.2, 101.6]),
    )
    return st.just(()) | some


@st.composite
def openings(draw: st.DrawFn, wall: TrueWall) -> tuple[TrueOpening, ...]:
    """No opening, or one clear of the corners."""
    kind: Literal["window", "niche"] = draw(st.sampled_from(["window", "niche"]))
    wide = draw(lengths(300, 620 if wall.width > 1000 else 360))
    left = draw(lengths(75, wall.width - wide - 75))
    sill = draw(lengths(0, 350))
    box = Box(left=left, right=left + wide, bottom=sill, top=sill + draw(lengths(280, 620)))
    return draw(st.sampled_from([(), (TrueOpening(name=kind, kind=kind, box=box),)]))


@st.composite
def alcoves(
    draw: st.DrawFn,
    systems: st.SearchStrategy[System] | None = None,
    *,
    bonds: tuple[str, ...] = ("stack", "half", "third"),
    turns: tuple[str, ...] = ("lying", "standing"),
    fronts_lean: bool = True,
) -> Alcove:
    """Three walls, edges leaning up to 8 mm over 6 ft, a deck up to 8 mm out of level."""
    lean = lengths(-8, 8).map(lambda off: off / OVER)
    front = st.just(0.0) | lean if fronts_lean else st.just(0.0)
    bare = [
        TrueWall(name="L", width=draw(lengths(700, 950)), left=draw(front), right=draw(lean)),
        TrueWall(name="B", width=draw(lengths(1400, 1750)), left=draw(lean), right=draw(lean)),
        TrueWall(name="R", width=draw(lengths(700, 950)), left=draw(lean), right=draw(front)),
    ]
    down, ceiling = draw(lengths(700, 800)), draw(lengths(1250, 1450))
    decks = tuple(draw(lengths(-4, 4)) - down for _ in range(4))
    ceilings = tuple(draw(lengths(-4, 4)) + ceiling for _ in range(4))
    floor = -down - draw(lengths(350, 420))
    wet = draw(st.sampled_from([0, 2]))
    bare[wet] = replace(bare[wet], holes=draw(holes(bare[wet], -down, floor)))
    bare[1] = replace(bare[1], openings=draw(openings(bare[1])))
    bare[2 - wet] = replace(bare[2 - wet], openings=draw(openings(bare[2 - wet])))
    return Alcove(
        walls=(bare[0], bare[1], bare[2]),
        decks=(decks[0], decks[1], decks[2], decks[3]),
        ceilings=(ceilings[0], ceilings[1], ceilings[2], ceilings[3]),
        floor=floor,
        system=draw(systems if systems is not None else tiles() | keyed()),
        choices={
            "turn": draw(st.sampled_from(turns)),
            "bond": draw(st.sampled_from(bonds)),
            "finish": draw(st.sampled_from(["line", "ceiling"])),
        },
    )
