"""Boxes into a wall and out of it: openings that nobody lines, shelves, bars and dishes."""

from collections.abc import Iterator

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.sheet.eye import Eye, seen_rings
from gaugerod.core.sheet.space import Frame, Vector, scaled


def recess(eye: Eye, frame: Frame, box: Box, *, deep: float) -> Iterator[tuple[Region, Vector]]:
    """Yield what is seen of the inside of a recess, its back first.

    Parameters
    ----------
    eye
        The eye. [mm]
    frame
        The plane that it goes into.
    box
        Its mouth on that plane. [mm]
    deep
        How far it goes in, > 0. [mm]

    Yields
    ------
    tuple of (Region, Vector)
        A face as it falls on the drawing, and the way that it faces. [mm, 1]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> box = Box(left=-1.0, bottom=-1.0, right=1.0, top=1.0)
    >>> len(list(recess(Eye(at=(0.0, -9.0, 0.0), far=9.0), flat, box, deep=1.0)))
    5
    """
    for corners, out in _faces(frame, box, near=0.0, far=-deep):
        region = seen_rings(eye, [corners])
        if region:
            yield region, out


def boss(eye: Eye, frame: Frame, box: Box, *, proud: float) -> Iterator[tuple[Region, Vector]]:
    """Yield what is seen of a box that stands out of a wall, its front last.

    Parameters
    ----------
    eye
        The eye. [mm]
    frame
        The plane that it stands on.
    box
        Its foot on that plane. [mm]
    proud
        How far it stands out, > 0. [mm]

    Yields
    ------
    tuple of (Region, Vector)
        A face as it falls on the drawing, and the way that it faces. [mm, 1]

    Notes
    -----
    A box is a recess turned inside out. Source: own derivation.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> box = Box(left=-1.0, bottom=-1.0, right=1.0, top=1.0)
    >>> len(list(boss(Eye(at=(0.0, -9.0, 5.0), far=9.0), flat, box, proud=1.0)))
    2
    """
    back, *sides = _faces(frame, box, near=proud, far=0.0)
    front = [scaled((1.0, corner), (proud, frame.out)) for corner in back[0]]
    turned = [(corners[::-1], scaled((-1.0, out))) for corners, out in sides]
    for corners, out in (*turned, (front, frame.out)):
        region = seen_rings(eye, [corners])
        if region:
            yield region, out


def _faces(
    frame: Frame, box: Box, *, near: float, far: float
) -> Iterator[tuple[list[Vector], Vector]]:
    """Yield the inside faces of a box, each anticlockwise for who stands in it: the back first."""
    x0, x1, y0, y1 = box.left, box.right, box.bottom, box.top
    a, b, c, d = (
        (frame.at(x, y, near), frame.at(x, y, far))
        for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    )
    yield [a[1], b[1], c[1], d[1]], frame.out
    yield [a[0], b[0], b[1], a[1]], frame.up
    yield [d[1], c[1], c[0], d[0]], scaled((-1.0, frame.up))
    yield [a[0], a[1], d[1], d[0]], frame.along
    yield [b[1], b[0], c[0], c[1]], scaled((-1.0, frame.along))
