from dataclasses import replace

import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.materials import Trim
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.layout import Meeting, SetField, WallLayout
from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall
from gaugerod.packet.joints import joints

NICHE = Box(left=150.0, bottom=300.0, right=900.0, top=640.0)


def on_sample(
    plan: Plan, *, left: Meeting = "butts", right: Meeting = "runs behind", gap: float = 3.0
) -> Plan:
    """The sample wall with the material of a plan."""
    layout = sample_layout()
    wall: WallLayout = layout.walls[0]
    field: SetField = replace(wall.field, left=left, right=right, openings=(NICHE,))
    fitted = sample_wall()
    fitted = replace(fitted, openings=(replace(fitted.openings[0], gap=gap),))
    return replace(
        plan,
        layout=replace(layout, walls=(replace(wall, field=field),)),
        walls=replace(plan.walls, walls=(fitted,)),
    )


def tagged(tag: str) -> Piece:
    return next(piece for piece in sample_pieces() if piece.tag == tag)


def test_a_piece_in_the_field_meets_nothing(tiled: Plan, millimetres: Catalogue) -> None:
    assert joints(tagged("B2-4"), on_sample(tiled), millimetres) == ()


def test_the_first_piece_meets_deck_and_next_lining(tiled: Plan, millimetres: Catalogue) -> None:
    """The tile's gaps are 3 mm all round; what shows is cut to 1/16 in, 2 mm in millimetres."""
    assert set(joints(tagged("B1-1"), on_sample(tiled), millimetres)) == {
        "Left: 3 mm sealed to next lining. SHOWS ±2 mm",
        "Bottom: 3 mm sealed to the deck. SHOWS ±2 mm",
    }


@pytest.mark.parametrize(
    ("meeting", "said"),
    [
        ("runs behind", "Right: 3 mm to the corner, lapped. Hidden ±3 mm"),
        ("trim", "Right: in the corner trim. Hidden ±3 mm"),
        ("open", "Right: front edge, under the trim. Hidden ±3 mm"),
        ("laps", "Right: past the corner, flush with the next lining, sealed. SHOWS ±2 mm"),
        ("stops", "Right: at the outside corner, lapped by the next lining. Hidden ±3 mm"),
        ("outside trim", "Right: at the outside corner, under the trim. Hidden ±3 mm"),
    ],
)
def test_a_side_says_what_hides_it(
    tiled: Plan, millimetres: Catalogue, meeting: Meeting, said: str
) -> None:
    assert joints(tagged("B2-5"), on_sample(tiled, right=meeting), millimetres) == (said,)


@pytest.mark.parametrize(
    ("gap", "said"),
    [
        (3.0, "Top: 3 mm sealed to opening. SHOWS ±2 mm"),
        (0.0, "Top: tight to the opening, sealed. SHOWS ±2 mm"),
    ],
)
def test_an_edge_at_an_opening_shows(
    tiled: Plan, millimetres: Catalogue, gap: float, said: str
) -> None:
    assert joints(tagged("B2-2"), on_sample(tiled, gap=gap), millimetres) == (said,)


def test_the_finish_line_lies_under_the_trim(tiled: Plan, millimetres: Catalogue) -> None:
    assert joints(tagged("B3-4"), on_sample(tiled), millimetres) == (
        "Top: finish line, under the trim. Hidden ±3 mm",
    )


def test_a_top_below_the_finish_line_meets_the_ceiling(
    tiled: Plan, keyed: Plan, millimetres: Catalogue
) -> None:
    """A tile is sealed to the ceiling; a keyed module needs 3/8 in (10 mm) to be lifted in."""
    plan = on_sample(tiled)
    higher = replace(plan, layout=replace(plan.layout, top=700.0))
    (said,) = joints(tagged("B3-4"), higher, millimetres)
    assert said == "Top: 3 mm sealed to ceiling. SHOWS ±2 mm"
    (lifted,) = joints(tagged("B3-4"), replace(higher, system=keyed.system), millimetres)
    assert lifted == "Top: 10 mm under the ceiling, trim. Hidden ±3 mm"


def test_a_hole_in_the_edge_is_no_joint(tiled: Plan, millimetres: Catalogue) -> None:
    """Where a hole bites into a piece, nothing is said about the bite."""
    piece = tagged("B2-4")
    bitten = ((1350.0, 40.0), (1950.0, 40.0), (1950.0, 340.0), (1350.0, 340.0), (1380.0, 190.0))
    region = Region(rings=(bitten,))
    assert joints(replace(piece, region=region), on_sample(tiled), millimetres) == ()


def test_a_turned_piece_speaks_of_the_wall(tiled: Plan, millimetres: Catalogue) -> None:
    turned = replace(tagged("B3-4"), turn=90)
    assert joints(turned, on_sample(tiled), millimetres)[0].startswith("Wall top: ")


@pytest.mark.parametrize(
    ("trims", "said"),
    [
        ((), "seam of 3 mm, sealed. SHOWS ±2 mm"),
        (("seam",), "in the seam trim, 3 mm of web. Hidden ±3 mm"),
    ],
)
def test_sheets_meet_at_seams(
    tiled: Plan, millimetres: Catalogue, trims: tuple[str, ...], said: str
) -> None:
    seams = [
        Trim.model_validate({"id": use, "name": "Trim", "use": use, "stock": 2500, "price": 9})
        for use in trims
    ]
    system = tiled.system.model_copy(update={"kind": "sheet", "trim": (*seams,)})
    plan = on_sample(tiled)
    wide, high = plan.layout.face
    spaced = replace(plan.layout, pitch=(wide + 3.0, high + 3.0))
    plan = replace(plan, system=system, layout=spaced)
    # A whole piece in the field has a neighbour on all four sides.
    assert set(joints(tagged("B2-4"), plan, millimetres)) == {
        f"{side}: {said}" for side in ("Left", "Right", "Bottom", "Top")
    }
