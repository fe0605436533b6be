"""What the rules measure on the survey and on the site."""

from collections.abc import Mapping
from datetime import timedelta
from types import MappingProxyType

from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.readings import Gap


def _suspects(facts: Facts) -> list[Measured]:
    return [Measured(where=", ".join(s.readings)) for s in facts.walls.suspects]


def _price_only(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.fit_for == "price" else []


def _floor_unread(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.floor is None else []


def _drain_unread(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.drain is None else []


def _straightedge_gap(facts: Facts) -> list[Measured]:
    return [
        Measured(where=wall.name, value=reading.reads, side=max(facts.layout.pitch))
        for wall in facts.job.wall
        for reading in wall.readings
        if isinstance(reading, Gap)
    ]


def _year_built(facts: Facts) -> list[Measured]:
    built = facts.job.site.built
    return [] if built is None else [Measured(value=float(built))]


def _year_unknown(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.job.site.built is None else []


def _always(_: Facts) -> list[Measured]:
    return [Measured()]


def _dust(facts: Facts) -> list[Measured]:
    worked = facts.cuts.cuts + facts.order.quantities.holes
    return [Measured()] if worked else []


def _plastic_dust(facts: Facts) -> list[Measured]:
    return _dust(facts) if facts.system.cutting.material == "plastic" else []


def _silica_dust(facts: Facts) -> list[Measured]:
    return _dust(facts) if facts.system.cutting.material != "plastic" else []


def _box_weight(facts: Facts) -> list[Measured]:
    return [Measured(value=facts.system.weight * facts.system.per_box)]


def _dry_hours(facts: Facts) -> list[Measured]:
    """Hours from the last work that leaves a hold until water may run."""
    ends = [task.end for task in facts.days.tasks if task.hold_minutes]
    last = max(ends, default=facts.days.finish)
    return [Measured(value=(facts.days.no_water_until - last) / timedelta(hours=1))]


SURVEY_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "suspects": _suspects,
        "price-only": _price_only,
        "floor-unread": _floor_unread,
        "drain-unread": _drain_unread,
        "straightedge-gap": _straightedge_gap,
        "year-built": _year_built,
        "year-unknown": _year_unknown,
        "always": _always,
        "plastic-dust": _plastic_dust,
        "silica-dust": _silica_dust,
        "box-weight": _box_weight,
        "dry-hours": _dry_hours,
    }
)
