"""What the papers of a job with several products say of each."""

from collections.abc import Iterable
from dataclasses import replace

import pytest
from tests.fixtures_plan import banded_plan

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.job.document import Accent
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Text
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.closing import materials
from gaugerod.packet.cover import cover
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import Beside, Block, Card, Cards, Paragraph, Picture, Table
from gaugerod.packet.products import besides, letters_told, modules_said, signs_in, where
from gaugerod.packet.walls import elevation


@pytest.fixture(scope="module")
def banded() -> Plan:
    return banded_plan()


def paragraphs(blocks: Iterable[Block]) -> list[str]:
    """Return the paragraphs, those of blocks that are kept together too."""
    found: list[str] = []
    for block in blocks:
        if isinstance(block, Paragraph):
            found.append(block.text)
        elif isinstance(block, Beside):
            found += paragraphs(inner for cell in block.cells for inner in cell)
    return found


def tables(blocks: Iterable[Block]) -> list[Table]:
    return [block for block in blocks if isinstance(block, Table)]


def cards(plan: Plan, words: Catalogue) -> list[Card]:
    return [card for b in cut_cards(plan, words) if isinstance(b, Cards) for card in b.cards]


def test_one_product_has_no_letters(tiled: Plan, millimetres: Catalogue) -> None:
    assert signs_in(tiled) == {}
    assert list(letters_told(tiled, millimetres)) == []
    assert list(besides(tiled, millimetres)) == []
    assert [said.key for said in modules_said(tiled)] == ["paper.modules"]


def test_every_row_is_told_with_its_letter(banded: Plan, millimetres: Catalogue) -> None:
    assert list(besides(banded, millimetres)) == [
        "Slate (X), course 3, 4 of every wall",
        "Small tile (Y), inside niche",
    ]
    (cells,) = (table.rows for table in tables(cover(banded, millimetres))[:1])
    assert "Slate (X), course 3, 4 of every wall" in {cell for row in cells for cell in row}
    offered = paragraphs(customer_paper(banded, millimetres).sections)
    assert "Besides, Small tile (Y), inside niche." in offered


@pytest.mark.parametrize(
    ("row", "said"),
    [
        ({"walls": ("B",)}, "wall B"),
        ({"walls": ("B", "R"), "courses": (2, 5)}, "course 2, 5 of wall B, R"),
        ({"courses": (1,)}, "course 1 of every wall"),
        ({"inside": "niche", "faces": ("sill", "back")}, "inside niche: sill, back"),
        ({"inside": "niche", "walls": ("L",)}, "inside L niche"),
    ],
)
def test_where_a_product_stands_in_words(
    millimetres: Catalogue, row: dict[str, object], said: str
) -> None:
    accent = Accent.model_validate({"material": "slate", **row})
    assert millimetres.say(where(accent)) == said


def test_the_main_product_in_a_row_has_no_letter(banded: Plan, millimetres: Catalogue) -> None:
    main = replace(banded.products.accented[0], system=banded.system)
    alone = replace(banded, products=replace(banded.products, accented=(main,)))
    (told,) = besides(alone, millimetres)
    assert told == f"{banded.system.name}, course 3, 4 of every wall"


def test_a_card_names_its_product_and_its_module_has_the_letter(
    banded: Plan, millimetres: Catalogue
) -> None:
    of = {piece.tag: piece.product for piece in banded.pieces}
    letters = {"slate": " X", "small": " Y", banded.system.id: ""}
    stock = {placed.tag: one for one in banded.cuts.stock for placed in one.pieces}
    seen = set()
    for card in cards(banded, millimetres):
        for piece in card.pieces:
            one = stock[piece.tag]
            product = of.get(piece.tag, "small")
            seen.add(product)
            assert one.product == product
            assert f"{one.id}{letters[product]}" in piece.source
            named = {"slate": "X = Slate", "small": "Y = Small tile"}.get(product)
            assert [line for line in card.orders if " = " in line] == ([named] if named else [])
    assert seen == set(letters)


def test_letters_are_told_before_the_cards(banded: Plan, millimetres: Catalogue) -> None:
    main = banded.system.name
    told = f"Modules of several products: without a letter {main}; X = Slate; Y = Small tile."
    assert told in paragraphs(cut_cards(banded, millimetres))


def test_many_small_pieces_inside_share_their_cards(banded: Plan, millimetres: Catalogue) -> None:
    inside = [piece for one in banded.insides for piece in one.pieces]
    found = [c for c in cards(banded, millimetres) if c.pieces[0].tag.startswith("B-niche")]
    assert len(inside) > len(found)
    tags = [piece.tag for card in found for piece in card.pieces]
    assert sorted(tags) == sorted(piece.tag for piece in inside)


def test_offcuts_are_kept_by_the_least_of_their_own_product(
    banded: Plan, millimetres: Catalogue
) -> None:
    kept = [
        offcut
        for stock in banded.cuts.stock
        if stock.product == "small"
        for offcut in stock.offcuts
        if min(offcut.size) >= 20
    ]
    saved = [line for c in cards(banded, millimetres) for p in c.pieces for line in p.leaves]
    assert kept
    assert all(any(one.id in line for line in saved) for one in kept)
    assert min(min(one.size) for one in kept) < banded.system.cutting.least


def test_parted_modules_have_their_letters(banded: Plan, millimetres: Catalogue) -> None:
    (beside,) = (b for b in module_cuts(banded, millimetres) if isinstance(b, Beside))
    parted = [stock for stock in banded.cuts.stock if stock.sequence]
    letters = {"slate": " X", "small": " Y", banded.system.id: ""}
    names = [f"{stock.id}{letters[stock.product]}" for stock in parted]
    assert any(name.endswith(" X") for name in names)
    for name, cell in zip(names, beside.cells, strict=True):
        (picture,) = (block for block in cell if isinstance(block, Picture))
        assert name in {item.text for item in picture.drawing.items if isinstance(item, Text)}


def test_what_must_be_on_site_is_counted_by_product(banded: Plan, millimetres: Catalogue) -> None:
    said = paragraphs(materials(banded, millimetres))
    for one in banded.order.products:
        name, boxes = banded.products.of(one.product).name, f"in {one.boxes} boxes of one lot."
        assert f"{name}: {one.modules} modules and {one.spares} spare, {boxes}" in said


def test_elevations_have_letters_and_a_legend(banded: Plan, millimetres: Catalogue) -> None:
    (back,) = (wall for wall in banded.walls.walls if wall.name == "B")
    drawing = elevation(banded, back, millimetres)
    said = [item.text for item in drawing.items if isinstance(item, Text)]
    slate = [p.tag for p in banded.pieces if p.wall == "B" and p.product == "slate"]
    assert {p.course for p in banded.pieces if p.product == "slate"} == {3, 4}
    assert all(
        any(text.split() == [tag, "X"] or text == f"{tag}* X" for text in said) for tag in slate
    )
    assert {"Slate", banded.system.name} <= set(said)
    # Nothing of the small tile is on this drawing: it stands inside the niche.
    assert "Small tile" not in said
