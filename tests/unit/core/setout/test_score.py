"""Limits and looks of one lattice on one wall, each worked by hand."""

from dataclasses import replace

import pytest

from gaugerod.core.base.geometry import Box, Edge
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_rates, sample_system
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.score import score
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.strips import Case
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall

KEYED = sample_system()
NO_GAPS = KEYED.gaps.model_copy(
    update={"deck": 0.0, "corner": 0.0, "butt": 0.0, "opening": 0.0, "ceiling": 0.0}
)
PLAIN = KEYED.model_copy(
    update={
        "kind": "grouted",
        "edges": KEYED.edges.model_copy(
            update=dict.fromkeys(("left", "right", "bottom", "top"), "plain")
        ),
        "thickness": 1e-9,
        "bed": 0.0,
        "gaps": NO_GAPS,
    }
)


def wall(
    width: float = 1500.0,
    *,
    lean: float = 0.0,
    hole: tuple[float, float] | None = None,
    window: Box | None = None,
) -> FittedWall:
    right = Edge(offset=width, slope=lean)
    deck = ((0.0, 0.0), (width, 0.0))
    ceiling = ((0.0, 2000.0), (right.at(2000.0), 2000.0))
    valve = FittedHole(
        name="valve",
        x=hole[0] if hole else 0.0,
        y=hole[1] if hole else 0.0,
        diameter=80.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    return FittedWall(
        name="B",
        left=Edge(offset=0.0, slope=0.0),
        right=right,
        deck=deck,
        ceiling=ceiling,
        outline=(*deck, *reversed(ceiling)),
        holes=(valve,) if hole else (),
        openings=(FittedOpening(name="w", kind="window", box=window, gap=None),) if window else (),
        fixtures=(),
    )


def judged(
    on: FittedWall,
    phase: float,
    *,
    system: System = PLAIN,
    met: tuple[Meeting, Meeting] = ("runs behind", "runs behind"),
    first: float = 300.0,
    top: float = 900.0,
    shift: float = 0.0,
    turn: Turn = "lying",
) -> Score:
    face, pitch = hung(system, turn)
    looks = sample_rates().looks
    case = Case(wall=on, met=met, top=top, system=system, turn=turn, looks=looks)
    lattice = Lattice(face=face, pitch=pitch, first_course=first, phase=phase, row_shift=shift)
    return score(case, lattice)


def test_a_centred_module_leaves_equal_ends_and_nothing_to_mind() -> None:
    # 1500 = 450 + 600 + 450.
    result = judged(wall(), 450.0)
    assert result == Score(refused=(), looks=0, cuts=6, ends=(450.0, 450.0))


def test_slivers_and_unequal_ends_are_priced() -> None:
    # 1500 = 100 + 600 + 600 + 200. Half is 300: the ends are short of it by 2/3 and 1/3, so
    # they cost $25 (1 + 4/3) + $25 (1 + 2/3) = $100 in each of three courses. They differ by
    # 100 mm, 3.937 in at $10.
    result = judged(wall(), 100.0)
    assert result.ends == (100.0, 200.0)
    assert result.looks == 3 * 10000 + 3937


def test_a_strip_under_the_least_is_refused() -> None:
    assert judged(wall(), 40.0).refused == ("under-least",)


def test_a_leaning_corner_counts_where_its_piece_is_narrowest() -> None:
    # The right edge comes in 9 mm at the top.
    result = judged(wall(lean=-0.01), 450.0)
    assert result.ends == pytest.approx((450.0, 441.0))


def test_running_bond_counts_every_course() -> None:
    # Left ends 450, then 650 less one module 50, then 250.
    result = judged(wall(), 450.0, shift=200.0)
    assert result.ends[0] == pytest.approx(50.0)
    assert result.refused == ()


def test_a_wall_narrower_than_a_module_has_one_piece() -> None:
    assert judged(wall(400.0), -100.0).ends == (400.0, 400.0)


def test_a_front_wants_a_whole_module() -> None:
    open_left: tuple[Meeting, Meeting] = ("open", "runs behind")
    whole = judged(wall(800.0), 0.0, met=open_left)
    cut = judged(wall(800.0), 400.0, met=open_left)
    # Whole: only the back end, 200, is under half, thrice at $41.67. Cut: 400 and 400, both over.
    assert (whole.looks, whole.cuts) == (12500, 3)
    assert (cut.looks, cut.cuts) == (3 * 6000, 6)


@pytest.mark.parametrize("meeting", ["laps", "stops", "outside trim"])
def test_an_outside_corner_wants_a_whole_module_as_a_front_does(meeting: Meeting) -> None:
    bare = NO_GAPS.model_copy(update={"outside": 0.0})
    system = PLAIN.model_copy(update={"gaps": bare, "thickness": 0.0, "bed": 0.0})
    met: tuple[Meeting, Meeting] = (meeting, "runs behind")
    # As at an open front: 200 at the back, thrice; or two cuts of 400, seen three times.
    assert judged(wall(800.0), 0.0, system=system, met=met).looks == 12500
    assert judged(wall(800.0), 400.0, system=system, met=met).looks == 3 * 6000


def test_a_groove_shows_at_an_outside_corner_unless_the_maker_says_otherwise() -> None:
    met: tuple[Meeting, Meeting] = ("stops", "open")
    bare = KEYED.model_copy(update={"gaps": NO_GAPS})
    assert judged(wall(), 0.0, system=bare, met=met, first=287.0, top=887.0).refused == (
        "groove-left",
    )
    hides = NO_GAPS.model_copy(update={"hides_key": ("outside", "front", "top")})
    hidden = KEYED.model_copy(update={"gaps": hides})
    assert judged(wall(), 0.0, system=hidden, met=met, first=287.0, top=887.0).refused == ()


def test_low_first_and_last_courses_are_slivers_along_the_whole_wall() -> None:
    # First course 100 high, three modules of it across, at $25 (1 + 2/3); the last 120 high,
    # at $25 (1 + 2/5).
    result = judged(wall(), 450.0, first=100.0, top=820.0)
    assert result.looks == 3 * 2500 * (5 / 3 + 7 / 5)


def test_a_first_course_under_the_least_is_refused() -> None:
    assert judged(wall(), 450.0, first=40.0).refused == ("under-least",)


@pytest.mark.parametrize(
    ("hole", "near"),
    [((750.0, 450.0), 0), ((460.0, 450.0), 1), ((750.0, 310.0), 1), ((460.0, 310.0), 3)],
)
def test_joints_near_a_hole_are_priced_for_tile(hole: tuple[float, float], near: int) -> None:
    # Joints at 450 and 1050 across, lines at 300 and 600; a hole reaches 40 + 25.4. At a
    # crossing the line counts once and the upright joint once for each course.
    assert judged(wall(hole=hole), 450.0).looks == near * 3000


def test_a_keyed_module_takes_no_joint_near_a_hole() -> None:
    far = judged(wall(hole=(750.0, 450.0)), 450.0, system=KEYED, first=287.0)
    near = judged(wall(hole=(460.0, 450.0)), 450.0, system=KEYED, first=287.0)
    assert "joint-at-hole" not in far.refused
    assert "joint-at-hole" in near.refused


def test_the_clearance_of_a_hole_is_from_the_edge_of_a_wide_joint() -> None:
    # Modules 594 with 6 mm joints: a joint from 444 to 450. The hole reaches 65.4.
    wide = PLAIN.model_copy(update={"face": (594.0, 294.0), "joint": (6.0, 6.0)})
    clear = judged(wall(hole=(450 + 65.5, 450.0)), 450.0, system=wide)
    close = judged(wall(hole=(450 + 65.3, 450.0)), 450.0, system=wide)
    left_clear = judged(wall(hole=(444 - 65.5, 450.0)), 450.0, system=wide)
    left_close = judged(wall(hole=(444 - 65.3, 450.0)), 450.0, system=wide)
    assert close.looks - clear.looks == 3000
    assert left_close.looks - left_clear.looks == 3000


def test_a_groove_must_be_cut_off_where_nothing_hides_it() -> None:
    # A whole module at the left has its groove in the corner; one 587.3 wide has lost it.
    system = KEYED.model_copy(update={"gaps": NO_GAPS.model_copy(update={"hides_key": ()})})
    met: tuple[Meeting, Meeting] = ("runs behind", "open")
    assert judged(wall(), 0.0, system=system, met=met, first=287.0, top=887.0).refused == (
        "groove-left",
    )
    assert judged(wall(), -12.7, system=system, met=met, first=287.0, top=887.0).refused == ()
    hidden = KEYED.model_copy(
        update={"gaps": NO_GAPS.model_copy(update={"hides_key": ("corner",)})}
    )
    assert judged(wall(), 0.0, system=hidden, met=met, first=287.0, top=887.0).refused == ()


def test_a_first_course_must_lose_its_groove() -> None:
    system = KEYED.model_copy(update={"gaps": NO_GAPS})
    met: tuple[Meeting, Meeting] = ("open", "open")
    assert judged(wall(), 0.0, system=system, met=met, first=300.0, top=900.0).refused == (
        "groove-left",
    )
    assert judged(wall(), 0.0, system=system, met=met, first=287.3, top=887.3).refused == ()


def test_standing_modules_turn_their_keys() -> None:
    # Standing, the groove is at the right: a whole module in the right corner keeps it.
    system = KEYED.model_copy(update={"gaps": NO_GAPS.model_copy(update={"hides_key": ()})})
    met: tuple[Meeting, Meeting] = ("open", "runs behind")
    kept = judged(wall(), 0.0, system=system, met=met, first=587.0, turn="standing")
    cut = judged(wall(), 12.7, system=system, met=met, first=587.0, turn="standing")
    assert kept.refused == ("groove-left",)
    assert cut.refused == ("under-least",)  # the first piece would be 12.7 wide


def test_openings_want_joints_on_their_jambs_and_strips_no_slivers() -> None:
    # A window 600 wide centred in the wall and one course high, on the lines: nothing to mind.
    good = judged(wall(window=Box(left=450.0, bottom=300.0, right=1050.0, top=600.0)), 450.0)
    assert good.looks == 0
    # Moved 100 right and 80 up: strips 500 wide beside it; 100 and 80 legs; a strip 80 under
    # it and 220 over. Both jambs bare at $30.
    moved = judged(wall(window=Box(left=550.0, bottom=380.0, right=1150.0, top=680.0)), 450.0)
    # Legs of 100 in two courses, at the left of the opening, at $25 (1 + 4/3); a strip of 80
    # under it, one module across, at $25 (1 + 2 (150 - 80) / 150): $116.67 + $48.33.
    assert moved.looks == 2 * 3000 + 16500
    assert moved.refused == ()


def test_a_leg_beside_an_opening_has_the_same_least() -> None:
    window = Box(left=480.0, bottom=300.0, right=1080.0, top=600.0)
    assert "under-least" in judged(wall(window=window), 450.0).refused


def test_an_opening_above_the_field_does_not_matter() -> None:
    window = Box(left=500.0, bottom=1200.0, right=900.0, top=1500.0)
    assert judged(wall(window=window), 450.0).looks == 0


def test_an_opening_that_reaches_out_of_the_field_leaves_no_strip_there() -> None:
    into_top = wall(window=Box(left=450.0, bottom=580.0, right=1050.0, top=1500.0))
    to_deck = wall(window=Box(left=450.0, bottom=-10.0, right=1050.0, top=320.0))
    # Under the first a strip of 280; above the second one of 280: both over half.
    assert judged(into_top, 450.0).looks == 0
    assert judged(to_deck, 450.0).looks == 0


def test_an_opening_may_have_its_own_gap() -> None:
    on = wall(window=Box(left=460.0, bottom=310.0, right=1040.0, top=590.0))
    (opening,) = on.openings
    gapped = replace(on, openings=(replace(opening, gap=10.0),))
    assert judged(gapped, 450.0).looks == 0
