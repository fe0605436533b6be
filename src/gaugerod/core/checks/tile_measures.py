"""What the rules for grouted tile measure: joints for the tile that came, lippage, soft joints."""

from collections.abc import Mapping
from types import MappingProxyType

from gaugerod.core.base.geometry import SNAP, bounds_of
from gaugerod.core.checks.facts import Facts, Measure, Measured

WIDE = 6.35
"""From this joint on, 1/4 in, two tiles may stand proud by more. [mm]"""
TIMES = 3
"""Times that a joint is what the tiles differ in size, at the least."""


def _joint_for_size(facts: Facts) -> list[Measured]:
    """Hold the narrower joint against what the tiles differ in size and are warped."""
    differs, warp = facts.system.differs, facts.system.warp
    asked = TIMES * differs + warp
    return [Measured(value=min(facts.system.joint), against=asked)] if asked else []


def _narrow_joint(facts: Facts) -> list[Measured]:
    return [Measured()] if min(facts.system.joint) < WIDE - SNAP else []


def _wide_joint(facts: Facts) -> list[Measured]:
    return [] if _narrow_joint(facts) else [Measured()]


def _tile_run(facts: Facts) -> list[Measured]:
    """Measure on each wall the longer way, across or up, that tile runs unbroken."""
    boxes = (
        (wall.name, bounds_of(region.rings))
        for wall in facts.layout.walls
        for region in wall.field.regions
    )
    return [
        Measured(where=name, value=max(box.right - box.left, box.top - box.bottom))
        for name, box in boxes
    ]


TILE_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "joint-for-size": _joint_for_size,
        "narrow-joint": _narrow_joint,
        "wide-joint": _wide_joint,
        "tile-run": _tile_run,
    }
)
