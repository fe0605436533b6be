"""How a pattern suits one wall, found on the pieces themselves."""

from dataclasses import dataclass, replace

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import (
    GRID,
    LEAST_AREA,
    SNAP,
    Box,
    Edge,
    bounds_of,
    regions_of,
    shape_of,
)
from gaugerod.core.base.widths import has_thin_leg, narrowest
from gaugerod.core.job.materials import System
from gaugerod.core.setout.field import deduct, set_field
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.setout.pattern import Pattern
from gaugerod.core.setout.score import DEARER, INCH
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.strips import Case
from gaugerod.core.setout.variants import SAME_SHARE
from gaugerod.core.setout.zones import ZoneKind, grown, zones_of
from gaugerod.core.survey.walls import FittedWall

ROUND = 64
"""Chords in a quarter of the circle round a hole: true to a hundredth of a millimetre."""
CLOSED = 1e-6
"""Pieces are grown by this much more than half a joint, so that rounding leaves no cracks. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """A wall with its set field: `solid` is the field without openings, holes not drilled. [mm]."""

    case: Case
    field: SetField
    solid: BaseGeometry
    box: Box
    rims: tuple[LineString, LineString]

    @property
    def centre(self) -> float:
        """Centre line at half height, so that the taper of a leaning corner is shared. [mm]."""
        middle = (self.box.bottom + self.box.top) / 2
        level = LineString([(self.box.left - 1, middle), (self.box.right + 1, middle)])
        at = shapely.get_x(shapely.intersection(np.array(self.rims), level))
        return float(np.mean(at))


def ground_of(case: Case) -> Ground:
    """Return the ground that patterns are laid on.

    Parameters
    ----------
    case
        The wall, how it is met, its finish line and the material. [mm]

    Returns
    -------
    Ground
        The ground. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> round(ground_of(sample_batch(0.0).case).centre, 1)
    755.6
    """
    field = set_field(case.wall, case.met, case.system, top=case.top)
    out = [shapely.box(b.left, b.bottom, b.right, b.top) for b in field.openings]
    solid = shape_of(field.gross).difference(shapely.union_all(out))
    shapely.prepare(solid)
    box = bounds_of(field.gross.rings)
    return Ground(
        case=case,
        field=field,
        solid=solid,
        box=box,
        rims=rims_of(case.wall, case.met, case.system, box),
    )


def rims_of(
    wall: FittedWall, met: tuple[Meeting, Meeting], system: System, box: Box
) -> tuple[LineString, LineString]:
    """Return the left and the right rim of a field as lines.

    Parameters
    ----------
    wall
        The wall. [mm]
    met
        How it meets what is left and right of it.
    system
        The material, for gaps and laps. [mm]
    box
        The box round the field, for its heights. [mm]

    Returns
    -------
    tuple of LineString
        Each from the foot of the field to its top. [mm]

    Notes
    -----
    Source: own design, as `set_field`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> case = sample_batch(0.0).case
    >>> box = Box(left=0.0, bottom=0.0, right=1500.0, top=100.0)
    >>> [round(rim.length) for rim in rims_of(case.wall, case.met, case.system, box)]
    [100, 100]
    """
    left, right = (deduct(meeting, system) for meeting in met)
    return _rim(wall.left, left, box), _rim(wall.right, -right, box)


def _rim(edge: Edge, shift: float, box: Box) -> LineString:
    bows = (y for y, _ in edge.bow if box.bottom < y < box.top)
    return LineString([(edge.at(y) + shift, y) for y in (box.bottom, *bows, box.top)])


def score_pattern(ground: Ground, pattern: Pattern) -> tuple[Score, dict[str, int]]:
    """Score one pattern on one wall.

    Parameters
    ----------
    ground
        The wall with its field. [mm]
    pattern
        The pattern, placed. [mm]

    Returns
    -------
    tuple of Score and dict
        Limits broken, looks in cents, cut pieces, least widths at the two ends in mm; and
        what the looks are made of, in cents.

    Notes
    -----
    Every module is clipped to the field and measured as it is, whichever way it lies: no
    piece, and no leg of a notched one, may be narrower than the material's least; rows may
    not stand off each other by more than its most shift. Looks are
    priced as in level courses: slivers under half the short side, ends that differ, joints
    near a hole. Source: limits are the material's; prices are the shop's own.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_tile
    >>> from gaugerod.core.setout.bonded import pattern_of
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> case = replace(sample_batch(0.0).case, system=sample_tile())
    >>> ground = ground_of(case)
    >>> diagonal = pattern_of(case.system, "diagonal", "lying")
    >>> score_pattern(ground, diagonal.at((ground.centre, ground.box.bottom)))[0].refused
    ()
    """
    system, looks = ground.case.system, ground.case.looks
    _, modules = pattern.shapes(ground.box)
    parts, owner = clipped(modules, ground.solid)
    cut = parts[shapely.area(modules[owner]) - shapely.area(parts) > LEAST_AREA]
    widths = np.array([narrowest(part) for part in cut])
    least = system.cutting.least - SNAP
    thin = bool(np.any(widths < least)) or any(has_thin_leg(part, least) for part in cut)
    half = min(system.face) / 2
    slivers = widths[widths < half - SNAP]
    left, right = (_least_at(rim, cut, widths, 2 * half) for rim in ground.rims)
    closed = "open" not in ground.case.met
    near = _joints_near(ground, modules)
    priced = {
        "sliver": looks.sliver * float(np.sum(1 + DEARER * (1 - slivers / half))),
        "unequal": looks.unequal * abs(left - right) / INCH * closed,
        "near-hole": looks.near_hole * near["hole"],
        "close-to-hole": looks.close_to_hole * (near["close"] - near["hole"]),
        "near-fixture": looks.near_fixture * near["fixture"],
    }
    limits = {"under-least": thin, "shifted-too-far": _too_far(pattern, system)}
    broken = [name for name, is_broken in limits.items() if is_broken]
    score = Score(
        refused=tuple(name for name in broken if name not in ground.case.allowed),
        set_aside=tuple(name for name in broken if name in ground.case.allowed),
        looks=round(sum(priced.values())),
        cuts=len(cut),
        ends=(left, right),
    )
    return score, {name: cents for name, price in priced.items() if (cents := round(price))}


def _too_far(pattern: Pattern, system: System) -> bool:
    """Tell whether rows of one module are shifted by more than the material allows."""
    cutting, (unit, *others) = system.cutting, pattern.cell
    pitch = unit.face[0] + pattern.joint
    share = float(np.dot(pattern.across, pattern.up)) / pitch**2 % 1
    long = not others and unit.face[0] > cutting.shift_over + SNAP
    return long and min(share, 1 - share) > cutting.most_shift + SAME_SHARE


Shapes = NDArray[np.object_]


def clipped(modules: Shapes, field: BaseGeometry) -> tuple[Shapes, NDArray[np.intp]]:
    """Clip modules to a field.

    Parameters
    ----------
    modules
        Their rectangles, shape ``(n,)``. [mm]
    field
        The field. [mm]

    Returns
    -------
    tuple of ndarray
        The parts that are pieces, and for each the number of its module. [mm]

    Notes
    -----
    Source: own design; lines and specks are left out as in `regions_of`.

    Examples
    --------
    >>> parts, owner = clipped(np.array([shapely.box(0, 0, 9, 9)]), shapely.box(5, 0, 20, 20))
    >>> float(parts[0].area), owner.tolist()
    (36.0, [0])
    """
    parts, owner = shapely.get_parts(shapely.intersection(modules, field), return_index=True)
    pieces = shapely.area(parts) > LEAST_AREA
    return parts[pieces], owner[pieces]


def _joints_near(ground: Ground, modules: Shapes) -> dict[ZoneKind, int]:
    """Count the joints that run through the zones of each kind; those of holes are round."""
    met: dict[ZoneKind, int] = {"hole": 0, "close": 0, "fixture": 0}
    for zone in zones_of(ground.case.wall, ground.case.system):
        inner = grown(zone.box, -SNAP)
        shape = shapely.box(inner.left, inner.bottom, inner.right, inner.top)
        if zone.kind != "fixture":
            shape = shape.centroid.buffer(inner.width / 2, quad_segs=ROUND)
        if inner.bottom < ground.box.top:
            near = shapely.intersects(modules, shape)
            met[zone.kind] += max(int(np.count_nonzero(near)) - 1, 0)
    return met


def _least_at(rim: LineString, cut: Shapes, widths: NDArray[np.float64], none: float) -> float:
    """Return the least width of the pieces cut along a rim; none may be. [mm]."""
    return float(np.min(widths[shapely.dwithin(cut, rim, SNAP)], initial=none))


def reached(field: SetField, pattern: Pattern) -> SetField:
    """Return a field without what no piece of a pattern reaches.

    Parameters
    ----------
    field
        The field. [mm]
    pattern
        The pattern, placed. [mm]

    Returns
    -------
    SetField
        The field that the pieces cover with half a joint round each. [mm]

    Notes
    -----
    Where the rim runs through a joint, the rest of that joint belongs to the gap at the rim.
    Source: own design.

    Examples
    --------
    The right rim runs through a joint.

    >>> from gaugerod.core.base.geometry import Region
    >>> from gaugerod.core.setout.pattern import running
    >>> ring = ((0.0, 0.0), (201.0, 0.0), (201.0, 100.0), (0.0, 100.0))
    >>> field = SetField(wall="B", left="open", right="open", gross=Region(rings=(ring,)),
    ...     regions=(Region(rings=(ring,)),), deck_low=0.0)
    >>> grid = running(face=(97.0, 97.0), joint=3.0, shift=0.0)
    >>> round(bounds_of(reached(field, grid).regions[0].rings).right, 3)
    200.0
    """
    net = shapely.union_all([shape_of(region) for region in field.regions])
    _, modules = pattern.shapes(bounds_of(field.gross.rings))
    parts, owner = clipped(modules, net)
    around = pattern.joint / 2 + CLOSED
    # A point runs out beyond its cut edge, and round the corner of an opening into a neighbour:
    # no piece reaches farther than its module would.
    grown = shapely.intersection(
        shapely.buffer(parts, around, join_style="mitre"),
        shapely.buffer(modules, around, join_style="mitre")[owner],
    )
    # Edges that all but coincide are joined on a grid: without one a module may be lost.
    kept = shapely.intersection(net, shapely.union_all(grown, grid_size=GRID), grid_size=GRID)
    return replace(field, regions=regions_of(kept))
