"""The inside of a lined opening as a box: which face laps which, and the size of each."""

from dataclasses import dataclass
from math import hypot

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import SNAP, Ring
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.fields import InsideFace, Side
from gaugerod.core.job.materials import System
from gaugerod.core.survey.walls import FittedOpening

PITCH = 1 / 48
"""What a sill falls toward the tub for each length of depth: 1/4 in per ft. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceOutline:
    """One face on its own plane, its lower left at the origin, and the joints it closes. [mm].

    `lapped` are the sides that another face covers. `up` is how high the origin of an upright
    face stands over the lower edge of the opening, `along` how far the origin of a back, sill
    or head stands from its left edge.
    """

    face: InsideFace
    ring: Ring
    sealed: float
    lapped: frozenset[Side]
    along: float = 0.0
    up: float = 0.0


def outlines(
    opening: FittedOpening, depth: float, system: System, *, wall: str
) -> tuple[FaceOutline, ...]:
    """Return the faces of a lined opening in the order of setting.

    Parameters
    ----------
    opening
        The opening, by its bare faces. [mm]
    depth
        From the bonding face of the wall to the bare back, or to the frame of a window. [mm]
    system
        The lining, for its thickness, bed and gaps. [mm]
    wall
        Name of its wall.

    Returns
    -------
    tuple of FaceOutline
        Sill, head, left and right side, and the back of a niche. [mm]

    Raises
    ------
    LayoutError
        Nothing is left between the linings.

    Notes
    -----
    Sill and head run the whole width. The sides stand on the sill and hold the head up, so
    that water runs onto the sill. The back goes in last, between the four. All but the back
    come out to the face of the wall's lining. What another face laps keeps the gap of a corner
    to the bare face; what butts keeps the sealed joint. The sill falls as it was read, or 1/4
    in per ft, from the back to its front edge, where it is one lining thick. Source: common
    practice, no source, for who laps whom; own derivation, ``docs/theory/pieces.md``.

    Examples
    --------
    >>> from gaugerod.core.base.geometry import Box
    >>> from gaugerod.core.job.sample import sample_system
    >>> niche = FittedOpening(name="niche", kind="niche", gap=None,
    ...     box=Box(left=0.0, bottom=0.0, right=340.0, top=300.0))
    >>> [face.face for face in outlines(niche, 90.0, sample_system(), wall="B")]
    ['sill', 'head', 'left', 'right', 'back']
    """
    lining, gaps = system.thickness + system.bed, system.gaps
    niche = opening.kind == "niche"
    fall = PITCH if opening.fall is None else opening.fall / depth
    deep = depth + lining - (gaps.corner if niche else gaps.butt)
    wide = opening.box.width - 2 * gaps.corner
    # On the pitch the sill is a hair thicker measured plumb than it is itself.
    stretch = hypot(1.0, fall)
    sill = system.bed + system.thickness * stretch
    high = opening.box.height - sill - lining - 2 * gaps.butt
    between = opening.box.width - 2 * lining - 2 * gaps.butt
    behind, room = high - fall * depth, high - fall * deep
    if min(between, behind, room, wide, deep) <= SNAP:
        size = {"width": Length(opening.box.width), "height": Length(opening.box.height)}
        message = Message(
            "cutting.no-room-inside",
            wall=wall,
            opening=opening.name,
            lining=Length(lining),
            **size,
        )
        raise LayoutError(message)
    front = 0.0 if niche else opening.box.width - 2 * lining
    beside = deep * (1 + stretch) + (0.0 if niche else room)
    over, up = gaps.corner, sill + gaps.butt
    left: Ring = ((0.0, 0.0), (deep, fall * deep), (deep, high), (0.0, high))
    right: Ring = ((0.0, fall * deep), (deep, 0.0), (deep, high), (0.0, high))
    back = _upright(between, behind)
    faces = (
        _face("sill", _upright(wide, deep * stretch), front, niche=niche, along=over),
        _face("head", _upright(wide, deep), front, niche=niche, along=over),
        _face("left", left, beside, niche=niche, up=up),
        _face("right", right, beside, niche=niche, up=up),
        _face(
            "back",
            back,
            2 * (between + behind),
            niche=niche,
            along=lining + gaps.butt,
            up=up + fall * depth,
        ),
    )
    return faces if niche else faces[:-1]


_AT_BACK: dict[InsideFace, Side] = {
    "sill": "top",
    "head": "bottom",
    "left": "right",
    "right": "left",
}


def _face(
    face: InsideFace, ring: Ring, sealed: float, *, niche: bool, along: float = 0.0, up: float = 0.0
) -> FaceOutline:
    """Return a face with the sides that another laps: the sides' over the ends, the back's."""
    ends: set[Side] = {"left", "right"} if face in {"sill", "head"} else set()
    behind = {_AT_BACK[face]} if niche and face in _AT_BACK else set()
    return FaceOutline(
        face=face, ring=ring, sealed=sealed, lapped=frozenset(ends | behind), along=along, up=up
    )


def _upright(width: float, height: float) -> Ring:
    return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))
