"""The readings that take part in the fit: named, weighed, and brought to one face."""

from dataclasses import dataclass

from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import Reading
from gaugerod.core.survey.model import Seat, unknowns_of
from gaugerod.core.survey.naming import named
from gaugerod.core.survey.sigmas import sigma_of
from gaugerod.core.survey.surfaces import End, ends_of, seat_of, stand_out


@dataclass(frozen=True, slots=True, kw_only=True)
class Observation:
    """A reading with its name, its wall, its sigma and where its surface stands. [mm].

    `place` numbers the wall from the left, from 0; `ends` are what that wall comes to.
    """

    id: str
    wall: str
    place: int
    reading: Reading
    sigma: float
    seat: Seat
    ends: tuple[End, End] = ("inside", "inside")


@dataclass(frozen=True, slots=True, kw_only=True)
class Unseated:
    """A reading that cannot be brought to the bonding face, and the surface it was taken to.

    `unknowns` are those it would have helped to find.
    """

    id: str
    surface: str
    unknowns: tuple[str, ...]


def observations(job: Job) -> tuple[tuple[Observation, ...], tuple[Unseated, ...]]:
    """Return the readings that take part in the fit, and those that cannot.

    Parameters
    ----------
    job
        The job.

    Returns
    -------
    tuple
        Observations in the order of the job, and readings taken to a surface whose distance
        from the bonding face is not known.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> used, unseated = observations(sample_job())
    >>> used[0].id, len(unseated)
    ('L width 1', 0)
    """
    used: list[Observation] = []
    unseated: list[Unseated] = []
    for place, wall in enumerate(job.wall):
        ends = ends_of(job.wall, place)
        for name, reading in named(wall):
            unknowns = unknowns_of(reading, wall.name, place)
            if not unknowns:
                continue
            surface = reading.surface or job.survey.surface
            out = stand_out(surface, job.survey)
            if out is None:
                unseated.append(Unseated(id=name, surface=surface, unknowns=unknowns))
                continue
            used.append(
                Observation(
                    id=name,
                    wall=wall.name,
                    place=place,
                    reading=reading,
                    sigma=sigma_of(reading, job.survey.practice),
                    seat=seat_of(out, ends),
                    ends=ends,
                )
            )
    return tuple(used), tuple(unseated)
