"""Pieces cut anew to walls whose ends were found off."""

import pytest

from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.sample import sample_job
from gaugerod.core.replan.pieces import layout_on, remade, walls_found
from gaugerod.core.replan.site import Site
from gaugerod.core.setout.sample import sample_layout
from gaugerod.core.setout.spread import end_cuts, plans_of


@pytest.mark.parametrize(("wall", "side"), [("B", "right"), ("B", "left"), ("L", "right")])
@pytest.mark.parametrize("by", [-5.0, 2.0])
def test_an_end_that_is_found_off_is_as_sure_as_it_was(wall: str, side: str, by: float) -> None:
    """To move an end by what was read changes where it is, not how far the survey may be wrong."""
    walls, layout, system = sample_layout()
    site = Site(job=sample_job(), walls=walls, rims={(wall, side): ((100.0, by),)})
    found = walls_found(site)
    moved = layout_on(layout, found, system)
    before = end_cuts(walls, plans_of(walls, layout, system))
    after = end_cuts(found, plans_of(found, moved, system))
    assert [cut.sigma for cut in after] == pytest.approx([cut.sigma for cut in before], abs=1e-3)
    pieces = make_pieces(layout, walls, system)
    assert not any(piece.measure_in_place for piece in pieces)
    assert not any(piece.measure_in_place for piece in remade(site, moved, found, pieces, system))
