"""Rules held against the plan: each one that is broken becomes a finding."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Message
from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.flat import flat_findings
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.rules import Rule, Rules
from gaugerod.core.job.tolerances import Tolerances
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
    others: tuple[System, ...] = (),
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
    others
        Products that stand here and there instead of the material.

    Returns
    -------
    tuple of Finding
        What breaks a rule and all else that applies: what forbids cutting first, then
        warnings, open questions, cautions, and lines to tick, each in the order of the rules.

    Raises
    ------
    JobError
        A rule names a measure that nobody knows.

    Notes
    -----
    A rule without a limit applies wherever its measure finds anything. A rule with regions
    applies there, and, lines to tick apart, where the job does not say in what region it is.
    One for all but some regions wants a region that is named. Of a code whose
    edition the job does not say, the newest counts. What needs an answer that nobody has
    given is asked.
    Source: own design, ``docs/theory/checks.md``.

    Examples
    --------
    This rule looks at the year alone, so that nothing else is needed here:

    >>> from gaugerod.core.job.document import Site
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> rule = {"id": "lead", "statement": "Paint in a house from before 1978 may hold lead.",
    ...     "measure": "age-for-lead", "holds": "at least", "number": 1978, "severity": "caution",
    ...     "short": "Test it first.", "advice": "Have it tested.", "source": "40 CFR 745",
    ...     "sure": "found"}
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
        others=others,
    )
    found = [finding for rule in rules.rule for finding in _findings(rule, facts)]
    limits = Tolerances(format=1, unit="mm", tolerance=rules.tolerance)
    found += flat_findings(facts, limits) if rules.tolerance else ()
    found.sort(key=lambda finding: _FIRST.index(finding.severity))
    return tuple(_asked_once(found))


def _asked_once(found: Iterable[Finding]) -> Iterator[Finding]:
    """Leave out what is asked again: rules of several places may ask one thing."""
    asked = set()
    for finding in found:
        question = (finding.where, finding.statement)
        if finding.severity != "ask" or question not in asked:
            yield finding
        if finding.severity == "ask":
            asked.add(question)


_FIRST = ("forbid", "warn", "ask", "caution", "tick")


def _findings(rule: Rule, facts: Facts) -> Iterator[Finding]:
    if rule.measure not in MEASURES:
        raise JobError(Message("checks.unknown-measure", rule=rule.id, measure=rule.measure))
    if not _applies(rule, facts):
        return
    for measured in MEASURES[rule.measure](facts):
        if _is_for(rule, measured):
            yield from _held(rule, measured)


def _applies(rule: Rule, facts: Facts) -> bool:
    site = facts.job.site
    # Of a place that is not named, its rules count; its lines to tick would be noise.
    here = not rule.regions or (
        _lies_in(site.region.upper(), rule.regions) if site.region else rule.severity != "tick"
    )
    if rule.not_in:
        # Where no place is named the rules of every place count already.
        here = here and bool(site.region) and not _lies_in(site.region.upper(), rule.not_in)
    done = rule.severity == "tick" and rule.id in facts.job.facts.ticked
    in_force = _in_force(rule, site.editions.get(rule.code))
    return here and in_force and not done and rule.kind in {"any", facts.system.kind}


def _lies_in(place: str, regions: tuple[str, ...]) -> bool:
    return any(place == region or place.startswith(f"{region}-") for region in regions)


def _in_force(rule: Rule, edition: int | None) -> bool:
    """Whether a rule stands in an edition; without one it must not have been superseded."""
    if edition is None:
        return rule.until is None
    return (rule.since or edition) <= edition <= (rule.until or edition)


def _is_for(rule: Rule, measured: Measured) -> bool:
    """Whether what was measured is of the size that a rule is for."""
    return (
        (rule.side_over is None or measured.side > rule.side_over + SNAP)
        and (rule.size_from is None or measured.size >= rule.size_from - SNAP)
        and (rule.size_below is None or measured.size < rule.size_below - SNAP)
        and (rule.area_below is None or measured.area < rule.area_below)
    )


def _held(rule: Rule, measured: Measured) -> Iterator[Finding]:
    limit = rule.limit
    if rule.number is not None:
        limit = rule.number * (1.0 if measured.against is None else measured.against)
    if measured.word and rule.words:
        if (measured.word in rule.words) != (rule.holds == "one of"):
            yield _finding(rule, measured)
    elif measured.value is None:
        if rule.ask is not None:
            yield replace(_finding(rule, measured), severity="ask", statement=rule.ask)
    elif limit is None:
        yield _finding(rule, measured)
    elif _breaks(rule, value=measured.value, limit=limit):
        yield _finding(rule, measured, value=measured.value, limit=limit)


def _breaks(rule: Rule, *, value: float, limit: float) -> bool:
    """Whether a value is on the wrong side of its limit; rounding noise breaks nothing."""
    if rule.holds == "at least":
        return value < limit - SNAP
    if rule.holds == "at most":
        return value > limit + SNAP
    return value >= limit - SNAP


def _finding(
    rule: Rule, measured: Measured, *, value: float | None = None, limit: float | None = None
) -> Finding:
    length = value is not None and (rule.limit is not None or measured.against is not None)
    return Finding(
        rule=rule.id,
        severity=rule.severity,
        where=measured.where,
        statement=rule.statement,
        advice=rule.advice,
        source=rule.source,
        edition=rule.edition,
        sure=rule.sure,
        length=length,
        value=value,
        limit=limit,
        unit="" if length or value is None else measured.unit,
        word=measured.word,
        gate=rule.gate,
        short=rule.short or "",
    )
