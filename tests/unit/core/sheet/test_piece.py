from collections import Counter
from dataclasses import replace

import pytest
import shapely
from tests.unit.core.sheet.cuts import CELL, NOTCH, TAPER, VALVE, edge, mark, piece

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Region, shape_of
from gaugerod.core.base.lengths import IMPERIAL
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.sheet.drawing import Area, Circle, Dimension, Drawing, Line, Text
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.piece import draw_piece
from gaugerod.core.survey.walls import FittedHole


def area(drawing: Drawing, layer: str) -> float:
    found = [item for item in drawing.items if isinstance(item, Area) and item.layer == layer]
    return sum(float(shape_of(item.region).area) for item in found)


def figures(drawing: Drawing) -> list[Dimension]:
    return [item for item in drawing.items if isinstance(item, Dimension)]


@pytest.mark.parametrize("cut", [TAPER, NOTCH])
def test_piece_and_waste_make_the_module(cut: Piece, words: Catalogue) -> None:
    drawing = draw_piece(cut, (), words)
    assert area(drawing, "piece") + area(drawing, "waste") == pytest.approx(600.0 * 300.0)


def test_a_notch_wastes_what_is_out(words: Catalogue) -> None:
    assert area(draw_piece(NOTCH, (), words), "waste") == pytest.approx(100.0 * 120.0)


def test_a_standing_piece_is_drawn_lying(words: Catalogue) -> None:
    """200 of 600 off at the left of the module: on the wall that is its foot."""
    standing = replace(
        TAPER,
        turn=90,
        cell=Box(left=0.0, bottom=0.0, right=300.0, top=600.0),
        region=Region(rings=(((0.0, 200.0), (300.0, 200.0), (300.0, 600.0), (0.0, 600.0)),)),
    )
    drawing = draw_piece(standing, (), words)
    (outline,) = [i for i in drawing.items if isinstance(i, Area) and i.layer == "piece"]
    assert shape_of(outline.region).equals(shapely.box(200, 0, 600, 300))


def test_a_taper_shows_both_figures_from_the_kept_side(words: Catalogue) -> None:
    below, above = figures(draw_piece(TAPER, (), words))
    assert (below.label.text, above.label.text) == ("400", "405")
    assert (below.start, below.end) == ((200.0, 0.0), (600.0, 0.0))
    assert (above.start, above.end) == ((195.0, 300.0), (600.0, 300.0))
    assert below.line[0][1] < 0.0
    assert above.line[0][1] > 300.0


def test_a_square_cut_shows_its_figure_once(words: Catalogue) -> None:
    square = replace(
        TAPER,
        marks=(mark("bottom", "right", 400.0, "left"), mark("top", "right", 400.4, "left")),
    )
    assert [item.label.text for item in figures(draw_piece(square, (), words))] == ["400"]


def test_heights_stand_beside_the_edge_they_are_read_at(words: Catalogue) -> None:
    rip = piece(
        ((0.0, 20.0), (600.0, 12.0), (600.0, 300.0), (0.0, 300.0)),
        mark("left", "top", 280.0, "bottom"),
        mark("right", "top", 288.0, "bottom"),
    )
    left, right = figures(draw_piece(rip, (), words))
    assert left.line == ((left.line[0][0], 20.0), (left.line[0][0], 300.0))
    assert left.line[0][0] < 0.0
    assert right.line[0][0] > 600.0
    assert (left.label.turn, right.label.turn) == (90, 90)


def test_two_cuts_from_one_edge_stand_in_two_rows(words: Catalogue) -> None:
    both = piece(
        ((50.0, 0.0), (450.0, 0.0), (450.0, 300.0), (50.0, 300.0)),
        mark("bottom", "left", 50.0, "left"),
        mark("bottom", "left", 450.0, "right"),
    )
    first, second = figures(draw_piece(both, (), words))
    assert second.line[0][1] < first.line[0][1] < 0.0


def test_a_figure_that_runs_on_past_its_corner_clears_the_one_beside_it(words: Catalogue) -> None:
    """Both figures of the cut across the lower left corner are longer than what they measure."""
    sliver = piece(
        ((0.0, 0.0), (600.0, 0.0), (600.0, 300.0), (0.0, 300.0)),
        mark("along left", "bottom", 20.0, "bottom"),
        mark("along bottom", "left", 20.0, "left"),
    )
    left, below = figures(draw_piece(sliver, (), replace(words, display=IMPERIAL)))
    assert (left.start[0] - left.line[0][0]) < (below.start[1] - below.line[0][1])
    beside, under = text_box(left.label), text_box(below.label)
    assert under.top < beside.bottom


def test_a_cut_that_runs_into_a_corner_has_no_length_to_draw(words: Catalogue) -> None:
    triangle = piece(
        ((0.0, 0.0), (600.0, 0.0), (600.0, 200.0)),
        mark("left", "bottom", 0.0, "top"),
        mark("right", "bottom", 200.0, "top"),
    )
    assert [item.label.text for item in figures(draw_piece(triangle, (), words))] == ["200"]


def test_corners_of_a_notch_are_numbered(words: Catalogue) -> None:
    items = draw_piece(NOTCH, (), words).items
    assert [item.text for item in items if isinstance(item, Text)] == ["a1", "a2", "a3"]
    dots = [item.centre for item in items if isinstance(item, Circle) and item.layer == "tag"]
    assert dots == [(500.0, 0.0), (500.0, 120.0), (600.0, 120.0)]


def test_kept_edges_are_heavy_and_cut_ones_are_not(words: Catalogue) -> None:
    edges = (
        edge("right", (600.0, 0.0), (600.0, 300.0)),
        edge("left", (195.0, 300.0), (200.0, 0.0), cut=True),
    )
    items = draw_piece(replace(TAPER, edges=edges), (), words).items
    kept = [item for item in items if isinstance(item, Line) and item.layer == "keep"]
    assert [(item.start, item.end) for item in kept] == [((600.0, 0.0), (600.0, 300.0))]


def test_holes_and_bites_are_drawn_round(words: Catalogue) -> None:
    rim = FittedHole(
        name="spout",
        x=CELL.left + 600.0,
        y=CELL.bottom + 82.0,
        diameter=76.0,  # its rim goes through the third corner, 120 up
        pipe=None,
        plate=None,
        rough_in=None,
        rough_in_limits=None,
    )
    items = draw_piece(replace(NOTCH, holes=(VALVE,)), (rim,), words).items
    round_ones = [item for item in items if isinstance(item, Circle) and item.layer == "hole"]
    assert [item.centre for item in round_ones] == [(250.0, 100.0), (600.0, 82.0)]
    assert Counter(item.layer for item in items if isinstance(item, Line))["hole"] == 4


def test_the_arrow_stands_in_the_piece_and_points_up(words: Catalogue) -> None:
    items = draw_piece(TAPER, (), words).items
    shaft = next(item for item in items if isinstance(item, Line) and item.layer == "tag")
    assert shaft.start[0] == shaft.end[0]
    assert 0.0 < shaft.start[1] < shaft.end[1] < 300.0
    assert 200.0 < shaft.start[0] < 600.0


def test_all_modules_are_drawn_to_one_scale(words: Catalogue) -> None:
    widths = {draw_piece(cut, (), words).bounds.width for cut in (TAPER, NOTCH)}
    assert len(widths) == 1
