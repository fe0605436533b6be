"""Signs of several products, and the legend that tells them apart."""

from dataclasses import replace

from tests.two_colours import GREEN, PLAIN, SLATE, accented, products

from gaugerod.core.base.geometry import Box
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.sheet.accents import Sign, Signs, legend, signs_of
from gaugerod.core.sheet.drawing import Item, Text
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.sample import sample_pieces

WALLS = ("L", "B", "R")
TWO = products(accented(SLATE, courses=(1,)), accented(GREEN, courses=(2,)))


def of(*ids: str) -> tuple[Piece, ...]:
    return tuple(replace(sample_pieces()[0], product=product) for product in ids)


def entries(items: list[Item]) -> list[str]:
    return [item.text for item in items if isinstance(item, Text)]


def shown(*ids: str, width: float = 1000.0, signs: Signs | None = None) -> list[Item]:
    box = Box(left=0.0, bottom=0.0, right=width, top=500.0)
    found = signs_of(TWO, WALLS) if signs is None else signs
    return list(legend(of(*ids), found, PLAIN.id, around=box, height=10.0))


def test_one_product_has_no_sign() -> None:
    assert signs_of(products(), WALLS) == {}
    assert signs_of(products(accented(PLAIN, courses=(2,))), WALLS) == {}


def test_the_main_product_has_no_letter() -> None:
    assert signs_of(TWO, WALLS) == {
        "tile": Sign(letter="", name="Sample tile"),
        "slate": Sign(letter="X", name="Slate tile"),
        "green": Sign(letter="Y", name="Green tile"),
    }


def test_a_legend_has_what_is_on_the_wall_and_no_more() -> None:
    assert shown("tile") == []
    assert entries(shown("tile", "slate")) == ["Sample tile", "X", "Slate tile"]
    assert entries(shown("green", "slate")) == ["X", "Slate tile", "Y", "Green tile"]
    dotted = [item.layer for item in shown("tile", "slate") if not isinstance(item, Text)]
    assert dotted == ["piece", "accent", "piece"]


def test_what_does_not_fit_beside_the_last_begins_a_row() -> None:
    wide = [item for item in shown("tile", "slate", "green") if isinstance(item, Text)]
    assert len({text.at[1] for text in wide}) == 1
    narrow = [i for i in shown("tile", "slate", "green", width=200.0) if isinstance(i, Text)]
    rows = sorted({text.at[1] for text in narrow})
    assert len(rows) == 3
    assert [text.at[1] for text in narrow if text.text == "Sample tile"] == rows[-1:]
    tops = [max(text_box(t).top for t in narrow if t.at[1] == row) for row in rows]
    feet = [min(text_box(t).bottom for t in narrow if t.at[1] == row) for row in rows]
    assert all(top < foot for top, foot in zip(tops, feet[1:], strict=False))
