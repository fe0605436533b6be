"""Readings gathered thing by thing: what was read twice, and what it says together."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from gaugerod.core.job.document import Survey, Wall
from gaugerod.core.job.readings import (
    Ceiling,
    Deck,
    Drain,
    FixturePlace,
    Floor,
    Height,
    HoleCentre,
    OpeningEdge,
    Reading,
    Surface,
)
from gaugerod.core.survey.closure_kinds.figures import LEAST_SIGMA, Figure, mean_of
from gaugerod.core.survey.naming import named
from gaugerod.core.survey.sigmas import sigma_of

Thing: TypeAlias = tuple[object, ...]
"""What a reading reads: its kind and its place, as ``("width", -700.0)``."""

_NOT_THE_THING = {"id", "surface", "sigma", "note", "reads"}


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Told:
    """All readings of one thing, with their names and sigmas. [mm].

    `surface` is the one they were read to, None where that makes no difference.
    """

    wall: str
    surface: Surface | None
    thing: Thing
    ids: tuple[str, ...]
    readings: tuple[Reading, ...]
    sigmas: tuple[float, ...]
    figure: Figure


def gather(wall: Wall, survey: Survey) -> tuple[Told, ...]:
    """Gather the readings of a wall by what they read.

    Parameters
    ----------
    wall
        The wall.
    survey
        How readings were taken, where one does not say.

    Returns
    -------
    tuple of Told
        One for each thing and surface, in the order of the first reading of each.

    Notes
    -----
    Readings are of one thing where kind, place and surface are written alike: a width from stud
    to stud is another than the one from backer to backer. Heights are the same for any surface
    of the wall. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> job = sample_job()
    >>> [told.thing for told in gather(job.wall[2], job.survey)][:2]
    [('width', -700.0), ('width', 0.0)]
    """
    taken: dict[tuple[Surface | None, Thing], list[tuple[str, Reading]]] = {}
    for name, reading in named(wall):
        surface = None if _upright(reading) else reading.surface or survey.surface
        taken.setdefault((surface, _thing(reading)), []).append((name, reading))
    return tuple(
        _told(wall.name, surface, thing, members, survey)
        for (surface, thing), members in taken.items()
    )


def _told(
    wall: str,
    surface: Surface | None,
    thing: Thing,
    members: Sequence[tuple[str, Reading]],
    survey: Survey,
) -> Told:
    ids = tuple(name for name, _ in members)
    readings = tuple(reading for _, reading in members)
    sigmas = tuple(max(sigma_of(r, survey.practice), LEAST_SIGMA) for r in readings)
    return Told(
        wall=wall,
        surface=surface,
        thing=thing,
        ids=ids,
        readings=readings,
        sigmas=sigmas,
        figure=mean_of(ids, [reading.reads for reading in readings], sigmas),
    )


def _thing(reading: Reading) -> Thing:
    return tuple(value for name, value in reading if name not in _NOT_THE_THING)


def _upright(reading: Reading) -> bool:
    match reading:
        case Deck() | Floor() | Ceiling() | Height() | Drain():
            return True
        case HoleCentre(start="datum") | FixturePlace(start="datum"):
            return True
        case OpeningEdge(edge="sill" | "head" | "height"):
            return True
        case _:
            return False
