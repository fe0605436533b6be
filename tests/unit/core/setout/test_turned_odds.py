from dataclasses import replace

import numpy as np
import pytest
import shapely

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.sample import sample_job, sample_rates, sample_tile
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.odds import odds_of
from gaugerod.core.setout.sample import sample_layout
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.spread import plans_of
from gaugerod.core.setout.turned_odds import as_panels, pattern_margins
from gaugerod.core.survey.fit import fit_walls

WALLS = fit_walls(sample_job())
TILE = sample_tile().model_copy(update={"face": (297.0, 297.0)})


def diagonal(**place: object) -> Layout:
    """A crossing on the middle of the back wall, or where asked; its rows are 212 apart."""
    update = {"bond": "diagonal", "finish": "ceiling", "centre": {"B": "module"}, **place}
    choices = sample_job().choices.model_copy(update=update)
    return set_out(WALLS, choices, TILE, sample_rates().looks).layouts[0]


def test_a_point_at_the_end_grows_with_the_wall_and_nothing_else_does() -> None:
    """The right corner moves out by 1: points along it are 1 wider across, the rest as it was."""
    layout, back = diagonal(), WALLS.walls[1]
    plan = plans_of(WALLS, as_panels(layout), TILE)[1]
    out = replace(back, right=replace(back.right, offset=back.right.offset + 1.0))
    before, after = (pattern_margins(layout, plan, wall) for wall in (back, out))
    grown = np.array([b.value - a.value for a, b in zip(before, after, strict=True)])
    assert {margin.limit for margin in before} == {"under-least"}
    assert grown.min() == pytest.approx(0.0, abs=1e-6)
    assert grown.max() == pytest.approx(1.0, abs=1e-3)
    # Rows of points stand 424 apart on some 2150 of height: four or five along the corner.
    assert np.count_nonzero(grown > 0.9) in {4, 5}


def test_level_courses_have_no_margins_of_a_pattern() -> None:
    walls, layout, system = sample_layout()
    plan = plans_of(walls, layout, system)[0]
    assert pattern_margins(layout, plan, walls.walls[0]) == ()


def test_a_pattern_with_room_holds_and_one_at_its_limit_holds_in_half_of_all_cases() -> None:
    layout = diagonal()
    odds = odds_of(WALLS, layout, TILE)
    assert (odds.chance, odds.limits, odds.ends) == (1.0, (), ())
    # A column of crossings 53 short of the right rim: points begin 300 / root 2 - 297 / root 2
    # further on. They are the narrowest pieces, and the least is put up to them.
    layout = diagonal(phase={"B": 1497.0 - 53.0 - 450.0 * 2**0.5})
    plans = plans_of(WALLS, as_panels(layout), TILE)
    widths = [
        margin.value + TILE.cutting.least
        for plan, wall in zip(plans, WALLS.walls, strict=True)
        for margin in pattern_margins(layout, plan, wall)
    ]
    assert min(widths) == pytest.approx(53.0 - 3.0 / 2**0.5, abs=0.1)
    cutting = TILE.cutting.model_copy(update={"least": min(widths)})
    strict = odds_of(WALLS, layout, TILE.model_copy(update={"cutting": cutting}))
    assert [(found.limit, found.wall) for found in strict.limits] == [("under-least", "B")]
    # Points higher up hang on the lean as well: the narrowest of them fails a little oftener.
    assert 0.3 < strict.chance < 0.55


def test_pieces_cut_to_a_corner_in_doubt_are_measured_in_place() -> None:
    """The back wall is known to a foot: what meets its right corner is in doubt, and no other.

    Its left corner is where stations are measured from.
    """
    layout = diagonal()
    right = WALLS.parameters.index("width B")
    covariance = WALLS.covariance.copy()
    covariance[right, right] = 300.0**2
    poor = replace(WALLS, covariance=covariance)
    doubted = [p for p in make_pieces(layout, poor, TILE) if p.measure_in_place]
    field = shape_of(layout.walls[1].field.gross)
    x = field.bounds[2]
    corner = shapely.box(x - 1.0, field.bounds[1], x + 1.0, field.bounds[3])
    meets = {
        piece.tag
        for piece in make_pieces(layout, WALLS, TILE)
        if piece.wall == "B" and shape_of(piece.region).intersection(corner).area > 0
    }
    assert {piece.tag for piece in doubted} == meets
    assert not any(piece.measure_in_place for piece in make_pieces(layout, WALLS, TILE))
