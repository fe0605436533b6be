"""Rules held against the plan: each one that is broken becomes a finding."""

from collections.abc import Iterator

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Message
from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.rules import Rule, Rules
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.order import Order
from gaugerod.core.works.days import Days


def check(
    *,
    job: Job,
    walls: Walls,
    layout: Layout,
    pieces: tuple[Piece, ...],
    cuts: CutPlan,
    order: Order,
    days: Days,
    system: System,
    rules: Rules,
    insides: tuple[Inside, ...] = (),
) -> tuple[Finding, ...]:
    """Hold every rule against a plan.

    Parameters
    ----------
    job
        What was measured and chosen.
    walls
        The fitted walls.
    layout
        The chosen layout.
    pieces
        Its pieces.
    cuts
        What each module is cut into.
    order
        What is bought.
    days
        The calendar.
    system
        The material, with its maker's limits.
    rules
        The rules.
    insides
        Inside faces of its openings.

    Returns
    -------
    tuple of Finding
        What breaks a rule and every caution that applies: what forbids cutting first, then
        warnings, then cautions, each in the order of the rules.

    Raises
    ------
    JobError
        A rule names a measure that nobody knows.

    Notes
    -----
    A rule without a limit is a caution: it applies wherever its measure finds anything. A
    rule with regions applies there, and where the job does not say in what region it is.
    Source: own design, ``docs/theory/checks.md``.

    Examples
    --------
    This rule looks at the year alone, so that nothing else is needed here:

    >>> from gaugerod.core.job.document import Site
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> rule = {"id": "lead", "statement": "Paint in a house from before 1978 may hold lead.",
    ...     "measure": "year-built", "holds": "at least", "number": 1978, "severity": "caution",
    ...     "advice": "Have it tested.", "source": "40 CFR 745", "sure": "found"}
    >>> rules = Rules.model_validate({"format": 1, "unit": "mm", "rule": [rule]})
    >>> job = sample_job().model_copy(update={"site": Site(built=1962)})
    >>> others = dict.fromkeys(("walls", "layout", "pieces", "cuts", "order", "days"))
    >>> [finding.value for finding in check(job=job, system=sample_system(), rules=rules, **others)]
    [1962.0]
    """
    facts = Facts(
        job=job,
        walls=walls,
        layout=layout,
        pieces=pieces,
        cuts=cuts,
        order=order,
        days=days,
        system=system,
        insides=insides,
    )
    found = [finding for rule in rules.rule for finding in _findings(rule, facts)]
    found.sort(key=lambda finding: _FIRST.index(finding.severity))
    return tuple(found)


_FIRST = ("forbid", "warn", "caution")


def _findings(rule: Rule, facts: Facts) -> Iterator[Finding]:
    if rule.measure not in MEASURES:
        raise JobError(Message("checks.unknown-measure", rule=rule.id, measure=rule.measure))
    if not _applies(rule, facts):
        return
    for measured in MEASURES[rule.measure](facts):
        if rule.side_over is None or measured.side > rule.side_over + SNAP:
            yield from _held(rule, measured)


def _applies(rule: Rule, facts: Facts) -> bool:
    region = facts.job.site.region
    here = not rule.regions or not region or region.upper().startswith(rule.regions)
    return here and rule.kind in {"any", facts.system.kind}


def _held(rule: Rule, measured: Measured) -> Iterator[Finding]:
    limit, against = rule.limit, measured.against
    if rule.number is not None:
        limit = rule.number if against is None else rule.number * against
    if limit is None:
        yield _finding(rule, measured.where)
    elif _breaks(rule, value=measured.value, limit=limit):
        length = rule.limit is not None or against is not None
        yield _finding(rule, measured.where, length=length, value=measured.value, limit=limit)


def _breaks(rule: Rule, *, value: float, limit: float) -> bool:
    """Whether a value is on the wrong side of its limit; rounding noise breaks nothing."""
    if rule.holds == "at least":
        return value < limit - SNAP
    if rule.holds == "at most":
        return value > limit + SNAP
    return value >= limit - SNAP


def _finding(
    rule: Rule,
    where: str,
    *,
    length: bool = False,
    value: float | None = None,
    limit: float | None = None,
) -> Finding:
    return Finding(
        rule=rule.id,
        severity=rule.severity,
        where=where,
        statement=rule.statement,
        advice=rule.advice,
        source=rule.source,
        edition=rule.edition,
        sure=rule.sure,
        length=length,
        value=value,
        limit=limit,
    )
