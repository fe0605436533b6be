"""The back wall of the sample alcove, with lattices on it to try things with."""

import numpy as np

from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.survey.fit import fit_walls


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
