from dataclasses import replace

from tests.unit.core.sheet.cuts import CELL, NOTCH, TAPER, VALVE, mark

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.card_marks import points, sides, straight
from gaugerod.packet.paper import CardMark


def test_a_taper_is_two_named_figures(millimetres: Catalogue) -> None:
    assert list(straight(TAPER, millimetres)) == [
        CardMark(label="From RIGHT, at bottom", value="400", down="LEFT, at bottom"),
        CardMark(label="From RIGHT, at top", value="405", down="LEFT, at top", note="bigger"),
    ]


def test_a_taper_too_small_to_mark_is_square(millimetres: Catalogue) -> None:
    near = replace(
        TAPER,
        marks=(mark("bottom", "right", 400.2, "left"), mark("top", "right", 400.8, "left")),
    )
    assert list(straight(near, millimetres)) == [
        CardMark(label="From RIGHT, square", value="400", down="LEFT, square")
    ]


def test_a_cut_that_runs_out_into_its_edge_is_drawn_on_beyond_it(inches: Catalogue) -> None:
    """1/16 in up at the left, and as much below the edge at the right, where nothing comes off."""
    out = replace(
        TAPER,
        marks=(mark("left", "bottom", 1.0, "bottom"), mark("right", "bottom", -1.0, "bottom")),
    )
    assert list(straight(out, inches)) == [
        CardMark(
            label="From BOTTOM, at left", value='1/16"', down="BOTTOM, at right", note="bigger"
        ),
        CardMark(label="Beyond BOTTOM, at right", value='1/16"', down="beyond BOTTOM, at left"),
    ]


def test_what_rounds_to_the_edge_itself_does_not_lie_beyond_it(millimetres: Catalogue) -> None:
    edge = replace(
        NOTCH, marks=(mark("corner", "left", -1e-9, "a1"), mark("corner", "bottom", -0.4, "a1"))
    )
    (corner,) = points(edge, (), millimetres)
    assert (corner.across.label, corner.up.label) == ("LEFT", "BOTTOM")


def test_length_and_rip_are_two_cuts(inches: Catalogue) -> None:
    both = replace(
        TAPER,
        marks=(
            mark("bottom", "left", 381.0, "right"),
            mark("top", "left", 381.0, "right"),
            mark("left", "top", 228.6, "bottom"),
            mark("right", "top", 225.425, "bottom"),
        ),
    )
    assert [(m.label, m.value) for m in straight(both, inches)] == [
        ("From LEFT, square", '15"'),
        ("From TOP, at left", '9"'),
        ("From TOP, at right", '8 7/8"'),
    ]


def test_what_is_measured_in_place_has_a_line_for_the_figure(millimetres: Catalogue) -> None:
    later = replace(TAPER, measure_in_place=True)
    assert {found.value for found in straight(later, millimetres)} == {"________"}


def test_corners_are_two_offsets_each(millimetres: Catalogue) -> None:
    second = list(points(NOTCH, (), millimetres))[1]
    assert second.name == "corner a2"
    assert second.across == CardMark(label="LEFT", value="500", down="RIGHT")
    assert second.up == CardMark(label="BOTTOM", value="120", down="BOTTOM")


def test_a_hole_has_its_drill_and_a_check_from_the_other_two_edges(inches: Catalogue) -> None:
    """7 from the right and 2 1/2 up; 17 and 9 1/2 are left of 24 and 12 (by hand)."""
    bored = replace(
        TAPER,
        holes=(replace(VALVE, diameter=76.3),),  # a shade over 3 in: the next sixteenth drills it
        marks=(
            mark("hole", "right", 177.8, "valve"),
            mark("hole", "bottom", 63.5, "valve"),
            mark("check", "left", 431.8, "valve"),
            mark("check", "top", 241.3, "valve"),
        ),
    )
    hole, check = points(bored, (), inches)
    assert (hole.name, check.name) == ('valve, drill 3 1/16"', "check valve")
    assert (hole.across, hole.up) == (
        CardMark(label="RIGHT", value='7"', down="LEFT"),
        CardMark(label="BOTTOM", value='2 1/2"', down="BOTTOM"),
    )
    assert (check.across, check.up) == (
        CardMark(label="LEFT", value='17"', down="RIGHT"),
        CardMark(label="TOP", value='9 1/2"', down="TOP"),
    )


def test_a_centre_off_the_module_is_measured_beyond_its_edge(millimetres: Catalogue) -> None:
    hole = FittedHole(
        name="spout",
        x=CELL.left - 21.0,
        y=CELL.bottom + 38.0,
        diameter=2 * (21.0**2 + 38.0**2) ** 0.5,  # its rim goes through the module's corner
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    bitten = replace(
        NOTCH, marks=(mark("corner", "left", 0.0, "1"), mark("corner", "bottom", 0.0, "1"))
    )
    (bite,) = points(bitten, (hole,), millimetres)
    assert bite.name == "spout on the joint, drill 87 mm"
    assert bite.across == CardMark(label="beyond LEFT", value="21", down="beyond RIGHT")
    assert bite.up == CardMark(label="BOTTOM", value="38", down="BOTTOM")


def test_sides_are_written_out(inches: Catalogue) -> None:
    assert sides(("left", "top"), inches) == "LEFT+TOP"


def test_a_cut_on_the_slant_is_read_along_two_edges(millimetres: Catalogue) -> None:
    slanted = replace(
        TAPER,
        marks=(
            mark("along bottom", "left", 200.4, "right"),
            mark("along left", "bottom", 150.0, "top"),
        ),
    )
    assert [(m.label, m.value, m.down) for m in straight(slanted, millimetres)] == [
        ("From LEFT, at bottom", "200", "RIGHT, at bottom"),
        ("From BOTTOM, at left", "150", "BOTTOM, at right"),
    ]


def test_a_notch_names_what_comes_out_face_up_and_face_down(millimetres: Catalogue) -> None:
    """79.4 from the left is kept, so down; 111.1 from the bottom comes off, so up."""
    notch = replace(
        TAPER,
        marks=(
            mark("notch", "left", 79.4, "right bottom"),
            mark("notch", "bottom", 111.1, "right bottom"),
        ),
    )
    (found,) = points(notch, (), millimetres)
    assert (found.name, found.down) == ("take out LOWER RIGHT to", "take out LOWER LEFT to")
    assert (found.across.label, found.across.value, found.across.down) == ("LEFT", "79", "RIGHT")
    assert (found.up.label, found.up.value) == ("BOTTOM", "112")


def test_a_u_takes_out_more_rather_than_less(millimetres: Catalogue) -> None:
    bite = replace(
        TAPER,
        marks=(
            mark("u-cut", "left", 200.6, "top"),
            mark("u-cut", "bottom", 120.6, "top"),
            mark("u-cut", "left", 300.4, "top"),
            mark("u-cut", "bottom", 120.6, "top"),
        ),
    )
    near, far = points(bite, (), millimetres)
    assert near.name == "U out, open at the TOP"
    assert (near.across.value, near.up.value) == ("200", "120")
    assert (far.across.value, far.up.value) == ("301", "120")


def test_a_scribed_edge_names_its_side(millimetres: Catalogue) -> None:
    scribed = replace(
        TAPER,
        marks=(mark("scribe", "right", 580.5, "left a1"), mark("scribe", "top", 40.0, "left a1")),
    )
    (found,) = points(scribed, (), millimetres)
    assert (found.name, found.down) == ("scribe LEFT a1", "scribe RIGHT a1")
    assert (found.across.value, found.up.value) == ("581", "40")
