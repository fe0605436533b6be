"""Offcuts at hand, filled before a module is begun."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from gaugerod.core.cutting.bar_program import Effort
from gaugerod.core.cutting.fewest import Fewest, at_once, fewest, grown, worths_by_area, worths_of
from gaugerod.core.cutting.guillotine import TooMuchError, Worths
from gaugerod.core.cutting.pruning import pruned
from gaugerod.core.cutting.rooms import Part, Room, Tree, leaves, whole

FILLING = 300_000_000
"""Work that is done to fill all offcuts, and again to bound what they hold. [table cells]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """The plan of a room in which some stock was at hand.

    `trees` and `kinds` are those of the stock at hand that is used, by its place among all of
    it; `rest` is the plan of the modules, its bound that of the whole room.
    """

    trees: dict[int, Tree]
    kinds: dict[int, tuple[int, ...]]
    rest: Fewest


def filled(room: Room, held: Sequence[Part], *, known: int = 0, proven: bool = True) -> Filled:
    """Cut what is at hand first, then the fewest modules for the rest.

    Parameters
    ----------
    room
        The room, its sizes in units.
    held
        Offcuts with the factory edges they have, each with its corner at nought, in units.
    known
        A bound on the modules that is known already.
    proven
        Whether to look for the fewest modules; else a plan is made at once.

    Returns
    -------
    Filled
        What each offcut gives, and the modules.

    Notes
    -----
    Pieces have the worth that proves the bound of the room without offcuts, and each offcut in
    turn, the largest first, gives the pieces of the greatest worth that are still wanted. The
    bound: pieces worth S in all, offcuts that can hold W of it at most, and modules that hold
    V at most need (S - W) / V modules; and so with areas for worths. That the offcuts are
    filled in the best way is not proven, but by that bound. One that is too large to be filled
    with the work that may be done stays on the shelf. Source: own derivation, after `fewest`.

    Examples
    --------
    >>> from gaugerod.core.cutting.rooms import LEFT, Kind
    >>> room = Room(width=100, height=50, kerf=2, kinds=(Kind(49, 50, LEFT),), demand=(3,))
    >>> offcut = Part(left=0, bottom=0, right=60, top=50, edges=LEFT)
    >>> found = filled(room, [offcut])
    >>> len(found.trees), len(found.rest.trees), found.rest.bound
    (1, 2, 2)
    """
    worth = (worths_of(room) if proven else worths_by_area(room)) if held else ()
    effort = Effort(FILLING)
    left = list(room.demand)
    trees: dict[int, Tree] = {}
    kinds: dict[int, tuple[int, ...]] = {}
    for number in sorted(range(len(held)), key=lambda n: -held[n].right * held[n].top):
        part = held[number]
        wanted = [one * (count > 0) for one, count in zip(worth, left, strict=True)]
        try:
            tree = _worths(room, part, wanted, effort).pattern(part.edges)
        except TooMuchError:
            continue
        given = _taken(tree, part, room, left)
        taken = tuple(kind for kind in given if kind is not None)
        if taken:
            trees[number], kinds[number] = pruned(tree, given, part, room), taken
    left_over = replace(room, demand=tuple(left))
    rest = fewest(left_over, known=0 if held else known) if proven else at_once(left_over)
    if held:
        # What the rest needs is no bound for the room: other pieces might have been left.
        rest = replace(rest, bound=_bound(room, held, worth))
    return Filled(trees=trees, kinds=kinds, rest=rest)


def _worths(room: Room, part: Part, worth: Sequence[int], effort: Effort) -> Worths:
    return Worths(replace(room, width=part.right, height=part.top), worth, effort)


def _bound(room: Room, held: Sequence[Part], worth: Sequence[int]) -> int:
    """Return the modules that are needed whatever the offcuts give."""
    areas = [grown(kind.width, kind.height, room.kerf) for kind in room.kinds]
    most = grown(room.width, room.height, room.kerf)
    at_hand = sum(grown(part.right, part.top, room.kerf) for part in held)
    bound = _least(_total(areas, room) - at_hand, most)
    effort = Effort(FILLING)
    total = _total(worth, room)
    try:
        for part in (*held, whole(room)):
            table = _worths(room, part, worth, effort)
            most = table.at(table.whole(part.edges))
            total -= most
    except TooMuchError:
        return bound
    return max(_least(total + most, most), bound)


def _total(worth: Sequence[int], room: Room) -> int:
    return sum(one * count for one, count in zip(worth, room.demand, strict=True))


def _least(total: int, most: int) -> int:
    return max(-(-total // max(most, 1)), 0)


def _taken(tree: Tree, part: Part, room: Room, left: list[int]) -> tuple[int | None, ...]:
    """Say which kind each slot gives, and take it off what is left; none where none is wanted."""
    given: list[int | None] = []
    for leaf, _ in leaves(tree, part, room.kerf):
        if leaf:
            number = room.ways[leaf.way][0]
            given.append(number if left[number] else None)
            left[number] -= left[number] > 0
    return tuple(given)
