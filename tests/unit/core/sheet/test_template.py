"""Templates of pieces worked by hand: what they are held to, and where they end."""

from dataclasses import replace

import pytest
import shapely
import shapely.affinity

from gaugerod.core.base.geometry import Box, disc, regions_of
from gaugerod.core.cutting.pieces import Mark, Piece, PieceHole
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.sample import sample_drilled
from gaugerod.core.sheet.template import Template, line_of, templates, turned_over
from gaugerod.core.survey.walls import FittedHole

ROOM = (180.0, 140.0)
WHOLE = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)


def piece_with(*holes: PieceHole, keeps: tuple[Side, ...] = ("left", "bottom")) -> Piece:
    """The sample module, 600 by 300 mm at (1450, 40) on the wall, with other holes."""
    return replace(sample_drilled()[0], holes=holes, keeps=keeps)


def hole(x: float, y: float, diameter: float = 76.0, name: str = "valve") -> PieceHole:
    return PieceHole(name=name, x=x, y=y, diameter=diameter)


def made(piece: Piece, *, room: tuple[float, float] = ROOM) -> tuple[Template, ...]:
    return templates(piece, sample_drilled()[1], room=room, step=10.0)


def test_a_template_reaches_from_its_edges_to_beyond_its_hole() -> None:
    (one,) = made(sample_drilled()[0])
    # 200 + 38 + 12 across, 110 + 38 + 12 up, and 12 beyond each edge.
    assert one.bounds == Box(left=-12.0, bottom=-12.0, right=250.0, top=160.0)
    assert (one.across.side, one.across.far, one.up.side, one.up.far) == (
        "left",
        None,
        "bottom",
        None,
    )
    assert [side for side, _ in one.factory] == ["left", "bottom"]
    drawn = {point for stretch in one.outline for point in stretch}
    assert drawn == {(0.0, 160.0), (0.0, 0.0), (250.0, 0.0)}


def test_a_piece_without_holes_has_no_template() -> None:
    assert made(piece_with()) == ()


@pytest.mark.parametrize(
    ("keeps", "across", "up"),
    [
        (("left", "right", "bottom", "top"), ("right", 150.0), ("top", 100.0)),
        (("left", "bottom"), ("left", 450.0), ("bottom", 200.0)),
        ((), ("right", 150.0), ("top", 100.0)),
    ],
)
def test_it_is_held_to_the_nearest_factory_edge_else_to_the_nearest(
    keeps: tuple[Side, ...], across: tuple[str, float], up: tuple[str, float]
) -> None:
    (one,) = made(piece_with(hole(450.0, 200.0), keeps=keeps), room=(500.0, 250.0))
    (drill,) = one.drills
    assert (one.across.side, drill.across) == across
    assert (one.up.side, drill.up) == up
    assert {one.across.kept, one.up.kept} == {bool(keeps)}


def test_an_edge_too_far_away_is_replaced_by_a_line_at_a_whole_step() -> None:
    (one,) = made(piece_with(hole(450.0, 110.0), keeps=("left", "bottom")))
    # 450 + 50 are more than 1.9 pages of 180. The circle begins at 412, less 25: 387, so 380.
    assert one.across.far == 380.0
    assert line_of(one.across) == 380.0
    assert one.bounds.left == 368.0
    assert one.up.far is None
    assert one.drills[0].across == 450.0
    # At a height of 110 the outline on it is the bottom edge alone.
    assert [side for side, _ in one.factory] == ["bottom"]


def test_a_far_edge_at_the_right_or_the_top_counts_back_from_there() -> None:
    (one,) = made(piece_with(hole(150.0, 110.0), keeps=("right", "top")), room=(180.0, 90.0))
    # 600 - 188 - 25 = 387; up: 300 - 148 - 25 = 127.
    assert (one.across.side, one.across.far, line_of(one.across)) == ("right", 380.0, 220.0)
    assert (one.up.side, one.up.far, line_of(one.up)) == ("top", 120.0, 180.0)
    assert (one.bounds.right, one.bounds.top) == (232.0, 192.0)


def test_holes_near_each_other_share_a_template_and_others_do_not() -> None:
    near = (hole(100.0, 100.0, 20.0, "hot"), hole(200.0, 100.0, 20.0, "cold"))
    (one,) = made(piece_with(*near))
    assert [drill.name for drill in one.drills] == ["hot", "cold"]
    apart = (hole(100.0, 100.0, 20.0, "hot"), hole(300.0, 100.0, 20.0, "cold"))
    assert [[d.name for d in one.drills] for one in made(piece_with(*apart))] == [["hot"], ["cold"]]
    above = (hole(100.0, 250.0, 20.0, "high"), hole(100.0, 50.0, 20.0, "low"))
    assert [[d.name for d in one.drills] for one in made(piece_with(*above))] == [["low"], ["high"]]


def bitten(shape: shapely.Polygon, at: tuple[float, float], rim: tuple[float, float]) -> Template:
    """The template of a piece of that shape on the module, bitten by a hole of 60 mm.

    `rim` is where an end of the arc is marked.
    """
    base = sample_drilled()[0]
    x, y = base.cell.left + at[0], base.cell.bottom + at[1]
    on_wall = shapely.affinity.translate(shape, base.cell.left, base.cell.bottom)
    region = regions_of(on_wall.difference(disc(x=x, y=y, diameter=60.0)))[0]
    marks = (
        Mark(what="corner", start="left", value=rim[0], detail="a1"),
        Mark(what="corner", start="bottom", value=rim[1], detail="a1"),
    )
    beside = FittedHole(
        name="arm",
        x=x,
        y=y,
        diameter=60.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    piece = replace(base, region=region, holes=(), marks=marks, keeps=("left", "top"))
    (one,) = templates(piece, (beside,), room=(180.0, 200.0), step=10.0)
    return one


def test_a_hole_on_a_joint_is_drilled_from_beyond_the_edge() -> None:
    """Its centre is 10 mm to the left of the module, its rim meets the edge 28.3 mm up."""
    rise = (30.0**2 - 10.0**2) ** 0.5
    one = bitten(shapely.box(0, 0, 600, 300), (-10.0, 150.0), (0.0, 150.0 + rise))
    (drill,) = one.drills
    assert drill.across == pytest.approx(-10.0)
    assert drill.up == pytest.approx(150.0)
    # The edge is drawn as it is before the bite is drilled.
    left = shapely.union_all([shapely.LineString(stretch) for stretch in one.outline])
    assert left.covers(shapely.LineString([(0.0, 120.0), (0.0, 299.0)]))


def test_a_bite_out_of_a_tapered_piece_leaves_its_taper() -> None:
    """Its top falls from 300 at the left to 260 at the right; the hole sits on that line."""
    taper = shapely.Polygon([(0, 0), (600, 0), (600, 260), (0, 300)])
    one = bitten(taper, (200.0, 290.0), (200.0, 260.0))
    slanted = [stretch for stretch in one.outline if stretch[0][0] != stretch[1][0]]
    assert len(slanted) == 1
    ((x0, y0), (x1, y1)) = sorted(slanted[0])
    assert (x0, y0) == pytest.approx((0.0, 300.0))
    assert (y1 - y0) / (x1 - x0) == pytest.approx(-40 / 600)


def test_face_down_left_and_right_change_places() -> None:
    (one,) = made(piece_with(hole(450.0, 110.0), keeps=("left", "bottom")))
    over = turned_over(one)
    assert over.down
    assert (over.across.side, over.across.far, line_of(over.across)) == ("right", 380.0, -380.0)
    assert (over.bounds.left, over.bounds.right) == (-one.bounds.right, -one.bounds.left)
    assert over.drills[0].at == (-450.0, 110.0)
    assert (over.drills[0].across, over.drills[0].up) == (450.0, 110.0)
    assert turned_over(over) == one
    assert {side for side, _ in turned_over(made(sample_drilled()[0])[0]).factory} == {
        "right",
        "bottom",
    }
