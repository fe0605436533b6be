"""Beads of adhesive and sealant: how long, how thick, how far a cartridge goes."""

from functools import lru_cache
from itertools import pairwise
from math import ceil, floor, pi

from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Region, shape_of


@lru_cache(maxsize=4096)  # layouts that differ on one wall share the pieces of all others
def bead_on(region: Region, *, inset: float, infill: float, none_under: float = 0.0) -> float:
    """Return the length of adhesive bead on the back of one piece.

    Parameters
    ----------
    region
        The piece, net of its holes. [mm]
    inset
        Distance of the bead from the edges, >= 0. [mm]
    infill
        Widest spacing of beads, > 0. [mm]
    none_under
        A piece narrower than this takes no bead. [mm]

    Returns
    -------
    float
        Length of the bead round the edges and holes and of the zigzag inside it. [mm]

    Notes
    -----
    The ring is the outline of the piece drawn in by the inset; it goes round holes and into
    notches, and drops out where the piece is narrower than two insets. Where the box round it
    is wider than the infill a zigzag runs inside, an inset clear of the long sides: with
    ``l >= s`` the sides of that box, ``n = ceil(l / infill)`` strokes, each
    ``hypot(l / n, s - 2 inset)``, less what lies outside the ring. A piece that is too narrow
    for any ring takes one bead along its middle, an inset short at each end.
    Source: common practice (one inset from the edges, then a zigzag), no source for the
    formula: own derivation.

    Examples
    --------
    A module of 24 x 12 in, inset 1 in, infill 6 in: 64 in round and 39 in of zigzag.

    >>> module = Region(rings=(((0, 0), (609.6, 0), (609.6, 304.8), (0, 304.8)),))
    >>> round(bead_on(module, inset=25.4, infill=152.4) / 25.4, 1)
    102.8
    """
    shape = shape_of(region)
    left, bottom, right, top = shape.bounds
    short, long = sorted((right - left, top - bottom))
    if short < none_under:
        return 0.0
    ring = shape.buffer(-inset, join_style="mitre")
    if ring.is_empty:
        return float(max(long - 2 * inset, 0.0))
    return float(ring.length + _zigzag(ring, inset=inset, infill=infill))


def _zigzag(ring: BaseGeometry, *, inset: float, infill: float) -> float:
    """Return how much of a zigzag lies inside a ring. [mm]."""
    left, bottom, right, top = ring.bounds
    flat = right - left >= top - bottom
    start, end, low, high = (left, right, bottom, top) if flat else (bottom, top, left, right)
    if high - low <= infill:
        return 0.0
    strokes = ceil((end - start) / infill)
    clear = min(inset, (high - low) / 2)
    line = [
        (start + (end - start) * stroke / strokes, high - clear if stroke % 2 else low + clear)
        for stroke in range(strokes + 1)
    ]
    return sum(
        LineString(part if flat else [point[::-1] for point in part]).intersection(ring).length
        for part in pairwise(line)
    )


def at_once(*, open_minutes: float, bead_minutes: float, hang_minutes: float) -> int:
    """Return how many pieces may be buttered in a row before the first of them is hung.

    Parameters
    ----------
    open_minutes
        How long a bead may lie open. [minutes]
    bead_minutes
        What the beads of one piece take, > 0. [minutes]
    hang_minutes
        What it takes to hang one piece, > 0. [minutes]

    Returns
    -------
    int
        Pieces, one at least.

    Notes
    -----
    Of n pieces buttered and then hung in the same turn the first is pressed ``n b + h`` after
    its first bead, the last ``b + n h``. Both must be within the open time:
    ``n = floor((open - min(b, h)) / max(b, h))``. Source: own derivation.

    Examples
    --------
    Twelve minutes open, one to butter and two to hang: five, for the last is hung after 11.

    >>> at_once(open_minutes=12, bead_minutes=1, hang_minutes=2)
    5
    """
    quick, slow = sorted((bead_minutes, hang_minutes))
    return max(floor((open_minutes - quick) / slow), 1)


def round_section(diameter: float) -> float:
    """Return the section of a round bead.

    Parameters
    ----------
    diameter
        Diameter of the bead, >= 0. [mm]

    Returns
    -------
    float
        Section. [mm2]

    Notes
    -----
    ``pi d^2 / 4``. Source: elementary geometry.

    Examples
    --------
    >>> round_section(2.0)
    3.14159
    """
    return pi * diameter**2 / 4


def fillet_section(leg: float) -> float:
    """Return the section of a triangular fillet in a square corner.

    Parameters
    ----------
    leg
        Length of each leg, >= 0. [mm]

    Returns
    -------
    float
        Section. [mm2]

    Notes
    -----
    ``leg^2 / 2``; a finger-struck fillet is a little hollow and takes less.
    Source: elementary geometry.

    Examples
    --------
    >>> fillet_section(6.0)
    18.0
    """
    return leg**2 / 2


def bead_yield(*, volume: float, section: float, usable: float = 1.0) -> float:
    """Return how far one cartridge goes.

    Parameters
    ----------
    volume
        Volume of the cartridge, > 0. [mm3]
    section
        Section of the bead, > 0. [mm2]
    usable
        Share of the cartridge that ends up in the bead, up to 1. [1]

    Returns
    -------
    float
        Length of bead. [mm]

    Notes
    -----
    Volume over section. Source: elementary geometry; the share is common practice.

    Examples
    --------
    A 10.1 fl oz cartridge and a square bead of 1/4 in: 24.3 ft.

    >>> round(bead_yield(volume=298692.0, section=6.35**2) / 304.8, 1)
    24.3
    """
    return volume * usable / section
