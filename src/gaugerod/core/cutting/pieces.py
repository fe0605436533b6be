"""What the cutting stage gives: pieces, marks, stock and offcuts."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import Box, Point, Region
from gaugerod.core.job.fields import InsideFace, Side

EdgeKind: TypeAlias = Literal["factory", "tongue off", "cut"]


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceEdge:
    """One straight stretch of a piece's outline, in the module's frame. [mm]."""

    side: Side
    kind: EdgeKind
    start: Point
    end: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceHole:
    """A hole to drill, in the module's frame. [mm]."""

    name: str
    x: float
    y: float
    diameter: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One measurement to mark by, face up, from a kept edge. [mm].

    `what` names it: ``bottom`` and ``top`` widths or ``left`` and ``right`` heights of a
    straight cut, ``along bottom`` and the like where a cut on the slant meets that edge,
    ``notch`` and ``u-cut`` the inner corners of what comes out at the sides that `detail`
    names, ``corner`` a point of a cut that is joined point by point (``a1`` to ``a2`` and on),
    ``scribe`` the same of a cut that stays on one side (``bottom a1``), ``hole`` centre,
    ``check`` from the edge opposite.
    """

    what: str
    start: Side
    value: float
    detail: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """What goes on the wall: `region` on the wall, all else in the module's frame. [mm].

    The frame's origin is the lower left of the module's face, face up, arrow up, with the
    module lying where it hangs; `turn` is anticlockwise from module to wall. [degrees].
    `face` is width and height of the module, `within` the box of it that the piece takes, and
    `cell` the upright box on the wall round the whole module. `wall` names the wall, or the
    inside face of an opening, whose plane then stands for the wall. `tilt` is how much more it
    is turned where a line below was found off level. [degrees].
    """

    tag: str
    wall: str
    course: int
    place: int
    product: str
    turn: int
    face: tuple[float, float]
    region: Region
    cell: Box
    within: Box
    whole: bool
    edges: tuple[PieceEdge, ...]
    keeps: tuple[Side, ...]
    holes: tuple[PieceHole, ...]
    marks: tuple[Mark, ...]
    measure_in_place: bool
    tilt: float = 0.0

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the box round the piece, in the module's frame. [mm]."""
        return (self.within.width, self.within.height)


@dataclass(frozen=True, slots=True, kw_only=True)
class Inside:
    """One inside face of a lined opening, on a plane of its own, with its pieces. [mm].

    The plane is seen as you face it: the front edge is at the bottom of a sill, at the top of a
    head, at the right of a right side, at the left of a left one. `region` is what its pieces
    and the joints between them cover; `sealed` is the length of the joints that it closes.
    """

    name: str
    wall: str
    opening: str
    kind: Literal["window", "niche"]
    face: InsideFace
    region: Region
    pieces: tuple[Piece, ...]
    sealed: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A piece cut from a stock module, by the box round it; `turned` upside down. [mm].

    `blank` is the part of the module that the cuts right through leave for it; none where it
    is marked on the whole.
    """

    tag: str
    at: Point
    size: tuple[float, float]
    turned: bool = False
    blank: Box | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SawCut:
    """One cut right through `part`, a box of a module, in the order of sawing. [mm].

    The saw's near side is `at` from the edge `start` of the module; `near` are the pieces that
    lie on that side, `far` those beyond the kerf. Where the part no longer has that edge,
    `stands` is false: the line is to be marked before the first cut.
    """

    part: Box
    start: Side
    at: float
    near: tuple[str, ...]
    far: tuple[str, ...]
    stands: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Offcut:
    """What is left of a module: a box with the factory edges it still has. [mm]."""

    id: str
    at: Point
    size: tuple[float, float]
    keeps: tuple[Side, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One module bought, and what is cut from it; `sequence` are its cuts right through. [mm]."""

    id: str
    source: Literal["module", "offcut"]
    product: str
    size: tuple[float, float]
    keeps: tuple[Side, ...]
    lot: str
    pieces: tuple[Placed, ...]
    offcuts: tuple[Offcut, ...]
    sequence: tuple[SawCut, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ModuleCount:
    """The modules of one product of several, and the fewest that could do."""

    product: str
    modules: int
    lower_bound: int
    proven: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class CutPlan:
    """Which stock gives which piece, and the fewest modules that could do.

    `proven` says that the bound is met: no plan of guillotine cuts needs fewer modules. Where
    there are several products, `counts` has those that are on the walls, and the rest is of all
    of them together; else it is empty.
    """

    stock: tuple[Stock, ...]
    modules: int
    lower_bound: int
    proven: bool
    cuts: int
    counts: tuple[ModuleCount, ...] = ()
