"""Pieces cover what they should, once, and add up: along the level, up the plumb, by area."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import cos, hypot, pi

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.affinity import affine_transform
from shapely.geometry import LineString
from tests.property.alcoves import Alcove, Lined, alcoves, keyed, lined, share, surveyed

from gaugerod.core.base.geometry import Box, Point, Region, Ring, shape_of
from gaugerod.core.cutting.pieces import Piece, PieceEdge
from gaugerod.core.setout.layout import Layout, Meeting, WallLayout
from gaugerod.core.survey.walls import FittedHole, FittedWall

NEAR = 1e-4
"""Two positions closer than this are one. [mm]"""
shares = st.floats(0.02, 0.98)


# --- sums close --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A stretch of a line. A round hole is drawn with straight sides: `slack` is their swing."""

    start: float
    end: float
    slack: float = 0.0


@share(4)
@given(alcoves(), shares)
def test_along_every_course_the_sums_close(alcove: Alcove, part: float) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    for own in layout.walls:
        wall = found.wall(own.name)
        here = [piece for piece in pieces if piece.wall == own.name]
        for bottom, top in {(piece.cell.bottom, piece.cell.top) for piece in here}:
            y = bottom + part * (top - bottom)
            if highest_deck(wall, found) < y < lowest_top(wall, found, layout):
                openings = [
                    Span(start=b.left, end=b.right)
                    for b in own.field.openings
                    if b.bottom < y < b.top
                ]
                assert_closes(
                    [span for piece in here for span in crossed(piece.region, y)],
                    [*openings, *(s for hole in wall.holes for s in drilled(hole, here, y=y))],
                    start=wall.left.at(y) + deduct(own.field.left, found),
                    end=wall.right.at(y) - deduct(own.field.right, found),
                    joint=layout.pitch[0] - layout.face[0],
                )


def highest_deck(wall: FittedWall, found: Lined) -> float:
    return max(y for _, y in wall.deck) + found.system.gaps.deck + NEAR


def lowest_top(wall: FittedWall, found: Lined, layout: Layout) -> float:
    ceiling = min(y for _, y in wall.ceiling) - found.system.gaps.ceiling
    return min(ceiling, layout.top) - NEAR


def deduct(meeting: Meeting, found: Lined) -> float:
    """What a wall loses at a corner or a front, added up anew. [mm]."""
    system = found.system
    lost = {
        "open": system.gaps.front,
        "runs behind": system.gaps.corner,
        "butts": system.thickness + system.bed + system.gaps.butt,
    }
    return lost[meeting]


@share(4)
@given(alcoves(), shares)
def test_up_every_wall_the_sums_close(alcove: Alcove, part: float) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    for own in layout.walls:
        wall = found.wall(own.name)
        # Inside the wall at every height.
        ys = (-900.0, 1600.0)
        least = max(wall.left.at(y) + deduct(own.field.left, found) for y in ys) + 1
        most = min(wall.right.at(y) - deduct(own.field.right, found) for y in ys) - 1
        x = least + part * (most - least)
        if runs_in_a_joint(own, layout, x):
            continue
        openings = [
            Span(start=b.bottom, end=b.top) for b in own.field.openings if b.left < x < b.right
        ]
        here = [piece for piece in pieces if piece.wall == own.name]
        ceiling = height_at(wall.ceiling, x) - found.system.gaps.ceiling
        assert_closes(
            [span for piece in here for span in crossed(turned(piece.region), x)],
            [*openings, *(s for hole in wall.holes for s in drilled(hole, here, x=x))],
            start=height_at(wall.deck, x) + found.system.gaps.deck,
            end=min(ceiling, layout.top),
            joint=layout.pitch[1] - layout.face[1],
        )


def runs_in_a_joint(own: WallLayout, layout: Layout, x: float) -> bool:
    """Tell whether a plumb line at x runs in a joint of some course of a bond."""
    starts = (own.phase + course * own.row_shift for course in range(3))
    return any((x - start) % layout.pitch[0] > layout.face[0] - NEAR for start in starts)


def height_at(line: tuple[Point, ...], x: float) -> float:
    (x0, y0), *_, (x1, y1) = line
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)


def assert_closes(
    pieces: Iterable[Span], holes: Iterable[Span], *, start: float, end: float, joint: float
) -> None:
    """Every place from start to end is a piece, a hole, or one joint between two pieces.

    A module whose own edge falls within a joint of a rim stays whole: the gap there is then
    wider, by a joint at the most.
    """
    solid = sorted((span.start, span.end) for span in pieces)
    rims = [Span(start=-1e9, end=start), Span(start=end, end=1e9)]
    # A hole may reach out of the field, as a window does that rises above the finish line.
    inside = (span for span in holes if span.end > start and span.start < end)
    rims += [replace(span, start=max(span.start, start), end=min(span.end, end)) for span in inside]
    taken = sorted([*((a, b, None) for a, b in solid), *((r.start, r.end, r.slack) for r in rims)])
    assert len(solid) > 0
    for (_, before, slack), (after, _, next_slack) in pairwise(taken):
        gap = after - before
        if slack is None and next_slack is None:
            assert gap == pytest.approx(joint, abs=NEAR)
        else:
            assert -NEAR - (slack or 0) - (next_slack or 0) < gap <= joint + NEAR, taken


def crossed(region: Region, y: float) -> list[Span]:
    """The stretches of a level line inside a region, by the crossings of its rings."""
    at = sorted(x for ring in region.rings for x in crossings(ring, y))
    return [Span(start=a, end=b) for a, b in zip(at[::2], at[1::2], strict=True)]


def crossings(ring: Ring, y: float) -> Iterator[float]:
    for (x0, y0), (x1, y1) in zip(ring, (*ring[1:], ring[0]), strict=True):
        if (y0 > y) != (y1 > y):
            yield x0 + (y - y0) / (y1 - y0) * (x1 - x0)


def turned(region: Region) -> Region:
    """The region with its axes changed over, so that plumb lines become level ones."""
    return Region(rings=tuple(tuple((y, x) for x, y in ring) for ring in region.rings))


def chord(hole: FittedHole, *, x: float | None = None, y: float | None = None) -> Iterator[Span]:
    """What a round hole takes from a plumb line at x or a level line at y, by Pythagoras.

    The hole is drawn round the circle, with 64 sides: at most the circle through its corners.
    """
    centre, away = (hole.y, hole.x - x) if x is not None else (hole.x, hole.y - (y or 0.0))
    radius = hole.diameter / 2
    inner, outer = (max(r**2 - away**2, 0.0) ** 0.5 for r in (radius, radius / cos(pi / 64)))
    if outer:
        yield Span(start=centre - outer, end=centre + outer, slack=outer - inner)


def drilled(
    hole: FittedHole, pieces: list[Piece], *, x: float | None = None, y: float | None = None
) -> Iterator[Span]:
    """What a hole takes from a line, with the chips that fall out where it cuts off a corner.

    Such a corner lies in the square round the hole, so what is gone ends somewhere between the
    hole and that square.
    """
    radius = hole.diameter / 2
    corners = {
        (u, v)
        for piece in pieces
        for u in (piece.cell.left, piece.cell.right)
        for v in (piece.cell.bottom, piece.cell.top)
        if max(abs(u - hole.x), abs(v - hole.y)) < radius < hypot(u - hole.x, v - hole.y)
    }
    for span in chord(hole, x=x, y=y):
        middle = (span.start + span.end) / 2
        half = (span.end - span.start) / 2
        slack = radius - half if corners else 0.0
        out = half + slack
        yield Span(start=middle - out, end=middle + out, slack=span.slack + slack)


# --- each place once ---------------------------------------------------------------------------

TRIFLE = 0.5
"""Edges are straightened by up to 0.0001 mm over a few thousand millimetres. [mm2]"""

HORN = 6.0
"""Round a hole what is covered is not looked at: more than the widest joint drawn. [mm]"""


@share(4)
@given(alcoves())
def test_pieces_grown_by_half_a_joint_cover_the_field_once(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    half = (layout.pitch[0] - layout.face[0]) / 2
    assert layout.pitch[1] - layout.face[1] == pytest.approx(2 * half)
    for own in layout.walls:
        here = [piece for piece in pieces if piece.wall == own.name]
        field = shapely.union_all([shape_of(region) for region in own.field.regions])
        # Where a hole comes to within a hair of a joint it leaves horns, which grow to spikes.
        horns = [
            shapely.Point(hole.x, hole.y).buffer(hole.diameter / 2 + HORN)
            for hole in found.wall(own.name).holes
        ]
        field -= shapely.union_all(horns)
        grown = [
            shape_of(piece.region).buffer(half, join_style="mitre", mitre_limit=50) & field
            for piece in here
        ]
        covered = shapely.union_all(grown)
        # What is covered twice would count twice.
        assert sum(shape.area for shape in grown) == pytest.approx(covered.area, abs=TRIFLE)
        assert (field - covered).area < TRIFLE


def upright(box: Box) -> shapely.Polygon:
    return shapely.box(box.left, box.bottom, box.right, box.top)


# --- each piece in its module ------------------------------------------------------------------


@share(4)
@given(alcoves())
def test_a_piece_lies_in_its_cell_and_in_its_module(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    wide, high = alcove.system.face
    for piece in found.pieces(layout):
        shape = shape_of(piece.region)
        assert shape.is_valid
        assert all(corner_turns(*corner) for ring in piece.region.rings for corner in threes(ring))
        assert (shape - upright(piece.cell).buffer(NEAR)).area == 0
        assert (piece.cell.width, piece.cell.height) == pytest.approx(layout.face)
        assert piece.product == alcove.system.id
        module = in_module(piece, high)
        left, bottom, right, top = module.bounds
        box = piece.within
        assert (left, bottom, right, top) == pytest.approx(
            (box.left, box.bottom, box.right, box.top), abs=NEAR
        )
        assert min(left, bottom, wide - right, high - top) > -NEAR
        assert piece.size == pytest.approx((right - left, top - bottom), abs=NEAR)


def threes(ring: Ring) -> Iterator[tuple[Point, Point, Point]]:
    return zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True)


def corner_turns(before: Point, corner: Point, after: Point) -> bool:
    """Tell whether a corner is off the line from its neighbour to its neighbour."""
    return LineString([before, after]).distance(shapely.Point(corner)) > NEAR / 2


def in_module(piece: Piece, high: float) -> shapely.Polygon:
    """The piece as it lies in its module: turned back, from the wall to the module's corner."""
    cell = piece.cell
    # Turned a quarter anticlockwise the module's right is up and its top is left, so that its
    # lower left corner hangs at the lower right of the cell, a module's height from the left.
    x, y = (cell.left + high, cell.bottom) if piece.turn == 90 else (cell.left, cell.bottom)
    turn_back = (0, 1, -1, 0) if piece.turn == 90 else (1, 0, 0, 1)
    a, b, c, d = turn_back
    moved = affine_transform(shape_of(piece.region), (1, 0, 0, 1, -x, -y))
    return affine_transform(moved, (a, b, c, d, 0, 0))


@share(4)
@given(alcoves())
def test_edges_go_round_a_piece_and_kept_ones_are_the_factorys(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    wide, high = alcove.system.face
    for piece in found.pieces(found.short.layouts[0]):
        outline = in_module(piece, high).exterior
        drawn = shapely.union_all([LineString([edge.start, edge.end]) for edge in piece.edges])
        assert drawn.length == pytest.approx(outline.length, abs=0.01)
        assert outline.hausdorff_distance(drawn) < 0.01
        rims = {
            "left": LineString([(0, 0), (0, high)]),
            "right": LineString([(wide, 0), (wide, high)]),
            "bottom": LineString([(0, 0), (wide, 0)]),
            "top": LineString([(0, high), (wide, high)]),
        }
        for edge in piece.edges:
            ends = LineString([edge.start, edge.end])
            if edge.kind == "cut":
                assert not rims[edge.side].buffer(NEAR).contains(ends)
            else:
                assert rims[edge.side].buffer(2 * NEAR).contains(ends)
            if edge.kind == "tongue off":
                assert getattr(alcove.system.edges, edge.side) == "tongue"
        kept = {edge.side for edge in piece.edges if edge.kind == "factory"}
        assert set(piece.keeps) == kept


def line_meetings(piece: shapely.Polygon, *, wide: float, high: float) -> list[Point]:
    """Where the lines of the sides of a piece meet each other and the edges of its module."""
    frame = shapely.box(0.0, 0.0, wide, high).exterior.coords
    sides = [*pairwise(piece.exterior.coords), *pairwise(frame)]
    found: list[Point] = [(x, y) for x, y in piece.exterior.coords]
    for (a, b), (c, d) in combinations(sides, 2):
        ab, cd = (b[0] - a[0], b[1] - a[1]), (d[0] - c[0], d[1] - c[1])
        cross = ab[0] * cd[1] - ab[1] * cd[0]
        if abs(cross) > 1e-9:
            part = ((c[0] - a[0]) * cd[1] - (c[1] - a[1]) * cd[0]) / cross
            found.append((a[0] + part * ab[0], a[1] + part * ab[1]))
    return found


@share(4)
@given(alcoves())
def test_marks_lead_to_the_cuts_and_holes_of_a_piece(alcove: Alcove) -> None:
    """A cut is marked where its line meets an edge of the module, or the line of another cut."""
    found = lined(surveyed(alcove), alcove.system)
    wide, high = alcove.system.face
    for piece in found.pieces(found.short.layouts[0]):
        corners = line_meetings(in_module(piece, high), wide=wide, high=high)
        holes = {hole.name: (hole.x, hole.y) for hole in piece.holes}
        marked: dict[str, set[str]] = {name: set() for name in holes}
        for mark in piece.marks:
            points = [holes[mark.detail]] if mark.what in {"hole", "check"} else corners
            away = {
                "left": [x for x, _ in points],
                "right": [wide - x for x, _ in points],
                "bottom": [y for _, y in points],
                "top": [high - y for _, y in points],
            }[mark.start]
            assert min(abs(mark.value - distance) for distance in away) < NEAR
            if mark.what in {"hole", "check"}:
                marked[mark.detail].add(mark.start)
        assert all(len(starts) == 4 for starts in marked.values())
        for name, (x, y) in holes.items():
            (hole,) = [h for h in found.wall(piece.wall).holes if h.name == name]
            outer = shapely.Polygon(piece.region.rings[0])
            assert outer.contains(shapely.Point(hole.x, hole.y))
            assert outer.exterior.distance(shapely.Point(hole.x, hole.y)) == pytest.approx(
                in_module(piece, high).exterior.distance(shapely.Point(x, y)), abs=NEAR
            )


@share(4)
@given(alcoves(keyed()))
def test_a_tongue_stays_where_it_locks_and_only_there(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    for own in layout.walls:
        here = [piece for piece in pieces if piece.wall == own.name]
        lining = shapely.union_all([shape_of(piece.region) for piece in here])
        for piece in here:
            for edge in piece.edges:
                if getattr(alcove.system.edges, edge.side) == "tongue" and edge.kind != "cut":
                    locked = length_locked(edge, piece, lining, alcove.system.face[1])
                    length = LineString([edge.start, edge.end]).length
                    if edge.kind == "factory":
                        assert locked > length - 2 * TONGUE, piece.tag
                    else:
                        assert locked < 2 * TONGUE, piece.tag


TONGUE = 1.5
"""Stretches shorter than this are neither here nor there. [mm]"""


def length_locked(edge: PieceEdge, piece: Piece, lining: shapely.Geometry, high: float) -> float:
    """How much of an edge has lining right beyond it. [mm]."""
    away = {"left": (-1, 0), "right": (1, 0), "bottom": (0, -1), "top": (0, 1)}[edge.side]
    beyond = [(x + away[0] * 0.5, y + away[1] * 0.5) for x, y in (edge.start, edge.end)]
    if piece.turn == 90:
        placed = [(piece.cell.left + high - y, piece.cell.bottom + x) for x, y in beyond]
    else:
        placed = [(piece.cell.left + x, piece.cell.bottom + y) for x, y in beyond]
    return float((LineString(placed) & lining).length)
