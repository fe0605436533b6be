"""What the hand asks of a row's last piece and of the top course, by the trade's own figures."""

from dataclasses import replace

import pytest

from gaugerod.core.job.materials import System
from gaugerod.core.setout.closing import Closing, closing_side, closings, lifts
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.sample import sample_batch, sample_layout
from gaugerod.core.setout.score import hopeless, score_phases
from gaugerod.core.setout.strips import Batch, batch_of

_, LAYOUT, KEYED = sample_layout()


def with_gaps(**gaps: float) -> System:
    return KEYED.model_copy(update={"gaps": KEYED.gaps.model_copy(update=gaps)})


@pytest.mark.parametrize(
    ("gap", "way", "left"),
    [
        # A tongue of 3/8 wants 3/8 free; with 1/8 it is shaved to that; under 1/8 nothing of it
        # would be left to hold.
        (9.525, "whole", 9.525),
        (9.5, "shaved", 9.5),
        (3.175, "shaved", 3.175),
        (3.1, "sprung", 3.1),
    ],
)
def test_how_a_row_closes(gap: float, way: str, left: float) -> None:
    first, second = closings(LAYOUT, with_gaps(corner=gap))
    # The order follows the hand: L closes behind B, B behind R, R runs out at the open front.
    assert (first.wall, first.side, first.hider) == ("L", "right", "B")
    assert (second.wall, second.side, second.hider) == ("B", "right", "R")
    assert (first.way, first.room, first.tongue, first.left) == (way, gap, 9.525, left)


def swapped(order: tuple[str, ...]) -> tuple[Closing, ...]:
    """The closings with the back wall set first, as is the habit with tile."""
    ends: dict[str, tuple[Meeting, Meeting]] = {
        "L": ("open", "butts"),
        "B": ("runs behind", "runs behind"),
        "R": ("butts", "open"),
    }
    walls = tuple(
        replace(
            wall,
            field=replace(wall.field, left=ends[wall.name][0], right=ends[wall.name][1]),
        )
        for wall in LAYOUT.walls
    )
    return closings(replace(LAYOUT, order=order, walls=walls), with_gaps(butt=3.175, corner=9.525))


def test_the_back_wall_first_leaves_the_gap_of_the_left_wall_showing() -> None:
    left, back = swapped(("B", "L", "R"))
    # L closes against the face of B: its joint of 1/8 is all there is, and nothing laps it.
    assert (left.wall, left.way, left.hider) == ("L", "shaved", "L")
    assert (back.wall, back.way, back.hider) == ("B", "whole", "R")


def test_standing_modules_close_at_the_left() -> None:
    assert closing_side(KEYED, "standing") == "left"
    standing = replace(LAYOUT, turn="standing")
    # As laid, L is open at the left and B butts L there; R butts B.
    assert [(one.wall, one.hider) for one in closings(standing, KEYED)] == [("B", "B"), ("R", "R")]


def test_plain_edges_close_anywhere() -> None:
    plain = KEYED.model_copy(update={"edges": type(KEYED.edges)()})
    assert closing_side(plain, "lying") is None
    assert closings(LAYOUT, plain) == ()
    batch = sample_batch(0.0)
    assert list(lifts(replace(batch, case=replace(batch.case, system=plain)))) == []


def under(ceiling: float, *, gap: float, top: float = 1000.0) -> Batch:
    """The sample wall under a level ceiling. Course lines at -470 and every 300 up."""
    batch = sample_batch(450.0)
    wall = replace(batch.case.wall, ceiling=tuple((x, ceiling) for x, _ in batch.case.wall.ceiling))
    case = replace(batch.case, wall=wall, system=with_gaps(ceiling=gap), top=top)
    return batch_of(case, batch.lattice, batch.phases)


@pytest.mark.parametrize(
    ("ceiling", "gap", "top", "room"),
    [
        (900.0, 12.0, 1000.0, 12.0),  # cut under the ceiling: the gap
        (900.0, 12.0, 730.0, 170.0),  # whole up to a line at 730
        (735.0, 5.0, 1000.0, 5.0),  # whole up to 730, five under the ceiling
        (735.0, 3.0, 600.0, 135.0),  # cut at a finish line
    ],
)
def test_room_to_lift(ceiling: float, gap: float, top: float, room: float) -> None:
    found = list(lifts(under(ceiling, gap=gap, top=top)))
    assert found == pytest.approx([room - 9.525] * len(found))
    assert found


def test_a_course_that_cannot_be_lifted_is_refused() -> None:
    stuck, free = under(900.0, gap=9.0), under(900.0, gap=9.525)
    assert hopeless(stuck) == (("no-lift",),)
    assert "no-lift" in score_phases(stuck)[0].refused
    assert hopeless(free) == ((),)
