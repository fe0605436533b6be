"""The finished alcove in space: where the plane of each wall and inside face stands.

The plan is seen from above: x to the right along the back wall, y into it, away from who looks,
z up from the datum. [mm].
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import hypot
from typing import TypeAlias

from gaugerod.core.base.geometry import Box, Region, bounds_of
from gaugerod.core.cutting.faces import FaceOutline, outlines
from gaugerod.core.cutting.pieces import Inside, Piece
from gaugerod.core.job.fields import InsideFace
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import FittedWall, Walls

Vector: TypeAlias = tuple[float, float, float]

_RIGHT_TURNS: tuple[Vector, ...] = ((1, 0, 0), (0, -1, 0), (-1, 0, 0), (0, 1, 0))


@dataclass(frozen=True, slots=True, kw_only=True)
class Alcove:
    """What is shown of a finished alcove: its walls, the layout, and all that is set. [mm]."""

    walls: Walls
    layout: Layout
    pieces: tuple[Piece, ...]
    insides: tuple[Inside, ...]
    system: System


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """A plane in space by its origin and three unit vectors, right-handed. [mm, 1].

    `along` and `up` are right and up for who faces it; `out` comes toward them.
    """

    origin: Vector
    along: Vector
    up: Vector
    out: Vector

    def at(self, x: float, y: float, z: float = 0.0) -> Vector:
        """Return a place of the frame in space.

        Parameters
        ----------
        x, y, z
            Along, up and out. [mm]

        Returns
        -------
        Vector
            The place. [mm]

        Notes
        -----
        Source: definition of coordinates.

        Examples
        --------
        >>> flat = Frame(origin=(5, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
        >>> flat.at(2.0, 3.0, 1.0)
        (7.0, -1.0, 3.0)
        """
        o, a, u, n = self.origin, self.along, self.up, self.out
        return (
            o[0] + x * a[0] + y * u[0] + z * n[0],
            o[1] + x * a[1] + y * u[1] + z * n[1],
            o[2] + x * a[2] + y * u[2] + z * n[2],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Lining:
    """Pieces on one plane, which is that of their faces: `region` with its joints. [mm].

    `wall` is the wall that it lies on or that its opening is in; `opening` is empty on a wall.
    """

    wall: str
    opening: str
    face: InsideFace | None
    frame: Frame
    regions: tuple[Region, ...]
    pieces: tuple[Piece, ...]


def wall_frames(walls: Walls) -> dict[str, Frame]:
    """Stand the walls in space, corner to corner.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]

    Returns
    -------
    dict
        The frame of each bonding face, by the name of the wall. The corner at the left of the
        first wall stands at the datum at nought. [mm]

    Notes
    -----
    Corners are taken as square in plan, since nothing that is read says otherwise; an inside
    corner turns to the right, an outside one to the left. A wall leans back as far as its
    neighbours' edges say, the mean of both where it has two: it stays a plane, so that sizes on
    it stay true. Source: own derivation, ``docs/theory/picture.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> frames = wall_frames(fit_walls(sample_job()))
    >>> frames["L"].along, frames["B"].along, frames["R"].along
    ((0, 1, 0), (1, 0, 0), (0, -1, 0))
    """
    turns = _turns(walls.walls)
    frames: dict[str, Frame] = {}
    corner: Vector = (0.0, 0.0, 0.0)
    for place, wall in enumerate(walls.walls):
        along = _RIGHT_TURNS[turns[place]]
        lean = _lean(walls.walls, place)
        level = (along[1], -along[0], 0.0)
        one = hypot(1.0, lean)
        frame = Frame(
            origin=corner,
            along=along,
            up=(-lean * level[0] / one, -lean * level[1] / one, 1 / one),
            out=(level[0] / one, level[1] / one, lean / one),
        )
        frames[wall.name] = frame
        corner = frame.at(wall.right.at(0.0), 0.0)
    return frames


def _turns(walls: tuple[FittedWall, ...]) -> list[int]:
    """Return the quarter turns to the right of each wall from the one that is looked at."""
    turns = [0]
    for wall in walls[:-1]:
        turns.append(turns[-1] + (1 if wall.corner == "inside" else -1))
    back = max(range(len(walls)), key=lambda place: _told(walls, turns, place))
    return [(turn - turns[back]) % 4 for turn in turns]


def _told(walls: tuple[FittedWall, ...], turns: list[int], place: int) -> tuple[bool, float]:
    """Return how much is seen when one wall is looked at straight.

    First the back wall by its name, then widths: from the side by half, from behind against it.
    """
    worth = (1.0, 0.5, -1.0, 0.5)
    widths = (
        wall.right.at(0.0) * worth[(turn - turns[place]) % 4]
        for wall, turn in zip(walls, turns, strict=True)
    )
    return walls[place].name == "B", sum(widths)


def _lean(walls: tuple[FittedWall, ...], place: int) -> float:
    """Return how far a wall leans back for each millimetre up, as its neighbours' edges say."""
    leans = []
    if place > 0:
        before = walls[place - 1]
        leans.append(before.right.slope * (1 if before.corner == "inside" else -1))
    if place < len(walls) - 1:
        after = walls[place + 1]
        leans.append(after.left.slope * (-1 if walls[place].corner == "inside" else 1))
    return sum(leans) / max(len(leans), 1)


def linings(alcove: Alcove, frames: Mapping[str, Frame]) -> tuple[Lining, ...]:
    """Return what is set on every plane, walls first, then inside faces.

    Parameters
    ----------
    alcove
        The alcove. [mm]
    frames
        The frames of its walls. [mm]

    Returns
    -------
    tuple of Lining
        One for each wall and each inside face, on the plane of its finished face. [mm]

    Notes
    -----
    Source: own derivation, ``docs/theory/picture.md``.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> alcove = Alcove(walls=walls, layout=layout, pieces=(), insides=(), system=system)
    >>> [lining.wall for lining in linings(alcove, wall_frames(walls))]
    ['L', 'B', 'R']
    """
    thick = alcove.system.thickness + alcove.system.bed
    found = [
        Lining(
            wall=wall.name,
            opening="",
            face=None,
            frame=raised(frames[wall.name], thick),
            regions=wall.field.regions,
            pieces=tuple(piece for piece in alcove.pieces if piece.wall == wall.name),
        )
        for wall in alcove.layout.walls
    ]
    openings = {
        (wall.name, opening.name): opening
        for wall in alcove.walls.walls
        for opening in wall.openings
    }
    for inside in alcove.insides:
        opening = openings[inside.wall, inside.opening]
        depth = opening.depth or 0.0  # a lined opening has one
        faces = outlines(opening, depth, alcove.system, wall=inside.wall)
        on = _Reveal(
            wall=frames[inside.wall],
            box=opening.box,
            depth=depth,
            thick=thick,
            outlines={outline.face: outline for outline in faces},
        )
        found.append(
            Lining(
                wall=inside.wall,
                opening=inside.opening,
                face=inside.face,
                frame=_face_frame(on, on.outlines[inside.face]),
                regions=(inside.region,),
                pieces=inside.pieces,
            )
        )
    return tuple(found)


def raised(frame: Frame, by: float) -> Frame:
    """Return a frame moved out of its plane.

    Parameters
    ----------
    frame
        The frame.
    by
        How far, toward who faces it. [mm]

    Returns
    -------
    Frame
        The frame beside it.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> flat = Frame(origin=(0, 0, 0), along=(1, 0, 0), up=(0, 0, 1), out=(0, -1, 0))
    >>> raised(flat, 5.0).origin
    (0.0, -5.0, 0.0)
    """
    return Frame(origin=frame.at(0.0, 0.0, by), along=frame.along, up=frame.up, out=frame.out)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reveal:
    """A lined opening: the frame of its wall, how deep it is and how thickly lined. [mm]."""

    wall: Frame
    box: Box
    depth: float
    thick: float
    outlines: Mapping[InsideFace, FaceOutline]


def _face_frame(on: _Reveal, face: FaceOutline) -> Frame:
    """Return the plane of an inside face, as who faces it has its right and its up."""
    box, thick, around = on.box, on.thick, bounds_of((face.ring,))
    at, a, u, n = on.wall.at, on.wall.along, on.wall.up, on.wall.out
    left, low = box.left + face.along, box.bottom + face.up
    match face.face:
        case "left":
            origin = at(box.left + thick, low, thick)
            return Frame(origin=origin, along=scaled((-1, n)), up=u, out=a)
        case "right":
            origin = at(box.right - thick, low, thick - around.right)
            return Frame(origin=origin, along=n, up=u, out=scaled((-1, a)))
        case "head":
            origin = at(left, box.top - thick, thick - around.top)
            return Frame(origin=origin, along=a, up=n, out=scaled((-1, u)))
        case "back":
            return Frame(origin=at(left, low, thick - on.depth), along=a, up=u, out=n)
        case _:
            # A side stands on the sill, so its foot rises as the sill does.
            _, (run, rise), *_ = on.outlines["left"].ring
            one = hypot(run, rise)
            return Frame(
                origin=at(left, box.bottom + thick, thick),
                along=a,
                up=scaled((-run / one, n), (rise / one, u)),
                out=scaled((run / one, u), (rise / one, n)),
            )


def scaled(*parts: tuple[float, Vector]) -> Vector:
    """Return a sum of vectors, each so many times.

    Parameters
    ----------
    parts
        How many times, and which vector. [1]

    Returns
    -------
    Vector
        Their sum, in the unit of the vectors.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> scaled((2.0, (1.0, 0.0, 0.0)), (-1.0, (0.0, 1.0, 0.0)))
    (2.0, -1.0, 0.0)
    """
    x, y, z = (sum(share * vector[axis] for share, vector in parts) for axis in range(3))
    return x, y, z
