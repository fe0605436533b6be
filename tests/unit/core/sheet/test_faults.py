"""Faults of a wall, drawn larger; the wall is 2100 mm wide, its deck 4 mm out of level."""

from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Edge
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.sheet.drawing import Area, Drawing, Line, Text
from gaugerod.core.sheet.faults import draw_faults
from gaugerod.core.sheet.sample import sample_wall
from gaugerod.core.survey.walls import FittedWall

WORDS = Catalogue(display=METRIC, sentences={"sheet.wall": "Wall {name}"})


def drawn(wall: FittedWall) -> Drawing:
    return draw_faults(wall, WORDS, height=60.0)


def figures(wall: FittedWall) -> list[str]:
    return [item.text for item in drawn(wall).items if isinstance(item, Text)]


def test_each_edge_says_how_far_it_is_truly_out() -> None:
    """The right edge leans 0.01 a mm over 950 mm; the ceiling falls by 12."""
    wall = replace(
        sample_wall(),
        right=Edge(offset=2100.0, slope=0.01),
        deck=((0.0, -250.0), (2100.0, -250.0)),
        ceiling=((0.0, 700.0), (2102.0, 688.0)),
    )
    # Left, right, deck, ceiling: 0.01 times 950 is 9.5.
    assert figures(wall) == ["0 mm", "10 mm", "0 mm", "12 mm"]


def test_a_bow_counts_where_it_is_out_the_most() -> None:
    bowed = Edge(offset=0.0, slope=0.0, bow=((-250.0, 0.0), (200.0, 7.0), (700.0, 0.0)))
    assert figures(replace(sample_wall(), left=bowed))[0] == "7 mm"


def test_the_outline_is_drawn_with_its_faults_made_larger() -> None:
    """Four mm of fall, twenty times, is eighty; the plain wall is 946 to 950 mm high."""
    drawing = drawn(sample_wall())
    (outline,) = [i for i in drawing.items if isinstance(i, Area) and i.layer == "outline"]
    low = sorted(y for _, y in outline.region.rings[0])[:2]
    assert low[1] - low[0] == 80.0
    assert len([i for i in drawing.items if isinstance(i, Line) and i.layer == "course"]) == 4
    assert (drawing.name, drawing.title) == ("faults-B", "Wall B")


def test_figures_stand_outside_the_wall_and_within_the_drawing() -> None:
    drawing = drawn(sample_wall())
    left, right, deck, ceiling = (item.at for item in drawing.items if isinstance(item, Text))
    assert left[0] < 0.0
    assert right[0] > 2100.0
    assert deck[1] < -246.0
    assert ceiling[1] > 700.0
    bounds = drawing.bounds
    assert bounds.left < left[0] < right[0] < bounds.right
    assert bounds.bottom < deck[1] < ceiling[1] < bounds.top
