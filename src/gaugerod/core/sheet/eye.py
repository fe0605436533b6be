"""Where the alcove is looked at from, and how what is in space falls on the drawing."""

from collections.abc import Sequence
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from gaugerod.core.base.geometry import Point, Region
from gaugerod.core.sheet.space import Frame, Vector

LIGHT: Vector = (-0.40, -0.75, 0.53)
"""Where the light comes from: over the left shoulder of who looks. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Eye:
    """An eye that looks level, into the alcove: what is `far` away is drawn true. [mm]."""

    at: Vector
    far: float

    def sees(self, place: Vector) -> Point:
        """Return where a place falls on the drawing.

        Parameters
        ----------
        place
            A place in front of the eye. [mm]

        Returns
        -------
        Point
            To the right of the eye and above it. [mm]

        Notes
        -----
        Plumb lines stay plumb, since the eye looks level. Source: central projection.

        Examples
        --------
        >>> Eye(at=(0.0, -1000.0, 0.0), far=2000.0).sees((300.0, 0.0, 150.0))
        (600.0, 300.0)
        """
        share = self.far / (place[1] - self.at[1])
        return (place[0] - self.at[0]) * share, (place[2] - self.at[2]) * share


def seen(eye: Eye, frame: Frame, region: Region, *, z: float = 0.0) -> Region | None:
    """Return how a region on a plane is seen; nothing from behind or from its edge.

    Parameters
    ----------
    eye
        The eye. [mm]
    frame
        The plane.
    region
        The region on it. [mm]
    z
        How far out of the plane it lies. [mm]

    Returns
    -------
    Region or None
        The region as it falls on the drawing, its outer ring still anticlockwise. [mm]

    Notes
    -----
    Source: as for `seen_rings`.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> square = Region(rings=(((0, 0), (1, 0), (1, 1), (0, 1)),))
    >>> eye = Eye(at=(0.0, -10.0, 0.0), far=10.0)
    >>> seen(eye, flat, square) == square
    True
    >>> turned = Frame(origin=(0, 0, 0), along=(-1, 0, 0), up=(0, 0, 1), out=(0, 1, 0))
    >>> seen(eye, turned, square) is None
    True
    """
    return seen_rings(eye, [[frame.at(x, y, z) for x, y in ring] for ring in region.rings])


def seen_rings(eye: Eye, rings: Sequence[Sequence[Vector]]) -> Region | None:
    """Return how a polygon in space is seen; nothing from behind.

    Parameters
    ----------
    eye
        The eye. [mm]
    rings
        Rings in one plane, the outer one anticlockwise for who faces it. [mm]

    Returns
    -------
    Region or None
        The polygon as it falls on the drawing. [mm]

    Notes
    -----
    A ring that runs anticlockwise for who faces its plane runs clockwise for who stands behind
    it. Source: own derivation.

    Examples
    --------
    >>> from_front = Eye(at=(0.0, -1.0, 0.0), far=1.0)
    >>> seen_rings(from_front, [[(0, 0, 0), (1, 0, 0), (1, 0, 1)]]).rings
    (((0.0, 0.0), (1.0, 0.0), (1.0, 1.0)),)
    """
    drawn = tuple(tuple(eye.sees(corner) for corner in ring) for ring in rings)
    return Region(rings=drawn) if is_turned_to(drawn[0]) else None


def is_turned_to(ring: Sequence[Point]) -> bool:
    """Return whether a ring on the drawing runs anticlockwise and has an area.

    Parameters
    ----------
    ring
        The ring, unclosed. [mm]

    Returns
    -------
    bool
        Whether it does.

    Notes
    -----
    Source: the shoelace formula.

    Examples
    --------
    >>> is_turned_to([(0, 0), (1, 0), (1, 1)]), is_turned_to([(0, 0), (1, 1), (1, 0)])
    (True, False)
    """
    shape = Polygon(ring)
    return bool(shape.area > _EDGE and shapely.is_ccw(shape.exterior))


_EDGE = 1e-3  # [mm2]; less is seen from its edge


def tone(out: Vector, *, light: float, dark: float) -> float:
    """Return how dark a surface is shaded.

    Parameters
    ----------
    out
        The way it faces, a unit vector. [1]
    light, dark
        Tone of a surface turned to the light, and of one turned away. [1]

    Returns
    -------
    float
        Its tone, between the two. [1]

    Notes
    -----
    By the cosine of the angle to the light. Source: Lambert's law, for looks alone.

    Examples
    --------
    >>> tone((0.40, 0.75, -0.53), light=0.1, dark=0.4)
    0.4
    """
    cosine = sum(a * b for a, b in zip(out, LIGHT, strict=True))
    return round(light + (dark - light) * (1 - max(cosine, -1.0)) / 2, 3)
