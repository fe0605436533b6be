"""What the rules measure on the survey and on the site."""

from collections.abc import Mapping
from datetime import timedelta
from types import MappingProxyType

from gaugerod.core.checks.facts import Facts, Measure, Measured


def _suspects(facts: Facts) -> list[Measured]:
    return [Measured(where=", ".join(s.readings)) for s in facts.walls.suspects]


def _price_only(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.fit_for == "price" else []


def _floor_unread(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.floor is None else []


def _drain_unread(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.walls.drain is None else []


def _always(_: Facts) -> list[Measured]:
    return [Measured()]


def _worked(facts: Facts) -> list[Measured]:
    """Find whether anything is cut or drilled."""
    worked = facts.cuts.cuts + facts.order.quantities.holes
    return [Measured()] if worked else []


def _sawn(facts: Facts) -> list[Measured]:
    sawn = facts.cuts.cuts and facts.system.cutting.tool != "score and snap"
    return [Measured()] if sawn else []


def _tile_drilled(facts: Facts) -> list[Measured]:
    return _silica_dust(facts) if facts.order.quantities.holes else []


def _opened(facts: Facts) -> list[Measured]:
    """Find whether tools or hands go into the wall: strip-out, cuts or holes."""
    return [Measured()] if facts.job.facts.strip_out is not False else _worked(facts)


def _piped(facts: Facts) -> list[Measured]:
    """Find whether hands come near pipes: in a strip-out, or where one comes through."""
    pierced = any(wall.holes for wall in facts.walls.walls)
    return [Measured()] if pierced or facts.job.facts.strip_out is not False else []


def _tub(facts: Facts) -> list[Measured]:
    return [] if facts.job.facts.receptor == "shower" else [Measured()]


def _plastic_dust(facts: Facts) -> list[Measured]:
    return _worked(facts) if facts.system.cutting.material == "plastic" else []


def _silica_dust(facts: Facts) -> list[Measured]:
    return _worked(facts) if facts.system.cutting.material != "plastic" else []


def _dry_hours(facts: Facts) -> list[Measured]:
    """Hours from the last work that leaves a hold until water may run."""
    ends = [task.end for task in facts.days.tasks if task.hold_minutes]
    last = max(ends, default=facts.days.finish)
    return [Measured(value=(facts.days.no_water_until - last) / timedelta(hours=1), unit="hours")]


SURVEY_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "suspects": _suspects,
        "price-only": _price_only,
        "floor-unread": _floor_unread,
        "drain-unread": _drain_unread,
        "always": _always,
        "worked": _worked,
        "sawn": _sawn,
        "opened": _opened,
        "piped": _piped,
        "tub": _tub,
        "tile-drilled": _tile_drilled,
        "plastic-dust": _plastic_dust,
        "silica-dust": _silica_dust,
        "dry-hours": _dry_hours,
    }
)
