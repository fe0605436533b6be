"""Gaps read under a straightedge, and how far that straightedge can tell."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.readings import Gap, Practice
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.limits import NOISE, Departure
from gaugerod.core.survey.sigmas import sigma_of
from gaugerod.core.survey.walls import FittedWall


def gap_departure(reading: Gap, practice: Practice) -> Departure:
    """Return what a gap under a straightedge says, and where.

    Parameters
    ----------
    reading
        The gap.
    practice
        How it was read, where it has no sigma of its own.

    Returns
    -------
    Departure
        Plus for a hump, minus for a hollow. [mm]

    Notes
    -----
    A hollow is read between two high points. On a hump the straightedge is held so that both
    ends stand off alike, and that gap is the reading: it is what the hump has over the line
    through the ends. Source: own derivation.

    Examples
    --------
    >>> gap = Gap(kind="gap", at=762, height=900, straightedge=1200, held="plumb", reads=4)
    >>> found = gap_departure(gap, "good")
    >>> found.start, found.end, found.by
    ((762.0, 300.0), (762.0, 1500.0), -4.0)
    """
    half = reading.straightedge / 2
    across, up = (half, 0.0) if reading.held == "level" else (0.0, half)
    return Departure(
        way="gap",
        held=reading.held,
        start=(reading.at - across, reading.height - up),
        end=(reading.at + across, reading.height + up),
        at=(reading.at, reading.height),
        span=reading.straightedge,
        by=reading.reads if reading.fault == "hump" else -reading.reads,
        sigma=sigma_of(reading, practice),
    )


def short_straightedges(
    gaps: Sequence[Gap], wall: FittedWall, tolerances: Sequence[Tolerance]
) -> Iterator[Message]:
    """Say where the straightedges used are shorter than a limit and the wall ask for.

    Parameters
    ----------
    gaps
        Gaps read on the wall.
    wall
        The wall.
    tolerances
        What is allowed.

    Yields
    ------
    Message
        One for each way of holding it, level and plumb, in which gaps were read.

    Notes
    -----
    A gap that keeps a limit under a short straightedge may yet break it under a long one.
    Source: own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 3000, "at_most": 6}], "source": "None.", "sure": "calc"}
    >>> gap = Gap(kind="gap", at=750, height=300, straightedge=1200, held="level", reads=4)
    >>> wall = fit_walls(sample_job()).walls[1]
    >>> [note.values["wanted"] for note in
    ...     short_straightedges([gap], wall, [Tolerance.model_validate(row)])]
    [Length(mm=1500.0)]
    """
    xs, ys = zip(*wall.outline, strict=True)
    extents = {"level": max(xs) - min(xs), "plumb": max(ys) - min(ys)}
    reach = max((tolerance.allows[-1].over for tolerance in tolerances), default=0.0)
    for held, extent in extents.items():
        longest = max((gap.straightedge for gap in gaps if gap.held == held), default=None)
        wanted = min(reach, extent)
        if longest is not None and longest < wanted - NOISE:
            yield Message(
                "flatness.short-straightedge",
                wall=wall.name,
                held=held,
                longest=Length(longest),
                wanted=Length(wanted),
            )
