"""What somebody who sets out by hand is told: heights that are allowed, places worth a stop."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

from gaugerod.core.job.document import Choices
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.events import SAME, Height, Phase, named_phases
from gaugerod.core.setout.score import hopeless, scores_of
from gaugerod.core.setout.strips import Batch
from gaugerod.core.setout.trial import Trial, trials
from gaugerod.core.setout.variants import variants
from gaugerod.core.survey.walls import Walls

Range = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Heights of the first course at the low point of the deck. [mm].

    `allowed` are the ranges in which the courses as such break no limit, wherever the joints
    fall; `notable` are heights in them at which something falls exactly into place.
    """

    allowed: tuple[Range, ...]
    notable: tuple[Height, ...]


def heights_of(walls: Walls, choices: Choices, system: System, looks: Looks) -> Heights:
    """Return how high the first course may be, and where it is worth a stop.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled, turn, bond and finish among it; of what is left open the
        first that would be tried counts. A height that is fixed does not.
    system
        The material. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    Heights
        Ranges from the lowest up, and notable heights in the order of the search. [mm]

    Notes
    -----
    Whether the courses keep their limits changes only at the heights that the search tries, so
    between two of these one height tells for all. Source: own derivation, as `first_heights`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> found = heights_of(fit_walls(job), job.choices, sample_system(), sample_rates().looks)
    >>> found.notable[0]
    ('tallest', 287.3)
    """
    tried = list(_tried(walls, choices.model_copy(update={"first_height": None}), system, looks))

    def keeps(height: float) -> bool:
        moved = replace(tried[0], height=("chosen", height))
        return not any(any(hopeless(bare)) for bare in moved.bares())

    ends = {system.cutting.least, *(trial.height[1] for trial in tried)}
    allowed = tuple(_ranges(sorted(ends), keeps))
    within = [
        trial.height
        for trial in tried
        if trial.height[0] != "strip"
        and any(low - SAME <= trial.height[1] <= high + SAME for low, high in allowed)
    ]
    return Heights(allowed=allowed, notable=tuple(within))


def phases_of(
    walls: Walls, choices: Choices, system: System, looks: Looks
) -> tuple[tuple[Phase, ...], ...]:
    """Return the phases of each wall that are worth a stop, at one height of the first course.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled, the height of the first course among it.
    system
        The material. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    tuple of tuple of (str, float)
        For each wall what is centred or left whole, and the left edge of some module, within
        one pitch; those that break no limit. [mm]

    Notes
    -----
    Source: as `phases`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> low = job.choices.model_copy(update={"first_height": 287.3})
    >>> found = phases_of(fit_walls(job), low, sample_system(), sample_rates().looks)
    >>> [name for name, _ in found[1]]
    ['module', 'joint']
    """
    (trial, *_) = _tried(walls, choices, system, looks)
    return tuple(tuple(_kept(bare)) for bare in trial.bares())


def _tried(walls: Walls, choices: Choices, system: System, looks: Looks) -> Iterator[Trial]:
    allowed = frozenset(override.limit for override in choices.override)
    bonds = variants(choices, system)[:1]
    for (trial,) in trials(walls, choices, system, looks, bonds, allowed=allowed):
        yield trial


def _kept(bare: Batch) -> Iterator[Phase]:
    pitch = bare.lattice.pitch[0]
    # A hair less than nought is nought, and not a pitch.
    named = [(name, (x + SAME) % pitch - SAME) for name, x in named_phases(bare)]
    legal = scores_of(bare.at([x for _, x in named])).legal
    yield from (one for one, keeps in zip(named, legal.tolist(), strict=True) if keeps)


def _ranges(ends: list[float], keeps: Callable[[float], bool]) -> Iterator[Range]:
    """Yield the ranges between some ends in which all is well, next ones made one."""
    start: float | None = None
    for low, high in pairwise(ends):
        if not keeps((low + high) / 2):
            if start is not None:
                yield start, low
            start = None
        elif start is None:
            start = low
    if start is not None:
        yield start, ends[-1]
