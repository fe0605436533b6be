"""What the take-off gives: an order, each line with its arithmetic."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.messages import Message

Pack: TypeAlias = Literal["box", "length", "cartridge", "bag"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Quantities:
    """What is counted on the drawings, for pricing as well as for ordering.

    Lengths in [mm], areas in [mm2], volumes in [mm3]. `area` is what the lining covers;
    `seal_length` runs along deck, corners, openings and ceiling, `edge_length` along the
    open ends, `seam_length` along the seams between sheets; `bead_length` is of adhesive on
    the backs of all pieces. `inside_pieces`, `inside_area` and `inside_seal` are those of the
    inside faces of niches and `reveals`.
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


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderLine:
    """One thing to buy: `count` packages at `unit_price`. [cents]."""

    id: str
    name: str
    pack: Pack
    count: int
    unit_price: int
    arithmetic: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimRun:
    """One straight run of trim on a wall. [mm]."""

    wall: str
    place: Literal["left", "right", "top", "seam"]
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class TrimStock:
    """One stock length of a trim, and the runs cut from it."""

    trim: str
    runs: tuple[TrimRun, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """Everything to buy for one alcove.

    `modules` is what the pieces are cut from; `spares` come on top, for breakage and to
    leave with the owner; `boxes` hold both.
    """

    quantities: Quantities
    modules: int
    spares: int
    boxes: int
    lines: tuple[OrderLine, ...]
    trims: tuple[TrimStock, ...] = ()
