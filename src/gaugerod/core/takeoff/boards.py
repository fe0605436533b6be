"""Backer boards, laid out wall by wall and cut from the fewest that first fit."""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import ceil, floor
from typing import NamedTuple

from gaugerod.core.base.geometry import SNAP, shape_of
from gaugerod.core.cutting.fewest import at_once
from gaugerod.core.cutting.rooms import Kind, Room
from gaugerod.core.job.goods import Backer
from gaugerod.core.setout.layout import SetField
from gaugerod.core.takeoff.field_edges import field_edges
from gaugerod.core.takeoff.order import Boards


def lay_boards(fields: Sequence[SetField], backer: Backer) -> Boards:
    """Lay out the boards behind the lining.

    Parameters
    ----------
    fields
        The fields of the walls, from left to right round the alcove. [mm]
    backer
        The board. [mm]

    Returns
    -------
    Boards
        How many to buy, into how many pieces they are cut, and what is taped. [mm]

    Notes
    -----
    The box round each field is covered from its lower left corner on, whole boards first;
    openings are cut out of them and save none. What is left over is used again where another
    piece fits, without being turned. Boards are scored and snapped: a cut takes nothing. Where
    they may lie either way the one that takes fewer boards is chosen, then the one with less
    to tape. Corners are as high as the higher of the two walls. Source: common practice, no
    source; own derivation.

    Examples
    --------
    A wall of 60 x 72 in takes two boards of 60 x 36, with one seam of 60 in.

    >>> from gaugerod.core.base.geometry import Region
    >>> wall = Region(rings=(((0, 0), (1524, 0), (1524, 1828.8), (0, 1828.8)),))
    >>> field = SetField(
    ...     wall="B", left="butts", right="butts", gross=wall, regions=(wall,), deck_low=0.0
    ... )
    >>> backer = Backer(name="Board", size=(1524, 914.4), price=1)
    >>> laid = lay_boards([field], backer)
    >>> laid.count, round(laid.seams / 25.4), laid.corners
    (2, 60, 0)
    """
    lying = backer.size
    ways = {"lying": [lying], "standing": [lying[::-1]], "either": [lying, lying[::-1]]}
    laid = (_laid(fields, size, backer.gap) for size in ways[backer.lies])
    corners = sum(
        max(left.right, right.left)
        for left, right in pairwise(field_edges(field.gross.rings[0]) for field in fields)
    )
    boards, seams, pieces = min(laid)
    return Boards(count=boards, pieces=pieces, seams=seams, corners=corners)


class _Laid(NamedTuple):
    """Boards laid one way, so that the better of two is the less. [mm]."""

    boards: int
    seams: float
    pieces: int


def _laid(fields: Sequence[SetField], size: tuple[float, float], gap: float) -> _Laid:
    sides: list[tuple[float, float]] = []
    seams = 0.0
    for field in fields:
        left, bottom, right, top = shape_of(field.gross).bounds
        across, up = right - left, top - bottom
        columns = list(_parts(across, size[0], gap))
        rows = list(_parts(up, size[1], gap))
        sides += [(width, height) for width in columns for height in rows]
        seams += (len(columns) - 1) * up + (len(rows) - 1) * across
    wide, high = size
    demand = Counter(Kind(_units(w, wide), _units(h, high), 0) for w, h in sides)
    room = Room(
        width=_units(wide, wide),
        height=_units(high, high),
        kerf=0,
        kinds=tuple(demand),
        demand=tuple(demand.values()),
    )
    return _Laid(_count(room), seams, len(sides))


@lru_cache(maxsize=256)  # layouts of one alcove mostly end at the same heights
def _count(room: Room) -> int:
    return len(at_once(room).trees)


def _parts(length: float, board: float, gap: float) -> Iterator[float]:
    """Yield the boards along a length: whole ones, then what is left. [mm]."""
    count = ceil((length + gap - SNAP) / (board + gap))
    yield from [board] * (count - 1)
    yield length - (count - 1) * (board + gap)


def _units(length: float, board: float) -> int:
    """Round a part up to whole mm; what is as long as the board is as long in these too."""
    return min(ceil(length - SNAP), floor(board + SNAP))
