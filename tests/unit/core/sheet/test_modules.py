"""A parted module as a picture; modules of 600 by 300 mm, capitals of 30 mm."""

from dataclasses import replace
from itertools import combinations

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.cutting.pieces import Offcut, Placed, SawCut, Stock
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.drawing import Area, Drawing, Layer, Line, Text
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.modules import draw_module

WHOLE = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)


def cut(start: Side, at: float, part: Box = WHOLE) -> SawCut:
    return SawCut(part=part, start=start, at=at, near=(), far=(), stands=True)


def placed(tag: str, at: Point, size: Point) -> Placed:
    return Placed(tag=tag, at=at, size=size)


def stock(
    *pieces: Placed, offcuts: tuple[Offcut, ...] = (), cuts: tuple[SawCut, ...] = ()
) -> Stock:
    return Stock(
        id="M-3",
        source="module",
        product="tile",
        size=(600.0, 300.0),
        keeps=("left", "right", "bottom", "top"),
        lot="",
        pieces=pieces,
        offcuts=offcuts,
        sequence=cuts,
    )


def drawn(module: Stock) -> Drawing:
    return draw_module(module, height=30.0, least=50.0, wide=600.0)


def texts(module: Stock, layer: Layer = "tag") -> dict[str, Text]:
    found = [item for item in drawn(module).items if isinstance(item, Text)]
    return {item.text: item for item in found if item.layer == layer}


def lines(module: Stock, layer: Layer) -> list[tuple[Point, Point]]:
    found = [item for item in drawn(module).items if isinstance(item, Line)]
    return [(item.start, item.end) for item in found if item.layer == layer]


def test_a_tag_stands_level_in_the_middle_of_its_piece() -> None:
    tag = texts(stock(placed("B1-1", (0.0, 0.0), (250.0, 300.0))))["B1-1"]
    assert (tag.at, tag.turn, tag.anchor) == ((125.0, 150.0), 0, "middle")


def test_a_tag_turns_where_its_piece_is_narrow() -> None:
    """Four characters of about 30 mm, 115 mm in all, do not go on 100 mm."""
    tag = texts(stock(placed("B1-1", (0.0, 0.0), (100.0, 300.0))))["B1-1"]
    assert (tag.at, tag.turn) == ((50.0, 150.0), 90)


def test_a_long_tag_is_written_in_two_lines() -> None:
    """Twelve characters are some 350 mm, the longer of its two lines some 230."""
    named = texts(stock(placed("B-niche-left", (0.0, 0.0), (260.0, 300.0))))
    first, second = named["B-niche-"], named["left"]
    assert first.at == (130.0, 168.0)
    assert second.at == (130.0, 132.0)
    turned = texts(stock(placed("B-niche-left", (0.0, 0.0), (100.0, 300.0))))
    assert (turned["B-niche-"].turn, turned["B-niche-"].at) == (90, (32.0, 150.0))


def test_a_tag_without_room_stands_below_on_a_leader_and_none_meets_another() -> None:
    module = stock(
        placed("R1-1", (0.0, 0.0), (25.0, 300.0)),
        placed("R2-1", (30.0, 0.0), (25.0, 300.0)),
        placed("R3-1", (570.0, 0.0), (25.0, 300.0)),
    )
    tags = texts(module)
    assert all(tags[name].at[1] < 0 for name in ("R1-1", "R2-1", "R3-1"))
    leaders = lines(module, "dimension")
    assert [start for start, _ in leaders] == [(582.5, 150.0), (42.5, 150.0), (12.5, 150.0)]
    boxes = [text_box(text) for text in tags.values()]
    for one, other in combinations(boxes, 2):
        apart = one.top < other.bottom or other.top < one.bottom
        assert apart or one.right < other.left or other.right < one.left
    # No leader runs through a tag above its own.
    for (x, _), (_, y) in leaders:
        assert not any(b.left < x < b.right and b.bottom > y + 1 and b.top < 0 for b in boxes)
    bounds = drawn(module).bounds
    assert all(b.left > bounds.left and b.right < bounds.right for b in boxes)


def test_offcuts_worth_keeping_are_named_and_the_rest_is_hatched() -> None:
    kept = Offcut(id="O-3a", at=(300.0, 0.0), size=(300.0, 200.0), keeps=("right",))
    waste = Offcut(id="O-3b", at=(300.0, 250.0), size=(300.0, 49.0), keeps=("right",))
    module = stock(offcuts=(kept, waste))
    assert texts(module).keys() == {"O-3a", "M-3"}
    hatched = [i for i in drawn(module).items if isinstance(i, Area) and i.layer == "waste"]
    assert [area.region.rings[0][0] for area in hatched] == [(300.0, 250.0)]


def test_only_factory_edges_of_a_part_are_heavy() -> None:
    """The lower left corner of a module that has lost its bottom edge."""
    module = replace(stock(placed("B1-1", (0.0, 0.0), (200.0, 100.0))), keeps=("left", "top"))
    assert lines(module, "keep") == [((0.0, 0.0), (0.0, 100.0))]
    whole = stock(placed("B1-1", (0.0, 0.0), (600.0, 300.0)))
    assert len(lines(whole, "keep")) == 4


def test_a_cut_is_drawn_at_the_near_side_of_the_saw_from_the_edge_it_names() -> None:
    cuts = (cut("left", 100.0), cut("right", 150.0), cut("bottom", 40.0), cut("top", 60.0))
    assert lines(stock(cuts=cuts), "saw") == [
        ((100.0, 0.0), (100.0, 300.0)),
        ((450.0, 0.0), (450.0, 300.0)),
        ((0.0, 40.0), (600.0, 40.0)),
        ((0.0, 240.0), (600.0, 240.0)),
    ]


def test_the_turn_of_a_cut_stands_where_it_comes_out() -> None:
    right = Box(left=200.0, bottom=0.0, right=600.0, top=300.0)
    left = Box(left=0.0, bottom=0.0, right=200.0, top=300.0)
    low = Box(left=200.0, bottom=0.0, right=600.0, top=100.0)
    within = Box(left=203.0, bottom=103.0, right=400.0, top=297.0)
    cuts = (
        cut("left", 200.0),
        cut("bottom", 100.0, right),
        cut("bottom", 150.0, left),
        cut("left", 400.0, low),
        cut("bottom", 200.0, within),
    )
    turns = texts(stock(cuts=cuts), "saw")
    assert [turns[str(n)].at for n in range(1, 6)] == [
        (200.0, 327.0),
        (627.0, 100.0),
        (-27.0, 150.0),
        (400.0, -27.0),
        (301.5, 200.0),
    ]


def test_turns_beside_each_other_are_moved_apart_in_their_order() -> None:
    """Two cuts 4 mm apart: turns of 30 mm with a quarter between stand 37.5 mm apart."""
    turns = texts(stock(cuts=(cut("left", 402.0), cut("left", 398.0))), "saw")
    assert (turns["2"].at[0], turns["1"].at[0]) == (381.25, 418.75)


def test_the_name_gives_way_to_a_turn_at_the_corner() -> None:
    assert texts(stock(cuts=(cut("left", 300.0),)))["M-3"].at == (0.0, 327.0)
    assert texts(stock(cuts=(cut("left", 40.0),)))["M-3"].at == (0.0, 399.0)


def test_smaller_stock_is_drawn_at_the_same_scale() -> None:
    small = replace(stock(cuts=(cut("left", 100.0),)), size=(300.0, 300.0))
    assert drawn(small).bounds.width == drawn(stock(cuts=(cut("left", 100.0),))).bounds.width
