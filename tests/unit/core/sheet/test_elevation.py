from collections import Counter
from dataclasses import replace
from itertools import combinations

import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.base.lengths import IMPERIAL, METRIC, Display, parse_length
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.sample import sample_tile
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.sheet.accents import Sign
from gaugerod.core.sheet.drawing import Area, Dimension, Drawing, Line, Text
from gaugerod.core.sheet.elevation import draw_elevation, draw_face, level_stations
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall


def drawn(words: Catalogue) -> Drawing:
    return draw_elevation(sample_wall(), sample_layout(), sample_pieces(), words)


def texts(drawing: Drawing) -> list[Text]:
    found = [item for item in drawing.items if isinstance(item, Text)]
    return found + [item.label for item in drawing.items if isinstance(item, Dimension)]


def overlap(a: Box, b: Box) -> bool:
    return a.left < b.right and b.left < a.right and a.bottom < b.top and b.bottom < a.top


def test_every_piece_is_drawn_and_the_cut_ones_apart(words: Catalogue) -> None:
    layers = Counter(item.layer for item in drawn(words).items if isinstance(item, Area))
    assert (layers["piece"], layers["cut"], layers["outline"], layers["opening"]) == (2, 12, 1, 1)


def test_every_piece_has_its_tag(words: Catalogue) -> None:
    said = {text.text for text in texts(drawn(words)) if text.layer == "tag"}
    assert said == {piece.tag for piece in sample_pieces()}


def test_a_tag_says_what_is_measured_in_place(words: Catalogue) -> None:
    pieces = (replace(sample_pieces()[0], measure_in_place=True),)
    drawing = draw_elevation(sample_wall(), sample_layout(), pieces, words)
    assert [text.text for text in texts(drawing) if text.layer == "tag"] == ["B1-1*"]


def test_trims_are_drawn_along_their_lines(words: Catalogue) -> None:
    run = ((14.0, -247.0), (14.0, 300.0), (14.0, 640.0))
    layout, pieces = sample_layout(), sample_pieces()
    drawing = draw_elevation(sample_wall(), layout, pieces, words, trims=(run,))
    trims = [item for item in drawing.items if item.layer == "trim"]
    assert [item.end for item in trims if isinstance(item, Line)] == list(run[1:])


@pytest.mark.parametrize("display", [METRIC, IMPERIAL])
def test_figures_of_a_wide_wall_come_out_at_ten_points(words: Catalogue, display: Display) -> None:
    """A wall of 2100 by 890 mm fills the 182 mm of a line; ten points have capitals of 2.56 mm.

    A wall twice as wide is drawn half as large, with the same figures: its width plays no part.
    """
    layout = replace(sample_layout(), first_course=38.9)  # 1 1/2, 13 5/16 and 25 1/8 in
    shown = replace(words, display=display)
    drawing = draw_elevation(sample_wall(), layout, sample_pieces(), shown)
    share = 182.0 / drawing.bounds.width
    measured = [text.height * share for text in texts(drawing) if text.layer != "tag"]
    assert min(measured) >= 10 * 25.4 / 72 * 0.727


@pytest.mark.parametrize("display", [METRIC, IMPERIAL])
def test_no_two_texts_overlap(words: Catalogue, display: Display) -> None:
    boxes = [text_box(text) for text in texts(drawn(replace(words, display=display)))]
    assert [pair for pair in combinations(boxes, 2) if overlap(*pair)] == []


@pytest.mark.parametrize("display", [METRIC, IMPERIAL])
@pytest.mark.parametrize("level", [True, False])
def test_parts_sum_to_their_overall(words: Catalogue, display: Display, *, level: bool) -> None:
    drawing = drawn(replace(words, display=display))
    row = [
        parse_length(item.label.text, unit="mm")
        for item in drawing.items
        if isinstance(item, Dimension) and (item.start[1] == item.end[1]) == level
    ]
    *parts, whole = row
    assert len(parts) == (5 if level else 3)
    assert sum(parts) == whole


def test_the_bounds_hold_every_text(words: Catalogue) -> None:
    drawing = drawn(words)
    for box in map(text_box, texts(drawing)):
        assert box.left > drawing.bounds.left
        assert box.right < drawing.bounds.right
        assert drawing.bounds.bottom < box.bottom < box.top < drawing.bounds.top


def test_only_the_wall_s_own_pieces_are_drawn(words: Catalogue) -> None:
    other = tuple(replace(piece, wall="R") for piece in sample_pieces())
    drawing = draw_elevation(sample_wall(), sample_layout(), other, words)
    assert [text for text in texts(drawing) if text.layer == "tag"] == []


def test_a_bare_wall_has_its_corners_for_stations() -> None:
    assert level_stations(sample_wall(), ()) == (0.0, 2100.0)


def test_a_face_shows_joints_and_two_dimensions(words: Catalogue) -> None:
    drawing = draw_face(sample_wall(), sample_layout(), sample_pieces(), words)
    layers = Counter(item.layer for item in drawing.items)
    assert (layers["piece"], layers["cut"], layers["tag"]) == (14, 0, 0)
    assert [text.text for text in texts(drawing) if text.layer == "dimension"] == ["2100", "890"]


def test_a_pattern_is_dimensioned_to_the_plumb_line_it_is_struck_from(words: Catalogue) -> None:
    """Crossings stand 300 root 2 apart, every second row half way between."""
    square = sample_tile().model_copy(update={"face": (297.0, 297.0)})
    layout = sample_layout()
    (wall,) = layout.walls
    diagonal = pattern_of(square, "diagonal", "lying")
    struck = replace(layout, pattern=diagonal, walls=(replace(wall, phase=600.0),))
    drawing = draw_elevation(sample_wall(), struck, sample_pieces(), words)
    # The wall is 2100 wide; two columns on, the line stands at 600 + 300 root 2 = 1024.
    lines = [item.start[0] for item in drawing.items if isinstance(item, Line) and plumb(item)]
    assert lines == pytest.approx([600.0 + 300.0 * 2**0.5])
    level = [item for item in drawing.items if isinstance(item, Dimension) and not plumb(item)]
    assert [round(item.end[0] - item.start[0]) for item in level] == [1024, 1076, 2100]


def plumb(item: Line | Dimension) -> bool:
    return item.layer in {"course", "dimension"} and abs(item.start[0] - item.end[0]) < 1e-6


# --- several products ---------------------------------------------------------------------------

SIGNS = {"sample": Sign(letter="", name="Plain"), "blue": Sign(letter="X", name="Blue module")}


def banded(course: int) -> tuple[Piece, ...]:
    return tuple(
        replace(piece, product="blue") if piece.course == course else piece
        for piece in sample_pieces()
    )


def test_what_is_of_another_product_is_dotted_and_has_its_letter(words: Catalogue) -> None:
    pieces = banded(2)
    drawing = draw_elevation(sample_wall(), sample_layout(), pieces, words, signs=SIGNS)
    items = [item for item in drawing.items if item.layer == "accent"]
    dots = [item.region for item in items if isinstance(item, Area)]
    blue = [piece for piece in pieces if piece.product == "blue"]
    # One more is the swatch of the legend.
    assert dots[:-1] == [piece.region for piece in blue]
    said = {text.text for text in texts(drawing) if text.layer == "tag"}
    assert said == {"X", *(f"{p.tag} X" if p in blue else p.tag for p in pieces)}
    assert {"Plain", "Blue module"} <= {text.text for text in texts(drawing)}


def test_a_legend_lies_over_all_else_and_in_the_bounds(words: Catalogue) -> None:
    plain = drawn(words)
    drawing = draw_elevation(sample_wall(), sample_layout(), banded(2), words, signs=SIGNS)
    (name,) = (text for text in texts(drawing) if text.text == "Blue module")
    assert text_box(name).bottom > plain.bounds.top - name.height
    assert text_box(name).top < drawing.bounds.top
    boxes = [text_box(text) for text in texts(drawing)]
    assert [pair for pair in combinations(boxes, 2) if overlap(*pair)] == []


def test_a_wall_of_the_main_product_alone_has_no_legend(words: Catalogue) -> None:
    pieces, layout = sample_pieces(), sample_layout()
    assert draw_elevation(sample_wall(), layout, pieces, words, signs=SIGNS) == drawn(words)


def test_a_face_shows_the_products_too(words: Catalogue) -> None:
    drawing = draw_face(sample_wall(), sample_layout(), banded(1), words, signs=SIGNS)
    blue = [piece for piece in banded(1) if piece.product == "blue"]
    assert sum(item.layer == "accent" for item in drawing.items) == len(blue) + 1
    assert "Blue module" in {text.text for text in texts(drawing)}
