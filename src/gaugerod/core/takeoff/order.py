"""What the take-off gives: an order, each line with its arithmetic."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.run_joints import Span
from gaugerod.core.job.goods import Pack


@dataclass(frozen=True, slots=True, kw_only=True)
class Boards:
    """Backer boards, and what is taped: the seams between them and the corners. [mm]."""

    count: int
    pieces: int
    seams: float
    corners: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """What is counted on the drawings, for pricing as well as for ordering.

    Lengths in [mm], areas in [mm2], volumes in [mm3]. `area` is what the lining covers;
    `seal_length` runs along deck, corners, openings and ceiling, `edge_length` along the
    open ends, `seam_length` along the seams between sheets; `bead_length` is of adhesive on
    the backs of all pieces. `inside_pieces`, `inside_area` and `inside_seal` are those of the
    inside faces of niches and `reveals`.

    `buttered` pieces take a bead, of which `longest_bead` is the longest; `cut_length` is of
    every cut edge, `ring_length` of the rims of all holes, and `hole_sizes` are their
    diameters with how many there are of each.
    """

    pieces: int
    straight_cuts: int
    shaped_cuts: int
    holes: int
    niches: int
    area: float
    key_length: float
    joint_volume: float
    seal_length: float
    bead_length: float
    edge_length: float
    seam_length: float = 0.0
    inside_pieces: int = 0
    inside_area: float = 0.0
    inside_seal: float = 0.0
    reveals: int = 0
    buttered: int = 0
    longest_bead: float = 0.0
    cut_length: float = 0.0
    ring_length: float = 0.0
    hole_sizes: tuple[tuple[float, int], ...] = ()
    boards: Boards | None = None

    @property
    def lined_area(self) -> float:
        """What is lined on walls and inside faces together. [mm2]."""
        return self.area + self.inside_area


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One thing to buy: `count` packages at `unit_price`. [cents].

    `count` is nought where what is on hand will do. `needed` are packages and parts of one,
    before what is on hand is taken off.
    """

    id: str
    name: str
    pack: Pack
    count: int
    unit_price: int
    arithmetic: Message
    needed: float = 0.0


End: TypeAlias = Literal["start", "end"]
"""Of a run: left or bottom, and right or top."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimRun:
    """One straight run of trim on a wall. [mm].

    `mitred` are the ends that meet another trim; `keep_off` is where a joint would lie too
    near a hole or an opening, from where to where along the run.
    """

    wall: str
    place: Literal["left", "right", "top", "seam"]
    length: float
    mitred: tuple[End, ...] = ()
    keep_off: tuple[Span, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimCut:
    """One length to cut for a run, or for a part of a run that is longer than the stock. [mm].

    `start` is where it begins on the stock length, `length` is its longer side, mitres in.
    """

    wall: str
    place: Literal["left", "right", "top", "seam"]
    part: int
    parts: int
    start: float
    length: float
    mitred: tuple[End, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimStock:
    """One stock length of a trim, what is cut from it in turn, and what is left. [mm]."""

    trim: str
    stock: float
    runs: tuple[TrimCut, ...]
    offcut: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimCount:
    """How many lengths of a trim, and the fewest that could do with its joints where they are.

    `proven` says that the two are the same.
    """

    trim: str
    lengths: int
    lower_bound: int
    proven: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class ProductOrder:
    """What is bought of the modules of one product."""

    product: str
    modules: int
    spares: int
    boxes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Everything to buy for one alcove.

    `modules` is what the pieces are cut from; `spares` come on top, for breakage and to
    leave with the owner; `boxes` hold both; `products` has them product by product. `at_once`
    is how many pieces may be buttered before the first of them is hung, where they are glued.
    """

    quantities: Quantities
    modules: int
    spares: int
    boxes: int
    lines: tuple[OrderLine, ...]
    products: tuple[ProductOrder, ...] = ()
    trims: tuple[TrimStock, ...] = ()
    trim_counts: tuple[TrimCount, ...] = ()
    at_once: int | None = None
