"""What the pieces leave open on the day: strips too narrow to be cut."""

import shapely

from gaugerod.core.base.geometry import regions_of, shape_of
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.line import Line

SEEN = 1.0
"""Narrower than half of this it is no strip. [mm]"""


def open_strips(plan: Plan, wall: str, lines: tuple[Line, ...]) -> tuple[tuple[str, float], ...]:
    """Return the strips of a wall that no piece covers, each with the piece nearest to it.

    Parameters
    ----------
    plan
        The plan as it stands. [mm]
    wall
        Name of the wall.
    lines
        Lines that were found off on it; what opens or closes along them is no strip. [mm]

    Returns
    -------
    tuple of (str, float)
        Tag of that piece, and its width at the widest. [mm]

    Notes
    -----
    The width is the diameter of the largest circle in the strip. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> open_strips(sample_plan(), "B", ())
    ()
    """
    layout = plan.layout
    (on,) = (one for one in layout.walls if one.name == wall)
    here = [piece for piece in plan.pieces if piece.wall == wall]
    joint = max(pitch - face for pitch, face in zip(layout.pitch, layout.face, strict=True))
    field = shapely.union_all([shape_of(region) for region in on.field.regions])
    covered = shapely.union_all([shape_of(piece.region) for piece in here])
    grown = shapely.buffer(covered, joint / 2 + SEEN / 2, join_style="mitre")
    closed = shapely.union_all([grown, *(_band(line, joint) for line in lines)])
    found = []
    for part in map(shape_of, regions_of(shapely.difference(field, closed))):
        wide = 2 * shapely.maximum_inscribed_circle(part).length + SEEN / 2
        beside = min(here, key=lambda piece: shapely.distance(shape_of(piece.region), part))
        found.append((beside.tag, float(wide)))
    return tuple(sorted(found))


def _band(line: Line, joint: float) -> shapely.Polygon:
    """Return what may open or close along a line that was found off. [mm]."""
    reach = max(map(abs, line.off)) + joint + SEEN
    return shapely.box(line.left, line.height - reach, line.right, line.height + reach)
