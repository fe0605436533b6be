"""What is cut off a module of 600 by 300, told apart by hand."""

from dataclasses import replace

import pytest
from tests.unit.core.cutting.outlines import FACE, U_BELOW, cut_edges, edges_of, piece_of

from gaugerod.core.base.geometry import Point, Region
from gaugerod.core.cutting.marks import face_down, marks_of
from gaugerod.core.cutting.outline import Bite, Outline, outline_of
from gaugerod.core.cutting.pieces import Mark


def told(ring: tuple[Point, ...]) -> Outline:
    return outline_of(Region(rings=(ring,)), cut_edges(ring), FACE)


def told_marks(ring: tuple[Point, ...]) -> list[tuple[str, str, float, str]]:
    return [(m.what, m.start, m.value, m.detail) for m in piece_of(ring).marks]


RIPPED_AND_NOTCHED: tuple[Point, ...] = (
    (0.0, 50.0),
    (500.0, 55.0),
    (500.0, 120.0),
    (600.0, 120.0),
    (600.0, 300.0),
    (0.0, 300.0),
)


def test_a_rip_with_a_notch_is_a_cut_and_a_corner() -> None:
    found = told(RIPPED_AND_NOTCHED)
    assert [(cut.side, cut.start, cut.end) for cut in found.straight] == [
        ("bottom", (0.0, 50.0), (500.0, 55.0))
    ]
    assert found.bites == (Bite(sides=("right", "bottom"), corners=((500.0, 120.0),)),)
    assert (found.scribed, found.runs) == ((), ())


def test_its_height_is_read_at_the_ends_of_the_piece() -> None:
    # The rip rises 5 over 500: at 600 it is 6 higher. Left, right and top are kept.
    assert told_marks(RIPPED_AND_NOTCHED) == [
        ("left", "top", 250.0, "bottom"),
        ("right", "top", 244.0, "bottom"),
        ("notch", "left", 500.0, "right bottom"),
        ("notch", "top", 180.0, "right bottom"),
    ]


def test_a_length_is_read_where_its_line_meets_the_module() -> None:
    # It leans 4 in 200 and ends at a rip 100 up: 2 more below that.
    ring = ((50.0, 100.0), (600.0, 100.0), (600.0, 300.0), (54.0, 300.0))
    assert told_marks(ring) == [
        ("bottom", "right", 552.0, "left"),
        ("top", "right", 546.0, "left"),
        ("left", "top", 200.0, "bottom"),
        ("right", "top", 200.0, "bottom"),
    ]


def test_a_u_is_two_inner_corners() -> None:
    assert told(U_BELOW).bites == (
        Bite(sides=("bottom",), corners=((200.0, 120.0), (400.0, 120.0))),
    )
    assert told_marks(U_BELOW) == [
        ("u-cut", "left", 200.0, "bottom"),
        ("u-cut", "bottom", 120.0, "bottom"),
        ("u-cut", "left", 400.0, "bottom"),
        ("u-cut", "bottom", 120.0, "bottom"),
    ]


def test_a_cut_that_a_notch_interrupts_is_one_cut() -> None:
    ring = (
        (0.0, 50.0),
        (200.0, 50.0),
        (200.0, 120.0),
        (400.0, 120.0),
        (400.0, 50.0),
        (600.0, 50.0),
        (600.0, 300.0),
        (0.0, 300.0),
    )
    (cut,) = told(ring).straight
    assert (cut.start, cut.end) == ((0.0, 50.0), (600.0, 50.0))
    assert [bite.sides for bite in told(ring).bites] == [("bottom",)]


def test_a_bent_edge_is_scribed_point_by_point() -> None:
    ring = ((0.0, 20.0), (300.0, 30.0), (600.0, 25.0), (600.0, 300.0), (0.0, 300.0))
    assert told(ring).scribed == (("bottom", ring[:3]),)
    assert told_marks(ring)[:4] == [
        ("scribe", "left", 0.0, "bottom a1"),
        ("scribe", "top", 280.0, "bottom a1"),
        ("scribe", "left", 300.0, "bottom a2"),
        ("scribe", "top", 270.0, "bottom a2"),
    ]


@pytest.mark.parametrize(
    "ring",
    [
        # A step of the deck whose level is not square.
        ((0.0, 40.0), (300.0, 42.0), (300.0, 80.0), (600.0, 83.0), (600.0, 300.0), (0.0, 300.0)),
        # Two steps: three corners.
        (
            (200.0, 0.0),
            (600.0, 0.0),
            (600.0, 300.0),
            (0.0, 300.0),
            (0.0, 100.0),
            (100.0, 100.0),
            (100.0, 50.0),
            (200.0, 50.0),
        ),
    ],
)
def test_what_is_neither_is_joined_point_by_point(ring: tuple[Point, ...]) -> None:
    found = told(ring)
    assert found.bites == ()
    assert len(found.runs) == 1
    assert {m.detail[0] for m in piece_of(ring).marks if m.what == "corner"} == {"a"}


def test_a_square_corner_with_the_piece_beyond_it_is_no_notch() -> None:
    # A thumb reaches down beside the step, into what a notch would take out.
    ring = (
        (0.0, 120.0),
        (300.0, 120.0),
        (300.0, 60.0),
        (600.0, 60.0),
        (600.0, 300.0),
        (0.0, 300.0),
    )
    assert [bite.corners for bite in told(ring).bites] == [((300.0, 120.0),)]
    bent = (
        (100.0, 120.0),
        (300.0, 120.0),
        (300.0, 0.0),
        (600.0, 0.0),
        (600.0, 300.0),
        (0.0, 300.0),
        (0.0, 40.0),
        (100.0, 60.0),
    )
    assert told(bent).bites == ()


def test_a_run_over_the_end_of_the_ring_hangs_together() -> None:
    ring = U_BELOW[2:] + U_BELOW[:2]
    ring = ring[1:] + ring[:1]
    assert told(ring).bites[0].sides == ("bottom",)
    first = cut_edges(ring)
    assert len(outline_of(Region(rings=(ring,)), first, FACE).bites) == 1


def test_a_stub_is_not_drawn_out() -> None:
    # 20 of the bottom are left beside what comes out: they are no guide for 600.
    ring = ((0.0, 20.0), (20.0, 21.0), (20.0, 80.0), (600.0, 80.0), (600.0, 300.0), (0.0, 300.0))
    found = told(ring)
    assert found.straight == ()
    assert found.runs == (ring[:4],)


def test_a_side_of_the_module_that_two_lines_cut_is_not_one_cut() -> None:
    # Two straight stretches at the left on two lines, a kept stretch between them.
    ring = ((15.0, 0.0), (600.0, 0.0), (600.0, 300.0), (20.0, 300.0), (0.0, 200.0), (0.0, 100.0))
    found = told(ring)
    assert found.straight == ()
    assert len(found.scribed) == 2


@pytest.mark.parametrize(
    ("mark", "over"),
    [
        (("bottom", "right", "left"), ("bottom", "left", "right")),
        (("along left", "bottom", "top"), ("along right", "bottom", "top")),
        (("notch", "left", "right bottom"), ("notch", "right", "left bottom")),
        (("scribe", "top", "left a1"), ("scribe", "top", "right a1")),
        (("hole", "left", "left arm"), ("hole", "right", "left arm")),
    ],
)
def test_face_down_left_and_right_change_over(
    mark: tuple[str, str, str], over: tuple[str, str, str]
) -> None:
    what, start, detail = mark
    found = face_down(Mark(what=what, start=start, value=7.0, detail=detail))  # type: ignore[arg-type]  # a side
    assert (found.what, found.start, found.detail) == over
    assert found.value == 7.0


def test_a_mark_starts_from_an_edge_that_is_only_bared() -> None:
    ring = ((50.0, 0.0), (600.0, 0.0), (600.0, 300.0), (50.0, 300.0))
    edges = [
        replace(edge, kind="tongue off") if edge.side == "right" else edge
        for edge in edges_of(ring)
    ]
    found = marks_of(Region(rings=(ring,)), edges, (), ("bottom", "top"), FACE)
    assert {(mark.start, mark.value) for mark in found} == {("right", 550.0)}
