from collections.abc import Callable
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import Piece, Placed, Stock
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Dimension
from gaugerod.packet.cards import MOST, TOGETHER, cut_cards
from gaugerod.packet.paper import Card, Cards, Paragraph


def cards(plan: Plan, words: Catalogue) -> tuple[Card, ...]:
    (block,) = [block for block in cut_cards(plan, words) if isinstance(block, Cards)]
    return block.cards


def told(plan: Plan, words: Catalogue) -> list[str]:
    return [block.text for block in cut_cards(plan, words) if isinstance(block, Paragraph)]


def own_module(piece: Piece) -> Stock:
    """A module for this piece alone."""
    return Stock(
        id=f"M-{piece.tag}",
        source="module",
        product=piece.product,
        size=(piece.cell.width, piece.cell.height),
        keeps=("left", "right", "bottom", "top"),
        lot="",
        pieces=(Placed(tag=piece.tag, at=(0.0, 0.0), size=piece.size),),
        offcuts=(),
    )


def of_pieces(plan: Plan, *pieces: Piece) -> Plan:
    """The same plan with these pieces, each from a module of its own."""
    stock = tuple(map(own_module, pieces))
    return replace(plan, pieces=pieces, cuts=replace(plan.cuts, stock=stock))


def with_pieces(plan: Plan, change: Callable[[Piece], Piece]) -> Plan:
    return replace(plan, pieces=tuple(map(change, plan.pieces)))


def test_every_cut_piece_has_its_card_in_the_order_of_setting(
    keyed: Plan, inches: Catalogue
) -> None:
    tags = [piece.tag for card in cards(keyed, inches) for piece in card.pieces]
    assert tags == [piece.tag for piece in keyed.pieces if not piece.whole]


def test_the_order_of_setting_is_wall_course_place(keyed: Plan) -> None:
    order = [
        (keyed.layout.order.index(piece.wall), piece.course, piece.place) for piece in keyed.pieces
    ]
    assert order == sorted(order)


def test_a_card_says_how_it_lies_what_to_keep_and_what_to_waste(
    keyed: Plan, inches: Catalogue
) -> None:
    card = next(c for c in cards(keyed, inches) if c.pieces[0].tag == "L2-2")
    assert card.orders == ("FACE UP · ARROW UP", "Keep LEFT+BOTTOM+TOP · waste RIGHT")
    assert card.ticks == ("marked", "checked", "cut", "fits")
    assert card.warning == ""


def test_a_card_says_where_a_tongue_comes_off(keyed: Plan, inches: Catalogue) -> None:
    off = {
        piece.tag
        for piece in keyed.pieces
        if not piece.whole and any(edge.kind == "tongue off" for edge in piece.edges)
    }
    said = {
        card.pieces[0].tag
        for card in cards(keyed, inches)
        if any(order.startswith("Tongue off: ") for order in card.orders)
    }
    assert said == off != set()


def test_whole_modules_that_lose_a_tongue_are_listed(keyed: Plan, inches: Catalogue) -> None:
    right = [
        piece.tag
        for piece in keyed.pieces
        if piece.whole and any((e.side, e.kind) == ("right", "tongue off") for e in piece.edges)
    ]
    listed = f"Whole modules, tongue off at the RIGHT: {', '.join(right)}"
    assert listed in told(keyed, inches)


def test_a_survey_for_price_gives_no_cards(keyed: Plan, inches: Catalogue) -> None:
    plan = replace(keyed, walls=replace(keyed.walls, fit_for="price"))
    blocks = list(cut_cards(plan, inches))
    assert not any(isinstance(block, Cards) for block in blocks)
    (reason,) = told(plan, inches)
    assert "not to cut from" in reason


def test_what_is_measured_in_place_shows_no_figure(keyed: Plan, inches: Catalogue) -> None:
    plan = with_pieces(keyed, lambda piece: replace(piece, measure_in_place=True))
    for card in cards(plan, inches):
        assert card.warning == "MEASURE IN PLACE BEFORE CUTTING"
        assert {mark.value for mark in card.marks} <= {"________"}
        assert not any(isinstance(item, Dimension) for item in card.picture.items)


def test_millimetres_are_announced_once(
    keyed: Plan, tiled: Plan, inches: Catalogue, millimetres: Catalogue
) -> None:
    said = "Figures without a sign are millimetres."
    assert said in told(tiled, millimetres)[0]
    assert said not in told(keyed, inches)[0]


def test_a_standing_module_says_how_it_hangs(keyed: Plan, inches: Catalogue) -> None:
    cut = next(piece for piece in keyed.pieces if piece.tag == "L2-2")
    (card,) = cards(of_pieces(keyed, replace(cut, turn=90, marks=())), inches)
    assert "Hangs turned, the arrow to the left" in card.orders


def test_a_strip_without_a_kept_edge_from_a_rest_is_cut_first_at_one_side(
    keyed: Plan, inches: Catalogue
) -> None:
    first, second = (p for p in keyed.pieces if p.tag in {"L2-2", "L3-2"})
    both = of_pieces(keyed, first, replace(second, keeps=()))
    part = Box(left=100.0, bottom=0.0, right=400.0, top=300.0)
    placed = tuple(replace(s.pieces[0], blank=part) for s in both.cuts.stock)
    one = replace(own_module(first), pieces=placed)
    _, card = cards(replace(both, cuts=replace(both.cuts, stock=(one,))), inches)
    assert "No edge kept: mark all cuts first · waste RIGHT" in card.orders
    assert "Cut LEFT first, straight: no factory edge is left there" in card.orders


def test_a_part_that_lies_upside_down_is_turned_first(tiled: Plan, millimetres: Catalogue) -> None:
    parted = {
        placed.tag: placed.turned
        for stock in tiled.cuts.stock
        for placed in stock.pieces
        if placed.blank is not None
    }
    assert set(parted.values()) == {False, True}
    for card in cards(tiled, millimetres):
        for piece in card.pieces:
            assert piece.source.endswith(", turned") == parted.get(piece.tag, False)


def test_equal_cuts_share_a_card_where_there_are_too_many(keyed: Plan, inches: Catalogue) -> None:
    one = next(piece for piece in keyed.pieces if piece.tag == "L2-2")
    many = tuple(replace(one, tag=f"L{n}-2", course=n) for n in range(1, MOST + 2))
    shared = cards(of_pieces(keyed, *many), inches)
    assert [piece.tag for card in shared for piece in card.pieces] == [p.tag for p in many]
    assert len(shared) == -(-len(many) // TOGETHER)
    assert len(cards(of_pieces(keyed, *many[:MOST]), inches)) == MOST


def test_unequal_cuts_never_share_a_card(tiled: Plan, millimetres: Catalogue) -> None:
    cut = [piece for piece in tiled.pieces if not piece.whole]
    assert len(cut) > MOST
    for card in cards(tiled, millimetres):
        marks = {
            tuple((m.what, m.start, round(m.value)) for m in piece.marks)
            for piece in cut
            if piece.tag in {of.tag for of in card.pieces}
        }
        walls = {of.tag[0] for of in card.pieces}
        assert len(walls) == 1
        assert len(marks) <= 2  # a half millimetre may round either way
