"""On random alcoves, tile on the diagonal and in herringbone covers each field once."""

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry.base import BaseGeometry
from tests.property.alcoves import Alcove, alcoves, grouted, lined, share, surveyed

from gaugerod.core.base.geometry import Region, shape_of
from gaugerod.core.base.widths import narrowest
from gaugerod.core.cutting.frame import seated
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.materials import System
from gaugerod.core.setout.pattern import Module
from gaugerod.core.survey.walls import FittedHole

BONDS = ("diagonal", "diagonal half", "herringbone", "diagonal herringbone")
CLOSE = 0.5
"""Area that counts as nothing: half a square millimetre on three square metres. [mm2]"""


@st.composite
def tiles(draw: st.DrawFn) -> System:
    """A tile whose long side is two or three short ones with their joints."""
    joint = draw(st.sampled_from([2.0, 3.0, 5.0]))
    short = draw(st.sampled_from([97.0, 147.0, 200.0, 298.5]))
    n = draw(st.sampled_from([2, 3])) if short < 150.0 else 2
    face = (n * (short + joint) - joint, short)
    tile = grouted(face=face, joint=joint, kerf=2.0, gap=3.0)
    return tile.model_copy(update={"cutting": tile.cutting.model_copy(update={"least": 25.0})})


@share(8)
@given(alcoves(tiles(), bonds=BONDS))
def test_pieces_cover_the_field_once_and_none_is_narrow(alcove: Alcove) -> None:
    found = lined(surveyed(alcove), alcove.system)
    layout = found.short.layouts[0]
    half, least = alcove.system.joint[0] / 2, alcove.system.cutting.least
    pieces = found.pieces(layout)
    for own in layout.walls:
        here = [piece for piece in pieces if piece.wall == own.name]
        field = shapely.union_all([shape_of(region) for region in own.field.regions])
        # Round the corner of an opening a point of one piece grows into the joint of another.
        corners = [
            (x, y) for b in own.field.openings for x in (b.left, b.right) for y in (b.bottom, b.top)
        ]
        field -= shapely.union_all([shapely.Point(at).buffer(4 * half) for at in corners])
        shapes = [shape_of(piece.region) for piece in here]
        grown = [grown_by(half, piece).intersection(field) for piece in here]
        assert field.difference(shapely.union_all(grown, grid_size=1e-6)).area < CLOSE
        assert sum(shape.area for shape in grown) == pytest.approx(field.area, abs=CLOSE)
        tree = shapely.STRtree(shapes)
        one, other = tree.query(shapes, predicate="dwithin", distance=2 * half - 1e-3)
        assert (one == other).all()
        for piece in here:
            outer = shape_of(Region(rings=piece.region.rings[:1]))
            bitten = any(outer.dwithin(hole_at(hole), 1.0) for hole in found.wall(own.name).holes)
            assert bitten or narrowest(outer) >= least - 1e-3
    assert len({piece.tag for piece in pieces}) == len(pieces)
    cuts = plan_cuts(pieces, alcove.system)
    assert sum(len(stock.pieces) for stock in cuts.stock) == len(pieces)


def grown_by(half: float, piece: Piece) -> BaseGeometry:
    """A piece with half a joint round it, no farther than round its whole module.

    A point grows a spike beyond its cut edge, which may reach round the corner of an opening.
    """
    frame = seated(piece.cell, piece.face, piece.turn)
    module = Module(at=frame.at, face=piece.face, turn=piece.turn).shape
    grown = shape_of(piece.region).buffer(half, join_style="mitre")
    return grown.intersection(module.buffer(half, join_style="mitre"))


def hole_at(hole: FittedHole) -> shapely.Polygon:
    return shapely.Point(hole.x, hole.y).buffer(hole.diameter / 2)
