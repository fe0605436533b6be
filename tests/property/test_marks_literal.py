"""A setter who takes the printed marks of a card literally makes the piece that was meant.

Pieces are drawn by lot: tapers, rips, notches, bites from three sides, scribed edges and holes;
lying and standing; keyed and plain; marked on a whole module or on a part of one, face up and face
down, in inches and in millimetres. What is expected is the polygon of the piece; what is read are
the rounded figures and the words of the card.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

import shapely
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry
from tests.checkers.setter import Bench, Built, Setter, holes_miss, strays
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in
from tests.property.alcoves import Alcove, alcoves, lined, share, surveyed

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import SNAP, Box, Region, bounds_of, regions_of
from gaugerod.core.cutting.blanks import blank_of
from gaugerod.core.cutting.make import side_of
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import (
    CutPlan,
    EdgeKind,
    Piece,
    PieceEdge,
    PieceHole,
    Placed,
    Stock,
)
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.fields import Side
from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.pattern import rotated
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.cards import card_of
from gaugerod.packet.sources import Sources

SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")
SHOWN = {"inches": words_in(INCHES), "millimetres": words_in(MILLIMETRES)}
STEP = {"inches": 25.4 / 16, "millimetres": 1.0}
"""What a mark may be off, in x and in y: one step of the tape. [mm]"""
NOISE = 1e-3
LITERAL = settings(max_examples=2 * settings().max_examples if settings().derandomize else 500)
"""A hundred pieces in the short run, five hundred in the long one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A piece with the part of its module that it is marked on; none where that is the whole."""

    piece: Piece
    blank: Box | None


# --- strategies --------------------------------------------------------------------------------


def within(draw: st.DrawFn, low: float, high: float) -> float:
    assume(low < high)
    return draw(st.floats(low, high, allow_nan=False).map(lambda x: round(x, 3)))


@st.composite
def shapes(draw: st.DrawFn, face: tuple[float, float]) -> shapely.Polygon:
    """A module with some of its sides cut, and a corner or a side bitten."""
    wide, high = face
    shape: BaseGeometry = shapely.box(0, 0, wide, high)
    for side in draw(st.lists(st.sampled_from(SIDES), max_size=3, unique=True)):
        upright = side in {"left", "right"}
        deep = within(draw, 40, 0.35 * (wide if upright else high))
        lean = draw(st.just(0.0) | st.floats(-20, 20).map(lambda x: round(x, 3)))
        a, b = deep - lean / 2, deep + lean / 2
        out = {
            "left": [(-9, -9), (a, 0), (b, high), (-9, high + 9)],
            "right": [(wide + 9, -9), (wide - a, 0), (wide - b, high), (wide + 9, high + 9)],
            "bottom": [(-9, -9), (wide + 9, -9), (wide, b), (0, a)],
            "top": [(-9, high + 9), (wide + 9, high + 9), (wide, high - b), (0, high - a)],
        }[side]
        shape = shape.difference(shapely.Polygon(out))
    left, bottom, right, top = shape.bounds
    middle = ((left + right) / 2, (bottom + top) / 2)
    kind = draw(st.sampled_from(["whole", "notch", "u", "scribe"]))
    if kind == "notch":
        x, y = within(draw, left + 50, right - 50), within(draw, bottom + 50, top - 50)
        corner = draw(st.sampled_from([(0, 0), (0, high), (wide, 0), (wide, high)]))
        shape = shape.difference(shapely.box(*shapely.LineString([(x, y), corner]).bounds))
    if kind == "u":
        x, y = within(draw, left + 45, middle[0] - 25), within(draw, bottom + 25, middle[1] - 15)
        ends = {
            "left": (0, y, middle[0], middle[1] + 20),
            "right": (middle[0], y, wide, middle[1] + 20),
            "bottom": (x, 0, middle[0] + 20, middle[1]),
            "top": (x, middle[1], middle[0] + 20, high),
        }
        shape = shape.difference(shapely.box(*ends[draw(st.sampled_from(SIDES))]))
    if kind == "scribe":
        ups = draw(st.lists(st.floats(5, 40).map(lambda x: round(x, 3)), min_size=4, max_size=4))
        line = [(wide * i / 3, bottom + up) for i, up in enumerate(ups)]
        shape = shape.difference(shapely.Polygon([(-9, -9), *line, (wide + 9, -9)]))
    # As pieces are made: without corners on straight edges.
    plain = shapely.simplify(shape, SNAP)
    assume(isinstance(plain, shapely.Polygon))
    assert isinstance(plain, shapely.Polygon)
    return plain


@st.composite
def drawn(draw: st.DrawFn) -> Drawn:
    """A piece of its module, and what it is marked on."""
    face = draw(st.sampled_from([(609.6, 304.8), (597.0, 297.0), (600.0, 300.0)]))
    (region,) = regions_of(draw(shapes(face)))
    tongues: list[Side] = ["right", "top"]
    off_at = draw(st.just(set[Side]()) | st.sets(st.sampled_from(tongues)))
    edges = tuple(edges_of(region, face, off_at))
    keeps = tuple(s for s in SIDES if any((e.side, e.kind) == (s, "factory") for e in edges))
    assume(keeps)
    holes = []
    if draw(st.booleans()):
        clear = shapely.Polygon(region.rings[0]).buffer(-45)
        assume(clear.area > 1)
        at = clear.representative_point()
        holes.append(PieceHole(name="valve", x=round(at.x, 2), y=round(at.y, 2), diameter=76.2))
    turn = draw(st.sampled_from([0, 90]))
    # Standing, the module's right points up on the wall.
    across, up = face if turn == 0 else face[::-1]
    origin = (1000.0, 400.0) if turn == 0 else (1000.0 + across, 400.0)
    ring = tuple(
        (origin[0] + x, origin[1] + y) for x, y in (rotated(p, turn) for p in region.rings[0])
    )
    piece = Piece(
        tag="B2-1",
        wall="B",
        course=2,
        place=1,
        product="drawn",
        turn=turn,
        face=face,
        region=Region(rings=(ring,)),
        cell=Box(left=1000.0, bottom=400.0, right=1000.0 + across, top=400.0 + up),
        within=bounds_of(region.rings),
        whole=False,
        edges=edges,
        keeps=keeps,
        holes=tuple(holes),
        marks=marks_of(region, edges, holes, keeps, face),
        measure_in_place=False,
    )
    return Drawn(piece=piece, blank=draw(st.none() | blanks(piece)))


def edges_of(region: Region, face: tuple[float, float], off_at: set[Side]) -> list[PieceEdge]:
    edges = []
    ring = region.rings[0]
    for start, end in pairwise((*ring, ring[0])):
        side, on_module = side_of(start, end, face)
        kind: EdgeKind = "cut"
        if on_module:
            kind = "tongue off" if side in off_at else "factory"
        edges.append(PieceEdge(side=side, kind=kind, start=start, end=end))
    return edges


@st.composite
def blanks(draw: st.DrawFn, piece: Piece) -> Box:
    """A part of the module that has the edges to be kept, and somewhat more than the piece."""
    (wide, high), own = piece.face, piece.within

    def reach(side: Side, edge: float, box: float) -> float:
        # A cut may lie anywhere; where a tongue is to come off, the face edge must be there.
        bare = any(e.side == side and e.kind != "cut" for e in piece.edges)
        return edge if bare else box + (edge - box) * draw(st.sampled_from([0.0, 0.3, 1.0]))

    return Box(
        left=reach("left", 0.0, own.left),
        bottom=reach("bottom", 0.0, own.bottom),
        right=reach("right", wide, own.right),
        top=reach("top", high, own.top),
    )


# --- the bench ---------------------------------------------------------------------------------


def bench_of(piece: Piece, blank: Box | None) -> tuple[Bench, Box]:
    """What lies on the bench, and its box in the module's frame."""
    wide, high = piece.face
    box = blank or Box(left=0.0, bottom=0.0, right=wide, top=high)
    reach = {
        "LEFT": box.left,
        "RIGHT": wide - box.right,
        "BOTTOM": box.bottom,
        "TOP": high - box.top,
    }
    factory = frozenset(side for side, off_edge in reach.items() if off_edge < NOISE)
    return Bench(width=box.width, height=box.height, factory=factory), box


def stocked(piece: Piece, blank: Box | None) -> Sources:
    own = piece.within
    placed = Placed(tag=piece.tag, at=(own.left, own.bottom), size=piece.size, blank=blank)
    stock = Stock(
        id="M-1",
        source="module",
        product="drawn",
        size=piece.face,
        keeps=SIDES,
        lot="",
        pieces=(placed,),
        offcuts=(),
    )
    plan = CutPlan(stock=(stock,), modules=1, lower_bound=1, proven=True, cuts=1)
    return Sources(plan, [piece.tag], least={stock.product: 50.0})


def outer(piece: Piece, box: Box) -> shapely.Polygon:
    """The piece on the bench, from its polygon on the wall."""
    shape = shapely.Polygon(piece.region.rings[0])
    at = (
        (piece.cell.right, piece.cell.bottom)
        if piece.turn == 90
        else (
            piece.cell.left,
            piece.cell.bottom,
        )
    )
    points = [rotated((x - at[0], y - at[1]), -piece.turn) for x, y in shape.exterior.coords]
    return shapely.Polygon([(x - box.left, y - box.bottom) for x, y in points])


def check(piece: Piece, blank: Box | None, holes: tuple[FittedHole, ...], unit: str) -> None:
    words: Catalogue = SHOWN[unit]
    cutting = sample_system().cutting
    card = card_of(piece, "", holes, stocked(piece, blank), words, cutting=cutting)
    bench, box = bench_of(piece, blank)
    meant = outer(piece, box)
    for face_down in (False, True):
        built = Setter(card, bench, face_down=face_down).work()
        found = aligned(built, meant)
        assert found.geom_type == "Polygon"
        # What a drill bites out of the rim is round, and has no corners to mark.
        assert strays(found, meant, STEP[unit] + NOISE, beside=built.bitten) == []
        # A line is drawn from a factory edge, or from one that the card has cut first.
        assert built.measured_from - built.trued <= bench.factory
        sides = {"left", "right"} & set(piece.keeps), {"bottom", "top"} & set(piece.keeps)
        assert not built.trued & {"LEFT", "RIGHT"} or not sides[0]
        assert not built.trued & {"BOTTOM", "TOP"} or not sides[1]
        dx, dy = shift(built, meant)
        for hole in piece.holes:
            x, y = built.holes[hole.name]
            assert abs(x + dx - (hole.x - box.left)) <= STEP[unit] + NOISE
            assert abs(y + dy - (hole.y - box.bottom)) <= STEP[unit] + NOISE
    if not built.trued:
        assert all(miss <= STEP[unit] + NOISE for miss in holes_miss(card, bench))


def shift(built: Built, meant: shapely.Polygon) -> tuple[float, float]:
    """From an edge that is cut first, where that may be, to where it was meant."""
    left, bottom, right, top = built.shape.bounds
    to = meant.bounds
    dx = to[0] - left if "LEFT" in built.trued else 0.0
    dx = to[2] - right if "RIGHT" in built.trued else dx
    dy = to[1] - bottom if "BOTTOM" in built.trued else 0.0
    dy = to[3] - top if "TOP" in built.trued else dy
    return dx, dy


def aligned(built: Built, meant: shapely.Polygon) -> shapely.Polygon:
    moved = shapely.transform(built.shape, lambda c: c + shift(built, meant))
    assert isinstance(moved, shapely.Polygon)
    return moved


# --- the laws ----------------------------------------------------------------------------------


@LITERAL
@given(drawn(), st.sampled_from(["inches", "millimetres"]))
def test_the_printed_marks_make_the_piece(found: Drawn, unit: str) -> None:
    check(found.piece, found.blank, (), unit)


@share(10)
@given(alcoves(), st.sampled_from(["inches", "millimetres"]))
def test_the_cards_of_an_alcove_make_its_pieces(alcove: Alcove, unit: str) -> None:
    found = lined(surveyed(alcove), alcove.system)
    pieces = found.pieces(found.short.layouts[0])
    plan = plan_cuts(pieces, alcove.system, proven=False)
    placed = {one.tag: one for stock in plan.stock for one in stock.pieces}
    for piece in pieces:
        if not piece.whole:
            blank = blank_of(piece, placed[piece.tag])
            # A card that is measured in place has blanks for figures: here they are filled in.
            sure = replace(piece, measure_in_place=False)
            check(sure, blank, found.wall(piece.wall).holes, unit)
