"""A module as it is sawn: pieces and offcuts where they lie, in millimetres."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import floor
from types import MappingProxyType

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.base.lettering import letters
from gaugerod.core.cutting.bound import Need
from gaugerod.core.cutting.pieces import Offcut, Placed, SawCut, Stock
from gaugerod.core.cutting.rooms import Cut, Kind, Leaf, Part, Room, Tree, gives
from gaugerod.core.job.fields import Side

SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")


@dataclass(frozen=True, slots=True, kw_only=True)
class Bench:
    """A module in units and in true lengths: `unit`, `size`, `kerf` and `shed_by` in [mm]."""

    room: Room
    unit: float
    size: tuple[float, float]
    kerf: float
    shed_by: float
    product: str

    def module(self, number: int) -> Stock:
        """Return a module that nothing has been cut from. [mm]."""
        return Stock(
            id=f"M-{number}",
            source="module",
            product=self.product,
            size=self.size,
            keeps=SIDES,
            lot="",
            pieces=(),
            offcuts=(),
        )

    def part(self, stock: Stock) -> Part:
        """Return what is sawn in whole units, with the factory edges it has."""
        edges = sum(1 << bit for bit, side in enumerate(SIDES) if side in stock.keeps)
        wide, high = (floor((size + SNAP) / self.unit) for size in stock.size)
        return Part(left=0, bottom=0, right=wide, top=high, edges=edges)


def saw(
    tree: Tree, cut: Iterable[tuple[Need, Kind]], bench: Bench, *, stock: Stock
) -> tuple[Stock, int]:
    """Saw one module, or an offcut, up.

    Parameters
    ----------
    tree
        Its cuts, in units.
    cut
        For each slot of the tree the piece that is cut from it, also in units. [mm]
    bench
        What it is sawn on: units and kerf. [mm]
    stock
        What is sawn, with no pieces yet. [mm]

    Returns
    -------
    tuple of Stock and int
        Pieces and offcuts where they lie, and how many cuts that takes. [mm]

    Notes
    -----
    Cuts fall on whole units; a piece lies at the edges that it keeps, away from those that it
    sheds, and else at a cut edge, to spare the factory ones. Source: own design.

    Examples
    --------
    >>> room = Room(width=1200, height=600, kerf=6, kinds=(), demand=())
    >>> bench = Bench(room=room, unit=0.5, size=(600.0, 300.0), kerf=3.0, shed_by=0.0, product="m")
    >>> need = Need(tag="B1-1", width=400.0, height=300.0, keeps=frozenset({"left"}))
    >>> module = bench.module(1)
    >>> stock, cuts = saw(Leaf(0), [(need, Kind(800, 600, keeps=1))], bench, stock=module)
    >>> stock.pieces[0].at, [offcut.at for offcut in stock.offcuts], cuts
    ((0.0, 0.0), [(403.0, 0.0)], 1)
    """
    pieces: list[Placed] = []
    rests: list[tuple[Box, tuple[Side, ...]]] = []
    cuts = 0
    box = Box(left=0.0, bottom=0.0, right=stock.size[0], top=stock.size[1])
    slots = iter(cut)
    for leaf, part, free in _parts(tree, bench.part(stock), box, bench):
        if leaf is None:
            rests.append((free, _kept(part)))
            continue
        need, kind = next(slots)
        turned = not gives(kind, part)
        at = _seat(_turned(need) if turned else need, part, free, bench.shed_by)
        size = need.width, need.height
        blank = free if isinstance(tree, Cut) or stock.source == "offcut" else None
        place = Placed(tag=need.tag, at=(at.left, at.bottom), size=size, turned=turned, blank=blank)
        pieces.append(place)
        cuts += _trims(at, free, bench.unit)
        rests += _beside(at, free, _kept(part), bench.kerf)
    filled = replace(stock, pieces=tuple(pieces))
    sequence = tuple(_sequence(tree, bench.part(stock), box, bench, filled))
    if len(pieces) == 1 and stock.source == "module":
        # A piece that has a module to itself is marked on the whole of it.
        pieces, sequence = [replace(pieces[0], blank=None)], ()
    worth = [one for one in rests if min(one[0].width, one[0].height) > bench.unit]
    offcuts = tuple(
        Offcut(
            id=_named(stock, place),
            at=(rest.left, rest.bottom),
            size=(rest.width, rest.height),
            keeps=kept,
        )
        for place, (rest, kept) in enumerate(worth, start=1)
    )
    sawn = replace(stock, pieces=tuple(pieces), offcuts=offcuts, sequence=sequence)
    return sawn, cuts + _through(tree)


def _named(stock: Stock, place: int) -> str:
    """Name an offcut after what it is left of."""
    letter = letters(place - 1)
    if stock.source == "offcut":
        return f"{stock.id}-{letter}"
    return f"O-{stock.id.removeprefix('M-')}{letter}"


def _turned(need: Need) -> Need:
    """Return a piece upside down: it then lies at the opposite edges."""
    keeps, sheds = (frozenset(_OPPOSITE[side] for side in s) for s in (need.keeps, need.sheds))
    return replace(need, keeps=keeps, sheds=sheds)


_OPPOSITE: Mapping[Side, Side] = MappingProxyType(
    {"left": "right", "right": "left", "bottom": "top", "top": "bottom"}
)


def _through(tree: Tree) -> int:
    return 1 + _through(tree.first) + _through(tree.second) if isinstance(tree, Cut) else 0


def _parts(
    tree: Tree, part: Part, box: Box, bench: Bench
) -> Iterator[tuple[Leaf | None, Part, Box]]:
    """Yield the parts of a tree in units, as `leaves` does, and where they truly lie. [mm]."""
    if not isinstance(tree, Cut):
        yield tree, part, box
        return
    first, second = part.halves(tree, bench.room.kerf)
    boxes = _halves(tree, box, bench)
    yield from _parts(tree.first, first, boxes[0], bench)
    yield from _parts(tree.second, second, boxes[1], bench)


def _halves(cut: Cut, box: Box, bench: Bench) -> tuple[Box, Box]:
    """Return where the two parts that a cut leaves truly lie. [mm]."""
    if cut.upright:
        at = box.left + cut.at * bench.unit
        return replace(box, right=at), replace(box, left=at + bench.kerf)
    at = box.bottom + cut.at * bench.unit
    return replace(box, top=at), replace(box, bottom=at + bench.kerf)


def _sequence(tree: Tree, part: Part, box: Box, bench: Bench, stock: Stock) -> Iterator[SawCut]:
    """Yield the cuts right through in the order of sawing: a part before what it is parted in."""
    if not isinstance(tree, Cut):
        return
    halves = part.halves(tree, bench.room.kerf)
    boxes = _halves(tree, box, bench)
    near, far = boxes
    kept, (start, end) = _kept(part), _ENDS[tree.upright]
    stands = start in kept or end in kept
    if end in kept and start not in kept:
        start, near, far = end, far, near
    yield SawCut(
        part=box,
        start=start,
        at=_reach(near, start, stock.size),
        near=_inside(near, stock.pieces),
        far=_inside(far, stock.pieces),
        stands=stands,
    )
    for branch, half, own in zip((tree.first, tree.second), halves, boxes, strict=True):
        yield from _sequence(branch, half, own, bench, stock)


_ENDS: Mapping[bool, tuple[Side, Side]] = MappingProxyType(
    {True: ("left", "right"), False: ("bottom", "top")}
)


def _reach(near: Box, start: Side, size: tuple[float, float]) -> float:
    """Distance from an edge of the module to the far side of a box. [mm]."""
    return {
        "left": near.right,
        "right": size[0] - near.left,
        "bottom": near.top,
        "top": size[1] - near.bottom,
    }[start]


def _inside(box: Box, pieces: Sequence[Placed]) -> tuple[str, ...]:
    """Return the tags of the pieces whose middle lies in a box."""
    return tuple(
        piece.tag
        for piece in pieces
        if box.left < piece.at[0] + piece.size[0] / 2 < box.right
        and box.bottom < piece.at[1] + piece.size[1] / 2 < box.top
    )


def _kept(part: Part) -> tuple[Side, ...]:
    return tuple(side for bit, side in enumerate(SIDES) if part.edges >> bit & 1)


def _seat(need: Need, part: Part, free: Box, shed_by: float) -> Box:
    """Return where a piece lies in its part. [mm]."""
    kept = _kept(part)
    left = _start(need, kept, ("left", "right"), (free.left, free.right - need.width), shed_by)
    bottom = _start(need, kept, ("bottom", "top"), (free.bottom, free.top - need.height), shed_by)
    return Box(left=left, bottom=bottom, right=left + need.width, top=bottom + need.height)


def _start(
    need: Need,
    kept: Sequence[Side],
    sides: tuple[Side, Side],
    ends: tuple[float, float],
    shed_by: float,
) -> float:
    near, far = sides
    lost = [side in need.sheds and side in kept for side in sides]
    if all(lost):
        return ends[0] + shed_by
    if far in need.keeps or lost[0]:
        return ends[1]
    spare = near not in need.keeps and near in kept and far not in kept
    return ends[1] if spare else ends[0]


def _trims(at: Box, free: Box, unit: float) -> int:
    """Count the cuts that trim a piece out of its part; less than a unit is no cut of its own."""
    gaps = (at.left - free.left, free.right - at.right, at.bottom - free.bottom, free.top - at.top)
    return sum(gap > unit - SNAP for gap in gaps)


def _beside(
    at: Box, free: Box, kept: tuple[Side, ...], kerf: float
) -> Iterator[tuple[Box, tuple[Side, ...]]]:
    """Yield what is left round a piece, split the way that spares the larger part."""
    across = max(at.left - free.left, free.right - at.right) - kerf
    up = max(at.bottom - free.bottom, free.top - at.top) - kerf
    upright_first = across * free.height >= up * free.width
    full = (free.bottom, free.top) if upright_first else (at.bottom, at.top)
    wide = (at.left, at.right) if upright_first else (free.left, free.right)
    strips = (
        (Box(left=free.left, right=at.left - kerf, bottom=full[0], top=full[1]), "right"),
        (Box(left=at.right + kerf, right=free.right, bottom=full[0], top=full[1]), "left"),
        (Box(left=wide[0], right=wide[1], bottom=free.bottom, top=at.bottom - kerf), "top"),
        (Box(left=wide[0], right=wide[1], bottom=at.top + kerf, top=free.top), "bottom"),
    )
    for strip, cut in strips:
        if min(strip.width, strip.height) > SNAP:
            yield strip, _touching(strip, free, kept, cut)


def _touching(strip: Box, free: Box, kept: tuple[Side, ...], cut: str) -> tuple[Side, ...]:
    """Return the factory edges that a strip still touches; `cut` is where the piece was."""
    touches = {
        "left": strip.left - free.left,
        "right": free.right - strip.right,
        "bottom": strip.bottom - free.bottom,
        "top": free.top - strip.top,
    }
    return tuple(side for side in kept if side != cut and touches[side] <= SNAP)
