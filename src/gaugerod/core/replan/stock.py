"""What the pieces that don't hang yet are cut from: what is begun first, then whole modules."""

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.cutting.pieces import CutPlan, Offcut, Piece, Placed, SawCut, Stock
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.document import OffcutAtHand
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System
from gaugerod.core.replan.alike import alike

_AXES: tuple[tuple[Side, Side], ...] = (("left", "right"), ("bottom", "top"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Made:
    """Tags of the pieces that hang, and of those that are cut and do not hang yet."""

    on_wall: AbstractSet[str]
    cut: AbstractSet[str]


def restocked(
    cuts: CutPlan,
    old: Mapping[str, Piece],
    new: Mapping[str, Piece],
    system: System,
    *,
    made: Made,
    there: int,
    offcuts: Sequence[OffcutAtHand] = (),
    last: int = 0,
) -> CutPlan:
    """Plan again what the pieces that don't hang yet are cut from.

    Parameters
    ----------
    cuts
        The cut plan so far. [mm]
    old, new
        The pieces before and after, by tag. [mm]
    system
        The module. [mm]
    made
        What hangs and what is cut.
    there
        How many modules there are, those that are cut up with them. [1]
    offcuts
        Offcuts from elsewhere; those that are not begun may still be used. [mm]
    last
        The last number that a module has, if not in this plan. [1]

    Returns
    -------
    CutPlan
        Modules that are begun keep what still fits where it was, and what is left of them is
        used before a whole module is; the cuts counted are those that are planned anew. [mm]

    Notes
    -----
    A module is begun once a piece of it is cut. A piece fits where it was if its box lies in
    the box that it had, at the same factory edges. Modules that are not begun stay as they are
    planned if nothing of them changes; only where there are too few modules are they planned
    anew too. The number of modules is the fewest for what is planned anew, in the sense of
    `plan_cuts`. Source: own design.

    Examples
    --------
    Nothing hangs, nothing changed: the plan stands.

    >>> from gaugerod.core.job.sample import sample_system
    >>> empty = CutPlan(stock=(), modules=0, lower_bound=0, proven=True, cuts=0)
    >>> none = Made(on_wall=set(), cut=set())
    >>> restocked(empty, {}, {}, sample_system(), made=none, there=0) == empty
    True
    """
    same = {tag for tag, piece in new.items() if tag in old and alike(old[tag], piece)}
    if old.keys() == new.keys() == same:
        return cuts
    stays = [one for one in cuts.stock if all(placed.tag in same for placed in one.pieces)]
    begun = [one for one in cuts.stock if _is_begun(one, made)]
    first = max([last, *map(number_of, cuts.stock)])
    few = _Again(first, old, new, system, made, offcuts)
    gentle = few.planned([*begun, *(one for one in stays if not _is_begun(one, made))])
    if gentle.modules <= there:
        return gentle
    return min(few.planned(begun), gentle, key=lambda plan: plan.modules)


def _is_begun(stock: Stock, made: Made) -> bool:
    return any(placed.tag in made.on_wall | made.cut for placed in stock.pieces)


@dataclass(frozen=True, slots=True)
class _Again:
    """What there is to plan again. [mm]."""

    first: int
    old: Mapping[str, Piece]
    new: Mapping[str, Piece]
    system: System
    made: Made
    offcuts: Sequence[OffcutAtHand]

    def planned(self, stays: Sequence[Stock]) -> CutPlan:
        """Return the plan in which some modules stay as far as what is in them fits. [mm]."""
        kept = [
            _kept(one, self.old, self.new, self.made, kerf=self.system.cutting.kerf)
            for one in stays
        ]
        placed = {one.tag for stock in kept for one in stock.pieces}
        pieces = self.new.items()
        loose = [piece for tag, piece in pieces if tag not in placed | self.made.on_wall]
        used = {stock.id for stock in stays}
        at_hand = [
            *(_at_hand(offcut, stock) for stock in kept for offcut in stock.offcuts),
            *(one for one in self.offcuts if f"H-{one.name}" not in used),
        ]
        again = plan_cuts(loose, self.system, at_hand=at_hand)
        taken = {one.id.removeprefix("H-") for one in again.stock if one.source == "offcut"}
        modules = sum(stock.source == "module" for stock in kept)
        return CutPlan(
            stock=(*(_without(one, taken) for one in kept), *_renumbered(again.stock, self.first)),
            modules=modules + again.modules,
            lower_bound=modules + again.lower_bound,
            proven=again.proven,
            cuts=again.cuts,
        )


def _without(stock: Stock, taken: AbstractSet[str]) -> Stock:
    left = tuple(offcut for offcut in stock.offcuts if offcut.id not in taken)
    return replace(stock, offcuts=left)


def _kept(
    stock: Stock, old: Mapping[str, Piece], new: Mapping[str, Piece], made: Made, *, kerf: float
) -> Stock:
    """Return a module with what still fits in it; the rest of it is offcuts."""
    pieces: list[Placed] = []
    offcuts: list[Offcut] = []
    for part in _parted(stock, made, kerf):
        here = [placed for placed in stock.pieces if _inside(placed, part)]
        fit = {one.tag: _fitting(one, old, new, made) for one in here}
        begun = any(one.tag in made.on_wall | made.cut for one in here)
        if begun or all(fit.values()):
            pieces += (placed for placed in fit.values() if placed)
            offcuts += (one for one in stock.offcuts if _inside(one, part))
            gone = [one for one in here if not fit[one.tag]]
        else:
            gone = [Placed(tag="", at=(part.left, part.bottom), size=(part.width, part.height))]
        offcuts += (_freed(one, stock, len(offcuts) + place) for place, one in enumerate(gone, 1))
    return replace(stock, pieces=tuple(pieces), offcuts=tuple(offcuts))


def _parted(stock: Stock, made: Made, kerf: float) -> list[Box]:
    """Return the parts that a module is in once what is cut of it is cut. [mm]."""
    parts = [Box(left=0.0, bottom=0.0, right=stock.size[0], top=stock.size[1])]
    for cut in stock.sequence:
        if (made.on_wall | made.cut) & {*cut.near, *cut.far}:
            whole = min(parts, key=lambda part: _apart(part, cut.part))
            parts.remove(whole)
            parts += _halves(whole, cut, stock.size, kerf)
    return parts


def _apart(one: Box, other: Box) -> float:
    """Return how far the corners of two boxes lie apart. [mm]."""
    return max(
        abs(one.left - other.left),
        abs(one.bottom - other.bottom),
        abs(one.right - other.right),
        abs(one.top - other.top),
    )


def _halves(whole: Box, cut: SawCut, size: tuple[float, float], kerf: float) -> tuple[Box, Box]:
    """Return what lies before and behind a cut. [mm]."""
    if cut.start == "left":
        return replace(whole, right=cut.at), replace(whole, left=cut.at + kerf)
    if cut.start == "right":
        line = size[0] - cut.at
        return replace(whole, left=line), replace(whole, right=line - kerf)
    if cut.start == "bottom":
        return replace(whole, top=cut.at), replace(whole, bottom=cut.at + kerf)
    line = size[1] - cut.at
    return replace(whole, bottom=line), replace(whole, top=line - kerf)


def _inside(one: Placed | Offcut, part: Box) -> bool:
    """Tell whether something lies in a part of a module."""
    (x, y), (width, height) = one.at, one.size
    return (
        part.left - SNAP <= x
        and x + width <= part.right + SNAP
        and part.bottom - SNAP <= y
        and y + height <= part.top + SNAP
    )


def _fitting(
    placed: Placed, old: Mapping[str, Piece], new: Mapping[str, Piece], made: Made
) -> Placed | None:
    """Return where a piece lies in the box that it had, if it can: at the edges that it keeps."""
    if placed.tag in made.on_wall:
        return placed
    after = new.get(placed.tag)
    if after is None or set(after.keeps) != set(old[placed.tag].keeps):
        return None
    spare = [was - now for was, now in zip(placed.size, after.size, strict=True)]
    if min(spare) < -SNAP:
        return None
    at = list(placed.at)
    for axis, (near, far) in enumerate(_AXES):
        if (near if placed.turned else far) in after.keeps:
            at[axis] += spare[axis]
    return replace(placed, at=(at[0], at[1]), size=after.size)


def _freed(placed: Placed, stock: Stock, number: int) -> Offcut:
    """Return the place of what no longer comes from there, as an offcut."""
    (x, y), (wide, high) = placed.at, placed.size
    edges: dict[Side, float] = {
        "left": x,
        "right": stock.size[0] - x - wide,
        "bottom": y,
        "top": stock.size[1] - y - high,
    }
    keeps = tuple(side for side, off in edges.items() if off < SNAP and side in stock.keeps)
    return Offcut(id=f"{stock.id}-r{number}", at=placed.at, size=placed.size, keeps=keeps)


def _at_hand(offcut: Offcut, stock: Stock) -> OffcutAtHand:
    lot = stock.lot or "unknown"
    # Its size is in mm whatever the unit of the job, so it is not read but made.
    return OffcutAtHand.model_construct(
        name=offcut.id, size=offcut.size, keeps=offcut.keeps, lot=lot
    )


def number_of(stock: Stock) -> int:
    """Return the number of a module.

    Parameters
    ----------
    stock
        A module or an offcut.

    Returns
    -------
    int
        Its number; nought for an offcut.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> number_of(Stock(id="M-7", source="module", product="m", size=(600.0, 300.0), keeps=(),
    ...     lot="", pieces=(), offcuts=()))
    7
    """
    return int(stock.id.removeprefix("M-")) if stock.source == "module" else 0


def _renumbered(stock: Sequence[Stock], first: int) -> list[Stock]:
    """Give modules numbers after the last, and their offcuts with them."""
    made = []
    for one in stock:
        if one.source == "module":
            name = f"M-{first + number_of(one)}"
            offcuts = tuple(
                replace(left, id=f"{name}{left.id.removeprefix(one.id)}") for left in one.offcuts
            )
            made.append(replace(one, id=name, offcuts=offcuts))
        else:
            made.append(one)
    return made
