"""What always holds of drawings: texts apart and on the sheet, figures those of the plan.

Where texts stand is read off the SVG by the widths of the font that the paper carries; which
figures must stand there is worked out from ``plan.json`` by a rounding of the test's own.
"""

import json
import re
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import floor
from typing import Any, TypeAlias

import shapely
from hypothesis import given
from hypothesis import strategies as st
from tests.checkers.letters import faults
from tests.checkers.setter import read_figure
from tests.property.plans import SHOWN, drawn_plan, over_plans
from tests.property.test_marks_literal import LITERAL, Drawn, drawn, stocked

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Display
from gaugerod.core.job.readings import Lean, Reading
from gaugerod.core.job.sample import sample_system
from gaugerod.core.pipeline import Plan
from gaugerod.core.sheet.drawing import Dimension, Drawing, Text
from gaugerod.core.sheet.elevation import draw_face
from gaugerod.core.sheet.small import draw_small
from gaugerod.core.survey.closures import closures
from gaugerod.packet.cards import card_of, cut_cards
from gaugerod.packet.module_cuts import module_cuts
from gaugerod.packet.paper import Beside, Cards, Picture
from gaugerod.packet.picture import picture
from gaugerod.packet.survey import survey_drawings, survey_paper
from gaugerod.packet.walls import elevation, elevations
from gaugerod.writers.pdf import LINE
from gaugerod.writers.plan_json import plan_json

Raw: TypeAlias = dict[str, Any]

NEAR = Fraction(1, 10**6)  # [mm]; a tie of a float counts as the tie


def drawings(plan: Plan, words: Catalogue) -> Iterator[Drawing]:
    """Every drawing of a plan."""
    for wall in plan.walls.walls:
        yield elevation(plan, wall, words)
        yield draw_face(wall, plan.layout, plan.pieces, words)
    yield from survey_drawings(plan.job, plan.walls, words)
    yield draw_small("small", plan.walls, plan.pieces, words)
    yield picture(plan, words)
    for block in module_cuts(plan, words):
        if isinstance(block, Beside):
            cells = (inner for cell in block.cells for inner in cell)
            yield from (inner.drawing for inner in cells if isinstance(inner, Picture))
    for block in cut_cards(plan, words):
        if isinstance(block, Cards):
            yield from (card.picture for card in block.cards)


def step_of(display: Display) -> Fraction:
    return Fraction(127, 80) if display.system == "imperial" else Fraction(1)


def rounded(mm: float, display: Display) -> Fraction:
    """Round to the nearest sixteenth or millimetre, half a step away from zero. [mm]."""
    step = step_of(display)
    steps = floor(abs(Fraction(mm)) / step + Fraction(1, 2) + NEAR)
    return steps * step if mm > 0 else -steps * step


def read(text: str) -> Fraction:
    """Read a figure exactly. [mm]."""
    return Fraction(read_figure(text.removesuffix(" mm"))).limit_denominator(80)


def document(plan: Plan, words: Catalogue) -> Raw:
    found: Raw = json.loads(plan_json(plan, words, version="0"))
    return found


def chains(drawing: Drawing) -> list[list[Fraction]]:
    """The figures of each row of dimensions, in their order."""
    rows: dict[tuple[bool, float], list[Fraction]] = {}
    for item in drawing.items:
        if isinstance(item, Dimension):
            (x0, y0), (x1, _) = item.line
            level = x0 != x1
            rows.setdefault((level, round(y0 if level else x0, 6)), []).append(
                read(item.label.text)
            )
    return list(rows.values())


def parts(stations: Sequence[float], display: Display) -> list[Fraction]:
    marks = [rounded(station, display) for station in stations]
    return [after - before for before, after in pairwise(marks)]


def level(raw: Raw, wall: Raw) -> list[float]:
    """Corner, left edges of the modules of the lowest course, corner, at the datum. [mm]."""
    line = shapely.LineString([(-1e5, 0), (1e5, 0)])
    left, _, right, _ = shapely.Polygon(wall["outline"]).intersection(line).bounds
    mine = [piece for piece in raw["pieces"] if piece["wall"] == wall["name"]]
    lowest = min(piece["course"] for piece in mine)
    joints = {piece["cell"][0] for piece in mine if piece["course"] == lowest}
    return [left, *sorted(x for x in joints if left + 0.02 < x < right - 0.02), right]


def plumb(raw: Raw, wall: Raw) -> list[float]:
    """Lowest point of the deck, every course line, finish line. [mm]."""
    layout = raw["layout"]
    (top,) = (one["top"] for one in layout["walls"] if one["name"] == wall["name"])
    lines = [layout["first_course"] + n * layout["pitch"][1] for n in range(60)]
    return [min(y for _, y in wall["outline"]), *(y for y in lines if y < top - 0.02), top]


# --- the laws ----------------------------------------------------------------------------------


@over_plans
@given(data=st.data())
def test_no_text_is_over_another_or_off_the_sheet(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan = drawn_plan(data, family)
    for drawing in drawings(plan, SHOWN[unit]):
        assert faults(drawing) == [], drawing.name


POINT, CAPITALS = 25.4 / 72, 0.727
"""A point of type, and the family's capitals in their size. [mm, 1]"""


def measured_by(drawing: Drawing) -> Iterator[Text]:
    """The figures of a wall; tags and names, which no one measures by, may be smaller."""
    for item in drawing.items:
        if isinstance(item, Dimension):
            yield item.label
        elif isinstance(item, Text) and re.search(r"\d", item.text) and item.layer != "tag":
            yield item


@over_plans
@given(data=st.data())
def test_figures_of_walls_are_printed_in_ten_points_and_up(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    survey = survey_paper(plan.job, closures(plan.job), plan.walls, (), words)
    blocks = (*elevations(plan, words), *survey.sections)
    pictures = [block for block in blocks if isinstance(block, Picture)]
    assert len(pictures) == 6
    for block in pictures:
        box = block.drawing.bounds
        scale = min(LINE, block.height * box.width / box.height) / box.width
        sizes = [one.height * scale / CAPITALS / POINT for one in measured_by(block.drawing)]
        assert min(sizes) >= 10, block.drawing.name


@LITERAL
@given(drawn(), st.sampled_from(list(SHOWN)))
def test_no_figure_of_a_cut_is_over_another(found: Drawn, unit: str) -> None:
    cutting = sample_system().cutting
    sources = stocked(found.piece, found.blank)
    card = card_of(found.piece, "", (), sources, SHOWN[unit], cutting=cutting)
    assert faults(card.picture) == []


@over_plans
@given(data=st.data())
def test_chains_of_an_elevation_are_differences_of_stations_rounded_once(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    raw, display = document(plan, words), words.display
    for wall, fitted in zip(raw["walls"], plan.walls.walls, strict=True):
        across, up = (parts(of(raw, wall), display) for of in (level, plumb))
        found = chains(elevation(plan, fitted, words))
        assert found == [across, [sum(across)], up, [sum(up)]]
        face = chains(draw_face(fitted, plan.layout, plan.pieces, words))
        assert face == [[sum(across)], [sum(up)]]


@over_plans
@given(data=st.data())
def test_every_other_figure_of_an_elevation_is_a_course_line_or_a_tag(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    raw = document(plan, words)
    first, (_, pitch) = raw["layout"]["first_course"], raw["layout"]["pitch"]
    for wall, fitted in zip(raw["walls"], plan.walls.walls, strict=True):
        mine = [piece for piece in raw["pieces"] if piece["wall"] == wall["name"]]
        tags = Counter(one["tag"] + "*" * one["measure_in_place"] for one in mine)
        named = {one["name"] for kind in ("openings", "holes") for one in wall[kind]}
        texts = [t.text for t in elevation(plan, fitted, words).items if isinstance(t, Text)]
        lines = [re.fullmatch(r"(\d+)  ([↑↓]) (.+)", text) for text in texts]
        for found in filter(None, lines):
            height = rounded(first + (int(found[1]) - 1) * pitch, words.display)
            assert height == read(found[3]) * (1 if found[2] == "↑" else -1)
        others = [text for text, line in zip(texts, lines, strict=True) if not line]
        assert Counter(text for text in others if text not in named) == tags + Counter(["datum"])


SAID = {"deck": "↓ ", "floor": "floor ↓ ", "ceiling": "↑ "}


def said(reading: Reading, display: Display) -> tuple[str, Fraction]:
    """What a reading is to say on the drawing: words, and its figure."""
    reads = rounded(reading.reads, display)
    if isinstance(reading, Lean):
        return ("plumb" if not reading.reads else "in" if reading.reads > 0 else "out"), abs(reads)
    plumb_from = getattr(reading, "start", "") == "datum"
    if plumb_from:
        return ("↑ " if reading.reads >= 0 else "↓ "), abs(reads)
    return SAID.get(reading.kind, ""), reads


def written(text: str) -> tuple[str, Fraction, int]:
    """Read a label of the survey drawing: words, figure, number of times."""
    text = re.sub(r"^[A-Z]( [A-Z])*: ", "", text)
    text, _, times = text.partition(" × ")
    if found := re.fullmatch(r"(in|out) (.+) / .+|(plumb) / .+", text):
        return found[1] or found[3], read(found[2] or "0"), int(times or 1)
    words, figure = re.fullmatch(r"((?:floor )?(?:[↑↓] )?)(.+)", text).groups()  # type: ignore[union-attr]  # a label that does not match is to fail here
    return words, read(figure), int(times or 1)


@over_plans
@given(data=st.data())
def test_every_figure_of_the_survey_drawing_is_a_reading_rounded_once(
    data: st.DataObject, family: str, unit: str
) -> None:
    plan, words = drawn_plan(data, family), SHOWN[unit]
    for wall, drawing in zip(
        plan.job.wall, survey_drawings(plan.job, plan.walls, words), strict=True
    ):
        named = {hole.name for hole in wall.hole} | {one.name for one in wall.opening}
        texts = [item.text for item in drawing.items if isinstance(item, Text)]
        told: Counter[tuple[str, Fraction]] = Counter()
        for text in texts:
            if text not in named | {"datum"} and not text.startswith("lean, bow and fall"):
                way, figure, times = written(text)
                told[way, figure] += times
        assert told == Counter(said(reading, words.display) for reading in wall.readings)
