"""Every figure on the paper is a number of ``plan.json``, and off it by no more than one rounding.

Read from the text of the PDF, as a crew reads it; rounded by the test's own hand.
"""

import re
from collections.abc import Iterator
from typing import Any, TypeAlias

import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.printed import PrintedCard, text_of
from tests.checkers.setter import read_figure
from tests.property.plans import SHOWN, drawn_plan, over_plans
from tests.property.test_drawing_laws import document, rounded, step_of
from tests.property.test_drawing_laws import read as read_exactly
from tests.property.test_printed_cards import read

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Dimension
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.paper import Cards
from gaugerod.packet.phrases import paper
from gaugerod.packet.walls import gauge_rod, holes
from gaugerod.writers.pdf import pdf
from gaugerod.writers.svg import svg

Raw: TypeAlias = dict[str, Any]

FIGURE = {
    "inches": r'((?:\d+ \d+/\d+|\d+/\d+|\d+)")',
    "millimetres": r"(\d+ mm)",
}
NOISE = 1e-3


def printed(plan: Plan, words: Catalogue) -> str:
    """The gauge rod and the hole sheet, as they are read."""
    blocks = (*gauge_rod(plan, words), *holes(plan, words))
    return text_of(pdf(paper("Rod", plan.job, blocks, words, revision=1, size=None), draw=svg))


def across(wall: Raw, height: float) -> tuple[float, float]:
    """Where the edges of a wall are at a height. [mm]."""
    line = shapely.LineString([(-1e5, height), (1e5, height)])
    left, _, right, _ = shapely.Polygon(wall["outline"]).intersection(line).bounds
    return left, right


@over_plans
@given(data=st.data())
def test_the_gauge_rod_is_rounded_once_from_the_datum(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    raw, display = document(plan, words), words.display
    deck = min(y for wall in raw["walls"] for _, y in wall["outline"])
    layout, figure = raw["layout"], FIGURE[unit]
    heights = {
        f"Top of course {n + 1}": layout["first_course"] + n * layout["pitch"][1] for n in range(60)
    }
    heights = {name: y for name, y in heights.items() if y < layout["top"] - 0.02}
    heights |= {"Finish line": layout["top"], "Low point of the deck": deck}
    row = rf"({'|'.join(heights)}) {figure} (above|below) {figure}"
    found = re.findall(row, printed(plan, words))
    assert [name for name, *_ in found] == sorted(heights, key=heights.__getitem__, reverse=True)
    for name, from_datum, way, from_deck in found:
        mark = rounded(heights[name], display)
        assert read_exactly(from_datum) * (1 if way == "above" else -1) == mark
        # As on the elevations: the difference of two marks.
        assert read_exactly(from_deck) == mark - rounded(deck, display)


@over_plans
@given(data=st.data())
def test_the_hole_sheet_is_rounded_once_from_edges_and_datum(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    raw, figure = document(plan, words), FIGURE[unit]
    tags = r"((?:[LBR](?:\d+-\d+)? )+)"
    row = re.compile(rf"(\w+) {tags}{figure} {figure} {figure} (above|below) {figure}")
    drilled = {hole["name"]: (wall, hole) for wall in raw["walls"] for hole in wall["holes"]}
    found = row.findall(printed(plan, words)) if drilled else []
    assert [name for name, *_ in found] == list(drilled)
    for name, where, from_left, from_right, from_datum, way, drill in found:
        wall, hole = drilled[name]
        left, right = across(wall, hole["y"])
        up = hole["y"] if way == "above" else -hole["y"]
        exact = (hole["x"] - left, right - hole["x"], up, hole["diameter"])
        for said, mm in zip((from_left, from_right, from_datum, drill), exact, strict=True):
            assert read_exactly(said) == rounded(mm, words.display)
        own = [p["tag"] for p in raw["pieces"] if name in {one["name"] for one in p["holes"]}]
        assert where.split() == (own or [wall["name"]])


def figures(card: PrintedCard) -> Iterator[tuple[str, float]]:
    """Each figure of a card, with the edge that it starts from; beyond the edge it is negative."""
    for mark in card.card.marks:
        way, side, _ = re.fullmatch(r"(From|Beyond) ([A-Z]+), (.+)", mark.label).groups()  # type: ignore[union-attr]  # a label that does not match is to fail here
        yield side.lower(), read_figure(mark.value) * (1 if way == "From" else -1)
    for point in card.card.points:
        for mark in (point.across, point.up):
            side = mark.label.removeprefix("beyond ")
            yield side.lower(), read_figure(mark.value) * (1 if side == mark.label else -1)


@over_plans
@given(data=st.data())
def test_figures_of_a_card_are_those_of_the_plan_within_one_rounding(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    raw, step = document(plan, words), float(step_of(words.display)) + NOISE
    pieces = {piece["tag"]: piece for piece in raw["pieces"]}
    holes_at = {
        (wall["name"], hole["name"]): (hole["x"], hole["y"])
        for wall in raw["walls"]
        for hole in wall["holes"]
    }
    for card in read(plan, unit)[0]:
        for tag, *part in card.pieces:
            piece = pieces[tag]
            # What is marked on a part of a module is measured from edges that the plan knows not.
            if any(part) or piece["measure_in_place"]:
                continue
            known = [(mark["from"], mark["value"]) for mark in piece["marks"]]
            known += bitten(piece, holes_at)
            for side, value in figures(card):
                assert any(side == s and abs(value - v) <= step for s, v in known)


def bitten(piece: Raw, holes_at: dict[tuple[str, str], tuple[float, float]]) -> Iterator[Any]:
    """Centres of the holes of its wall, from each edge of the module of a piece. [mm]."""
    left, bottom, right, top = piece["cell"]
    for (wall, _), (x, y) in holes_at.items():
        if wall == piece["wall"]:
            off = [x - left, y - bottom, right - x, top - y]
            sides = ["left", "bottom", "right", "top"]
            # Turned a quarter, the module's right points up.
            turned = ["top", "left", "bottom", "right"]
            yield from zip(turned if piece["turn"] == 90 else sides, off, strict=True)


@over_plans
@given(data=st.data())
def test_the_picture_of_a_card_has_no_figure_that_the_card_has_not(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    (block,) = [block for block in cut_cards(plan, words) if isinstance(block, Cards)]
    for card in block.cards:
        shown = {item.label.text for item in card.picture.items if isinstance(item, Dimension)}
        assert shown <= {mark.value for mark in card.marks}
