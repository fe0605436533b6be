"""The arithmetic of balanced cuts along one course."""

from dataclasses import dataclass

from gaugerod.core.base.geometry import SNAP


@dataclass(frozen=True, slots=True, kw_only=True)
class Balance:
    """Whole modules between two equal end cuts; `end` is 0 where the modules just fit. [mm]."""

    full: int
    end: float


def half_tile_rule(*, length: float, tile: float) -> Balance:
    """Divide a course by the half-tile rule, joints left out.

    Parameters
    ----------
    length
        Length of the course, at least one tile. [mm]
    tile
        Length of a tile, > 0. [mm]

    Returns
    -------
    Balance
        Whole tiles between, and the length of each end cut. [mm]

    Notes
    -----
    Of the ``n`` whole tiles that fit, one is given to the two ends: each is
    ``(length - n * tile + tile) / 2``. The printed rule cuts two half tiles where whole
    tiles just fit; that case is taken whole here. Source: US Navy, *Builder* training
    manual, NAVEDTRA 14044, p. 7-23.

    Examples
    --------
    A course of 60 in with tile of 4-1/4 in:

    >>> half_tile_rule(length=60, tile=4.25)
    Balance(full=13, end=2.375)
    """
    whole = int((length + SNAP) // tile)
    rest = length - whole * tile
    if rest <= SNAP:
        return Balance(full=whole, end=0.0)
    return Balance(full=whole - 1, end=(rest + tile) / 2)


def end_cut(*, length: float, tile: float, joint: float, gap: float, full: int) -> float:
    """Return the length of each of two equal end cuts with `full` tiles between them.

    Parameters
    ----------
    length
        Length of the course from wall to wall. [mm]
    tile
        Length of a tile. [mm]
    joint
        Joint between pieces. [mm]
    gap
        Gap at each end. [mm]
    full
        Whole tiles between the ends, >= 0.

    Returns
    -------
    float
        Length of each end cut; negative where `full` tiles do not fit. [mm]

    Notes
    -----
    ``(length - 2 gap - full * tile - (full + 1) * joint) / 2``. Source: own derivation from
    the half-tile rule of NAVEDTRA 14044, p. 7-23.

    Examples
    --------
    >>> end_cut(length=60, tile=24, joint=0.125, gap=0.125, full=1)
    17.75
    """
    return (length - 2 * gap - full * tile - (full + 1) * joint) / 2


def balance(*, length: float, tile: float, joint: float, gap: float) -> Balance:
    """Divide a course so that its smallest piece is as large as it can be.

    Parameters
    ----------
    length
        Length of the course from wall to wall, at least one tile and its gaps. [mm]
    tile
        Length of a tile, > 0. [mm]
    joint
        Joint between pieces, >= 0. [mm]
    gap
        Gap at each end, >= 0. [mm]

    Returns
    -------
    Balance
        Whole tiles and end cuts; ``end`` is 0 where whole tiles just fit. [mm]

    Notes
    -----
    A joint and a tile on the centre line differ by one whole tile between the ends, and
    giving that tile up adds ``(tile + joint) / 2`` to each end. So the larger ends always
    come with one tile fewer than fits; they never reach a whole tile.
    Source: own derivation from NAVEDTRA 14044, p. 7-23.

    Examples
    --------
    >>> balance(length=60, tile=24, joint=0.0, gap=0.0)
    Balance(full=1, end=18.0)
    """
    clear = length - 2 * gap
    fits = (clear + joint + SNAP) / (tile + joint)
    whole = int(fits)
    if clear + joint - whole * (tile + joint) <= SNAP:
        return Balance(full=whole, end=0.0)
    full = whole - 1
    end = end_cut(length=length, tile=tile, joint=joint, gap=gap, full=full)
    return Balance(full=full, end=end)


def shared_sliver(*, parts: tuple[float, ...], joint: float = 0.0) -> float:
    """Return the two equal cuts that replace a tile and the slivers beside it.

    Parameters
    ----------
    parts
        The slivers and the one whole tile that is given up. [mm]
    joint
        The joint set free by it. [mm]

    Returns
    -------
    float
        Length of each cut. [mm]

    Notes
    -----
    Source: trade-education column on ANSI A108.02 4.3 (balanced cuts); the printed sums
    leave the joint out.

    Examples
    --------
    >>> shared_sliver(parts=(24.0, 1.5))
    12.75
    """
    return (sum(parts) + joint) / 2
