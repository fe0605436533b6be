"""Cards of the inside faces of the packaged niche, and of a window told to be lined."""

from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Area
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.inside_notes import inside_notes, inside_place
from gaugerod.packet.paper import Card, Cards


def cards(plan: Plan, words: Catalogue) -> dict[str, Card]:
    (block,) = [block for block in cut_cards(plan, words) if isinstance(block, Cards)]
    tagged = {card.pieces[0].tag: card for card in block.cards}
    return {tag: card for tag, card in tagged.items() if "niche" in tag}


def test_each_face_has_a_card_after_those_of_the_walls(tiled: Plan, millimetres: Catalogue) -> None:
    faces = ["sill", "head", "left", "right", "back"]
    assert list(cards(tiled, millimetres)) == [f"B-niche-{face}" for face in faces]
    (block,) = [b for b in cut_cards(tiled, millimetres) if isinstance(b, Cards)]
    assert [card.pieces[0].tag for card in block.cards[-5:]] == list(cards(tiled, millimetres))


def test_a_card_says_which_face_it_is_and_shows_it(tiled: Plan, millimetres: Catalogue) -> None:
    found = cards(tiled, millimetres)
    assert found["B-niche-left"].pieces[0].place == "niche, left side"
    for card in found.values():
        hatched = [i for i in card.picture.items if isinstance(i, Area) and i.layer == "cut"]
        assert len(hatched) == 1
        assert not any(item.layer == "keep" for item in card.picture.items)
        assert card.orders[0] == "FACE UP · ARROW UP"
        # What is measured from the top loses its bottom.
        ends = {mark.label.split()[1].rstrip(",") for mark in card.marks}
        waste = "RIGHT+BOTTOM" if "TOP" in ends else "RIGHT+TOP"
        assert card.orders[1] == f"Any offcut will do · waste {waste}"


def test_the_sill_has_two_figures_and_its_joints(tiled: Plan, millimetres: Catalogue) -> None:
    # The opening is 358.9 wide as fitted, less two gaps of 3, rounded down; 92 + 13 - 3 deep.
    sill = cards(tiled, millimetres)["B-niche-sill"]
    assert [mark.value for mark in sill.marks] == ["352", "102"]
    how, front = sill.notes
    assert how.startswith("Set first, falling to the front. Ends: 3 mm")
    assert how.endswith("Back edge: 3 mm to the bare back, lapped by the back's lining.")
    assert front.endswith("SHOWS ±2 mm")


def test_the_back_is_measured_in_place(tiled: Plan, millimetres: Catalogue) -> None:
    back = cards(tiled, millimetres)["B-niche-back"]
    assert back.warning == "MEASURE IN PLACE BEFORE CUTTING"
    assert {mark.value for mark in back.marks} == {"________"}
    assert len(back.notes) == 1


def test_a_side_is_longer_at_its_front(tiled: Plan, millimetres: Catalogue) -> None:
    found = cards(tiled, millimetres)
    left = [mark.value for mark in found["B-niche-left"].marks]
    right = [mark.value for mark in found["B-niche-right"].marks]
    # 267.998 and 265.873 by hand, rounded down so that it goes in.
    assert left == ["102", "267", "265"]
    assert right == ["102", "265", "267"]


def test_a_reveal_meets_its_frame(tiled: Plan, millimetres: Catalogue) -> None:
    window = replace(tiled.insides[0], kind="window")
    assert "3 mm sealed to the window's frame." in inside_notes(window, tiled, millimetres)[0]


def test_parts_of_a_face_are_told_apart(tiled: Plan, millimetres: Catalogue) -> None:
    face = tiled.insides[0]
    (piece,) = face.pieces
    both = replace(face, pieces=(piece, replace(piece, place=2)))
    assert inside_place(both, both.pieces[1], millimetres) == "niche, sill, course 1, piece 2"


def test_a_turned_piece_says_how_it_hangs(tiled: Plan, millimetres: Catalogue) -> None:
    face = tiled.insides[0]
    (piece,) = face.pieces
    turned = replace(face, pieces=(replace(piece, turn=90),))
    plan = replace(tiled, insides=(turned, *tiled.insides[1:]))
    assert "Hangs turned, the arrow to the left" in cards(plan, millimetres)[piece.tag].orders


def from_a_module(plan: Plan, piece: Piece) -> Plan:
    """The same plan with the sill made so, and cut from a module of its own."""
    (stock,) = (s for s in plan.cuts.stock if any(p.tag == piece.tag for p in s.pieces))
    placed = {mine: [p for p in stock.pieces if (p.tag == piece.tag) == mine] for mine in (0, 1)}
    others, own = (replace(stock, id=f"M-{n}", pieces=tuple(placed[n])) for n in (0, 1))
    own = replace(own, pieces=(replace(own.pieces[0], blank=None),))
    kept = (s for s in plan.cuts.stock if s is not stock)
    sill = replace(plan.insides[0], pieces=(piece,))
    cuts = replace(plan.cuts, stock=(*kept, others, own))
    return replace(plan, insides=(sill, *plan.insides[1:]), cuts=cuts)


def test_a_piece_of_a_whole_module_is_measured_from_its_edges(
    tiled: Plan, millimetres: Catalogue
) -> None:
    (piece,) = tiled.insides[0].pieces
    orders = cards(from_a_module(tiled, piece), millimetres)[piece.tag].orders
    said = "Any offcut will do · waste RIGHT+BOTTOM"
    assert orders == ("FACE UP · ARROW UP", said)


def test_a_tongue_comes_off_a_whole_module(tiled: Plan, millimetres: Catalogue) -> None:
    (piece,) = tiled.insides[0].pieces
    top = replace(piece.edges[0], side="top", kind="tongue off")
    tongued = replace(piece, edges=(top, *piece.edges[1:]))
    orders = cards(from_a_module(tiled, tongued), millimetres)[piece.tag].orders
    assert orders[2:] == ("Tongue off: TOP. The face edge stays",)
