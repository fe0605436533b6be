"""Which module gives which piece: offcuts used again, edges kept, every cut guillotine."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.bound import Need, lower_bound
from gaugerod.core.cutting.pieces import CutPlan, Offcut, Piece, Placed, Stock
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System

ALL: frozenset[Side] = frozenset({"left", "right", "bottom", "top"})


def plan_cuts(pieces: Sequence[Piece], system: System, *, seed: int = 0) -> CutPlan:
    """Plan which module gives which pieces.

    Parameters
    ----------
    pieces
        The pieces to cut. [mm]
    system
        The module, with kerf. [mm]
    seed
        Kept for planners that draw lots; this one does not.

    Returns
    -------
    CutPlan
        Stock with its pieces and offcuts, and a lower bound on the modules. [mm]

    Raises
    ------
    MaterialError
        A piece is larger than the module, or would keep both ends of one that is longer.

    Notes
    -----
    Largest piece first (by area, by width, by height: the best of the three), each into the
    smallest offcut that is large enough and still has the factory edges the piece keeps; the
    rest is split along the piece, the way that leaves the larger offcut. Every offcut keeps
    the factory edges it still touches. A piece that sheds a groove lies clear of it.
    The bound is `lower_bound`. Source: own design; best-fit decreasing.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> plan_cuts((), sample_system()).modules
    0
    """
    del seed
    width, height = system.face
    needs = {piece.tag: _need(piece, system) for piece in pieces}
    for need in needs.values():
        _can_be_cut(need, width, height)
    tries = (_cut_all(needs.values(), system, order) for order in _ORDERS)
    benches = min(tries, key=lambda cut: (len(cut), sum(bench.cuts for bench in cut)))
    bounded = list(needs.values())
    if system.cutting.half_turn:
        # Turned over, a piece keeps the opposite edges: only its size then bounds the modules.
        bounded = [replace(need, keeps=frozenset(), sheds=frozenset()) for need in bounded]
    bound = lower_bound(bounded, size=system.face, kerf=system.cutting.kerf)
    return CutPlan(
        stock=tuple(bench.stock(system.id) for bench in benches),
        modules=len(benches),
        lower_bound=bound,
        proven=bound == len(benches),
        cuts=sum(bench.cuts for bench in benches),
    )


_ORDERS: tuple[Callable[[Need], tuple[float, float, str]], ...] = (
    lambda need: (-need.width * need.height, 0.0, need.tag),
    lambda need: (-need.width, -need.height, need.tag),
    lambda need: (-need.height, -need.width, need.tag),
)


def _cut_all(
    needs: Iterable[Need], system: System, order: Callable[[Need], tuple[float, float, str]]
) -> list["_Bench"]:
    """Cut every piece, in one order, out of offcuts where it can be, else out of new modules."""
    benches: list[_Bench] = []
    for need in sorted(needs, key=order):
        if not _from_offcut(benches, need, system.cutting.kerf):
            benches.append(_Bench(number=len(benches) + 1, size=system.face))
            benches[-1].place(need, 0, system.cutting.kerf)
    return benches


def _can_be_cut(need: Need, width: float, height: float) -> None:
    """Refuse a piece that no module can give."""
    whole = Box(left=0.0, bottom=0.0, right=width, top=height)
    if not _fits(need, whole, ALL):
        larger = need.width > width + SNAP or need.height > height + SNAP
        key = "cutting.too-large" if larger else "cutting.cannot-keep"
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
    sheds = (s for s in _ORDER if system.edges[s] == "groove" and away[s] >= off - SNAP)
    return Need(
        tag=piece.tag,
        width=width,
        height=height,
        keeps=frozenset(piece.keeps),
        sheds=frozenset(sheds) - frozenset(piece.keeps),
        shed_by=off,
    )


class _Bench:
    """One module while it is being cut."""

    __slots__ = ("cuts", "free", "number", "placed", "size")

    def __init__(self, *, number: int, size: tuple[float, float]) -> None:
        """Start with the whole module free."""
        self.number = number
        self.size = size
        whole = Box(left=0.0, bottom=0.0, right=size[0], top=size[1])
        self.free: list[tuple[Box, frozenset[Side]]] = [(whole, ALL)]
        self.placed: list[Placed] = []
        self.cuts = 0

    def place(self, need: Need, index: int, kerf: float) -> None:
        """Cut a piece out of one free box."""
        box, keeps = self.free.pop(index)
        left = box.right - need.width if _at_far(need, keeps, "left", "right") else box.left
        bottom = box.top - need.height if _at_far(need, keeps, "bottom", "top") else box.bottom
        at = Box(left=left, bottom=bottom, right=left + need.width, top=bottom + need.height)
        self.placed.append(Placed(tag=need.tag, at=(left, bottom), size=(need.width, need.height)))
        rests = list(_rests(box, keeps, at, kerf))
        self.cuts += sum(1 for gap in _slack(box, at) if gap > SNAP)
        self.free.extend(rests)

    def stock(self, product: str) -> Stock:
        """Return what the module became."""
        return Stock(
            id=f"M-{self.number}",
            source="module",
            product=product,
            size=self.size,
            keeps=("left", "right", "bottom", "top"),
            lot="",
            pieces=tuple(self.placed),
            offcuts=tuple(
                Offcut(
                    id=f"O-{self.number}{chr(96 + i)}",
                    at=(box.left, box.bottom),
                    size=(box.width, box.height),
                    keeps=tuple(side for side in _ORDER if side in keeps),
                )
                for i, (box, keeps) in enumerate(self.free, start=1)
            ),
        )


_ORDER: tuple[Side, ...] = ("left", "right", "bottom", "top")


def _at_far(need: Need, keeps: frozenset[Side], near: Side, far: Side) -> bool:
    """Put the piece at the far edge if it keeps that or sheds the near one, or to spare that."""
    if far in need.keeps or near in need.sheds & keeps:
        return True
    return near not in need.keeps and near in keeps and far not in keeps


def _slack(box: Box, at: Box) -> tuple[float, float]:
    return box.width - at.width, box.height - at.height


def _from_offcut(benches: Sequence[_Bench], need: Need, kerf: float) -> bool:
    best: tuple[float, _Bench, int] | None = None
    for bench in benches:
        for index, (box, keeps) in enumerate(bench.free):
            if _fits(need, box, keeps):
                waste = box.width * box.height
                if best is None or waste < best[0] - SNAP:
                    best = (waste, bench, index)
    if best is None:
        return False
    best[1].place(need, best[2], kerf)
    return True


def _fits(need: Need, box: Box, keeps: frozenset[Side]) -> bool:
    """Tell whether the box is large enough, has the edges that are kept, and loses grooves."""
    over_width, over_height = box.width - need.width, box.height - need.height
    if min(over_width, over_height) < -SNAP or not need.keeps <= keeps:
        return False
    spans = {"left", "right"} <= need.keeps and over_width > SNAP
    rises = {"bottom", "top"} <= need.keeps and over_height > SNAP
    over = {"left": over_width, "right": over_width, "bottom": over_height, "top": over_height}
    grooved = any(over[side] < need.shed_by - SNAP for side in need.sheds & keeps)
    return not (spans or rises or grooved)


def _rests(
    box: Box, keeps: frozenset[Side], at: Box, kerf: float
) -> Iterator[tuple[Box, frozenset[Side]]]:
    """Yield what is left beside and above a piece, split the way that spares the larger part."""
    beside, over = _slack(box, at)
    beside, over = beside - kerf, over - kerf
    upright_first = beside * box.height >= over * box.width
    piece_left, piece_low = at.left - box.left <= SNAP, at.bottom - box.bottom <= SNAP
    if beside > SNAP:
        lo, hi = (at.right + kerf, box.right) if piece_left else (box.left, at.left - kerf)
        bottom, top = (box.bottom, box.top) if upright_first else (at.bottom, at.top)
        yield _rest(box, keeps, Box(left=lo, right=hi, bottom=bottom, top=top))
    if over > SNAP:
        lo, hi = (at.top + kerf, box.top) if piece_low else (box.bottom, at.bottom - kerf)
        left, right = (at.left, at.right) if upright_first else (box.left, box.right)
        yield _rest(box, keeps, Box(left=left, right=right, bottom=lo, top=hi))


def _rest(box: Box, keeps: frozenset[Side], part: Box) -> tuple[Box, frozenset[Side]]:
    """Return a part with the factory edges that it still touches."""
    touches = {
        "left": part.left - box.left,
        "right": box.right - part.right,
        "bottom": part.bottom - box.bottom,
        "top": box.top - part.top,
    }
    return part, frozenset(side for side in _ORDER if side in keeps and touches[side] <= SNAP)
