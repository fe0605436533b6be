"""Checks a plan of cuts by what it says of itself, and finds the best plan of a few boxes.

Written apart from the planner: it knows the trade's rules and the shape of the result only.
"""

from collections.abc import Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from functools import cache, lru_cache
from itertools import combinations
from typing import TypeAlias

from gaugerod.core.cutting.pieces import CutPlan, Offcut, Piece, Placed, Stock
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import System

NEAR = 1e-3
"""Positions closer than this are one. [mm]"""
SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")
OPPOSITE: Mapping[Side, Side] = {
    "left": "right",
    "right": "left",
    "bottom": "top",
    "top": "bottom",
}
Grooveless: TypeAlias = Mapping[str, AbstractSet[Side]]
"""For a tag the sides, in the module's frame, at which no groove may be left."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rect:
    """An upright rectangle. [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float


def rect(item: Placed | Offcut) -> Rect:
    (x, y), (width, height) = item.at, item.size
    return Rect(x0=x, y0=y, x1=x + width, y1=y + height)


# --- the checks --------------------------------------------------------------------------------


def faults(
    plan: CutPlan, pieces: Sequence[Piece], system: System, grooveless: Grooveless
) -> list[str]:
    """Everything that is wrong with a plan of cuts; nothing if it can be cut as it stands."""
    wanted = {piece.tag: piece for piece in pieces}
    found = [*_counts(plan, wanted)]
    for stock in plan.stock:
        found += _boxes(stock, system)
        found += _offcuts(stock)
        for placed in stock.pieces:
            found += _as_wanted(placed, stock, wanted[placed.tag])
            if placed.turned and not system.cutting.half_turn:
                found.append(f"{placed} is turned, which {system.id} may not be")
            found += _grooves(placed, stock, system, grooveless.get(placed.tag, frozenset()))
    return found


def _counts(plan: CutPlan, wanted: Mapping[str, Piece]) -> Iterator[str]:
    found = [placed.tag for stock in plan.stock for placed in stock.pieces]
    if sorted(found) != sorted(wanted):
        yield f"cut {sorted(found)}, wanted {sorted(wanted)}"
    ids = [stock.id for stock in plan.stock]
    ids += [offcut.id for stock in plan.stock for offcut in stock.offcuts]
    if len(set(ids)) != len(ids):
        yield "a name stands for two things"
    bought = sum(stock.source == "module" for stock in plan.stock)
    if bought != plan.modules:
        yield f"{bought} modules in stock, {plan.modules} counted"
    if plan.lower_bound > plan.modules:
        yield "the bound is over the count"
    if plan.proven != (plan.lower_bound == plan.modules):
        yield "proven does not say whether the bound is met"


def _boxes(stock: Stock, system: System) -> Iterator[str]:
    """What is cut lies in the stock, with a saw's width between any two, by straight cuts."""
    kerf = system.cutting.kerf
    if stock.source == "module" and (stock.size, stock.product) != (system.face, system.id):
        yield f"{stock.id} is no module of {system.id}"
    if not stock.pieces:
        yield f"nothing is cut from {stock.id}"
    items: list[Placed | Offcut] = [*stock.pieces, *stock.offcuts]
    for item in items:
        if min(item.size) <= 0:
            yield f"{item} has no size"
        if min(_from(rect(item), stock, side) for side in SIDES) < -NEAR:
            yield f"{item} sticks out of {stock.id}"
    for one, other in combinations(items, 2):
        if not _apart(rect(one), rect(other), kerf):
            yield f"{one} and {other} of {stock.id} have no cut between them"
    if not guillotine([rect(item) for item in items], kerf):
        yield f"{stock.id} cannot be cut by straight cuts from edge to edge"


def _offcuts(stock: Stock) -> Iterator[str]:
    for offcut in stock.offcuts:
        truly = {side for side in stock.keeps if abs(_from(rect(offcut), stock, side)) < NEAR}
        if set(offcut.keeps) != truly:
            yield f"{offcut} keeps {sorted(truly)}"


def _as_wanted(placed: Placed, stock: Stock, piece: Piece) -> Iterator[str]:
    box = piece.within
    wide, high = box.right - box.left, box.top - box.bottom
    if max(abs(placed.size[0] - wide), abs(placed.size[1] - high)) > NEAR:
        yield f"{placed} should be {wide} by {high}"
    for own in piece.keeps:
        side = OPPOSITE[own] if placed.turned else own
        if side not in stock.keeps or abs(_from(rect(placed), stock, side)) > NEAR:
            yield f"{placed} loses its {side} edge"


def _grooves(
    placed: Placed, stock: Stock, system: System, grooveless: AbstractSet[Side]
) -> Iterator[str]:
    for own in grooveless:
        side = OPPOSITE[own] if placed.turned else own
        groove = system.edges[side] == "groove" and side in stock.keeps
        if groove and _from(rect(placed), stock, side) < system.cutting.groove_off - NEAR:
            yield f"{placed} has a groove left at its {side}"


def _from(item: Rect, stock: Stock, side: Side) -> float:
    """How far an item is from one side of its stock. [mm]."""
    width, height = stock.size
    return {
        "left": item.x0,
        "right": width - item.x1,
        "bottom": item.y0,
        "top": height - item.y1,
    }[side]


def _apart(one: Rect, other: Rect, kerf: float) -> bool:
    """Tell whether a saw fits between two items."""
    across = max(other.x0 - one.x1, one.x0 - other.x1)
    up = max(other.y0 - one.y1, one.y0 - other.y1)
    return max(across, up) > kerf - NEAR


def guillotine(items: Sequence[Rect], kerf: float) -> bool:
    """Tell whether straight cuts, each through all that is left, part every item from the rest.

    If any order of cuts does it, then each part of any first cut can be cut too: cuts of the
    whole, seen in a part, are cuts of the part. So the first that is found will do.
    """
    if len(items) < 2:
        return True
    for parts in (_split(items, kerf, upright=True), _split(items, kerf, upright=False)):
        if parts:
            return all(guillotine(part, kerf) for part in parts)
    return False


def _split(
    items: Sequence[Rect], kerf: float, *, upright: bool
) -> tuple[list[Rect], list[Rect]] | None:
    """Part the items by one cut of a kerf's width, if there is room for one."""

    def span(item: Rect) -> tuple[float, float]:
        return (item.x0, item.x1) if upright else (item.y0, item.y1)

    ordered = sorted(items, key=span)
    for place in range(1, len(ordered)):
        before, after = ordered[:place], ordered[place:]
        if min(span(i)[0] for i in after) - max(span(i)[1] for i in before) > kerf - NEAR:
            return before, after
    return None


# --- the fewest modules of full courses ---------------------------------------------------------


def full_height(lefts: Sequence[int], rights: Sequence[int], *, width: int, kerf: int) -> int:
    """The fewest modules for the ends of full courses: those that keep left, those that keep right.

    A module has one left and one right edge, so the fewest are all ends less the most pairs that
    fit. The widest left end fits beside the fewest right ones, and those fit beside every other
    left end too: let it take any of them. That is matching by sorting. Source: own derivation.
    """
    free, pairs = sorted(rights), 0
    for left in sorted(lefts, reverse=True):
        if free and left + kerf + free[0] <= width:
            free.pop(0)
            pairs += 1
    return len(lefts) + len(rights) - pairs


# --- the best plan of a few boxes --------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Want:
    """A box to cut, in whole units, and the factory edges it must keep.

    Off the edges in `sheds` it must lie by `clear`, wherever its part still has them.
    """

    width: int
    height: int
    keeps: frozenset[Side]
    sheds: frozenset[Side] = frozenset()
    clear: int = 0

    def turned(self) -> "Want":
        """The same box upside down."""
        keeps, sheds = (frozenset(OPPOSITE[side] for side in s) for s in (self.keeps, self.sheds))
        return Want(self.width, self.height, keeps, sheds, self.clear)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a module on the bench, and the factory edges it still has."""

    width: int
    height: int
    keeps: frozenset[Side]


def fewest_modules(
    wants: Sequence[Want], *, size: tuple[int, int], kerf: int, half_turn: bool = False
) -> int:
    """The fewest modules that give a handful of boxes, by trying every way to cut them.

    No box may be lower or narrower than what lies between a shed edge and `clear`.
    """
    module = Part(*size, frozenset(SIDES))

    @cache
    def together(group: frozenset[int]) -> bool:
        return can_cut(tuple(wants[i] for i in sorted(group)), module, kerf, half_turn=half_turn)

    @cache
    def fewest(left: frozenset[int]) -> int:
        if not left:
            return 0
        first, *others = sorted(left)
        best = len(left)
        for count in range(len(others) + 1):
            for mates in combinations(others, count):
                group = frozenset({first, *mates})
                if together(group):
                    best = min(best, 1 + fewest(left - group))
        return best

    return fewest(frozenset(range(len(wants))))


@lru_cache(maxsize=1_000_000)
def can_cut(wants: tuple[Want, ...], part: Part, kerf: int, *, half_turn: bool = False) -> bool:
    """Tell whether a part gives all of these boxes by straight cuts from edge to edge."""
    if not all(_fits(w, part) or (half_turn and _fits(w.turned(), part)) for w in wants):
        return False
    if len(wants) == 1:
        return True
    # Boxes grown by a kerf lie side by side in a part grown by a kerf: no more than fills it.
    grown = sum((want.width + kerf) * (want.height + kerf) for want in wants)
    if grown > (part.width + kerf) * (part.height + kerf):
        return False
    for first, rest in _sharings(wants):
        for cuts in _cuts(first, part, kerf):
            # The least that gives the first boxes leaves the most for the rest.
            enough = (two for two in cuts if can_cut(first, two[0], kerf, half_turn=half_turn))
            two = next(enough, None)
            if two and can_cut(rest, two[1], kerf, half_turn=half_turn):
                return True
    return False


def _fits(want: Want, part: Part) -> bool:
    lost = want.sheds & part.keeps
    width = want.width + want.clear * len(lost & {"left", "right"})
    height = want.height + want.clear * len(lost & {"bottom", "top"})
    if not want.keeps <= part.keeps or width > part.width or height > part.height:
        return False
    across = {"left", "right"} <= want.keeps and want.width < part.width
    up = {"bottom", "top"} <= want.keeps and want.height < part.height
    return not across and not up


def _sharings(wants: tuple[Want, ...]) -> Iterator[tuple[tuple[Want, ...], tuple[Want, ...]]]:
    """Every way to share boxes between the first and the second side of a cut."""
    for count in range(1, len(wants)):
        for chosen in combinations(range(len(wants)), count):
            rest = tuple(want for i, want in enumerate(wants) if i not in chosen)
            yield tuple(wants[i] for i in chosen), rest


def _cuts(first: Sequence[Want], part: Part, kerf: int) -> Iterator[list[tuple[Part, Part]]]:
    """Upright cuts and level ones worth trying, the first side as large as boxes in a row.

    A part that has lost the edge opposite to a kept one can always be larger: what it is over
    is waste. So the first side need be no larger than its boxes make it.
    """
    yield [
        (
            Part(at, part.height, part.keeps - {"right"}),
            Part(part.width - at - kerf, part.height, part.keeps - {"left"}),
        )
        for at in _rows([(want.width, want) for want in first], kerf, part.width)
    ]
    yield [
        (
            Part(part.width, at, part.keeps - {"top"}),
            Part(part.width, part.height - at - kerf, part.keeps - {"bottom"}),
        )
        for at in _rows([(want.height, want) for want in first], kerf, part.height)
    ]


def _rows(lengths: Sequence[tuple[int, Want]], kerf: int, whole: int) -> list[int]:
    """Lengths of some of these in a row, with a kerf between each two, and room for another."""
    sums = {-kerf}
    for length, want in lengths:
        # Clear of an edge or not: the first side of a cut has one edge of the two.
        over = {0, want.clear} if want.sheds else {0}
        sums |= {total + length + more + kerf for total in sums for more in over}
    return sorted(total for total in sums if 0 < total < whole - kerf)
