"""What the rules measure inside openings: the fall of a sill, the depth."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.survey.walls import FittedOpening


def _openings(facts: Facts) -> Iterator[tuple[str, FittedOpening]]:
    """Every opening, with the words for where it is."""
    for wall in facts.walls.walls:
        for opening in wall.openings:
            yield f"{wall.name} {opening.name}", opening


def _sill_fall(facts: Facts) -> list[Measured]:
    """Find what each sill falls over its depth, where it is known; else it is made to fall."""
    return [
        Measured(where=where, value=opening.fall, against=opening.depth)
        for where, opening in _openings(facts)
        if opening.fall is not None and opening.depth is not None
    ]


def _niche_depth(facts: Facts) -> list[Measured]:
    """Find how deep each niche is with wall and back lined: as deep as it was bare."""
    return [
        Measured(where=where, value=opening.depth)
        for where, opening in _openings(facts)
        if opening.kind == "niche" and opening.depth is not None
    ]


def _depth_unread(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where)
        for where, opening in _openings(facts)
        if opening.lined and opening.depth is None
    ]


OPENING_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "sill-fall": _sill_fall,
        "niche-depth": _niche_depth,
        "depth-unread": _depth_unread,
    }
)
