"""The sample alcove set out, and lattices on its back wall to try things with."""

import numpy as np

from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.setout.trial import Trial, trials
from gaugerod.core.setout.variants import variants
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls


def sample_batch(*phases: float) -> Batch:
    """Return lattices in stack bond on the back wall of the sample alcove.

    Parameters
    ----------
    *phases
        Left edge of some module of each lattice. [mm]

    Returns
    -------
    Batch
        The lattices; course 1 has its top 470 mm below the datum. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_batch(455.5, 100.0).courses
    range(1, 7)
    """
    case = Case(
        wall=fit_walls(sample_job()).walls[1],
        met=("butts", "runs behind"),
        top=1000.0,
        system=sample_system(),
        turn="lying",
        looks=sample_rates().looks,
    )
    lattice = Lattice(
        face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=-470.0, phase=0.0, row_shift=0.0
    )
    return batch_of(case, lattice, np.array(phases))


def sample_layout() -> tuple[Walls, Layout, System]:
    """Return the sample alcove with its best layout.

    Returns
    -------
    tuple of Walls, Layout, System
        The walls, the layout that looks best, the material. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> walls, layout, _ = sample_layout()
    >>> [wall.centring for wall in layout.walls]
    ['front', 'module', 'front']
    """
    job, system = sample_job(), sample_system()
    walls = fit_walls(job)
    return walls, set_out(walls, job.choices, system, sample_rates().looks).layouts[0], system


def sample_trial() -> Trial:
    """Return the first height that is tried in the sample alcove.

    Returns
    -------
    Trial
        The tallest first course, in stack bond. [mm]

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> sample_trial().variant.bond
    'stack'
    """
    job, system, looks = sample_job(), sample_system(), sample_rates().looks
    bonds = variants(job.choices, system)[:1]
    (trial,) = next(trials(fit_walls(job), job.choices, system, looks, bonds, allowed=frozenset()))
    return trial
