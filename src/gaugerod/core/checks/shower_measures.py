"""What the rules measure at a shower: its finished size, its entry, its curb and floor."""

from collections.abc import Callable, Mapping
from types import MappingProxyType

from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.answers import Answers
from gaugerod.core.setout.field import low_point
from gaugerod.core.survey.walls import FittedWall

ALCOVE = 3
"""Walls of a plain alcove: an end, the back, an end."""
SQUARE_METRE = 1e6
"""[mm2]"""


def _finished(facts: Facts) -> tuple[float, float] | None:
    """Return least width and depth of a shower of three walls, face to face. [mm]."""
    walls = facts.walls.walls
    if facts.job.facts.receptor != "shower" or len(walls) != ALCOVE:
        return None
    lining = facts.system.thickness + facts.system.bed
    low, high = low_point(facts.walls)[1], facts.layout.top
    left, back, right = (_least_width(wall, (low, high)) for wall in walls)
    return back - 2 * lining, min(left, right) - lining


def _least_width(wall: FittedWall, heights: tuple[float, float]) -> float:
    """Return what a wall with straight edges is across where it is narrowest. [mm]."""
    return min(wall.right.at(y) - wall.left.at(y) for y in heights)


def _side(facts: Facts) -> list[Measured]:
    sides = _finished(facts)
    if sides is None:
        return []
    return [Measured(value=min(sides), area=sides[0] * sides[1] / SQUARE_METRE)]


def _area(facts: Facts) -> list[Measured]:
    sides = _finished(facts)
    return [] if sides is None else [Measured(value=sides[0] * sides[1] / SQUARE_METRE, unit="m2")]


def _answer(read: Callable[[Answers], float | None], *, unit: str = "") -> Measure:
    def measure(facts: Facts) -> list[Measured]:
        shower = facts.job.facts.receptor == "shower"
        return [Measured(value=read(facts.job.facts), unit=unit)] if shower else []

    return measure


SHOWER_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "shower-side": _side,
        "shower-area": _area,
        "entry": _answer(lambda facts: facts.entry),
        "curb": _answer(lambda facts: facts.curb),
        "floor-slope": _answer(lambda facts: facts.floor_slope),
    }
)
