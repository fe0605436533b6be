"""Cuts that no piece needs, taken out of a module's tree."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from gaugerod.core.cutting.greedy import saw_cuts
from gaugerod.core.cutting.rooms import Cut, Leaf, Part, Room, Tree, gives, leaves


def pruned(tree: Tree, given: Iterable[int | None], part: Part, room: Room) -> Tree:
    """Leave out the slots that give nothing, and the cuts that only they ask for.

    Parameters
    ----------
    tree
        The cuts.
    given
        For each slot the number of the kind that is cut there, or nothing.
    part
        What is cut up.
    room
        The room, its sizes in units.

    Returns
    -------
    Tree
        Cuts for the same pieces, never more of them; each slot is that of its own piece.

    Notes
    -----
    Waste beside a part is left on it where that takes fewer cuts, as long as the part still
    gives its pieces. Source: own derivation.

    Examples
    --------
    Of three slots beside one another the last two give nothing, and one cut will do:

    >>> from gaugerod.core.cutting.rooms import Kind, whole
    >>> room = Room(width=90, height=50, kerf=0, kinds=(Kind(30, 50, 0),), demand=(1,))
    >>> three = Cut(True, 30, Leaf(0), Cut(True, 30, Leaf(0), Leaf(0)))
    >>> pruned(three, [0, None, None], whole(room), room)
    Cut(upright=True, at=30, first=Leaf(way=0), second=None)
    """
    return _pruned(tree, iter(given), part, room)


def _pruned(tree: Tree, given: Iterator[int | None], part: Part, room: Room) -> Tree:
    if isinstance(tree, Cut):
        first, second = part.halves(tree, room.kerf)
        # The slots come in their order: the first part's before the second's.
        one = _pruned(tree.first, given, first, room)
        other = _pruned(tree.second, given, second, room)
        return _fewest_cuts(replace(tree, first=one, second=other), part, room)
    number = next(given) if tree else None
    return None if number is None else Leaf(_lying(number, part, room))


def _lying(number: int, part: Part, room: Room) -> int:
    """Return the way in which a part gives a piece: upside down if it must."""
    return number if gives(room.kinds[number], part) else number + len(room.kinds)


def _fewest_cuts(cut: Cut, part: Part, room: Room) -> Tree:
    """Return a cut, or what one side of it is without it, whichever takes fewer cuts."""
    if cut.first is None and cut.second is None:
        return None
    ways: list[Tree] = [cut]
    if cut.second is None:
        ways.append(cut.first)
    if cut.first is None:
        ways.append(_moved(cut.second, cut, room.kerf))
    good = [tree for tree in ways if tree is cut or _sound(tree, part, room)]
    return min(good, key=lambda tree: saw_cuts(tree, room, part))


def _moved(tree: Tree, cut: Cut, kerf: int) -> Tree:
    """Return what lay beyond a cut as it is seen from before it."""
    if isinstance(tree, Cut) and tree.upright == cut.upright:
        return replace(tree, at=cut.at + kerf + tree.at)
    return tree


def _sound(tree: Tree, part: Part, room: Room) -> bool:
    """Tell whether every piece can be cut from its slot."""
    slots = leaves(tree, part, room.kerf)
    return all(gives(room.ways[leaf.way][1], own) for leaf, own in slots if leaf)
