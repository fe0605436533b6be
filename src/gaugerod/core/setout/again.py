"""A layout scored again, wall by wall, from nothing but itself."""

from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout, WallLayout, top_of
from gaugerod.core.setout.score import Score, score
from gaugerod.core.setout.strips import Case
from gaugerod.core.survey.walls import Walls


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
    Source: as `score`.

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
        case = Case(
            wall=wall,
            met=(own.field.left, own.field.right),
            top=top_of(layout, own.name),
            system=system,
            turn=layout.turn,
            looks=looks,
        )
        scores.append((wall.name, score(case, lattice_on(layout, own))))
    return tuple(scores)


def lattice_on(layout: Layout, wall: WallLayout) -> Lattice:
    """Return the lattice of one wall of a layout.

    Parameters
    ----------
    layout
        The layout. [mm]
    wall
        One of its walls. [mm]

    Returns
    -------
    Lattice
        Its courses and places. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout
    >>> layout = sample_layout()
    >>> lattice_on(layout, layout.walls[0]).pitch == layout.pitch
    True
    """
    return Lattice(
        face=layout.face,
        pitch=layout.pitch,
        first_course=layout.first_course,
        phase=wall.phase,
        row_shift=wall.row_shift,
    )
