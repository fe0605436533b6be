"""Findings of walls that are not flat: the limits of the survey, held against what was read."""

from collections.abc import Iterator

from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.document import Job
from gaugerod.core.job.readings import Depth, Gap
from gaugerod.core.job.tolerances import Fixing, Tolerance, Tolerances, fixing_of
from gaugerod.core.survey.flatness import flatness_of
from gaugerod.core.survey.limits import Judged, limits_for


def flat_findings(facts: Facts, limits: Tolerances) -> tuple[Finding, ...]:
    """Return a finding for each limit that a wall is not flat to.

    Parameters
    ----------
    facts
        What is known of the alcove.
    limits
        The tolerances at hand.

    Returns
    -------
    tuple of Finding
        On each wall the worst place beyond each limit. [mm]

    Notes
    -----
    The survey judges gaps under straightedges and depths on a grid alike,
    ``docs/theory/flatness.md``. Of a place that has no limit for its lining those of every
    place count, as where none is named. Source: own design; each limit states its own.

    Examples
    --------
    A hollow of 4 on the back wall, where 3 are allowed; nothing but readings is looked at:

    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 2000, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> limits = Tolerances.model_validate({"format": 1, "unit": "mm", "tolerance": [row]})
    >>> gap = Gap(kind="gap", at=750, height=300, straightedge=1200, held="level", reads=4)
    >>> job = sample_job()
    >>> back = job.wall[1].model_copy(update={"readings": (*job.wall[1].readings, gap)})
    >>> job = job.model_copy(update={"wall": (job.wall[0], back, job.wall[2])})
    >>> others = dict.fromkeys(("layout", "pieces", "cuts", "order", "days"))
    >>> facts = Facts(job=job, walls=fit_walls(job), system=sample_system(), **others)
    >>> [(found.rule, found.where, found.value) for found in flat_findings(facts, limits)]
    [('row', 'B', 4.0)]
    """
    job, edge, fixing = facts.job, max(facts.system.face), fixing_of(facts.system)
    region = _region(job, limits, edge=edge, fixing=fixing)
    found: list[Finding] = []
    for wall, fitted in zip(job.wall, facts.walls.walls, strict=True):
        if any(isinstance(reading, Gap | Depth) for reading in wall.readings):
            flatness = flatness_of(
                wall,
                fitted,
                longest_edge=edge,
                limits=limits,
                survey=job.survey,
                fixing=fixing,
                region=region,
            )
            judged = [*flatness.judged, *(j for found in flatness.surfaces for j in found.judged)]
            found += (_finding(wall.name, one) for one in _worst(judged))
    return tuple(found)


def _region(job: Job, limits: Tolerances, *, edge: float, fixing: Fixing) -> str:
    """Return the place whose limits count; none where it has no limit for this lining."""
    bonding, region = job.survey.bonding, job.site.region
    rows = limits_for(limits, longest_edge=edge, fixing=fixing, surface=bonding, region=region)
    return region if any(row.about == "flat" for row in rows) else ""


def _worst(judged: list[Judged]) -> Iterator[Judged]:
    worst: dict[str, Judged] = {}
    for one in judged:
        tolerance = one.tolerance
        if tolerance.about != "flat" or one.verdict != "out":
            continue
        known = worst.get(tolerance.id)
        if known is None or one.over > known.over:
            worst[tolerance.id] = one
    yield from worst.values()


def _finding(wall: str, judged: Judged) -> Finding:
    tolerance: Tolerance = judged.tolerance
    return Finding(
        rule=tolerance.id,
        severity="warn",
        where=wall,
        statement=tolerance.statement,
        advice=tolerance.advice,
        source=tolerance.source,
        edition=tolerance.edition,
        sure=tolerance.sure,
        length=True,
        value=abs(judged.departure.by),
        limit=judged.limit,
        unit="",
        word="",
        gate="set-out",
        short="",
    )
