from dataclasses import replace
from datetime import date
from math import sqrt

import pytest
import shapely
from shapely.affinity import scale
from tests import laid_by_hand as hand

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import shape_of
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.bonds import refused
from gaugerod.core.job.document import Limit, Override, PatternBond
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_job, sample_rates, sample_tile
from gaugerod.core.setout.again import score_again
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import FittedHole, Walls

NO_GAPS = sample_tile().gaps.model_copy(
    update=dict.fromkeys(("deck", "corner", "butt", "opening", "ceiling", "front"), 0.0)
)


def tile(width: float, height: float) -> System:
    """A tile with joints of 3 and no gap anywhere."""
    return sample_tile().model_copy(update={"face": (width, height), "gaps": NO_GAPS})


def room(side: float) -> Walls:
    """One square wall, both of whose ends are open."""
    return hand.walls(hand.wall("B", width=side, ceiling=side))


def found(walls: Walls, system: System, bond: PatternBond, **update: object) -> ShortList:
    wanted = {"bond": bond, "finish": "ceiling", **update}
    choices = sample_job().choices.model_copy(update=wanted)
    return set_out(walls, choices, system, sample_rates().looks)


def halves(pieces: tuple[Piece, ...]) -> tuple[int, int]:
    whole = sum(piece.whole for piece in pieces)
    return whole, len(pieces) - whole


def mirrored(pieces: tuple[Piece, ...], side: float, *, x: int, y: int) -> bool:
    """Whether the picture of every piece in a mirror is a piece."""
    shapes = [shape_of(piece.region) for piece in pieces]
    images = [scale(s, xfact=x, yfact=y, origin=(side / 2, side / 2)) for s in shapes]
    return all(
        any(image.symmetric_difference(shape).area < 0.5 for shape in shapes) for image in images
    )


ROOT = sqrt(2)


def on_the_centre() -> list[Layout]:
    """A field of 1200 x 1200 in square tile of 300 by the pitch, centred up and across.

    Rows of crossings are 150 root 2 apart: the second one below the middle of the field has its
    crossings under those of the middle.
    """
    return list(
        found(
            room(1200.0),
            tile(297.0, 297.0),
            "diagonal",
            first_height=600.0 - 300.0 * ROOT,
            centre={"B": "module"},
        ).layouts
    )


def test_a_square_field_of_square_tile_is_the_same_in_both_mirrors() -> None:
    """Counted by hand.

    Middles of modules lie at (m, n) 150 root 2 from the middle of the field. A module reaches
    297 / root 2 = 210 out, so those up to m, n = 3 (636) meet the field of 600 each way, and
    those up to 1 (212 + 210 = 422) lie in it whole. With a module in the middle m + n is even:
    16 + 9 = 25 modules, 1 + 4 of them whole. With a crossing there it is odd: 12 + 12 = 24,
    of which 4 are whole.
    """
    system, walls = tile(297.0, 297.0), room(1200.0)
    counts = set()
    for layout in on_the_centre():
        pieces = make_pieces(layout, walls, system)
        counts.add(halves(pieces))
        assert mirrored(pieces, 1200.0, x=-1, y=1)
        assert mirrored(pieces, 1200.0, x=1, y=-1)
        joints = 1200.0**2 - sum(shape_of(piece.region).area for piece in pieces)
        # Nearly 2 x 300 x 3 - 9 of joint to each of 16 tiles' worth of wall.
        assert joints == pytest.approx(16 * (300.0**2 - 297.0**2), rel=0.02)
    assert counts == {(5, 20), (4, 20)}


def test_the_sizes_of_the_corner_pieces_by_hand() -> None:
    """With a module in the middle four corner pieces are triangles: 636.4 + ... see below.

    The corner module's middle is 636.4 - 600 = 36.4 beyond both rims. Along a rim it reaches
    210 - 36.4 = 173.6 from its middle, of which 36.4 is beyond the corner: legs of 137.2.
    """
    system, walls = tile(297.0, 297.0), room(1200.0)
    layout = next(
        one for one in on_the_centre() if halves(make_pieces(one, walls, system)) == (5, 20)
    )
    reach, beyond = 297.0 / ROOT, 450.0 * ROOT - 600.0
    leg = reach - 2 * beyond
    areas = [shape_of(piece.region).area for piece in make_pieces(layout, walls, system)]
    corners = [area for area in areas if area == pytest.approx(leg**2 / 2, abs=0.1)]
    assert len(corners) == 4
    assert min(areas) == pytest.approx(leg**2 / 2, abs=0.1)
    # All that is cut at an end is a triangle of which 173.6 shows, or larger.
    assert layout.walls[0].ends == pytest.approx((leg / ROOT, leg / ROOT), abs=1e-3)


def test_a_field_of_whole_steps_in_herringbone() -> None:
    """Counted by hand on squared paper, four squares of 300 each way, joints at the rims.

    Sixteen squares; the pattern repeats every four, and each rim cuts one module in two: six
    whole modules and four halves.
    """
    system, walls = sample_tile().model_copy(update={"gaps": NO_GAPS}), room(1197.0)
    short = found(walls, system, "herringbone", first_height=298.5, centre={"B": "front"})
    for layout in short.layouts:
        pieces = make_pieces(layout, walls, system)
        assert halves(pieces) == (6, 4)
        cut = [piece for piece in pieces if not piece.whole]
        assert [sorted(piece.size) for piece in cut] == [pytest.approx([297.0, 297.0])] * 4


@pytest.mark.parametrize("bond", ["diagonal", "diagonal half", "herringbone"])
def test_best_looks_come_first_and_every_count_is_kept(bond: PatternBond) -> None:
    walls = fit_walls(sample_job())
    short = found(walls, sample_tile(), bond, finish="line")
    looks = [layout.looks for layout in short.layouts[:6]]
    assert looks == sorted(looks)
    assert short.tried > len(short.layouts)
    best = short.layouts[0]
    assert best.order == ("L", "B", "R")
    assert [reason.key for reason in best.reasons] == [
        "setout.low",
        "setout.row",
        "setout.finish",
        *["setout.struck"] * 3,
    ]
    # The finish lies on a row of crossings.
    rows = (best.top - best.first_course) / best.rise
    assert rows == pytest.approx(round(rows))


def test_a_centring_leaves_only_that_kind() -> None:
    walls = fit_walls(sample_job())
    centre = {"L": "front", "B": "module"}
    short = found(walls, sample_tile(), "diagonal", finish="line", centre=centre)
    for layout in short.layouts:
        assert [wall.centring for wall in layout.walls[:2]] == ["front", "module"]


def test_where_no_event_keeps_the_limits_steps_between_are_tried() -> None:
    """Six rows and a hair more: with anything on a line, points of 14 mm are left at a rim."""
    short = found(room(1290.0), tile(297.0, 297.0), "diagonal")
    why = Message("setout.height-places")
    assert all(layout.reasons[1].values["why"] == why for layout in short.layouts)
    assert {layout.walls[0].centring for layout in short.layouts} == {"limit"}


def stops(error: LayoutError) -> str:
    """The one limit, or the one named first, that stopped every place."""
    assert error.message.key == "setout.none"
    said = error.message.values["limits"]
    assert isinstance(said, Message)
    first = said.values.get("first", said)
    assert isinstance(first, Message)
    limit = first.values["limit"]
    assert isinstance(limit, Message)
    return limit.key


def test_when_nothing_is_legal_the_limit_is_named() -> None:
    strict = tile(297.0, 297.0)
    cutting = strict.cutting.model_copy(update={"least": 290.0})
    with pytest.raises(LayoutError) as caught:
        found(room(1200.0), strict.model_copy(update={"cutting": cutting}), "diagonal")
    assert stops(caught.value) == "setout.limit-under-least"


def hole(*, x: float, y: float) -> FittedHole:
    return FittedHole(
        name="arm",
        x=x,
        y=y,
        diameter=40.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )


def test_joints_near_a_hole_cost_looks_and_a_hole_above_the_field_nothing() -> None:
    pinned = {"first_height": 600.0 - 300.0 * ROOT, "centre": {"B": "module"}}
    prices = {}
    for name, y in {"none": None, "above": 1300.0, "on a crossing": 600.0}.items():
        holes = () if y is None else (hole(x=600.0, y=y),)
        bare = room(1200.0)
        walls = replace(bare, walls=(replace(bare.walls[0], holes=holes),))
        layouts = found(walls, tile(297.0, 297.0), "diagonal", **pinned).layouts
        prices[name] = sorted(layout.looks for layout in layouts)
    assert prices["above"] == prices["none"]
    # A crossing under the hole: four modules, three joints too many. A module there: none.
    near = sample_rates().looks.near_hole
    over = [b - a for a, b in zip(prices["none"], prices["on a crossing"], strict=True)]
    assert sorted(over) == [0, 3 * near]


def test_a_pattern_goes_round_an_opening_and_is_tried_on_its_centre() -> None:
    window = hand.opening("window", left=500.0, bottom=500.0, right=1000.0, top=1000.0)
    walls = hand.walls(hand.wall("B", width=1500.0, ceiling=1500.0, openings=(window,)))
    system = tile(297.0, 297.0)
    short = found(walls, system, "diagonal", centre={"B": "opening"})
    assert {layout.walls[0].centring for layout in short.layouts} == {"opening"}
    taken = shapely.box(500.0, 500.0, 1000.0, 1000.0)
    for piece in make_pieces(short.layouts[0], walls, system):
        assert shape_of(piece.region).intersection(taken).area == pytest.approx(0.0, abs=1e-3)


def test_what_is_left_open_is_searched() -> None:
    walls = fit_walls(sample_job())
    short = found(walls, sample_tile(), "diagonal", turn="any", finish="any")
    assert {layout.turn for layout in short.layouts} == {"lying", "standing"}
    assert len({round(layout.top) for layout in short.layouts}) > 1


def test_a_place_that_the_setter_gives_is_the_only_one_tried() -> None:
    short = found(
        room(1200.0),
        tile(297.0, 297.0),
        "diagonal",
        first_height=600.0 - 300.0 * ROOT,
        phase={"B": 600.0},
    )
    assert short.tried == 1
    (layout,) = short.layouts
    assert (layout.walls[0].phase, layout.walls[0].centring) == (600.0, "chosen")
    again = score_again(layout, room(1200.0), tile(297.0, 297.0), sample_rates().looks)
    assert [(name, score.looks) for name, score in again] == [("B", layout.looks)]


def signed(limit: Limit) -> Override:
    return Override(limit=limit, by="Setter", on=date(2026, 3, 1), why="Seen by the owner")


def test_a_limit_is_set_aside_by_a_signature() -> None:
    strict = tile(297.0, 297.0)
    cutting = strict.cutting.model_copy(update={"least": 290.0})
    strict = strict.model_copy(update={"cutting": cutting})
    short = found(room(1200.0), strict, "diagonal", override=(signed("under-least"),))
    assert {layout.set_aside for layout in short.layouts} == {("under-least",)}
    assert short.layouts[0].reasons[0].key == "setout.set-aside"


@pytest.mark.parametrize(
    ("bond", "over", "legal"),
    [
        ("diagonal half", 300.0, False),
        ("diagonal half", 600.0, True),  # too short a side for the limit
        ("diagonal", 300.0, True),
        ("herringbone", 300.0, True),
    ],
)
def test_rows_on_the_diagonal_are_shifted_no_further_than_courses(
    bond: PatternBond, over: float, legal: bool
) -> None:
    walls, strict = fit_walls(sample_job()), sample_tile()
    cutting = strict.cutting.model_copy(update={"most_shift": 0.3333, "shift_over": over})
    strict = strict.model_copy(update={"cutting": cutting})
    if legal:
        assert found(walls, strict, bond).layouts
        return
    with pytest.raises(LayoutError) as caught:
        found(walls, strict, bond)
    assert stops(caught.value) == "setout.limit-shifted-too-far"


def test_the_faults_of_a_layout_add_up_to_its_looks() -> None:
    layout = found(fit_walls(sample_job()), sample_tile(), "diagonal").layouts[-1]
    assert sum(cents for _, cents in layout.faults) == pytest.approx(layout.looks, abs=6)
    assert {name for name, _ in layout.faults} <= {"sliver", "unequal", "near-hole"}


def test_materials_that_a_bond_refuses() -> None:
    system = sample_tile()
    uneven = system.model_copy(update={"joint": (3.0, 2.0)})
    odd = system.model_copy(update={"face": (600.0, 297.0)})
    said = {
        name: message.key if message else None
        for name, message in {
            "uneven": refused(uneven, "diagonal"),
            "odd": refused(odd, "diagonal herringbone"),
            "odd but straight": refused(odd, "diagonal"),
            "fits": refused(system, "herringbone"),
        }.items()
    }
    assert said == {
        "uneven": "job.bond-joints",
        "odd": "job.bond-ratio",
        "odd but straight": None,
        "fits": None,
    }
