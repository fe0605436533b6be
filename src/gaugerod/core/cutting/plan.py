"""Which module gives which piece: offcuts used again, edges kept, every cut guillotine."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace
from itertools import count, repeat
from math import ceil, floor

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.bound import Need, lower_bound
from gaugerod.core.cutting.held import Filled, filled
from gaugerod.core.cutting.pieces import CutPlan, Piece, Stock
from gaugerod.core.cutting.rooms import (
    BOTTOM,
    LEFT,
    RIGHT,
    TOP,
    Kind,
    Room,
    Tree,
    gives,
    pooled,
    whole,
)
from gaugerod.core.cutting.sawn import Bench, saw
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System

UNITS = {"in": 25.4 / 32, "mm": 0.5, "cm": 0.5}
"""Boxes round pieces are rounded up to this, by the unit of the material. [mm]"""
LOOK = 50
"""So many pieces that are alike are looked through for one of the same wall."""
BITS: Mapping[Side, int] = {"left": LEFT, "right": RIGHT, "bottom": BOTTOM, "top": TOP}


def plan_cuts(
    pieces: Sequence[Piece],
    system: System,
    *,
    proven: bool = True,
    at_hand: Sequence[OffcutAtHand] = (),
) -> CutPlan:
    """Plan which module gives which pieces.

    Parameters
    ----------
    pieces
        The pieces to cut, in the order of setting. [mm]
    system
        The module, with kerf. [mm]
    proven
        Whether to look for the fewest modules, and prove them; else a plan is made at once.
    at_hand
        Offcuts of the same product from elsewhere; used before a module is begun. [mm]

    Returns
    -------
    CutPlan
        Stock with its pieces and offcuts, and a lower bound on the modules. [mm]

    Raises
    ------
    MaterialError
        A piece has no size, is larger than the module, or would keep both ends of one that is
        longer.

    Notes
    -----
    Boxes round the pieces are rounded up to 1/32 in or to 0.5 mm, as the material is written;
    what is proven is proven of these boxes, cut by guillotine cuts of the kerf's width. A piece
    that sheds a groove lies clear of it. Source: `fewest`; own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> plan_cuts((), sample_system()).modules
    0
    """
    bench = _bench(system)
    needs = [_need(piece, system) for piece in pieces]
    kinds = [_kind(need, bench) for need in needs]
    for need, kind in zip(needs, kinds, strict=True):
        _can_be_cut(need, kind, bench.room)
    room = _with_kinds(bench.room, kinds)
    # Upside down a piece keeps the opposite edges: that bound does not know of it.
    known = 0
    if not room.half_turn:
        known = lower_bound(needs, size=system.face, kerf=system.cutting.kerf)
    bench = replace(bench, room=room)
    offcuts = [_offcut(one, bench) for one in at_hand]
    parts = [bench.part(stock) for stock in offcuts]
    found = filled(room, parts, known=known, proven=proven)
    by_tag = {need.tag: (need, kind) for need, kind in zip(needs, kinds, strict=True)}
    cut_up = _handed_out(found, room, {tag: kind for tag, (_, kind) in by_tag.items()}, pieces)
    modules = count(1)
    sawn = [
        saw(
            tree,
            (by_tag[tag] for tag in tags),
            bench,
            stock=bench.module(next(modules)) if number is None else offcuts[number],
        )
        for number, tree, tags in cut_up
    ]
    bought = len(found.rest.trees)
    bound = found.rest.bound if at_hand else max(found.rest.bound, known)
    return CutPlan(
        stock=tuple(stock for stock, _ in sawn),
        modules=bought,
        lower_bound=bound,
        proven=bound == bought,
        cuts=sum(cuts for _, cuts in sawn),
    )


def _offcut(held: OffcutAtHand, bench: Bench) -> Stock:
    return replace(
        bench.module(0),
        id=f"H-{held.name}",
        source="offcut",
        size=held.size,
        keeps=held.keeps,
        lot=held.lot,
    )


def room_without_edges(pieces: Sequence[Piece], system: System) -> Room:
    """Return what would be cut if no piece had to keep an edge, or to shed one.

    Parameters
    ----------
    pieces
        The pieces to cut. [mm]
    system
        The module, with kerf. [mm]

    Returns
    -------
    Room
        Sizes in units; no plan of it can be trusted, but its number tells what edges cost.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> room_without_edges((), sample_system()).demand
    ()
    """
    bench = _bench(system)
    kinds = [_kind(_need(piece, system), bench) for piece in pieces]
    bare = [replace(kind, keeps=0, sheds=0, clear=(0, 0)) for kind in kinds]
    return _with_kinds(bench.room, bare)


def _with_kinds(room: Room, kinds: Sequence[Kind]) -> Room:
    order, demand = pooled(kinds)
    return replace(room, kinds=order, demand=demand)


def _bench(system: System) -> Bench:
    unit = UNITS[system.unit]
    (wide, high), kerf = system.face, system.cutting.kerf
    room = Room(
        width=floor((wide + SNAP) / unit),
        height=floor((high + SNAP) / unit),
        kerf=ceil((kerf - SNAP) / unit),
        kinds=(),
        demand=(),
        half_turn=system.cutting.half_turn,
    )
    return Bench(
        room=room,
        unit=unit,
        size=system.face,
        kerf=kerf,
        shed_by=system.cutting.groove_off,
        product=system.id,
    )


def _kind(need: Need, bench: Bench) -> Kind:
    """Round a piece up to whole units; one as long as the module is as long in units too."""
    sizes = (need.width, need.height)
    most = zip(bench.size, (bench.room.width, bench.room.height), strict=True)
    units = [
        (_up(size, *ends, bench.unit), _up(size + need.shed_by, *ends, bench.unit))
        for size, ends in zip(sizes, most, strict=True)
    ]
    (width, wide), (height, high) = units
    clear = (wide - width, high - height) if need.sheds else (0, 0)
    return Kind(width, height, _bits(need.keeps), _bits(need.sheds), clear)


def _up(size: float, module: float, units: int, unit: float) -> int:
    """Round a length up; the module is rounded down, and what is as long as that is as long."""
    up = ceil((size - SNAP) / unit)
    return units if up > units and size <= module + SNAP else up


def _bits(sides: frozenset[Side]) -> int:
    return sum(BITS[side] for side in sides)


def _can_be_cut(need: Need, kind: Kind, room: Room) -> None:
    """Refuse a piece that no module can give."""
    none = min(kind.width, kind.height) <= 0
    if none or not gives(kind, whole(room)):
        larger = kind.width > room.width or kind.height > room.height
        key = "cutting.too-large" if larger else "cutting.cannot-keep"
        key = "cutting.nothing" if none else key
        size = {"width": Length(need.width), "height": Length(need.height)}
        raise MaterialError(Message(key, piece=need.tag, **size))


def _need(piece: Piece, system: System) -> Need:
    width, height = piece.size
    box, off = piece.within, system.cutting.groove_off
    away = {
        "left": box.left,
        "right": system.face[0] - box.right,
        "bottom": box.bottom,
        "top": system.face[1] - box.top,
    }
    # A groove that the set-out cuts off must not come back from another place in a module.
    sheds = (s for s in BITS if system.edges[s] == "groove" and away[s] >= off - SNAP)
    return Need(
        tag=piece.tag,
        width=width,
        height=height,
        keeps=frozenset(piece.keeps),
        sheds=frozenset(sheds) - frozenset(piece.keeps),
        shed_by=off,
    )


def _handed_out(
    found: Filled, room: Room, kinds: Mapping[str, Kind], pieces: Sequence[Piece]
) -> list[tuple[int | None, Tree, list[str]]]:
    """Hand the pieces of each kind to its slots, those of one wall together where it can be.

    What is cut up comes in the order in which the pieces are set, with its place among the
    offcuts at hand if it is one of these.
    """
    wall = {piece.tag: piece.wall for piece in pieces}
    rank = {piece.tag: place for place, piece in enumerate(pieces)}
    waiting: dict[Kind, list[str]] = defaultdict(list)
    for tag, kind in kinds.items():
        waiting[kind].append(tag)
    cut_up: list[tuple[int | None, Tree, list[str]]] = []
    rest = zip(repeat(None), found.rest.trees, found.rest.kinds, strict=False)
    held = ((number, tree, found.kinds[number]) for number, tree in found.trees.items())
    for held_number, tree, numbers in (*held, *rest):
        tags: list[str] = []
        for number in numbers:
            walls = {wall[tag] for tag in tags}
            tags.append(_next(waiting[room.kinds[number]], walls, wall))
        cut_up.append((held_number, tree, tags))
    return sorted(cut_up, key=lambda one: min(rank[tag] for tag in one[2]))


def _next(waiting: list[str], walls: AbstractSet[str], wall: Mapping[str, str]) -> str:
    """Take the first tag of a wall that the module has already, else the first."""
    same = (place for place, tag in enumerate(waiting[:LOOK]) if wall[tag] in walls)
    return waiting.pop(next(same, 0))
