from collections.abc import Mapping
from dataclasses import replace

import pytest
from tests.fixtures_plan import planned

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.cutting.doubts import Doubts
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.setout.hide import EndFit, RimFit
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.store.shelf import Library

END = EndFit(wall="B", course=2, side="left", module=-150.0, margin=-0.5)
CELL = Box(left=-150.0, bottom=0.0, right=450.0, top=300.0)


@pytest.mark.parametrize(
    ("end", "turn", "sawn", "doubtful"),
    [
        (END, "lying", {"left"}, True),
        # A quarter turn anticlockwise brings the module's top to the left.
        (END, "standing", {"top"}, True),
        (END, "standing", {"left"}, False),
        (END, "lying", {"right", "bottom"}, False),
        (replace(END, wall="L"), "lying", {"left"}, False),
        (replace(END, course=3), "lying", {"left"}, False),
        (replace(END, module=450.0), "lying", {"left"}, False),
    ],
)
def test_a_piece_is_in_doubt_where_it_is_cut_to_its_end(
    end: EndFit, turn: Turn, sawn: set[Side], *, doubtful: bool
) -> None:
    assert Doubts(ends=(end,), rims=()).at_end("B", 2, CELL, turn, sawn) is doubtful


RIMS: Mapping[Side, RimFit] = {
    "left": RimFit(wall="B", side="left", at=300.0, start=100.0, end=800.0, margin=-0.5),
    "top": RimFit(wall="B", side="top", at=200.0, start=300.0, end=900.0, margin=-0.5),
}
# A notch at the upper right: 300 wide stays below 100, 450 to the right of it is the opening.
NOTCHED = ((-150, 0), (450, 0), (450, 100), (300, 100), (300, 300), (-150, 300))


def in_doubt(rim: RimFit, ring: tuple[tuple[float, float], ...], wall: str = "B") -> bool:
    return Doubts(ends=(), rims=(rim,)).at_opening(wall, Region(rings=(ring,)), CELL)


def test_a_piece_is_in_doubt_where_it_is_cut_to_an_opening() -> None:
    assert in_doubt(RIMS["left"], NOTCHED)
    assert not in_doubt(RIMS["left"], NOTCHED, wall="L")
    sill = replace(RIMS["top"], side="bottom", at=100.0)
    assert in_doubt(sill, NOTCHED)


def test_an_edge_elsewhere_leaves_no_doubt() -> None:
    assert not in_doubt(replace(RIMS["left"], at=310.0), NOTCHED)
    # In line with the notch, and above or below all of it.
    assert not in_doubt(replace(RIMS["left"], start=300.0), NOTCHED)
    assert not in_doubt(replace(RIMS["left"], start=-500.0, end=100.0), NOTCHED)


def test_an_opening_on_a_joint_cuts_nothing() -> None:
    whole = ((-150, 0), (450, 0), (450, 300), (-150, 300))
    assert not in_doubt(replace(RIMS["left"], at=450.0), whole)
    assert not in_doubt(replace(RIMS["top"], at=300.0, start=-150.0), whole)


def roughly(name: str) -> tuple[Piece, ...]:
    """The pieces of a packaged job as if it had been surveyed roughly."""
    library = Library()
    plan = planned(name)
    survey = plan.job.survey.model_copy(update={"practice": "rough"})
    job = plan.job.model_copy(update={"survey": survey})
    walls = fit_walls(job)
    looks = library.rates()[job.rates].looks
    layout = set_out(walls, job.choices, plan.system, looks).layouts[0]
    return make_pieces(layout, walls, plan.system)


@pytest.mark.parametrize("name", ["alcove-1962", "niche-tile"])
def test_a_careful_survey_may_be_cut_from_and_a_rough_one_not_everywhere(name: str) -> None:
    assert not any(piece.measure_in_place for piece in planned(name).pieces)
    rough = [piece for piece in roughly(name) if piece.measure_in_place]
    assert rough
    assert not any(piece.whole for piece in rough)
