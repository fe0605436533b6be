"""A layout scored again, wall by wall, from nothing but itself."""

import numpy as np

from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.layout import Layout, WallLayout, lattice_on, placed_pattern, top_of
from gaugerod.core.setout.score import score_phases
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.setout.turned_score import ground_of, score_pattern
from gaugerod.core.survey.walls import FittedWall, Walls


def score_again(
    layout: Layout, walls: Walls, system: System, looks: Looks
) -> tuple[tuple[str, Score], ...]:
    """Score a layout again, wall by wall, with no limit set aside.

    Parameters
    ----------
    layout
        The layout. [mm]
    walls
        The surveyed alcove. [mm]
    system
        The material. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    tuple of (str, Score)
        Name and score of each wall, from left to right.

    Notes
    -----
    Source: as `score_phases`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job, system, looks = sample_job(), sample_system(), sample_rates().looks
    >>> walls = fit_walls(job)
    >>> layout = set_out(walls, job.choices, system, looks).layouts[0]
    >>> sum(found.looks for _, found in score_again(layout, walls, system, looks)) == layout.looks
    True
    """
    scores = []
    for wall, own in zip(walls.walls, layout.walls, strict=True):
        pattern = placed_pattern(layout, own)
        if pattern:
            found, _ = score_pattern(ground_of(_case(layout, own, wall, system, looks)), pattern)
        else:
            found = score_phases(batch_on(layout, own, wall, system, looks))[0]
        scores.append((wall.name, found))
    return tuple(scores)


def batch_on(
    layout: Layout, on_wall: WallLayout, wall: FittedWall, system: System, looks: Looks
) -> Batch:
    """Return one wall of a layout as a batch of one lattice.

    Parameters
    ----------
    layout
        The layout. [mm]
    on_wall
        Its lattice and field on the wall. [mm]
    wall
        The wall as fitted. [mm]
    system
        The material. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    Batch
        The batch. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_rates
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> looks = sample_rates().looks
    >>> batch = batch_on(layout, layout.walls[1], walls.walls[1], system, looks)
    >>> batch.phases.tolist() == [layout.walls[1].phase]
    True
    """
    case = _case(layout, on_wall, wall, system, looks)
    return batch_of(case, lattice_on(layout, on_wall), np.array([on_wall.phase]))


def _case(
    layout: Layout, on_wall: WallLayout, wall: FittedWall, system: System, looks: Looks
) -> Case:
    return Case(
        wall=wall,
        met=(on_wall.field.left, on_wall.field.right),
        top=top_of(layout, on_wall.name),
        system=system,
        turn=layout.turn,
        looks=looks,
    )
