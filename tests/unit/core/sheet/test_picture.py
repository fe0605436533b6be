"""The picture of alcoves laid out by hand: what is painted, in which order, and what is not."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace

import pytest
from tests.fixtures_plan import keyed_plan, tiled_plan, words_in
from tests.laid_by_hand import field, keyed, layout, opening, rectangle, wall, walls
from tests.laid_by_hand import piece as hand_piece

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Region, bounds_of, shape_of
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Area, Drawing, Line
from gaugerod.core.sheet.picture import draw_picture
from gaugerod.core.sheet.space import Alcove
from gaugerod.core.survey.walls import FittedFixture, FittedHole, FittedWall
from gaugerod.packet.picture import picture

WORDS = Catalogue(display=METRIC, sentences={"sheet.picture": "The alcove"})
L, B, R = (
    wall(name, width=width, ceiling=2000.0)
    for name, width in (("L", 800.0), ("B", 1500.0), ("R", 800.0))
)
NAMES = ("L", "B", "R")
PIECE = rectangle(left=100, bottom=100, right=700, top=400)


def alcove(*fitted: FittedWall, top: float = 1900.0, ends: Sequence[str] = ()) -> Alcove:
    """An alcove with one piece on each wall."""
    fields = [
        field(
            one.name,
            rectangle(left=0, bottom=0, right=one.right.offset, top=top),
            ends=("open" if one.name in ends else "butts", "runs behind"),
        )
        for one in fitted
    ]
    pieces = tuple(replace(hand_piece(PIECE), wall=one.name, tag=one.name) for one in fitted)
    return Alcove(
        walls=walls(*fitted), layout=layout(*fields), pieces=pieces, insides=(), system=keyed()
    )


def drawn(made: Alcove) -> Drawing:
    return draw_picture(made, WORDS)


def layers(made: Alcove) -> Counter[str]:
    return Counter(item.layer for item in drawn(made).items)


def test_every_piece_of_a_wall_that_is_seen_is_drawn() -> None:
    found = layers(alcove(L, B, R))
    assert (found["lining"], found["joint"], found["bare"], found["beyond"]) == (3, 3, 4, 0)


def test_the_back_wall_is_drawn_true() -> None:
    made = drawn(alcove(B))
    (piece,) = (item for item in made.items if item.layer == "lining")
    assert isinstance(piece, Area)
    # Its face stands 11 mm before the wall, which is 760 + 250 + 1500 mm from the eye.
    larger = 2510 / (2510 - 11)
    box = bounds_of(piece.region.rings)
    assert (box.width, box.height) == pytest.approx((600 * larger, 300 * larger))


def test_walls_seen_from_behind_are_outlines() -> None:
    front = [wall(name, width=400.0, ceiling=2000.0) for name in ("FL", "FR")]
    made = alcove(front[0], L, B, R, front[1])
    found = layers(made)
    assert (found["lining"], found["beyond"]) == (3, 8)
    assert all(isinstance(i, Line) for i in drawn(made).items if i.layer == "beyond")


def test_what_is_behind_is_painted_first() -> None:
    order = [item.layer for item in drawn(alcove(L, B, R)).items]
    assert order[0] == "bare"
    assert order.index("body") > max(at for at, layer in enumerate(order) if layer == "lining")


def test_a_hole_is_a_plate_with_a_ring_in_it() -> None:
    plain = FittedHole(
        name="a",
        x=400.0,
        y=900.0,
        diameter=40.0,
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    plated = replace(plain, y=600.0, plate=180.0, pipe=20.0)
    made = drawn(alcove(replace(B, holes=(plain, plated))))
    sizes = [
        bounds_of(item.region.rings).width
        for item in made.items
        if isinstance(item, Area) and item.layer == "plate"
    ]
    larger = 2510 / (2510 - 11)
    # A plate that was not read hides a third more than the hole; sides touch the circle.
    around = [54.0, 20.0, 180.0, 20.0]
    assert [size / larger for size in sizes] == pytest.approx(around, rel=0.006)


def test_a_fixture_stands_out_of_the_wall() -> None:
    box = Box(left=600.0, bottom=1400.0, right=900.0, top=1430.0)
    shelf = FittedFixture(name="shelf", kind="shelf", box=box, clear=0.0)
    # The eye is 1500 over the floor and the floor 400 under the deck: it sees the underside.
    assert layers(alcove(replace(B, fixtures=(shelf,))))["plate"] == 2


@pytest.mark.parametrize(("ends", "strips"), [((), 0), (("L",), 1)])
def test_an_open_end_shows_how_thick_the_lining_is(ends: tuple[str, ...], strips: int) -> None:
    """With the legs of its trims: one on the end of L, one on the top of each wall."""
    found = layers(alcove(L, B, R, ends=ends))
    assert found["profile"] == 3 + 2 * strips


def test_both_ends_of_a_wall_of_its_own_are_open() -> None:
    made = alcove(B)
    (own,) = made.layout.walls
    ends = replace(own, field=replace(own.field, left="open", right="open"))
    drawing = draw_picture(replace(made, layout=replace(made.layout, walls=(ends,))), WORDS)
    # Both ends face away from the middle; what shows is the legs of three trims.
    assert Counter(item.layer for item in drawing.items)["profile"] == 3


def test_a_window_has_two_lights_and_a_bare_reveal() -> None:
    window = opening("window", left=500, bottom=800, right=1000, top=1600)
    found = layers(alcove(replace(B, openings=(window,))))
    assert found["opening"] == 2
    # Floor, wall, and of the reveal: back, sill, head, both jambs.
    assert found["bare"] == 2 + 5


def test_an_opening_above_the_ceiling_is_seen_to_the_ceiling_alone() -> None:
    window = opening("window", left=500, bottom=800, right=1000, top=2600)
    made = drawn(alcove(replace(B, openings=(window,))))
    # The mouth is 11 mm nearer to the eye than the wall, and so a hair higher.
    _, bare, *_ = (shape_of(i.region) for i in made.items if isinstance(i, Area))
    lights = (i.region for i in made.items if isinstance(i, Area) and i.layer == "opening")
    inside = [shape_of(light) for light in lights]
    assert len(inside) == 2
    assert all(bare.buffer(5.0).covers(light) for light in inside)


def test_a_seat_above_the_eye_shows_no_top() -> None:
    steps = ((0.0, 0.0), (500.0, 0.0), (500.0, 1300.0), (1000.0, 1300.0), (1000.0, 0.0))
    high = replace(B, deck=(*steps, (1500.0, 0.0)), parts=("rim", "ledge", "rim"))
    low = replace(high, deck=tuple((x, min(y, 400.0)) for x, y in high.deck))
    assert layers(alcove(L, low, R))["body"] - layers(alcove(L, high, R))["body"] == 1


def test_without_a_tub_the_walls_stand_on_the_floor() -> None:
    bare = [replace(one, parts=("floor",)) for one in (L, B, R)]
    assert layers(alcove(*bare))["body"] == 0
    narrow = [
        replace(one, right=replace(one.right, offset=300.0), deck=((0.0, 0.0), (300.0, 0.0)))
        for one in (L, R)
    ]
    assert layers(alcove(narrow[0], B, narrow[1]))["curve"] == 0


@pytest.mark.parametrize("plan", [keyed_plan, tiled_plan])
def test_the_demo_is_drawn_whole_and_inside_its_bounds(plan: object) -> None:
    made = plan() if callable(plan) else None
    assert isinstance(made, Plan)
    drawing = picture(made, words_in(METRIC))
    shapes = [item for item in drawing.items if isinstance(item, Area)]
    within = shape_of(Region(rings=(_ring(drawing.bounds),)))
    assert all(within.contains(shape_of(item.region)) for item in shapes)
    lined = sum(item.layer == "lining" for item in shapes)
    # Every piece of the three walls; of the niche its mouth and the faces seen from before it.
    niche = {"alcove-1962": 0, "niche-tile": 1}[_slug(made)]
    assert lined >= len(made.pieces) + 2 * niche


def _ring(box: Box) -> tuple[tuple[float, float], ...]:
    return (
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
    )


def _slug(made: Plan) -> str:
    return "niche-tile" if made.insides else "alcove-1962"


def test_what_is_of_another_product_is_darker() -> None:
    made = alcove(L, B, R)
    own = tuple(replace(piece, product=made.system.id) for piece in made.pieces)
    blue = tuple(replace(p, product="blue") if p.wall == "B" else p for p in own)

    def tones(pieces: tuple[Piece, ...]) -> list[float]:
        items = drawn(replace(made, pieces=pieces)).items
        found = [item.tone for item in items if isinstance(item, Area) and item.layer == "lining"]
        return [tone for tone in found if tone is not None]

    more = [b - a for a, b in zip(tones(own), tones(blue), strict=True)]
    assert sorted(more)[:2] == [0, 0]
    assert 0.1 < max(more) < 0.5
