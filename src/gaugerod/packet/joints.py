"""What each edge of a piece meets on the wall: the joint left there, and whether it shows."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Literal, TypeAlias

import shapely

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Point, Region, shape_of
from gaugerod.core.base.messages import Length
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.layout import Meeting, SetField, top_of
from gaugerod.core.survey.walls import FittedWall

Met: TypeAlias = (
    Meeting | Literal["deck", "finish", "ceiling", "lift", "opening", "jamb", "seam", "seam trim"]
)

_NEAR = 0.5  # [mm]; an edge of a piece this close to an edge of the field lies on it
# How true a cut must be where it shows and where it does not: common practice, no source.
SHOWS, HIDDEN = 25.4 / 16, 25.4 / 8  # [mm]
_SEEN: frozenset[Met] = frozenset({"butts", "laps", "deck", "opening", "jamb", "ceiling", "seam"})


def joints(piece: Piece, plan: Plan, words: Catalogue) -> tuple[str, ...]:
    """Say for each side of a piece what it meets on the wall, and how truly to cut.

    Joints of tile and keys go without saying; seams of sheets do not.
    """
    field = next(wall.field for wall in plan.layout.walls if wall.name == piece.wall)
    wall = next(wall for wall in plan.walls.walls if wall.name == piece.wall)
    met = dict.fromkeys(
        (side, *found)
        for side, middle in _edges(piece)
        if (
            found := _at_rim(side, middle, field, plan)
            or _at_opening(middle, field, wall, plan)
            or _at_seam(side, middle, piece, plan)
        )
    )
    return tuple(
        words.text(
            f"card.meets-{what.replace(' ', '-')}",
            side=words.text(f"card.turned-{side}" if piece.turn else f"card.wall-{side}"),
            gap=Length(gap),
            true=Length(SHOWS if what in _SEEN else HIDDEN),
        )
        for side, what, gap in met
    )


def _edges(piece: Piece) -> Iterator[tuple[Side, Point]]:
    """Yield the side each edge faces and its middle; the outer ring runs anticlockwise."""
    ring = shapely.simplify(shape_of(Region(rings=piece.region.rings[:1])).exterior, _NEAR / 10)
    for (x0, y0), (x1, y1) in pairwise(ring.coords):
        upright: Side = "right" if y1 > y0 else "left"
        level: Side = "bottom" if x1 > x0 else "top"
        side = upright if abs(y1 - y0) > abs(x1 - x0) else level
        yield side, ((x0 + x1) / 2, (y0 + y1) / 2)


def _at_rim(side: Side, middle: Point, field: SetField, plan: Plan) -> tuple[Met, float] | None:
    """Return what an edge on the rim of the field meets, and the joint there. [mm]."""
    if shape_of(field.gross).exterior.distance(shapely.Point(middle)) > _NEAR:
        return None
    gaps = plan.system.gaps
    if side == "bottom":
        return "deck", gaps.deck
    if side == "top":
        level = abs(middle[1] - top_of(plan.layout, field.wall)) < _NEAR
        if level:
            return "finish", 0.0
        # A keyed course is lifted over its tongue, and a trim covers the gap that it needs.
        return ("lift" if plan.system.kind == "keyed" else "ceiling"), gaps.ceiling
    meeting = field.left if side == "left" else field.right
    joint = {
        "runs behind": gaps.corner,
        "butts": gaps.butt,
        "trim": gaps.inside or 0.0,
        "open": gaps.front,
    }
    return meeting, joint.get(meeting, 0.0)


def _at_opening(
    middle: Point, field: SetField, wall: FittedWall, plan: Plan
) -> tuple[Met, float] | None:
    """Return the joint left to an opening that an edge runs along. [mm]."""
    for opening, box in zip(wall.openings, field.openings, strict=True):
        rim = shapely.box(box.left, box.bottom, box.right, box.top).exterior
        if rim.distance(shapely.Point(middle)) < _NEAR:
            gap = plan.system.gaps.opening if opening.gap is None else opening.gap
            return ("opening" if gap else "jamb"), gap
    return None


def _at_seam(side: Side, middle: Point, piece: Piece, plan: Plan) -> tuple[Met, float] | None:
    """Return the seam between two sheets, where an edge lies on one."""
    system, cell, layout = plan.system, piece.cell, plan.layout
    axis = 0 if side in {"left", "right"} else 1
    at = {"left": cell.left, "right": cell.right, "bottom": cell.bottom, "top": cell.top}[side]
    if system.kind != "sheet" or abs(middle[axis] - at) > _NEAR:
        return None
    trimmed = any(trim.use == "seam" for trim in system.trim)
    return ("seam trim" if trimmed else "seam"), layout.pitch[axis] - layout.face[axis]
