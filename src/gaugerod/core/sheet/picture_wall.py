"""One wall of the picture: bare wall, lining, openings with their insides, trims, plates."""

from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import (
    Box,
    Region,
    Ring,
    disc,
    regions_of,
    shape_of,
)
from gaugerod.core.setout.layout import WallLayout
from gaugerod.core.sheet.drawing import Area, Layer
from gaugerod.core.sheet.eye import Eye, seen, seen_rings, tone
from gaugerod.core.sheet.lettering import region_of
from gaugerod.core.sheet.picture_box import boss, recess
from gaugerod.core.sheet.space import Alcove, Frame, Lining, raised, scaled
from gaugerod.core.survey.walls import FittedOpening, FittedWall
from gaugerod.core.takeoff.field_edges import field_edges
from gaugerod.core.takeoff.runs import trimmed

_BARE = (0.01, 0.16)  # tones in the light and out of it, of bare walls [1]
_TILE = (0.06, 0.34)  # of what is set [1]
_ACCENT = 0.2  # how much darker what is of another product is [1]
_JOINT = 0.55  # how much darker a joint is [1]
_EDGES = 0.3  # of pieces seen from their edge [1]
_METAL = (0.10, 0.45)  # [1]
_GLASS = 0.04  # [1]
_PLATE, _PIPE = 0.06, 0.45  # [1]
_SHALLOW = {"window": 60.0, "niche": 90.0}  # how deep an opening is that nobody read [mm]
_LEG = 8.0  # of a trim whose leg its file does not give [mm]
_SASH = 45.0  # width of a window's own frame [mm]
_PROUD = {"shelf": 100.0, "dish": 60.0, "bar": 40.0, "rail": 40.0}  # [mm]
_SIDES = 32  # of a round plate
_COLLAR = 1.35  # plate to hole, where the plate was not read


def wall_items(
    eye: Eye, alcove: Alcove, wall: FittedWall, frame: Frame, linings: Sequence[Lining]
) -> Iterator[Area]:
    """Draw one wall and what is in it and on it, in the order of painting.

    Parameters
    ----------
    eye
        The eye. [mm]
    alcove
        The alcove. [mm]
    wall
        The wall. [mm]
    frame
        Its bonding face in space.
    linings
        What is set on it, its own face first, and inside its openings. [mm]

    Yields
    ------
    Area
        Nothing, where it is seen from behind. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> from gaugerod.core.sheet.space import linings, wall_frames
    >>> walls, layout, system = sample_layout()
    >>> alcove = Alcove(walls=walls, layout=layout, pieces=(), insides=(), system=system)
    >>> eye, frames = Eye(at=(750.0, -2000.0, 0.0), far=2800.0), wall_frames(walls)
    >>> lined = [one for one in linings(alcove, frames) if one.wall == "L"]
    >>> items = list(wall_items(eye, alcove, walls.walls[0], frames["L"], lined))
    >>> items[0].layer, items[1].layer
    ('bare', 'joint')
    """
    bare = seen(eye, frame, Region(rings=(wall.outline,)))
    if bare is None:
        return
    on = next(one for one in alcove.layout.walls if one.name == wall.name)
    own, *insides = linings
    thick = alcove.system.thickness + alcove.system.bed
    light, dark = _BARE
    yield Area(layer="bare", region=bare, tone=tone(frame.out, light=light, dark=dark))
    main = alcove.system.id
    yield from _lined(eye, own, main)
    outline, gross = shape_of(Region(rings=(wall.outline,))), on.field.gross
    for opening in wall.openings:
        mine = [one for one in insides if one.opening == opening.name]
        for mouth in regions_of(outline & shape_of(region_of(opening.box))):
            yield from _opening(eye, own.frame, mouth, opening, mine, main=main, thick=thick)
    for end, left in _ends(on):
        yield from _thickness(eye, own.frame, end, thick, left=left)
    for trim, line in trimmed(on.field, wall, alcove.system):
        yield from _trim(eye, own.frame, gross, line, trim.leg or _LEG)
    yield from _plates(eye, own.frame, wall)


def _lined(
    eye: Eye, lining: Lining, main: str, within: BaseGeometry | None = None
) -> Iterator[Area]:
    """Draw joints, then pieces over them; what lies outside of `within` is hidden."""
    light, dark = _TILE
    shade = tone(lining.frame.out, light=light, dark=dark)
    for region in lining.regions:
        yield from _area(
            eye, lining.frame, region, "joint", min(1.0, shade + _JOINT), within=within
        )
    for piece in lining.pieces:
        dark = shade if piece.product == main else shade + _ACCENT
        yield from _area(eye, lining.frame, piece.region, "lining", dark, within=within)


def _area(
    eye: Eye,
    frame: Frame,
    region: Region,
    layer: Layer,
    shade: float,
    *,
    within: BaseGeometry | None = None,
) -> Iterator[Area]:
    drawn = seen(eye, frame, region)
    if drawn is None:
        return
    parts = (drawn,) if within is None else regions_of(shape_of(drawn).intersection(within))
    for part in parts:
        yield Area(layer=layer, region=part, tone=shade)


def _opening(
    eye: Eye,
    frame: Frame,
    mouth: Region,
    opening: FittedOpening,
    insides: Sequence[Lining],
    *,
    main: str,
    thick: float,
) -> Iterator[Area]:
    """Draw an opening and its inside, which is seen through its mouth alone."""
    # What shows round lined faces are the edges of their pieces.
    around = list(_area(eye, frame, mouth, "lining", _EDGES))
    yield from around
    within = shapely.union_all([shape_of(area.region) for area in around])
    for lining in sorted(insides, key=lambda one: one.face != "back"):
        yield from _lined(eye, lining, main, within)
    light, dark = _BARE
    deep = thick + (opening.depth or _SHALLOW[opening.kind])
    for region, out in () if insides else recess(eye, frame, opening.box, deep=deep):
        for part in regions_of(shape_of(region).intersection(within)):
            yield Area(layer="bare", region=part, tone=tone(out, light=light, dark=dark))
    if opening.kind == "window":
        for pane in _panes(opening.box):
            yield from _area(eye, raised(frame, -deep), pane, "opening", _GLASS, within=within)


def _panes(box: Box) -> Iterator[Region]:
    """Yield two lights over one another, with a plain frame round them."""
    sash = min(_SASH, box.width / 8, box.height / 8)
    left, right, middle = box.left + sash, box.right - sash, (box.bottom + box.top) / 2
    for bottom, top in (
        (box.bottom + sash, middle - sash / 2),
        (middle + sash / 2, box.top - sash),
    ):
        yield region_of(Box(left=left, bottom=bottom, right=right, top=top))


def _ends(on: WallLayout) -> Iterator[tuple[Ring, bool]]:
    """Yield the open ends of a lining from the bottom up, and whether each is the left one."""
    edges = field_edges(on.field.gross.rings[0])
    if on.field.left == "open":
        yield edges.left_line, True
    if on.field.right == "open":
        yield edges.right_line, False


def _thickness(eye: Eye, frame: Frame, end: Ring, thick: float, *, left: bool) -> Iterator[Area]:
    """Draw how thick the lining is at an open end."""
    light, dark = _METAL
    out = frame.along if not left else scaled((-1.0, frame.along))
    for (x0, y0), (x1, y1) in pairwise(end):
        corners = [
            frame.at(x0, y0),
            frame.at(x0, y0, -thick),
            frame.at(x1, y1, -thick),
            frame.at(x1, y1),
        ]
        region = seen_rings(eye, [corners[::-1] if left else corners])
        if region:
            yield Area(layer="profile", region=region, tone=tone(out, light=light, dark=dark))


def _trim(eye: Eye, frame: Frame, field: Region, line: Ring, leg: float) -> Iterator[Area]:
    """Draw the leg of a trim on the face of the lining."""
    light, dark = _METAL
    shade = tone(frame.out, light=light, dark=dark)
    strip = LineString(line).buffer(leg, cap_style="square", join_style="mitre")
    for part in regions_of(strip.intersection(shape_of(field))):
        yield from _area(eye, frame, part, "profile", shade)


def _plates(eye: Eye, frame: Frame, wall: FittedWall) -> Iterator[Area]:
    """Draw what is fixed on a wall, and a ring where a pipe comes through."""
    light, dark = _METAL
    for fixture in wall.fixtures:
        for region, out in boss(eye, frame, fixture.box, proud=_PROUD[fixture.kind]):
            yield Area(layer="plate", region=region, tone=tone(out, light=light, dark=dark))
    for hole in wall.holes:
        rings = (
            (hole.plate or _COLLAR * hole.diameter, _PLATE),
            (hole.pipe or hole.diameter / 2, _PIPE),
        )
        for size, shade in rings:
            for ring in regions_of(disc(x=hole.x, y=hole.y, diameter=size, sides=_SIDES)):
                yield from _area(eye, frame, ring, "plate", shade)
