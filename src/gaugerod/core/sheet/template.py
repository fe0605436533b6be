"""Drilling templates: holes of a piece with the edges that they are held to."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import floor

import shapely

from gaugerod.core.base.geometry import Box, Point, Region, disc, regions_of, shape_of
from gaugerod.core.cutting.marks import over_side
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import bites, frame_of
from gaugerod.core.sheet.tiles import Stretch, stretches
from gaugerod.core.survey.walls import FittedHole

ARM = 12.0
"""How far a centre cross reaches beyond its circle, and the paper beyond an edge. [mm]"""
_LEAST = 25.0  # from a line that stands for a far edge to the nearest circle, at least


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """A hole of a template, with its distances from the two edges it is held to. [mm].

    A negative distance lies beyond the edge.
    """

    name: str
    at: Point
    diameter: float
    across: float
    up: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """An edge that a template is held to, `at` along its axis. [mm].

    `kept` says that it is a factory edge. `far` is how far in from it a line stands that is
    marked with a tape instead; none where the template reaches the edge.
    """

    side: Side
    at: float
    kept: bool
    far: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """Holes of one piece as they are drilled, in the module's frame. [mm].

    `outline` are the edges of the piece within `bounds`, `factory` those of them that are
    factory edges, each with its side. Where `down` is set, the module lies face down, arrow up;
    where `in_place` is, the piece is measured on the wall before it is cut or drilled.
    """

    tag: str
    down: bool
    in_place: bool
    bounds: Box
    outline: tuple[Stretch, ...]
    factory: tuple[tuple[Side, Stretch], ...]
    across: Hold
    up: Hold
    drills: tuple[Drill, ...]


def templates(
    piece: Piece, holes: Sequence[FittedHole], *, room: tuple[float, float], step: float
) -> tuple[Template, ...]:
    """Return the templates of a piece, face up.

    Parameters
    ----------
    piece
        The piece, with its marks. [mm]
    holes
        Holes of its wall. [mm]
    room
        Width and height that one page has. Holes further apart have templates of their own; an
        edge further away than two pages is replaced by a line at a whole step from it. [mm]
    step
        That step, > 0. [mm]

    Returns
    -------
    tuple of Template
        From the lowest hole up; none for a piece without holes.

    Notes
    -----
    Each is held to the nearest factory edge that the piece keeps, across and up; where it
    keeps none, to its nearest edge as cut. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_drilled
    >>> piece, holes = sample_drilled()
    >>> (made,) = templates(piece, holes, room=(180.0, 130.0), step=10.0)
    >>> made.across.side, made.drills[0].across, made.up.side, made.drills[0].up
    ('left', 200.0, 'bottom', 110.0)
    """
    drills = [(hole.name, (hole.x, hole.y), hole.diameter) for hole in piece.holes]
    drills += [(bite.name, bite.at, bite.diameter) for bite in bites(piece, holes)]
    groups: list[list[tuple[str, Point, float]]] = []
    for drill in sorted(drills, key=lambda one: (one[1][1], one[1][0])):
        together = _around([*groups[-1], drill]) if groups else None
        if together and together.width <= room[0] and together.height <= room[1]:
            groups[-1].append(drill)
        else:
            groups.append([drill])
    return tuple(_template(piece, group, room, step) for group in groups)


def _around(drills: Sequence[tuple[str, Point, float]]) -> Box:
    return Box(
        left=min(x - d / 2 for _, (x, _), d in drills) - ARM,
        bottom=min(y - d / 2 for _, (_, y), d in drills) - ARM,
        right=max(x + d / 2 for _, (x, _), d in drills) + ARM,
        top=max(y + d / 2 for _, (_, y), d in drills) + ARM,
    )


def _template(
    piece: Piece,
    group: Sequence[tuple[str, Point, float]],
    room: tuple[float, float],
    step: float,
) -> Template:
    around = _around(group)
    across = _hold(piece, ("left", "right"), (around.left, around.right), 1.9 * room[0], step)
    up = _hold(piece, ("bottom", "top"), (around.bottom, around.top), 1.9 * room[1], step)
    bounds = _reaching(around, (across, up))
    window = shapely.box(bounds.left, bounds.bottom, bounds.right, bounds.top)
    outline = shapely.LinearRing(_undrilled(piece, group).rings[0]).intersection(window)
    factory = [
        (edge.side, shapely.LineString([edge.start, edge.end]).intersection(window))
        for edge in piece.edges
        if edge.kind == "tongue off" or (edge.kind == "factory" and edge.side in piece.keeps)
    ]
    return Template(
        tag=piece.tag,
        down=False,
        in_place=piece.measure_in_place,
        bounds=bounds,
        outline=tuple(stretches(outline)),
        factory=tuple((side, one) for side, shape in factory for one in stretches(shape)),
        across=across,
        up=up,
        drills=tuple(
            Drill(
                name=name,
                at=at,
                diameter=diameter,
                across=_from(across, at[0]),
                up=_from(up, at[1]),
            )
            for name, at, diameter in group
        ),
    )


def _hold(
    piece: Piece, pair: tuple[Side, Side], span: tuple[float, float], reach: float, step: float
) -> Hold:
    """Choose the edge to hold to: a factory edge before a cut one, then the nearer."""
    within = piece.within
    at = {
        "left": within.left,
        "bottom": within.bottom,
        "right": within.right,
        "top": within.top,
    }
    low, high = pair
    away = {low: span[1] - at[low], high: at[high] - span[0]}
    kept = [side for side in pair if side in piece.keeps]
    side = min(kept or pair, key=lambda one: away[one])
    far = None
    if away[side] > reach:
        clear = away[side] - (span[1] - span[0]) + ARM - _LEAST
        far = floor(clear / step) * step
    return Hold(side=side, at=at[side], kept=side in piece.keeps, far=far)


def _reaching(around: Box, holds: Sequence[Hold]) -> Box:
    """Widen the box round the holes to the edges, or to the lines that stand for them."""
    ends = {
        "left": around.left,
        "bottom": around.bottom,
        "right": around.right,
        "top": around.top,
    }
    for hold in holds:
        line = line_of(hold)
        if hold.side in _LOW:
            ends[hold.side] = min(ends[hold.side], line - ARM)
        else:
            ends[hold.side] = max(ends[hold.side], line + ARM)
    return Box(left=ends["left"], bottom=ends["bottom"], right=ends["right"], top=ends["top"])


_LOW = frozenset({"left", "bottom"})


def line_of(hold: Hold) -> float:
    """Return where along its axis the line is that a template is held by.

    Parameters
    ----------
    hold
        The edge. [mm]

    Returns
    -------
    float
        The edge itself, or the line that stands for it. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> line_of(Hold(side="right", at=600.0, kept=True, far=200.0))
    400.0
    """
    far = hold.far or 0.0
    return hold.at + far if hold.side in _LOW else hold.at - far


def _from(hold: Hold, at: float) -> float:
    return at - hold.at if hold.side in _LOW else hold.at - at


def _undrilled(piece: Piece, group: Sequence[tuple[str, Point, float]]) -> Region:
    """Return the outline of a piece as it is before its holes are drilled, in its own frame."""
    within = piece.within
    box = shapely.box(within.left, within.bottom, within.right, within.top)
    kept = frame_of(piece).region_to_module(piece.region)
    shape = shape_of(Region(rings=kept.rings[:1]))
    drilled = shapely.union_all([disc(x=x, y=y, diameter=d) for _, (x, y), d in group])
    # A bite out of a corner is made good only where the piece is square to begin with.
    square = shape.union(drilled).covers(box.buffer(-_HAIR))
    whole = shape.union(drilled.intersection(box if square else shape.convex_hull))
    # Grown and shrunk again, so that rounding leaves no slit along the rim.
    closed = whole.buffer(_HAIR, join_style="mitre").buffer(-_HAIR, join_style="mitre")
    regions = regions_of(shapely.simplify(closed, _HAIR))
    return max(regions, key=lambda region: shape_of(region).area)


_HAIR = 1e-3


def turned_over(template: Template) -> Template:
    """Return a template for the module face down, arrow up.

    Parameters
    ----------
    template
        The template, face up. [mm]

    Returns
    -------
    Template
        Its mirror image, left and right changed over. [mm]

    Notes
    -----
    Turned over like the page of a book, ``x`` becomes ``-x``. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_drilled
    >>> piece, holes = sample_drilled()
    >>> (made,) = templates(piece, holes, room=(180.0, 130.0), step=10.0)
    >>> over = turned_over(made)
    >>> over.across.side, over.drills[0].at, over.drills[0].across
    ('right', (-200.0, 110.0), 200.0)
    """
    bounds = template.bounds
    return replace(
        template,
        down=not template.down,
        bounds=replace(bounds, left=-bounds.right, right=-bounds.left),
        outline=tuple(map(_mirrored, template.outline)),
        factory=tuple((over_side(side), _mirrored(one)) for side, one in template.factory),
        across=replace(
            template.across, side=over_side(template.across.side), at=-template.across.at
        ),
        drills=tuple(replace(drill, at=(-drill.at[0], drill.at[1])) for drill in template.drills),
    )


def _mirrored(stretch: Stretch) -> Stretch:
    (x0, y0), (x1, y1) = stretch
    return (-x0, y0), (-x1, y1)
