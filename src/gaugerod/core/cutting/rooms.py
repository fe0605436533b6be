"""The cutting of a room in whole numbers: kinds of pieces, how many, and what they come from."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import TypeAlias

LEFT, RIGHT, BOTTOM, TOP = 1, 2, 4, 8
"""Edges as bits, so that sets of them are numbers."""
ALL_EDGES = LEFT | RIGHT | BOTTOM | TOP


@dataclass(frozen=True, slots=True)
class Kind:
    """Pieces that are alike: size, edges kept and edges shed, in units and bits.

    `clear` is what it takes more across and up to lie clear of an edge that is shed.
    """

    width: int
    height: int
    keeps: int
    sheds: int = 0
    clear: tuple[int, int] = (0, 0)

    def turned(self) -> "Kind":
        """Return the same piece upside down."""
        return replace(self, keeps=opposite(self.keeps), sheds=opposite(self.sheds))


def opposite(edges: int) -> int:
    """Return the edges that lie opposite.

    Parameters
    ----------
    edges
        Edges as bits.

    Returns
    -------
    int
        Left for right, bottom for top.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> opposite(LEFT | TOP) == RIGHT | BOTTOM
    True
    """
    return (edges & 5) << 1 | (edges & 10) >> 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What is cut from modules of one size: `demand` pieces of each of `kinds`.

    All sizes are whole units. `half_turn` says that a module may be turned upside down; `ways`
    are the kinds as they may lie, each with its number.
    """

    width: int
    height: int
    kerf: int
    kinds: tuple[Kind, ...]
    demand: tuple[int, ...]
    half_turn: bool = False

    ways: tuple[tuple[int, Kind], ...] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """List every kind as it may lie, with its number: once, since it is asked for often."""
        own = tuple(enumerate(self.kinds))
        turned = tuple((number, kind.turned()) for number, kind in own) if self.half_turn else ()
        object.__setattr__(self, "ways", own + turned)


@dataclass(frozen=True, slots=True)
class Leaf:
    """A part from which one piece is cut; `way` is its number among the ways of the room."""

    way: int


@dataclass(frozen=True, slots=True)
class Cut:
    """A part cut right through: the first part is `at` wide (or high), then comes the kerf."""

    upright: bool
    at: int
    first: "Tree"
    second: "Tree"


Tree: TypeAlias = Leaf | Cut | None
"""How a module is cut up, down to its pieces; nothing where a part is left over."""


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a module: its box in units, and the factory edges that it still has."""

    left: int
    bottom: int
    right: int
    top: int
    edges: int

    def halves(self, cut: Cut, kerf: int) -> tuple["Part", "Part"]:
        """Return the two parts that a cut leaves."""
        left, bottom, right, top, edges = self.left, self.bottom, self.right, self.top, self.edges
        if cut.upright:
            at = left + cut.at
            after = min(at + kerf, right)
            return (
                Part(left, bottom, at, top, edges & ~RIGHT),
                Part(after, bottom, right, top, edges & ~LEFT),
            )
        at = bottom + cut.at
        after = min(at + kerf, top)
        return (
            Part(left, bottom, right, at, edges & ~TOP),
            Part(left, after, right, top, edges & ~BOTTOM),
        )


def whole(room: Room) -> Part:
    """Return a module that nothing has been cut from.

    Parameters
    ----------
    room
        The room.

    Returns
    -------
    Part
        The whole module with its four edges.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> whole(Room(width=384, height=192, kerf=2, kinds=(), demand=())).right
    384
    """
    return Part(left=0, bottom=0, right=room.width, top=room.height, edges=ALL_EDGES)


def leaves(tree: Tree, part: Part, kerf: int) -> Iterator[tuple[Leaf | None, Part]]:
    """Yield the parts that a tree of cuts ends in, from the lower left on.

    Parameters
    ----------
    tree
        The cuts.
    part
        What is cut up.
    kerf
        Width of a cut, in units.

    Yields
    ------
    tuple of Leaf or None, and Part
        The piece to be cut from a part, or nothing, and the part.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> module = whole(Room(width=100, height=50, kerf=2, kinds=(), demand=()))
    >>> halved = Cut(upright=True, at=40, first=Leaf(0), second=None)
    >>> [(leaf, part.left, part.right) for leaf, part in leaves(halved, module, 2)]
    [(Leaf(way=0), 0, 40), (None, 42, 100)]
    """
    if isinstance(tree, Cut):
        first, second = part.halves(tree, kerf)
        yield from leaves(tree.first, first, kerf)
        yield from leaves(tree.second, second, kerf)
    else:
        yield tree, part


def needed(kind: Kind, edges: int) -> tuple[int, int] | None:
    """Return how large a part with some factory edges must be to give a piece.

    Parameters
    ----------
    kind
        The piece.
    edges
        The factory edges of the part.

    Returns
    -------
    tuple of int or None
        Width and height; nothing where the part lacks an edge that is kept.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> needed(Kind(100, 50, keeps=RIGHT, sheds=LEFT, clear=(8, 8)), ALL_EDGES)
    (108, 50)
    """
    if kind.keeps & ~edges:
        return None
    off = kind.sheds & edges
    return (
        kind.width + kind.clear[0] * ((off & LEFT > 0) + (off & RIGHT > 0)),
        kind.height + kind.clear[1] * ((off & BOTTOM > 0) + (off & TOP > 0)),
    )


def gives(kind: Kind, part: Part) -> bool:
    """Tell whether a piece can be cut from a part.

    Parameters
    ----------
    kind
        The piece.
    part
        The part.

    Returns
    -------
    bool
        Whether it is large enough and has what is kept, with nothing between two kept edges
        that lie opposite.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> room = Room(width=100, height=50, kerf=2, kinds=(), demand=())
    >>> gives(Kind(90, 50, keeps=LEFT | RIGHT), whole(room))
    False
    """
    size = needed(kind, part.edges)
    wide, high = part.right - part.left, part.top - part.bottom
    if size is None or size[0] > wide or size[1] > high:
        return False
    across = kind.keeps & (LEFT | RIGHT) == LEFT | RIGHT
    up = kind.keeps & (BOTTOM | TOP) == BOTTOM | TOP
    return not ((across and kind.width < wide) or (up and kind.height < high))


def pooled(kinds: Sequence[Kind]) -> tuple[tuple[Kind, ...], tuple[int, ...]]:
    """Count pieces that are alike.

    Parameters
    ----------
    kinds
        One for each piece.

    Returns
    -------
    tuple of tuples
        Distinct kinds in a fixed order, and how many there are of each.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> pooled([Kind(2, 1, 0), Kind(3, 1, 0), Kind(2, 1, 0)])[1]
    (1, 2)
    """
    count: dict[Kind, int] = {}
    for kind in kinds:
        count[kind] = count.get(kind, 0) + 1
    order = sorted(count, key=lambda k: (-k.width * k.height, -k.width, k.keeps, k.sheds))
    return tuple(order), tuple(count[kind] for kind in order)
