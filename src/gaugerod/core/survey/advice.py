"""Which reading to take next: the one that makes the alcove surest."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import sqrt

import numpy as np

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import (
    Ceiling,
    CornerToCorner,
    Deck,
    HoleCentre,
    Lean,
    Reading,
    Width,
)
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.model import PLAIN, Predicted, predict
from gaugerod.core.survey.sigmas import sigma_of
from gaugerod.core.survey.solve import Solution

SURE = 2.0
"""A corner that is known to this sigma is known well enough to cut to. [mm]"""
MOST = 3
"""Readings proposed at a time: nobody takes more before looking again."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Advice:
    """Readings to take next, best first, and the corners that are not sure yet."""

    take: tuple[Message, ...]
    unsure: tuple[Message, ...]


def advise(job: Job, solution: Solution) -> Advice:
    """Propose the readings that would make unsure corners surest.

    Parameters
    ----------
    job
        The job, for its practice and walls.
    solution
        The fit so far.

    Returns
    -------
    Advice
        At most `MOST` readings, and every corner whose sigma is over `SURE`. [mm]

    Notes
    -----
    For each reading that could be taken, with partials ``a`` and sigma ``s``, the covariance
    ``C`` of the unknowns would fall by ``C a a' C / (s^2 + a' C a)``. The one that lowers the
    variance of the unsure corners most is proposed, its effect is counted in, and the next
    is sought. A hole placed from one side only is to be read from the other, since nothing
    would show its slip. Source: own derivation, the update of a least-squares fit.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.observations import observations
    >>> from gaugerod.core.survey.solve import solve
    >>> job = sample_job()
    >>> used, _ = observations(job)
    >>> advise(job, solve(used, used, walls=3)).take[-1].key
    'survey.take-hole'
    """
    covariance = np.array(solution.adjustment.covariance)
    targets = [(say, _row(found, solution)) for say, found in _corners(job, solution)]
    unsure = [(say, row) for say, row in targets if _sigma(row, covariance) > SURE]
    said = tuple(
        Message("survey.unsure", where=say, sigma=Length(_sigma(row, covariance)))
        for say, row in unsure
    )
    could = [(say, _row(found, solution), s) for say, found, s in _could_take(job, solution)]
    take: list[Message] = []
    while unsure and len(take) < MOST:
        rows = np.array([row for _, row in unsure])
        gains = [_gain(rows, row, sigma, covariance) for _, row, sigma in could]
        best = int(np.argmax(gains))
        say, row, sigma = could.pop(best)
        take.append(say)
        along = covariance @ row
        covariance -= np.outer(along, along) / (sigma**2 + row @ along)
        unsure = [(name, r) for name, r in unsure if _sigma(r, covariance) > SURE]
    take.extend(_one_sided(job))
    return Advice(take=tuple(take[:MOST]), unsure=said)


def _sigma(row: Array, covariance: Array) -> float:
    variance = float(row @ covariance @ row)
    return sqrt(max(variance, 0.0))


def _gain(targets: Array, row: Array, sigma: float, covariance: Array) -> float:
    along = covariance @ row
    return float(((targets @ along) ** 2).sum() / (sigma**2 + row @ along))


def _row(found: Predicted, solution: Solution) -> Array:
    return np.array([found.partials.get(name, 0.0) for name in solution.names])


def _heights(place: int, solution: Solution) -> tuple[float, float]:
    state = solution.state
    low = (state[f"deck {place}"] + state[f"deck {place + 1}"]) / 2
    high = (state[f"ceiling {place}"] + state[f"ceiling {place + 1}"]) / 2
    return low, high


def _corners(job: Job, solution: Solution) -> Iterator[tuple[Message, Predicted]]:
    """Yield what must be known of each wall: its edges below and above, deck and ceiling."""
    for place, wall in enumerate(job.wall):
        low, high = _heights(place, solution)
        for end, y in (("foot", low), ("head", high)):
            for edge in ("left", "right"):
                partials = {f"{edge} {wall.name}": y}
                if edge == "right":
                    partials[f"width {wall.name}"] = 1.0
                where = Message(f"survey.{edge}-{end}", wall=wall.name)
                yield where, Predicted(value=0.0, partials=partials)
        for level in ("deck", "ceiling"):
            for corner, edge in ((place, "left"), (place + 1, "right")):
                where = Message(f"survey.{level}-{edge}", wall=wall.name)
                yield where, Predicted(value=0.0, partials={f"{level} {corner}": 1.0})


def _could_take(job: Job, solution: Solution) -> Iterator[tuple[Message, Predicted, float]]:
    for place, wall in enumerate(job.wall):
        low, high = _heights(place, solution)
        width = solution.state[f"width {wall.name}"]
        readings: list[tuple[str, Reading, float]] = []
        readings += [
            ("take-width-at", Width(kind="width", at=y, reads=1.0), y) for y in (low, high)
        ]
        readings += [
            (f"take-lean-{edge}", Lean(kind="lean", edge=edge, over=1800.0, reads=0.0), 0.0)
            for edge in ("left", "right")
        ]
        for at in (0.0, width):
            readings.append(("take-deck-at", Deck(kind="deck", at=at, reads=1.0), at))
            readings.append(("take-ceiling-at", Ceiling(kind="ceiling", at=at, reads=1.0), at))
        for left, right in ((low, high), (high, low)):
            diagonal = CornerToCorner(
                kind="corner to corner", left_at=left, right_at=right, reads=1.0
            )
            readings.append(("take-diagonal", diagonal, 0.0))
        for key, reading, at in readings:
            found = predict(reading, wall.name, place, solution.state, seat=PLAIN)
            say = Message(f"survey.{key}", wall=wall.name, at=Length(at))
            yield say, found, sigma_of(reading, job.survey.practice)


def _one_sided(job: Job) -> Iterator[Message]:
    """Yield holes that were placed from one side only."""
    for wall in job.wall:
        for hole in wall.hole:
            sides = {
                r.start
                for r in wall.readings
                if isinstance(r, HoleCentre) and r.of == hole.name and r.start != "datum"
            }
            if len(sides) == 1:
                other = "right" if sides == {"left"} else "left"
                yield Message(
                    "survey.take-hole",
                    wall=wall.name,
                    hole=hole.name,
                    side=Message(f"survey.{other}"),
                )
