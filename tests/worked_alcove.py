"""The alcove of the worked examples, surveyed without an error. Invented, in inches.

Sizes are what shows once the walls lap: back wall 60, end walls 32, floor 15 under the low point
of the deck and ceiling 81 over it; the deck lies low along L and at the left of B, 3/8 higher
along R. The datum is struck 30 over the low point.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cache

import numpy as np

from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.base.lengths import IMPERIAL, METRIC, MM_PER_INCH, parse_length
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.document import Choices, Job
from gaugerod.core.job.materials import Meets, System
from gaugerod.core.setout.events import phases
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.layout import Layout, Meeting, ShortList, Turn
from gaugerod.core.setout.score import score_phases
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.strips import Case, batch_of
from gaugerod.core.sheet.chain import segments
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedWall, Walls
from gaugerod.store.shelf import Library

INCH = float(MM_PER_INCH)
LOW = -30 * INCH
"""The low point of the deck. [mm]"""
DECKS = {"L": (0.0, 0.0), "B": (0.0, 0.375), "R": (0.375, 0.375)}
CEILING = 81.0
NAMES = tuple(DECKS)
MET: dict[str, tuple[Meeting, Meeting]] = {
    "L": ("open", "runs behind"),
    "B": ("butts", "runs behind"),
    "R": ("butts", "open"),
}

Readings = list[dict[str, object]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Pierced:
    """A window or niche on the back wall, by its left side, width, bottom and top. [in]."""

    kind: str
    left: float
    width: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Bored:
    """A hole in the left wall, by its place from the back corner and over the deck. [in]."""

    name: str
    back: float
    up: float
    diameter: float
    plate: float


WINDOW = Pierced(kind="window", left=21.125, width=24.0, bottom=40.0, top=64.0)
VALVE = Bored(name="valve", back=15.0, up=11.75, diameter=3.0, plate=7.0)
ARM = Bored(name="arm", back=15.0, up=65.0, diameter=1.5, plate=2.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What is in the alcove, and what has been chosen."""

    opening: Pierced | None = None
    holes: tuple[Bored, ...] = ()
    choices: dict[str, object] = field(default_factory=dict)
    depth: float = 32.0
    width: float = 60.0

    def job(self) -> Job:
        """The readings that a setter without an error would take."""
        return Job.model_validate(
            {
                "format": 1,
                "name": "Worked examples",
                "scenario": "Invented.",
                "unit": "mm",
                "survey": {"surface": "backer"},
                "choices": {
                    "material": "shows",
                    "turn": "lying",
                    "bond": "stack",
                    **self.choices,
                },
                "calendar": {"start": "2026-03-02"},
                "wall": [self._wall(name) for name in NAMES],
            }
        )

    def _wall(self, name: str) -> dict[str, object]:
        width = (self.width if name == "B" else self.depth) * INCH
        readings = _shell(name, width)
        document: dict[str, object] = {"name": name, "readings": readings}
        if name == "L":
            readings += _bored(self.holes)
            document["hole"] = [
                {"name": h.name, "diameter": h.diameter * INCH, "plate": h.plate * INCH}
                for h in self.holes
            ]
        if name == "B" and self.opening:
            readings += _pierced(self.opening)
            document["opening"] = [{"name": "opening", "kind": self.opening.kind}]
        return document


def _shell(name: str, width: float) -> Readings:
    readings: Readings = [{"kind": "width", "at": at * INCH, "reads": width} for at in (-28, 0, 40)]
    for at, deck in zip((0.0, width), DECKS[name], strict=True):
        readings.append({"kind": "deck", "at": at, "reads": (30 - deck) * INCH})
        readings.append({"kind": "ceiling", "at": at, "reads": (CEILING - 30) * INCH})
    corners = {"L": ("right",), "B": ("left", "right"), "R": ("left",)}[name]
    readings += [
        {"kind": "lean", "edge": edge, "over": 72 * INCH, "reads": 0.0} for edge in corners
    ]
    if name == "L":
        readings.append({"kind": "floor", "at": width, "reads": 15 * INCH})
    return readings


def _bored(holes: Iterable[Bored]) -> Readings:
    return [
        {"kind": "hole", "of": hole.name, "from": start, "reads": reads * INCH}
        for hole in holes
        for start, reads in (("right", hole.back), ("datum", hole.up - 30))
    ]


def _pierced(opening: Pierced) -> Readings:
    sides = (
        ("left", "left", opening.left),
        ("width", "itself", opening.width),
        ("sill", "datum", opening.bottom - 30),
        ("head", "datum", opening.top - 30),
    )
    return [
        {"kind": "opening", "of": "opening", "edge": edge, "from": start, "reads": reads * INCH}
        for edge, start, reads in sides
    ]


@cache
def _packaged() -> System:
    return Library().materials().systems["keyed-24x12"]


def keyed(**gaps: float) -> System:
    """The packaged module of 24 x 12 as it shows: no thickness to lap, no joint in a corner.

    Only the joint of 1/8 at the deck, the cut that takes a groove off and the 3/8 that a top
    course must lift stay as they are. [in].
    """
    packaged = _packaged()
    # The examples count every clearance to the full and keep nothing to spare.
    bare = {"butt": 0.0, "corner": 0.0, "hole_spare": 0.0}
    wanted = bare | {name: gap * INCH for name, gap in gaps.items()}
    return packaged.model_copy(
        update={"thickness": 1e-9, "bed": 0.0, "gaps": packaged.gaps.model_copy(update=wanted)}
    )


def plain(**gaps: float) -> System:
    """A tile of the same face and kerf without keys; joint of 1/8 at the ceiling. [in]."""
    system = keyed(**{"ceiling": 0.125} | gaps)
    edges = dict.fromkeys(("left", "right", "bottom", "top"), "plain")
    return system.model_copy(
        update={
            "kind": "grouted",
            "key_depth": 0.0,
            "edges": system.edges.model_copy(update=edges),
            "cutting": system.cutting.model_copy(update={"groove_off": 0.0}),
        }
    )


def lapping(*hides: Meets, corner: float = 0.375) -> System:
    """The packaged module with its thickness, to be fitted between backers.

    The gap in a corner is by default that of a tongue left on; `hides` names more places where
    a groove is hidden. [in].
    """
    packaged = _packaged()
    wanted = {"corner": corner * INCH, "hides_key": (*packaged.gaps.hides_key, *hides)}
    return packaged.model_copy(update={"gaps": packaged.gaps.model_copy(update=wanted)})


def least(system: System, inches: float) -> System:
    """The same material with another least size. [in]."""
    cutting = system.cutting.model_copy(update={"least": inches * INCH})
    return system.model_copy(update={"cutting": cutting})


def searched(room: Room, system: System) -> tuple[Walls, ShortList]:
    """Survey the room and set it out."""
    job = room.job()
    walls = fit_walls(job)
    looks = Library().rates()["shop"].looks
    return walls, set_out(walls, job.choices, system, looks)


def first(room: Room, system: System) -> tuple[Layout, tuple[Piece, ...]]:
    """The layout that looks best, and its pieces."""
    walls, short = searched(room, system)
    layout = short.layouts[0]
    return layout, make_pieces(layout, walls, system)


def tried(
    wall: FittedWall,
    system: System,
    *,
    at: Sequence[float] = (),
    top: float,
    bond: float = 0.0,
    first_height: str = "11 1/2",
    turn: Turn = "lying",
    low: float = LOW,
    met: tuple[Meeting, Meeting] | None = None,
) -> tuple[Score, ...]:
    """Score lattices on a wall, at these phases or else at all that are worth trying. [in].

    Heights are over the low point of the deck, which is at `low`. [mm]. Walls meet as they do
    when set from left to right, unless `met` says otherwise.
    """
    face, pitch = hung(system, turn)
    case = Case(
        wall=wall,
        met=met or MET[wall.name],
        top=low + top * INCH,
        system=system,
        turn=turn,
        looks=Library().rates()["shop"].looks,
    )
    line = low + system.gaps.deck + float(parse_length(first_height, unit="in"))
    lattice = Lattice(
        face=face, pitch=pitch, first_course=line, phase=0.0, row_shift=bond * pitch[0]
    )
    found = [x * INCH for x in at]
    if not found:
        free = Choices(material="shows")
        found = [x for _, x in phases(batch_of(case, lattice, np.zeros(1)), free)]
    return score_phases(batch_of(case, lattice, np.array(found)))


def in_course(pieces: Iterable[Piece], wall: str, course: int) -> list[Piece]:
    """The pieces of one course, from left to right."""
    return [piece for piece in pieces if (piece.wall, piece.course) == (wall, course)]


def widths(pieces: Sequence[Piece]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """The widths of neighbours, in sixteenths and in millimetres, that sum to the whole."""
    boxes = [bounds_of(piece.region.rings) for piece in pieces]
    stations = [boxes[0].left, *(box.right for box in boxes)]
    return segments(stations, IMPERIAL), segments(stations, METRIC)
