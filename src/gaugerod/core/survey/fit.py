"""From readings to walls: one adjustment over the whole alcove, and what it leaves over."""

from collections.abc import Iterator

import numpy as np

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Job
from gaugerod.core.survey.adjust import ALPHA, global_test
from gaugerod.core.survey.advice import Advice, advise
from gaugerod.core.survey.model import Bend, unknowns_of
from gaugerod.core.survey.moved import moved_walls
from gaugerod.core.survey.observations import Observation, Unseated, observations
from gaugerod.core.survey.outline import make_wall
from gaugerod.core.survey.snoop import MOST, Snooped, snoop
from gaugerod.core.survey.solve import Solution, would_read
from gaugerod.core.survey.steps import unread_steps
from gaugerod.core.survey.walls import FittedReading, Walls


def fit_walls(job: Job) -> Walls:
    """Fit the walls of an alcove to its readings.

    Parameters
    ----------
    job
        The job; its walls stand from left to right and meet in corners.

    Returns
    -------
    Walls
        Walls, residuals, suspects, covariance, and what the survey is fit for. [mm]

    Raises
    ------
    SurveyError
        A wall lacks a width, the room a deck or a ceiling reading, a hole all readings that
        can be brought to the bonding face, a wall its inside, or something lies outside it.

    Notes
    -----
    Weighted least squares with shared corners. Readings are brought to the bonding face.
    Lines are straight unless two readings of one place reject it. A reading whose w-test is
    beyond chance is named as a suspect and left out, the worst first, with the slip that
    would explain it. Source: W. Baarda (1968), data snooping; own model,
    ``docs/theory/survey.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> [wall.name for wall in fit_walls(sample_job()).walls]
    ['L', 'B', 'R']
    """
    every, unseated = observations(job)
    _complete(job, every, unseated)
    snooped = snoop(every, walls=len(job.wall), unit=job.unit, survey=job.survey)
    solution = snooped.solution
    state, bends = solution.state, snooped.bends
    dof = max(round(solution.redundancy), 0)
    chance = global_test(solution.squares, solution.redundancy) if dof else 1.0
    walls = tuple(make_wall(wall, place, state, bends=bends) for place, wall in enumerate(job.wall))
    advice = advise(job, solution)
    reasons = tuple(_reasons(job, snooped, unseated, dof=dof, chance=chance, advice=advice))
    return Walls(
        walls=walls,
        readings=tuple(_compare(every, solution)),
        suspects=snooped.suspects,
        parameters=solution.names,
        covariance=solution.adjustment.covariance,
        sigma0=float(np.sqrt(solution.squares / solution.redundancy)) if dof else 0.0,
        dof=dof,
        chance=chance,
        floor=state.get("floor"),
        drain=state.get("drain"),
        fit_for="price" if reasons else "cut",
        reasons=reasons,
        take=advice.take,
        notes=tuple(_notes(job, bends, state)),
        moved=tuple(moved_walls(job.wall, walls, state, bends)),
    )


def _complete(job: Job, every: tuple[Observation, ...], unseated: tuple[Unseated, ...]) -> None:
    if unseated and not every:
        raise SurveyError(Message("survey.no-surface", surface=unseated[0].surface))
    for wall in job.wall:
        if not any(o.wall == wall.name and o.reading.kind == "width" for o in every):
            raise SurveyError(Message("survey.take-width", wall=wall.name))
    kinds = {o.reading.kind for o in every if getattr(o.reading, "part", "rim") == "rim"}
    levels = kinds & {"deck", "ceiling"}
    for level in ("deck", "ceiling"):
        # A whole height gives the one from the other; a floor gives neither.
        if level not in levels and not (levels and "height" in kinds):
            raise SurveyError(Message(f"survey.take-{level}"))
    known = {name for o in every for name in unknowns_of(o.reading, o.wall, o.place)}
    for reading in unseated:
        if any(_needed(name) for name in reading.unknowns if name not in known):
            lost = Message("survey.needed", reading=reading.id, surface=reading.surface)
            raise SurveyError(lost)


def _needed(unknown: str) -> bool:
    """Tell whether a wall cannot be drawn without an unknown, which no belief fills in."""
    thing = unknown.split(" ", 1)[0]
    # A height of the floor is believed; a leg beside the tub stands on a line of its own.
    leg = thing == "floor" and " " in unknown
    return leg or (
        thing in {"hole", "opening", "fixture", "ledge", "platform"}
        and not unknown.endswith((" rough-in", " depth"))
    )


def _compare(every: tuple[Observation, ...], solution: Solution) -> Iterator[FittedReading]:
    """Yield every reading beside the fit; a suspect is compared with the fit without it."""
    rows = {o.id: row for row, o in enumerate(solution.used)}
    fit = solution.adjustment
    for o in every:
        residual = o.reading.reads - would_read(o, solution.state, solution.bends).value
        row = rows.get(o.id)
        yield FittedReading(
            id=o.id,
            wall=o.wall,
            kind=o.reading.kind,
            value=o.reading.reads,
            sigma=o.sigma,
            residual=residual,
            redundancy=0.0 if row is None else float(fit.redundancy[row]),
            detectable=float("inf") if row is None else float(fit.detectable[row]),
            w=residual / o.sigma if row is None else float(fit.w[row]),
        )


def _reasons(
    job: Job,
    snooped: Snooped,
    unseated: tuple[Unseated, ...],
    *,
    dof: int,
    chance: float,
    advice: Advice,
) -> Iterator[Message]:
    """Yield why the survey may not be cut from; nothing if it may."""
    every = [reading for wall in job.wall for reading in wall.readings]
    surfaces = {reading.surface or job.survey.surface for reading in every}
    for surface in sorted(surfaces - {job.survey.bonding}):
        yield Message("survey.not-bonding", surface=surface, bonding=job.survey.bonding)
    for reading in unseated:
        yield Message("survey.unseated", reading=reading.id, surface=reading.surface)
    for suspect in snooped.suspects:
        yield Message("survey.suspect", readings=", ".join(suspect.readings), w=suspect.w)
    if len(snooped.suspects) == MOST:
        yield Message("survey.too-many-suspects", most=MOST)
    if dof == 0:
        yield Message("survey.unchecked")
    if chance < ALPHA:
        yield Message("survey.scattered")
    for wall in job.wall:
        for at in unread_steps(wall):
            yield Message("survey.step-between", wall=wall.name, at=Length(at))
    yield from advice.unsure


def _notes(job: Job, bends: tuple[Bend, ...], state: dict[str, float]) -> Iterator[Message]:
    """Yield what the setter should know beside: bent lines and old tile."""
    for bend in bends:
        by = Length(state[bend.unknown])
        yield Message(f"survey.bend-{bend.what}", wall=bend.wall, at=Length(bend.at), by=by)
    for wall in job.wall:
        if wall.old_tile_stops is not None and job.survey.bonding == "old tile":
            step = Length(job.survey.layers.old_tile or 0.0)
            stops = Length(wall.old_tile_stops)
            yield Message("survey.old-tile-stops", wall=wall.name, at=stops, step=step)
        for hollow in wall.hollow:
            width, height = (Length(side) for side in hollow.size)
            yield Message(
                "survey.hollow",
                wall=wall.name,
                at=Length(hollow.at),
                up=Length(hollow.height),
                width=width,
                height=height,
            )
