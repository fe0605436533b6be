"""Marks of cuts on the slant, by hand on a module of 600 by 300."""

import pytest

from gaugerod.core.base.geometry import Point, Region
from gaugerod.core.cutting.marks import marks_of
from gaugerod.core.cutting.pieces import PieceEdge
from gaugerod.core.job.fields import Side

FACE = (600.0, 300.0)


def edge(side: Side, start: Point, end: Point, *, cut: bool = True) -> PieceEdge:
    return PieceEdge(side=side, kind="cut" if cut else "factory", start=start, end=end)


def marks(ring: tuple[Point, ...], *keeps: Side) -> list[tuple[str, str, float, str]]:
    """The marks of a piece whose edges off the module's outline are cut."""
    edges = []
    for start, end in zip(ring, ring[1:] + ring[:1], strict=True):
        (x0, y0), (x1, y1) = start, end
        upright: Side = "right" if y1 > y0 else "left"
        level: Side = "bottom" if x1 > x0 else "top"
        side = upright if abs(y1 - y0) > abs(x1 - x0) else level
        on = {x0, x1} in ({0.0}, {600.0}) or {y0, y1} in ({0.0}, {300.0})
        edges.append(edge(side, start, end, cut=not on))
    found = marks_of(Region(rings=(ring,)), edges, (), keeps, FACE)
    return [(m.what, m.start, m.value, m.detail) for m in found]


def test_half_of_a_corner_is_measured_along_both_kept_edges() -> None:
    """A triangle that keeps left and bottom, 200 each way."""
    assert marks(((0.0, 0.0), (200.0, 0.0), (0.0, 200.0)), "left", "bottom") == [
        ("along bottom", "left", 200.0, "right"),
        ("along left", "bottom", 200.0, "top"),
    ]


def test_a_corner_cut_off_is_measured_along_what_is_left_of_its_edges() -> None:
    ring = ((0.0, 0.0), (600.0, 0.0), (600.0, 220.0), (520.0, 300.0), (0.0, 300.0))
    assert marks(ring, "left", "right", "bottom", "top") == [
        ("along top", "left", 520.0, "right"),
        ("along right", "bottom", 220.0, "top"),
    ]


def test_from_corner_to_corner_the_kept_edges_are_measured_whole() -> None:
    assert marks(((0.0, 0.0), (600.0, 0.0), (600.0, 300.0)), "right", "bottom") == [
        ("along bottom", "right", 600.0, "left"),
        ("along right", "bottom", 300.0, "top"),
    ]


@pytest.mark.parametrize("lean", [-0.5, 0.0, 0.5])
def test_a_cut_on_the_slant_from_bottom_to_top_is_read_at_both(lean: float) -> None:
    """At 45 degrees and a little to either side of it."""
    ring = ((100.0, 0.0), (600.0, 0.0), (600.0, 300.0), (400.0 + lean, 300.0))
    assert marks(ring, "right", "bottom", "top") == [
        ("bottom", "right", 500.0, "left"),
        ("top", "right", 200.0 - lean, "left"),
    ]


def test_a_cut_on_the_slant_from_left_to_right_is_read_at_both() -> None:
    """Over a short module, the slant of 45 degrees reaches from side to side."""
    ring = ((0.0, 0.0), (200.0, 0.0), (200.0, 250.0), (0.0, 50.0))
    edges = (
        edge("bottom", (0.0, 0.0), (200.0, 0.0), cut=False),
        edge("right", (200.0, 0.0), (200.0, 250.0), cut=False),
        edge("left", (200.0, 250.0), (0.0, 50.0)),
        edge("left", (0.0, 50.0), (0.0, 0.0), cut=False),
    )
    keeps: tuple[Side, ...] = ("left", "right", "bottom")
    found = marks_of(Region(rings=(ring,)), edges, (), keeps, (200.0, 300.0))
    assert [(m.what, m.start, m.value, m.detail) for m in found] == [
        ("left", "bottom", 50.0, "top"),
        ("right", "bottom", 250.0, "top"),
    ]


def test_two_cuts_that_meet_inside_the_module_are_marked_by_their_corners() -> None:
    """A piece in a corner of the room: four corners, but no taper."""
    square = ((220.0, 0.0), (600.0, 0.0), (600.0, 296.0), (340.0, 40.0))
    found = marks(square, "right", "bottom")
    assert [(what, start, value) for what, start, value, _ in found] == [
        ("corner", "right", 0.0),
        ("corner", "bottom", 296.0),
        ("corner", "right", 260.0),
        ("corner", "bottom", 40.0),
        ("corner", "right", 380.0),
        ("corner", "bottom", 0.0),
    ]
