"""Beads of adhesive and sealant: how long, how thick, how far a cartridge goes."""

from math import ceil, hypot, pi

MM3_PER_LITRE = 1e6
"""Cartridges and bags are sold by the litre."""


def bead_on(*, width: float, height: float, inset: float, infill: float) -> float:
    """Return the length of adhesive bead on the back of one piece.

    Parameters
    ----------
    width, height
        Size of the piece, > 0. [mm]
    inset
        Distance of the bead from the edges, >= 0. [mm]
    infill
        Widest spacing of beads, > 0. [mm]

    Returns
    -------
    float
        Length of the bead round the edges and of the zigzag inside it. [mm]

    Notes
    -----
    With ``l >= s`` the sides of the bead round the edges, ``l = long side - 2 inset``, the
    ring is ``2 (l + s)``. Where ``s > infill`` a zigzag runs inside it, an inset clear of the
    ring: ``n = ceil(l / infill)`` strokes, each ``hypot(l / n, s - 2 inset)``. A notch or a
    hole takes nothing off, and a strip too narrow for a ring still gets two beads.
    Source: common practice (one inset from the edges, then a zigzag), no source for the
    formula: own derivation.

    Examples
    --------
    A module of 24 x 12 in, inset 1 in, infill 6 in: 64 in round and 39 in of zigzag.

    >>> bead = bead_on(width=609.6, height=304.8, inset=25.4, infill=152.4)
    >>> round(bead / 25.4, 1)
    102.8
    """
    long, short = sorted((max(side - 2 * inset, 0.0) for side in (width, height)), reverse=True)
    ring = 2 * (long + short)
    if short <= infill:
        return ring
    strokes = ceil(long / infill)
    return ring + strokes * hypot(long / strokes, max(short - 2 * inset, 0.0))


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
