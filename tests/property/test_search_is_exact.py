"""A plain grid of heights and phases finds no layout where the search finds none, nor a better."""

import numpy as np
from hypothesis import given
from tests.property.alcoves import Alcove, alcoves, job_of, line, share

from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_rates
from gaugerod.core.setout.datum import level_line
from gaugerod.core.setout.field import low_point, meetings
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.score import score_phases
from gaugerod.core.setout.search import finish, setting_order
from gaugerod.core.setout.strips import Case, batch_of
from gaugerod.core.survey.fit import fit_walls

UP = 9.7
"""Step of the heights tried: no part of any size drawn, so that it meets no event. [mm]"""
ACROSS = 4.3
"""Step of the phases tried. [mm]"""
SHIFTS = {"stack": 0.0, "half": 1 / 2, "third": 1 / 3}


def best_on_a_grid(alcove: Alcove) -> float:
    """Return the looks of the best layout on the grid, infinite where there is none. [cents]."""
    raw, system = job_of(alcove), alcove.system
    job = Job.model_validate(raw, context={"unit": raw["unit"]})
    walls, choices = fit_walls(job), job.choices
    face, pitch = hung(system, choices.turn)
    order = setting_order(walls, choices, system)
    met = meetings(tuple(wall.name for wall in walls.walls), order)
    best = float("inf")
    for height in np.arange(system.cutting.least, face[1], UP):
        first = level_line(deck_low=low_point(walls)[1], height=float(height), gap=system.gaps.deck)
        lattice = Lattice(
            face=face,
            pitch=pitch,
            first_course=first,
            phase=0.0,
            row_shift=pitch[0] * SHIFTS[choices.bond],
        )
        total = 0.0
        for wall in walls.walls:
            case = Case(
                wall=wall,
                met=met[wall.name],
                top=finish(walls, choices, system, first, pitch[1]),
                system=system,
                turn=choices.turn,
                looks=sample_rates().looks,
            )
            scores = score_phases(batch_of(case, lattice, np.arange(0.0, pitch[0], ACROSS)))
            legal = [found.looks for found in scores if not found.refused]
            total += min(legal, default=float("inf"))
        best = min(best, total)
    return best


@share(6)
@given(alcoves())
def test_no_grid_finds_a_better_layout_than_the_search(alcove: Alcove) -> None:
    found = line(job_of(alcove), alcove.system)
    searched = min(lay.looks for lay in found.short.layouts) if found else float("inf")
    # The short list is in order to the dollar, and looks are rounded wall by wall.
    assert best_on_a_grid(alcove) >= searched - 100 - len(alcove.walls)
