"""What is said of lattices without cutting a polygon, held against the pieces cut from them."""

import tomllib
from dataclasses import replace
from functools import cache

import pytest
from shapely.geometry import Polygon
from tests.checkers.narrowest import CLOSE, narrowest
from tests.odd_rooms import odd_rooms

from gaugerod.core.base.geometry import Region, shape_of
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_rates
from gaugerod.core.setout.field import meetings, set_field
from gaugerod.core.setout.finish import setting_order
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.margins import margins, planned
from gaugerod.core.setout.score import score
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.strips import Case
from gaugerod.core.survey.fit import fit_walls
from gaugerod.store.shelf import Library

SYSTEM = Library().materials().systems["tile-600x300"]
JOINT = 3.0
FACE, PITCH = SYSTEM.face, (SYSTEM.face[0] + JOINT, SYSTEM.face[1] + JOINT)
LEAST = SYSTEM.cutting.least
PHASES = [0.0, 97.0, 251.0, 299.0, 449.0, 557.0]
LOWER = [0.0, 71.0]
"""How far below the first course of the best layout a first course is tried. [mm]"""


@cache
def scored(name: str) -> list[tuple[str, Score, list[Polygon], Region, float]]:
    """Every lattice on every wall of a room: score, pieces, their field, least margin."""
    raw = tomllib.loads(odd_rooms()[name])
    job = Job.model_validate(raw, context={"unit": "mm"})
    walls = fit_walls(job)
    best = set_out(walls, job.choices, SYSTEM, sample_rates().looks).layouts[0]
    lattices = []
    met = meetings(walls.walls, setting_order(walls, job.choices, SYSTEM, "lying"), SYSTEM)
    for wall, laid in zip(walls.walls, best.walls, strict=True):
        top = max(y for _, y in laid.field.gross.rings[0])
        case = Case(
            wall=wall,
            met=met[wall.name],
            top=top,
            system=SYSTEM,
            turn="lying",
            looks=sample_rates().looks,
        )
        for lower in LOWER:
            for phase in PHASES:
                lattice = Lattice(
                    face=FACE,
                    pitch=PITCH,
                    first_course=best.first_course - lower,
                    phase=phase,
                    row_shift=0.0,
                )
                field = set_field(wall, met[wall.name], SYSTEM, top=top, lattice=lattice)
                on_wall = WallLayout(
                    name=wall.name,
                    phase=phase,
                    row_shift=0.0,
                    field=field,
                    centring="limit",
                    ends=(0.0, 0.0),
                )
                layout = Layout(
                    product=SYSTEM.id,
                    turn="lying",
                    bond="stack",
                    face=FACE,
                    pitch=PITCH,
                    first_course=lattice.first_course,
                    top=top,
                    order=(wall.name,),
                    walls=(on_wall,),
                    looks=0,
                    reasons=(),
                )
                alone = replace(walls, walls=(wall,), moved=())
                pieces = [shape_of(p.region) for p in make_pieces(layout, alone, SYSTEM)]
                where = f"{wall.name} {lower} {phase}"
                margin = min(
                    margin.value
                    for margin in margins(planned(layout, on_wall, wall, SYSTEM), wall)
                    if margin.there and margin.limit == "under-least"
                )
                lattices.append((where, score(case, lattice), pieces, field.gross, margin))
    return lattices


@pytest.mark.parametrize("name", list(odd_rooms()))
def test_a_lattice_is_refused_exactly_where_a_piece_would_be_under_the_least(name: str) -> None:
    judged = 0
    for where, found, pieces, _, margin in scored(name):
        smallest = min(narrowest(piece) for piece in pieces)
        if abs(smallest - LEAST) > CLOSE:
            judged += 1
            assert ("under-least" in found.refused) == (smallest < LEAST), (where, smallest)
            assert (margin < 0) == (smallest < LEAST), (where, smallest, margin)
    assert judged > len(PHASES)


@pytest.mark.parametrize("name", [name for name in odd_rooms() if "window" not in name])
def test_end_pieces_are_counted_and_sized_as_they_are_cut(name: str) -> None:
    for where, found, pieces, gross, _ in scored(name):
        low = min(x for x, _ in gross.rings[0])
        high = max(x for x, _ in gross.rings[0])
        # A rim may fall in a joint: then a whole tile ends up to a joint away from it.
        lefts = [one for one in pieces if one.bounds[0] < low + JOINT]
        rights = [one for one in pieces if one.bounds[2] > high - JOINT]
        cut = {one.wkb for one in (*lefts, *rights) if wide(one) < FACE[0] - 1e-3}
        least = min(map(wide, lefts)), min(map(wide, rights))
        assert found.cuts == len(cut), where
        assert found.ends == pytest.approx(least, abs=1e-3), where


def wide(piece: Polygon) -> float:
    left, _, right, _ = piece.bounds
    return float(right - left)
