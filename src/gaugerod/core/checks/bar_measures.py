"""What the rules measure at grab bars: heights, lengths, and what holds them."""

from collections.abc import Iterator, Mapping
from types import MappingProxyType

import numpy as np

from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.survey.walls import FittedFixture, FittedWall

ALCOVE = 3
"""Walls of a plain alcove: an end, the back, an end."""


def _bars(wall: FittedWall) -> Iterator[tuple[str, FittedFixture]]:
    for fixture in wall.fixtures:
        if fixture.kind == "bar":
            yield f"{wall.name} {fixture.name}", fixture


def _walls(facts: Facts) -> tuple[FittedWall, ...]:
    """Return the walls, where the room is built to a standard for access."""
    return facts.walls.walls if facts.job.facts.accessible else ()


def _lower(wall: FittedWall) -> FittedFixture | None:
    """Return the lowest of several bars on a wall."""
    bars = [bar for _, bar in _bars(wall)]
    return min(bars, key=lambda bar: bar.box.top) if len(bars) > 1 else None


def _bar_height(facts: Facts) -> list[Measured]:
    floor = facts.walls.floor
    return [
        Measured(where=where, value=bar.box.top - floor)
        for wall in _walls(facts)
        for where, bar in _bars(wall)
        if floor is not None and bar is not _lower(wall)
    ]


def _lower_bar_height(facts: Facts) -> list[Measured]:
    return [
        Measured(where=where, value=bar.box.top - _rim(wall, bar))
        for wall in _walls(facts)
        for where, bar in _bars(wall)
        if bar is _lower(wall)
    ]


def _rim(wall: FittedWall, bar: FittedFixture) -> float:
    stations, heights = zip(*wall.deck, strict=True)
    return float(np.interp((bar.box.left + bar.box.right) / 2, stations, heights))


def _ends(facts: Facts) -> tuple[FittedWall, FittedWall, FittedWall] | None:
    """Return control wall, back wall and head wall of a plain alcove piped at one end."""
    if len(facts.walls.walls) != ALCOVE:
        return None
    left, back, right = facts.walls.walls
    if bool(left.holes) == bool(right.holes):
        return None
    return (left, back, right) if left.holes else (right, back, left)


def _lengths(facts: Facts, place: int) -> list[Measured]:
    ends = _ends(facts)
    if ends is None or not facts.job.facts.accessible:
        return []
    return [Measured(where=where, value=bar.box.width) for where, bar in _bars(ends[place])]


def _control_bar(facts: Facts) -> list[Measured]:
    return _lengths(facts, 0)


def _back_bar(facts: Facts) -> list[Measured]:
    return _lengths(facts, 1)


def _head_bar(facts: Facts) -> list[Measured]:
    return _lengths(facts, 2)


def _off_end(facts: Facts, place: int) -> list[Measured]:
    """Measure from each bar of the back wall to an end wall."""
    ends = _ends(facts)
    if ends is None or not facts.job.facts.accessible:
        return []
    back, at_left = ends[1], ends[place] is facts.walls.walls[0]
    return [
        Measured(
            where=where,
            value=bar.box.left - back.left.offset if at_left else back.right.offset - bar.box.right,
        )
        for where, bar in _bars(back)
    ]


def _off_control(facts: Facts) -> list[Measured]:
    return _off_end(facts, 0)


def _off_head(facts: Facts) -> list[Measured]:
    return _off_end(facts, 2)


def _backing(facts: Facts) -> list[Measured]:
    """Find what is behind each bar and rail."""
    return [
        Measured(where=f"{wall.name} {fixture.name}", value=None)
        if fixture.backing is None
        else Measured(where=f"{wall.name} {fixture.name}", word="yes" if fixture.backing else "no")
        for wall in facts.job.wall
        for fixture in wall.fixture
        if fixture.kind in {"bar", "rail"}
    ]


def _each_bar(facts: Facts) -> list[Measured]:
    return [Measured(where=where) for wall in facts.walls.walls for where, _ in _bars(wall)]


BAR_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "bars": _each_bar,
        "bar-backing": _backing,
        "bar-height": _bar_height,
        "lower-bar-height": _lower_bar_height,
        "control-bar": _control_bar,
        "back-bar": _back_bar,
        "head-bar": _head_bar,
        "back-bar-to-control": _off_control,
        "back-bar-to-head": _off_head,
    }
)
