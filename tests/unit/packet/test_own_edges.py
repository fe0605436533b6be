from dataclasses import replace

from tests.unit.core.sheet.cuts import NOTCH, TAPER, edge, mark, piece

from gaugerod.core.job.fields import Side
from gaugerod.packet.own_edges import from_own_edges

ACROSS: tuple[Side, ...] = ("left", "right")
UP: tuple[Side, ...] = ("bottom", "top")


def test_a_kept_edge_stays_the_start() -> None:
    assert from_own_edges(TAPER, ()) == (TAPER, ())


def test_a_strip_cut_at_both_sides_is_told_by_its_width() -> None:
    """Cut at 50 and at 450 at the foot, 446 at the head: 400 and 396 wide."""
    strip = piece(
        ((50.0, 0.0), (450.0, 0.0), (446.0, 300.0), (50.0, 300.0)),
        mark("bottom", "left", 50.0, "left"),
        mark("top", "left", 50.0, "left"),
        mark("bottom", "left", 450.0, "right"),
        mark("top", "left", 446.0, "right"),
        keeps=("bottom", "top"),
    )
    moved, first = from_own_edges(strip, ACROSS)
    assert first == ("left",)
    assert moved.marks == (
        mark("bottom", "left", 400.0, "right"),
        mark("top", "left", 396.0, "right"),
    )


def test_the_square_side_is_cut_first() -> None:
    strip = piece(
        ((50.0, 0.0), (450.0, 0.0), (450.0, 300.0), (54.0, 300.0)),
        mark("bottom", "left", 50.0, "left"),
        mark("top", "left", 54.0, "left"),
        mark("bottom", "left", 450.0, "right"),
        mark("top", "left", 450.0, "right"),
        keeps=("bottom", "top"),
    )
    moved, first = from_own_edges(strip, ACROSS)
    assert first == ("right",)
    assert moved.marks == (
        mark("bottom", "right", 400.0, "left"),
        mark("top", "right", 396.0, "left"),
    )


def test_an_edge_that_only_lost_its_tongue_ends_the_width() -> None:
    """Cut 50 from the left, the right face edge stays at 600: 550 wide."""
    strip = piece(
        ((50.0, 0.0), (600.0, 0.0), (600.0, 300.0), (50.0, 300.0)),
        mark("bottom", "left", 50.0, "left"),
        mark("top", "left", 50.0, "left"),
        keeps=("bottom", "top"),
    )
    assert from_own_edges(strip, ACROSS)[0].marks[0] == mark("bottom", "left", 550.0, "right")


def test_corners_and_centres_move_with_the_edge() -> None:
    """A notched piece from 30 to 600 across: its corner at 500 is 470 from its own edge."""
    loose = replace(NOTCH, keeps=("bottom", "top"), within=replace(NOTCH.within, left=30.0))
    moved, first = from_own_edges(loose, ACROSS)
    assert first == ("left",)
    across = [found.value for found in moved.marks if found.start == "left"]
    assert across == [470.0, 470.0, 570.0]
    assert [found.value for found in moved.marks if found.start == "bottom"] == [0.0, 120.0, 120.0]


def test_heights_move_alike() -> None:
    strip = piece(
        ((0.0, 80.0), (600.0, 80.0), (600.0, 200.0), (0.0, 200.0)),
        mark("left", "bottom", 80.0, "bottom"),
        mark("right", "bottom", 80.0, "bottom"),
        mark("left", "bottom", 200.0, "top"),
        mark("right", "bottom", 200.0, "top"),
        keeps=("left", "right"),
    )
    moved, first = from_own_edges(strip, UP)
    assert first == ("bottom",)
    assert [found.value for found in moved.marks] == [120.0, 120.0]


def test_where_neither_side_is_square_both_are_measured_from_a_first_cut() -> None:
    """From 50 and 54 at the left to 450 and 444 at the right, the first cut made at 50."""
    strip = piece(
        ((50.0, 0.0), (450.0, 0.0), (444.0, 300.0), (54.0, 300.0)),
        mark("bottom", "left", 50.0, "left"),
        mark("top", "left", 54.0, "left"),
        mark("bottom", "left", 450.0, "right"),
        mark("top", "left", 444.0, "right"),
        keeps=("bottom", "top"),
    )
    moved, first = from_own_edges(strip, ACROSS)
    assert first == ("left",)
    assert moved.marks == (
        mark("bottom", "left", 0.0, "left"),
        mark("top", "left", 4.0, "left"),
        mark("bottom", "left", 400.0, "right"),
        mark("top", "left", 394.0, "right"),
    )


def test_beside_a_scribed_edge_the_other_is_cut_first() -> None:
    """Scribed at the bottom, square at the top, 200 up: all is measured down from that."""
    scribed = replace(
        piece(
            ((0.0, 20.0), (300.0, 30.0), (600.0, 20.0), (600.0, 200.0), (0.0, 200.0)),
            mark("left", "bottom", 200.0, "top"),
            mark("right", "bottom", 200.0, "top"),
            mark("scribe", "left", 300.0, "bottom a2"),
            mark("scribe", "bottom", 30.0, "bottom a2"),
            keeps=("left", "right"),
        ),
        edges=(edge("bottom", (0.0, 20.0), (300.0, 30.0), cut=True),),
    )
    moved, first = from_own_edges(scribed, UP)
    assert first == ("top",)
    assert moved.marks == (
        mark("scribe", "left", 300.0, "bottom a2"),
        mark("scribe", "top", 170.0, "bottom a2"),
    )


def test_a_hole_is_never_measured_from_a_side_that_leans() -> None:
    """The right is square and cut first: the hole is measured from there, its check from left."""
    strip = piece(
        ((54.0, 0.0), (450.0, 0.0), (450.0, 300.0), (50.0, 300.0)),
        mark("bottom", "left", 54.0, "left"),
        mark("top", "left", 50.0, "left"),
        mark("bottom", "left", 450.0, "right"),
        mark("top", "left", 450.0, "right"),
        mark("hole", "left", 200.0, "valve"),
        mark("check", "right", 400.0, "valve"),
        keeps=("bottom", "top"),
    )
    moved, first = from_own_edges(strip, ACROSS)
    assert first == ("right",)
    assert moved.marks[-2:] == (
        mark("hole", "right", 250.0, "valve"),
        mark("check", "left", 150.0, "valve"),
    )
