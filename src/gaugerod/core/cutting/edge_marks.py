"""From a side of a box to a place along it, and back: what a mark says of where it lies."""

from gaugerod.core.base.geometry import Box
from gaugerod.core.job.fields import Side


def along(start: Side, value: float, face: Box) -> float:
    """Return the coordinate of a mark in the module's frame.

    Parameters
    ----------
    start
        The edge it is measured from.
    value
        Its distance from there. [mm]
    face
        The module. [mm]

    Returns
    -------
    float
        x where the mark is measured across, y where it is measured up. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> along("top", 20.0, Box(left=0.0, bottom=0.0, right=600.0, top=300.0))
    280.0
    """
    if start in {"left", "bottom"}:
        return value
    return (face.right if start == "right" else face.top) - value


def off(side: Side, at: float, box: Box) -> float:
    """Return how far a place lies within a box from one of its sides: `along`, the other way.

    Parameters
    ----------
    side
        The side it is measured from.
    at
        x where the side stands upright, y where it lies level. [mm]
    box
        The box. [mm]

    Returns
    -------
    float
        The distance; negative beyond the side. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> box = Box(left=100.0, bottom=0.0, right=600.0, top=300.0)
    >>> off("left", 130.0, box), off("right", 130.0, box)
    (30.0, 470.0)
    """
    return {
        "left": at - box.left,
        "right": box.right - at,
        "bottom": at - box.bottom,
        "top": box.top - at,
    }[side]
