"""Margins by hand: walls of 600 and 1500, level and plumb, a module of 600 by 300."""

from dataclasses import replace

import pytest
from tests.laid_by_hand import field, grouted, keyed, layout, opening, rectangle, wall, walls

from gaugerod.core.base.geometry import Edge
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout, Meeting, Turn
from gaugerod.core.setout.margins import Margin, margins, planned
from gaugerod.core.survey.walls import FittedHole, FittedOpening, FittedWall


def found(
    on: FittedWall,
    system: System,
    *,
    phase: float,
    ends: tuple[Meeting, Meeting] = ("runs behind", "butts"),
    first: float = 250.0,
    top: float = 1150.0,
    turn: Turn = "lying",
    joint: float = 0.0,
) -> list[Margin]:
    gross = rectangle(left=0.0, bottom=0.0, right=1500.0, top=1200.0)
    laid: Layout = replace(
        layout(field(on.name, gross, ends=ends)), first_course=first, top=top, turn=turn
    )
    laid = replace(laid, face=(600.0 - joint, 300.0 - joint))
    if turn == "standing":
        laid = replace(laid, face=(300.0, 600.0), pitch=(300.0, 600.0))
    on_wall = replace(laid.walls[0], phase=phase)
    plan = planned(replace(laid, walls=(on_wall,)), on_wall, walls(on).walls[0], system)
    return list(margins(plan, on))


def of(limit: str, margins_: list[Margin]) -> list[float]:
    return sorted({round(one.value, 6) for one in margins_ if one.limit == limit and one.there})


KEYED = keyed(
    cutting={"kerf": 3, "least": 50, "groove_off": 12, "tool": "saw", "material": "plastic"}
)
PLAIN = wall("B", width=1500.0, ceiling=1200.0)


def test_ends_keep_their_least_and_lose_their_groove() -> None:
    # The field runs from 3 to 1486: thickness 9, bed 2, joint 3. Modules begin at −150, 450, 1050.
    kept = found(PLAIN, KEYED, phase=450.0)
    # Left 447, right 436, first course 250 − 3, last from 850 to the line at 1150, where the
    # ceiling would leave it 1200 − 10 − 850; the least is 50.
    assert of("under-least", kept) == [197.0, 250.0, 290.0, 386.0, 397.0]
    # Off the left groove 153, off the bottom groove 53; the tongues lose nothing that counts.
    assert of("groove-left", kept) == [41.0, 141.0]


def test_a_row_of_one_piece_is_as_wide_as_its_field() -> None:
    narrow = wall("B", width=400.0, ceiling=1200.0)
    # 400 − 3 − 14 = 383 for both of its ends.
    assert 333.0 in of("under-least", found(narrow, KEYED, phase=-100.0))


def test_a_groove_may_stay_where_a_trim_swallows_it() -> None:
    hidden = keyed(
        gaps={
            "deck": 3,
            "corner": 3,
            "butt": 3,
            "opening": 3,
            "ceiling": 10,
            "hole_clear": 25,
            "hides_key": ["front", "deck"],
        }
    )
    assert of("groove-left", found(PLAIN, hidden, phase=450.0, ends=("open", "open"))) == []


def test_a_groove_at_the_top_must_come_off() -> None:
    # Standing, the module's right edge is up: here it carries the groove. Top of course 2 is
    # 850 and the lining ends at 800: 50 comes off, the groove takes 12.
    turned = keyed(
        edges={"left": "tongue", "right": "groove", "bottom": "groove", "top": "tongue"},
        cutting={"kerf": 3, "least": 50, "groove_off": 12, "tool": "saw", "material": "plastic"},
    )
    kept = found(PLAIN, turned, phase=450.0, turn="standing", top=800.0)
    assert 38.0 in of("groove-left", kept)


def pierced(*, x: float, y: float) -> FittedWall:
    hole = FittedHole(
        name="valve",
        x=x,
        y=y,
        diameter=80.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    return replace(PLAIN, holes=(hole,))


def test_joints_keep_clear_of_a_hole() -> None:
    # Joints at 450 and 1050, lines at 250 and 550; a radius of 40 and 25 clear are asked.
    kept = found(pierced(x=530.0, y=400.0), KEYED, phase=450.0)
    assert of("joint-at-hole", kept) == [15.0, 85.0, 455.0]


def test_a_seam_keeps_clear_with_its_nearer_side() -> None:
    # Sheets from 450 to 1047 and from 253 to 550: 80, 517, 147 and 150 off, less 40 and 25.
    sheets = grouted(kind="sheet", mortar=None, grout=None, adhesive=KEYED.adhesive)
    kept = found(pierced(x=530.0, y=400.0), sheets, phase=450.0, joint=3.0)
    assert of("joint-at-hole", kept) == [15.0, 82.0, 85.0, 452.0]


def test_a_line_through_a_hole_is_a_limit_broken() -> None:
    assert min(of("joint-at-hole", found(pierced(x=700.0, y=240.0), KEYED, phase=450.0))) == -55.0


def test_tile_may_have_a_joint_under_a_plate() -> None:
    assert of("joint-at-hole", found(pierced(x=450.0, y=250.0), grouted(), phase=450.0)) == []


def window(**box: float) -> FittedWall:
    pane: FittedOpening = opening("window", **box)
    return wall("B", width=1500.0, ceiling=1200.0, openings=(pane,))


def test_strips_beside_an_opening_keep_their_least() -> None:
    # With its joint of 3 the window takes 547 to 953 by 397 to 703; lines at 250, 550, 850.
    kept = found(
        window(left=550.0, bottom=400.0, right=950.0, top=700.0), KEYED, phase=450.0, top=850.0
    )
    # Left 547 − 450 = 97, right 1050 − 953 = 97, below 397 − 250 = 147, above 850 − 703 = 147.
    assert {47.0, 97.0} <= set(of("under-least", kept))
    # Grooves bare at the window: left of the piece to its right, 953 − 450 = 503 off; bottom of
    # the piece above it, 703 − 550 = 153 off.
    assert {491.0, 141.0} <= set(of("groove-left", kept))


def test_an_opening_eased_onto_a_joint_leaves_no_strip() -> None:
    # With its joint the left jamb is at 449.6, eased onto the joint at 450.
    eased = window(left=452.6, bottom=400.0, right=950.0, top=700.0)
    kept = found(eased, KEYED, phase=450.0, top=850.0)
    assert any(not margin.there for margin in kept)
    moved_jamb = window(left=452.5, bottom=400.0, right=950.0, top=700.0)
    assert [m.there for m in found(moved_jamb, KEYED, phase=450.0, top=850.0)] == [
        m.there for m in kept
    ]


def test_an_opening_above_the_lining_counts_for_nothing() -> None:
    high = window(left=550.0, bottom=1160.0, right=950.0, top=1190.0)
    assert found(high, KEYED, phase=450.0) == found(PLAIN, KEYED, phase=450.0)


@pytest.mark.parametrize(
    ("ceiling", "room"),
    # The last line is at 1150, the tongue 9 deep. Under 1160 the field ends below the line.
    [(1200.0, [41.0]), (1160.0, [1.0]), (1155.0, [])],
)
def test_a_whole_top_course_is_lifted_over_its_tongue(ceiling: float, room: list[float]) -> None:
    low = wall("B", width=1500.0, ceiling=ceiling)
    assert of("no-lift", found(low, KEYED, phase=450.0)) == room


def ledge(height: float) -> FittedWall:
    """A wall with a ledge in its middle third."""
    deck = ((0.0, 0.0), (500.0, 0.0), (500.0, height), (1000.0, height), (1000.0, 0.0))
    return replace(PLAIN, deck=(*deck, (1500.0, 0.0)))


def test_a_ledge_has_a_first_course_unless_it_stands_over_the_finish() -> None:
    # Courses end at 250, 550 and so on; the deck's joint is 2. Over a ledge at 400 there are
    # 550 - 402 = 148 left, 98 over the least of 50; with a finish at 350 there is no lining.
    deck = KEYED.gaps.deck
    over = of("under-least", found(ledge(400.0), KEYED, phase=0.0))
    assert 550 - 400 - deck - 50 in over
    low = of("under-least", found(ledge(400.0), KEYED, phase=0.0, top=350.0))
    assert low == of("under-least", found(ledge(390.0), KEYED, phase=0.0, top=350.0))


def test_a_bowed_edge_is_looked_at_where_it_bends() -> None:
    bowed = replace(
        PLAIN, left=Edge(offset=0.0, slope=0.0, bow=((0.0, 0.0), (400.0, -5.0), (1200.0, 0.0)))
    )
    # In course 2, from 250 to 550, the rim is at 3 − 5 at 400, and 3 − 5·250/400 at 250.
    kept = of("groove-left", found(bowed, KEYED, phase=450.0))
    assert 136.0 in kept
    assert round(141.0 - 3.125, 6) in kept
