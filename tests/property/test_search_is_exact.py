"""A plain grid of heights and phases finds no layout where the search finds none, nor a better."""

import numpy as np
from hypothesis import given, settings
from tests.property.alcoves import Alcove, alcoves, job_of, line

from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_rates
from gaugerod.core.setout.datum import level_line
from gaugerod.core.setout.field import low_point, meetings
from gaugerod.core.setout.finish import finish_line, setting_order
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.score import score_phases
from gaugerod.core.setout.strips import Case, batch_of
from gaugerod.core.setout.variants import Variant, variants
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls

USUAL = 100
"""Examples of a law in the usual run."""
UP = 9.7
"""Step of the heights tried: no part of any size drawn, so that it meets no event. [mm]"""
ACROSS = 4.3
"""Step of the phases tried. [mm]"""
MANY = 300 if settings().max_examples > USUAL else 30
"""Alcoves tried: more in the long run."""


def best_on_a_grid(alcove: Alcove) -> float:
    """Return the looks of the best layout on the grid, infinite where there is none. [cents]."""
    raw = job_of(alcove)
    job = Job.model_validate(raw, context={"unit": raw["unit"]})
    walls, system = fit_walls(job), alcove.system
    heights = np.arange(system.cutting.least, max(system.face), UP).tolist()
    return min(
        looks_at(job, walls, variant, height=height, system=system)
        for variant in variants(job.choices, system)
        for height in heights
    )


def looks_at(job: Job, walls: Walls, variant: Variant, *, height: float, system: System) -> float:
    """Return the looks of the best phases on a grid for one height of the first course."""
    face, pitch = hung(system, variant.turn)
    order = setting_order(walls, job.choices, system, variant.turn)
    met = meetings(walls.walls, order, system)
    first = level_line(deck_low=low_point(walls)[1], height=height, gap=system.gaps.deck)
    if height >= face[1]:
        return float("inf")
    top = finish_line(
        walls, job.choices, system, finish=variant.finish, first_course=first, pitch=pitch[1]
    )
    lattice = Lattice(
        face=face,
        pitch=pitch,
        first_course=first,
        phase=0.0,
        row_shift=pitch[0] * variant.share,
    )
    total = 0.0
    for wall in walls.walls:
        case = Case(
            wall=wall,
            met=met[wall.name],
            top=top,
            system=system,
            turn=variant.turn,
            looks=sample_rates().looks,
        )
        scores = score_phases(batch_of(case, lattice, np.arange(0.0, pitch[0], ACROSS)))
        total += min((s.looks for s in scores if not s.refused), default=float("inf"))
    return total


@settings(max_examples=MANY)
@given(alcoves())
def test_no_grid_finds_a_better_layout_than_the_search(alcove: Alcove) -> None:
    found = line(job_of(alcove), alcove.system)
    searched = min(lay.looks for lay in found.short.layouts) if found else float("inf")
    # The short list is in order to the dollar, and looks are rounded wall by wall.
    assert best_on_a_grid(alcove) >= searched - 100 - len(alcove.walls)
