"""The odds against surveys drawn by lot: errors at the stated sigmas, from fixed seeds.

The alcove is known. It is surveyed again and again, each time with new errors; on the walls that
each survey gives, the planned layout is scored as the search scores any layout. The share of
surveys that keep a limit, and the spread of the end pieces, must be what the odds say from the
covariance of a single survey. Margins are four standard errors of the count.
"""

from collections import Counter
from collections.abc import Callable
from dataclasses import replace
from math import sqrt

import numpy as np
import pytest
from tests.simulated_alcove import Shape, draw_shapes, exact_readings, job_of, read_with_errors

from gaugerod.core.job.document import Job
from gaugerod.core.job.rates import Looks
from gaugerod.core.job.sample import sample_job, sample_system
from gaugerod.core.setout.field import meetings, set_field
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.odds import odds_of
from gaugerod.core.setout.score import score_phases
from gaugerod.core.setout.spread import ENDS, plans_of
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.observations import observations
from gaugerod.core.survey.outline import make_wall
from gaugerod.core.survey.solve import solve
from gaugerod.core.survey.walls import FittedWall, Walls

MARGIN = 4.0
SYSTEM = sample_system()
FREE = Looks(sliver=0, unequal=0, front_cut=0, off_jamb=0, near_hole=0)
MET = meetings(fit_walls(sample_job()).walls, ("L", "B", "R"), SYSTEM)
NOTHING = {"hole", "opening"}


def bare(raw: dict[str, object]) -> Job:
    """The job without holes and openings: only rims, deck and ceiling."""
    walls = []
    for wall in raw["wall"]:  # type: ignore[attr-defined] # a raw document has no types
        readings = [one for one in wall["readings"] if one["kind"] not in NOTHING]
        walls.append({"name": wall["name"], "readings": readings})
    return job_of({**raw, "wall": walls})


def exact(shapes: tuple[Shape, ...]) -> Job:
    raw = read_with_errors(shapes, np.random.default_rng(0))
    for wall, shape in zip(raw["wall"], shapes, strict=True):
        wall["readings"] = exact_readings(shape)
    return bare(raw)


def phase_of(wall: FittedWall) -> float:
    """Put one end of each wall close to a limit: within a sigma or so.

    L: the right end 50.5 wide, the least is 50. B: 12.9 off the left module, the groove
    takes 12.7. R: the left end 50.2 wide.
    """
    low, high = wall.deck[0][1], wall.ceiling[0][1]
    if wall.name == "L":
        return min(wall.right.at(y) for y in (low, high)) - 3.0 - 50.5
    lap = 9.525 + 1.5875 + 3.175
    lefts = [wall.left.at(y) + lap for y in (low, high)]
    return min(lefts) - 12.9 if wall.name == "B" else max(lefts) + 50.2 - 600.0


def lay(walls: Walls) -> Layout:
    """A keyed layout whose first course leaves 0.4 more than its groove at the low point."""
    low = min(y for wall in walls.walls for _, y in wall.deck)
    first = low + 3.0 + 600.0 / 2 - 12.7 - 0.4
    top = first + 5 * 300.0
    return Layout(
        product="sample",
        turn="lying",
        bond="stack",
        face=(600.0, 300.0),
        pitch=(600.0, 300.0),
        first_course=first,
        top=top,
        order=("L", "B", "R"),
        walls=tuple(
            WallLayout(
                name=wall.name,
                phase=phase_of(wall),
                row_shift=0.0,
                field=set_field(wall, MET[wall.name], SYSTEM, top=top),
                centring="limit",
                ends=(0.0, 0.0),
            )
            for wall in walls.walls
        ),
        looks=0,
        reasons=(),
    )


def scored_on(wall: FittedWall, layout: Layout, place: int) -> Batch:
    """The layout on a wall as a survey gave it."""
    case = Case(
        wall=wall, met=MET[wall.name], top=layout.top, system=SYSTEM, turn="lying", looks=FREE
    )
    phase = layout.walls[place].phase
    lattice = Lattice(
        face=layout.face,
        pitch=layout.pitch,
        first_course=layout.first_course,
        phase=phase,
        row_shift=0.0,
    )
    return batch_of(case, lattice, np.array([phase]))


class Surveys:
    """What came of surveying the alcove many times."""

    def __init__(self, many: int) -> None:
        rng = np.random.default_rng(20261126)
        shapes = draw_shapes(rng)
        walls = fit_walls(exact(shapes))
        self.layout = lay(walls)
        self.odds = odds_of(walls, self.layout, SYSTEM, draws=40_000)
        self.many = many
        self.kept = 0
        self.broken: Counter[tuple[str, str]] = Counter()
        self.edges: dict[tuple[str, int, str], list[float]] = {}
        self.plans = plans_of(walls, self.layout, SYSTEM)
        for _ in range(many):
            job = bare(read_with_errors(shapes, rng))
            used, _ = observations(job)
            state = solve(used, used, walls=3).state
            self._score([make_wall(wall, place, state) for place, wall in enumerate(job.wall)])

    def _score(self, walls: list[FittedWall]) -> None:
        broken: set[tuple[str, str]] = set()
        for place, wall in enumerate(walls):
            batch = scored_on(wall, self.layout, place)
            broken |= {(limit, wall.name) for limit in score_phases(batch)[0].refused}
            for row in self.plans[place].rows:
                # Modules stay where they are planned: an end is as wide as its edge is far.
                for side, edge, y in zip(ENDS, (wall.left, wall.right), row.narrow, strict=True):
                    self.edges.setdefault((wall.name, row.course, side), []).append(edge.at(y))
        self.broken.update(broken)
        self.kept += not broken

    def error(self, chance: float) -> float:
        """So far a share may lie from a chance. [1]."""
        return MARGIN * sqrt(chance * (1 - chance) * (1 / self.many + 1 / 40_000))


@pytest.fixture(scope="module")
def surveys(count: Callable[[int, int], int]) -> Surveys:
    return Surveys(count(200, 4000))


def test_all_limits_hold_as_often_as_the_odds_say(surveys: Surveys) -> None:
    chance = surveys.odds.chance
    assert 0.1 < chance < 0.9  # the case is worth drawing
    assert surveys.kept / surveys.many == pytest.approx(chance, abs=surveys.error(chance))


def test_each_limit_holds_as_often_as_the_odds_say(surveys: Surveys) -> None:
    limits = {(one.limit, one.wall): one.chance for one in surveys.odds.limits}
    assert {("under-least", "L"), ("groove-left", "B"), ("under-least", "R")} <= limits.keys()
    assert surveys.broken.keys() <= limits.keys()
    for key, chance in limits.items():
        share = 1 - surveys.broken[key] / surveys.many
        assert share == pytest.approx(chance, abs=surveys.error(chance) + 1e-3)


def test_end_cuts_spread_as_the_odds_say(surveys: Surveys) -> None:
    assert len(surveys.odds.ends) == len(surveys.edges)
    for end in surveys.odds.ends:
        edge = surveys.edges[end.wall, end.course, end.side]
        error = MARGIN * end.sigma / sqrt(2 * surveys.many)
        assert np.std(edge) == pytest.approx(end.sigma, abs=error)


def test_a_survey_without_error_keeps_every_limit(surveys: Surveys) -> None:
    walls = fit_walls(exact(draw_shapes(np.random.default_rng(20261126))))
    sure = replace(walls, covariance=np.zeros_like(walls.covariance))
    assert odds_of(sure, surveys.layout, SYSTEM).chance == 1.0
