"""What is written can be read again: one element, layers as groups, texts as text."""

import re
from collections import Counter
from dataclasses import replace
from xml.etree import ElementTree as ET

import pytest
from tests.fixtures_plan import MILLIMETRES, words_in

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.sheet.drawing import Area, Circle, Dimension, Drawing, Item, Line, Text, Turn
from gaugerod.core.sheet.elevation import draw_elevation
from gaugerod.core.sheet.sample import sample_layout, sample_pieces, sample_wall
from gaugerod.writers.svg import BLACK, CAPITALS, CHALK, GRAPHITE, OCHRE, PAPER, shade, svg

SVG = "{http://www.w3.org/2000/svg}"
SQUARE = Region(rings=(((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)),))


def drawing(*items: Item) -> Drawing:
    bounds = Box(left=-50.0, bottom=-20.0, right=150.0, top=80.0)
    return Drawing(name="sample", title="Sample", bounds=bounds, items=items)


def text(content: str, *, turn: Turn = 0) -> Text:
    return Text(layer="tag", at=(10.0, 20.0), text=content, height=8.0, anchor="middle", turn=turn)


def read(*items: Item, width_mm: float = 180) -> ET.Element:
    return ET.fromstring(svg(drawing(*items), width_mm=width_mm))  # noqa: S314  (our own output)


def only(root: ET.Element, tag: str) -> ET.Element:
    (found,) = root.iter(f"{SVG}{tag}")
    return found


def elevation() -> ET.Element:
    drawn = draw_elevation(sample_wall(), sample_layout(), sample_pieces(), words_in(MILLIMETRES))
    return ET.fromstring(svg(drawn))  # noqa: S314  (our own output)


def test_the_picture_is_as_wide_as_asked_and_keeps_its_shape() -> None:
    root = read(width_mm=90)
    assert (root.get("width"), root.get("height")) == ("90mm", "45mm")
    assert root.get("viewBox") == "0 0 200 100"


def test_it_has_a_title_for_those_who_listen() -> None:
    root = read()
    assert root.get("role") == "img"
    assert only(root, "title").text == "Sample"


def test_y_runs_down_from_the_top_of_the_bounds() -> None:
    line = only(read(Line(layer="datum", start=(-50.0, 80.0), end=(150.0, -20.0))), "line")
    assert [line.get(key) for key in ("x1", "y1", "x2", "y2")] == ["0", "0", "200", "100"]


def test_an_area_keeps_its_holes() -> None:
    hole = ((40.0, 20.0), (40.0, 30.0), (60.0, 30.0), (60.0, 20.0))
    region = Region(rings=(*SQUARE.rings, hole))
    group = read(Area(layer="piece", region=region)).findall(f".//{SVG}g/{SVG}path")
    assert group[0].get("d") == ("M50 80L150 80L150 30L50 30Z M90 60L90 50L110 50L110 60Z")
    assert group[0].get("fill-rule") == "evenodd"


def test_a_circle_has_its_radius() -> None:
    circle = only(read(Circle(layer="hole", centre=(0.0, 0.0), diameter=76.5)), "circle")
    assert [circle.get(key) for key in ("cx", "cy", "r")] == ["50", "80", "38.25"]


def test_capitals_are_as_high_as_the_drawing_says() -> None:
    element = only(read(text("B2-1")), "text")
    assert element.text == "B2-1"
    assert float(str(element.get("font-size"))) * CAPITALS == pytest.approx(8.0, abs=0.01)
    assert (element.get("x"), element.get("y")) == ("60", "64")  # half a capital below its middle


def test_a_fraction_of_an_inch_is_one_larger_run_that_stands_lower() -> None:
    """Capitals of 8: a fraction of 10.4 reaches 1.2 under the line and as far over them."""
    element = only(read(text('23 15/16"')), "text")
    assert "".join(element.itertext()) == '23 15⁄16"'
    fraction, sign = element.iter(f"{SVG}tspan")
    assert (element.text, fraction.text, sign.text) == ("23 ", "15⁄16", '"')
    assert (fraction.get("dy"), sign.get("dy")) == ("1.2", "-1.2")
    assert float(str(fraction.get("font-size"))) * CAPITALS == pytest.approx(10.4, abs=0.01)


@pytest.mark.parametrize("said", ["1/2/2026", "B1/2", "3/16", "and/or", '7/7"'])
def test_only_fractions_of_an_inch_are_set_as_such(said: str) -> None:
    element = only(read(text(said)), "text")
    assert (element.text, list(element)) == (said, [])


def test_two_fractions_in_one_text_stand_on_one_line() -> None:
    element = only(read(text('1/8" × 15/16"')), "text")
    assert "".join(element.itertext()) == '1⁄8" × 15⁄16"'
    moves = [float(str(span.get("dy"))) for span in element.iter(f"{SVG}tspan")]
    assert moves == [1.2, -1.2, 1.2, -1.2]


def test_a_text_turns_anticlockwise_about_its_anchor() -> None:
    assert only(read(text("B2-1", turn=90)), "text").get("transform") == "rotate(-90 60 60)"


def test_what_a_user_writes_stays_text() -> None:
    root = read(text('<script>&"'))
    assert only(root, "text").text == '<script>&"'
    assert root.findall(f".//{SVG}script") == []


def test_a_dimension_has_its_line_its_ends_and_its_text() -> None:
    row = Dimension(
        layer="dimension", start=(0.0, 0.0), end=(100.0, 0.0), offset=-10.0, label=text("100")
    )
    root = read(replace(row, label=replace(row.label, layer="dimension")))
    lines = [
        tuple(float(str(line.get(key))) for key in ("x1", "y1", "x2", "y2"))
        for line in root.iter(f"{SVG}line")
    ]
    assert (50.0, 90.0, 150.0, 90.0) in lines
    assert len(lines) == 5
    assert only(root, "text").text == "100"


def test_each_layer_is_a_group_with_its_class() -> None:
    groups = [group.get("class") for group in elevation().iter(f"{SVG}g")]
    assert {"piece", "cut", "outline", "datum", "course", "dimension", "tag"} <= set(groups)


def test_every_piece_is_one_shape_and_every_tag_one_text() -> None:
    root = elevation()
    shapes = Counter(
        group.get("class") for group in root.iter(f"{SVG}g") for _ in group.iter(f"{SVG}path")
    )
    assert (shapes["piece"], shapes["cut"]) == (2, 12)
    said = {element.text for element in root.iter(f"{SVG}text")}
    assert {piece.tag for piece in sample_pieces()} <= said


def test_cut_pieces_differ_without_colour() -> None:
    fills = {group.get("class"): group.get("fill") for group in elevation().iter(f"{SVG}g")}
    assert fills["piece"] == "none"
    assert fills["cut"] == "url(#elevation-B-cut)"
    patterns = [pattern.get("id") for pattern in elevation().iter(f"{SVG}pattern")]
    assert "elevation-B-cut" in patterns


def test_there_are_three_colours_and_the_paper() -> None:
    drawn = svg(draw_elevation(sample_wall(), sample_layout(), (), words_in(MILLIMETRES)))
    assert set(re.findall(r"#[0-9a-f]{6}\b", drawn)) <= {CHALK, GRAPHITE, OCHRE, PAPER}


@pytest.mark.parametrize(("width_mm", "stroke"), [(200, "0.5"), (100, "1")])
def test_lines_are_as_heavy_on_paper_at_any_scale(width_mm: float, stroke: str) -> None:
    outline = Area(layer="outline", region=SQUARE)
    groups = read(outline, width_mm=width_mm).findall(f"{SVG}g")
    assert groups[0].get("stroke-width") == stroke


def test_nought_has_no_sign() -> None:
    line = Line(layer="datum", start=(-50.0 - 1e-9, 80.0 + 1e-9), end=(0.0, 0.0))
    assert only(read(line), "line").get("x1") == "0"


def test_the_same_drawing_gives_the_same_text() -> None:
    assert svg(drawing(text("B1"))) == svg(drawing(text("B1")))


def test_black_alone_has_no_colour() -> None:
    """Cut pieces keep their hatch, the datum its dashes."""
    items: list[Item] = [
        Area(layer="cut", region=SQUARE),
        Line(layer="datum", start=(0, 0), end=(9, 0)),
    ]
    coloured, black = (svg(drawing(*items), black=black) for black in (False, True))
    assert set(re.findall(r"#[0-9a-f]{6}", black)) == {"#000000"}
    assert {CHALK, OCHRE} <= set(re.findall(r"#[0-9a-f]{6}", coloured))
    assert black.count("stroke-dasharray") == coloured.count("stroke-dasharray")
    assert "url(#sample-cut)" in black


def filled(root: ET.Element) -> str | None:
    """The fill of the one area that is drawn."""
    (found,) = (path for path in root.iter(f"{SVG}path") if path.get("fill-rule"))
    return found.get("fill")


def test_an_area_with_a_tone_is_shaded_and_others_are_not() -> None:
    """A quarter of an ink of 51, 80, 107 on white: 255 - 204/4, 255 - 175/4, 255 - 148/4."""
    assert shade("#33506b", 0.25) == "#ccd3da"
    assert (shade(GRAPHITE, 0.0), shade(GRAPHITE, 1.0)) == (PAPER, GRAPHITE)
    toned = Area(layer="lining", region=SQUARE, tone=0.25)
    assert filled(read(toned)) == "#ccd3da"
    assert filled(read(replace(toned, tone=None))) is None


def test_in_black_alone_a_tone_is_a_grey() -> None:
    toned = drawing(Area(layer="lining", region=SQUARE, tone=0.4))
    root = ET.fromstring(svg(toned, black=True))  # noqa: S314  (our own output)
    assert filled(root) == shade(BLACK, 0.4) == "#999999"


@pytest.mark.parametrize("black", [False, True])
def test_another_product_is_dotted_in_colour_and_in_black(*, black: bool) -> None:
    written = svg(drawing(Area(layer="accent", region=SQUARE)), black=black)
    root = ET.fromstring(written)  # noqa: S314  (our own output)
    (pattern,) = (one for one in root.iter(f"{SVG}pattern") if one.get("id") == "sample-accent")
    (dot,) = pattern.iter(f"{SVG}rect")
    assert dot.get("fill") == (BLACK if black else GRAPHITE)
    (group,) = (one for one in root.iter(f"{SVG}g") if one.get("class") == "accent")
    assert group.get("fill") == "url(#sample-accent)"
