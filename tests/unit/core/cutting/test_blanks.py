"""Pieces on parts of a module of 600 by 300, by hand."""

from dataclasses import replace

from tests.unit.core.cutting.outlines import piece_of

from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.blanks import blank_of, on_blank
from gaugerod.core.cutting.pieces import Mark, PieceHole, Placed, Stock
from gaugerod.core.job.fields import Side

MODULE = Stock(
    id="M-1",
    source="module",
    product="tile",
    size=(600.0, 300.0),
    keeps=("left", "right", "bottom", "top"),
    lot="",
    pieces=(),
    offcuts=(),
)
LEANING = piece_of(((0.0, 0.0), (200.0, 0.0), (206.0, 300.0), (0.0, 300.0)))
"""It keeps its left edge and leans 6 at the right."""
STRIP = piece_of(((100.0, 0.0), (300.0, 0.0), (300.0, 300.0), (100.0, 300.0)))
"""It keeps no upright edge."""


def placed(
    blank: Box | None, at: tuple[float, float] = (0.0, 0.0), *, turned: bool = False
) -> Placed:
    return Placed(tag="B1-1", at=at, size=(206.0, 300.0), turned=turned, blank=blank)


def box(left: float, right: float, bottom: float = 0.0, top: float = 300.0) -> Box:
    return Box(left=left, bottom=bottom, right=right, top=top)


def told(marks: tuple[Mark, ...]) -> list[tuple[str, str, float]]:
    return [(m.what, m.start, round(m.value, 6)) for m in marks]


def test_on_a_whole_module_nothing_changes() -> None:
    found = on_blank(LEANING, placed(None), MODULE)
    assert (found.piece, found.bare) == (LEANING, ())
    assert blank_of(LEANING, placed(None)) is None


def test_a_width_is_read_at_the_ends_of_the_part() -> None:
    # A part from 100 to 300 up: 2 of the 6 are under it.
    found = on_blank(LEANING, placed(box(0.0, 240.0, bottom=100.0)), MODULE)
    assert told(found.piece.marks) == [("bottom", "left", 202.0), ("top", "left", 206.0)]


def test_upside_down_the_part_lies_as_the_piece_does() -> None:
    # It lies at the right end of the module, its left edge there: the part is from 350 to 600.
    there = placed(box(350.0, 600.0), at=(394.0, 0.0), turned=True)
    assert blank_of(LEANING, there) == box(0.0, 250.0)
    assert on_blank(LEANING, there, MODULE).bare == ()


def test_an_edge_that_the_part_still_has_is_measured_from() -> None:
    # The strip lies 40 from the module's right edge, which the part has.
    there = Placed(tag="B1-1", at=(360.0, 0.0), size=(200.0, 300.0), blank=box(350.0, 600.0))
    found = on_blank(STRIP, there, MODULE)
    assert found.bare == ()
    assert {(m.start, m.detail, m.value) for m in found.piece.marks} == {
        ("right", "left", 240.0),
        ("right", "right", 40.0),
    }


def test_upside_down_that_edge_is_the_other_one() -> None:
    there = Placed(
        tag="B1-1", at=(360.0, 0.0), size=(200.0, 300.0), blank=box(350.0, 600.0), turned=True
    )
    assert {m.start for m in on_blank(STRIP, there, MODULE).piece.marks} == {"left"}


def test_without_such_an_edge_both_sides_are_bare() -> None:
    there = Placed(tag="B1-1", at=(110.0, 0.0), size=(200.0, 300.0), blank=box(100.0, 320.0))
    found = on_blank(STRIP, there, MODULE)
    assert found.bare == ("left", "right")
    assert found.piece.marks == STRIP.marks


def test_a_piece_that_should_end_with_the_module_does_not_end_with_the_part() -> None:
    # Inside faces keep nothing, but are not cut at the module's own edge.
    loose = replace(STRIP, edges=(replace(STRIP.edges[0], side="left", kind="factory"),))
    there = Placed(tag="B1-1", at=(360.0, 0.0), size=(200.0, 300.0), blank=box(350.0, 600.0))
    assert on_blank(loose, there, MODULE).bare == ("left", "right")


def test_hole_and_check_sum_to_the_part() -> None:
    hole = PieceHole(name="valve", x=60.0, y=100.0, diameter=40.0)
    both: tuple[tuple[str, Side, float], ...] = (
        ("hole", "left", 60.0),
        ("hole", "bottom", 100.0),
        ("check", "right", 540.0),
        ("check", "top", 200.0),
    )
    marks = tuple(Mark(what=w, start=s, value=v, detail="valve") for w, s, v in both)
    drilled = replace(LEANING, holes=(hole,), marks=marks)
    found = on_blank(drilled, placed(box(0.0, 240.0)), MODULE)
    assert told(found.piece.marks) == [
        ("hole", "left", 60.0),
        ("hole", "bottom", 100.0),
        ("check", "right", 180.0),
        ("check", "top", 200.0),
    ]
    # From an edge that only the part has, the check runs from the other.
    strip = replace(
        STRIP,
        holes=(replace(hole, x=160.0),),
        marks=(
            Mark(what="hole", start="left", value=160.0, detail="valve"),
            Mark(what="check", start="right", value=440.0, detail="valve"),
        ),
    )
    there = Placed(tag="B1-1", at=(360.0, 0.0), size=(200.0, 300.0), blank=box(350.0, 600.0))
    assert told(on_blank(strip, there, MODULE).piece.marks) == [
        ("hole", "right", 180.0),
        ("check", "left", 70.0),
    ]


def test_an_offcut_that_lost_its_edge_offers_nothing_there() -> None:
    # 250 wide, and only its bottom and top are the factory's.
    rest = replace(MODULE, source="offcut", size=(250.0, 300.0), keeps=("bottom", "top"))
    there = Placed(tag="B1-1", at=(10.0, 0.0), size=(200.0, 300.0), blank=box(0.0, 250.0))
    assert on_blank(STRIP, there, rest).bare == ("left", "right")
    kept = replace(rest, keeps=("right", "bottom", "top"))
    assert {m.start for m in on_blank(STRIP, there, kept).piece.marks} == {"right"}
