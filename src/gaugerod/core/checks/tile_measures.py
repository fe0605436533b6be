"""What the rules measure on tile and its joints."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.bonds import HERRINGBONE


def _bond_offset(facts: Facts) -> list[Measured]:
    """Measure how far rows stand off the next: nought for stack bond, none for a herringbone."""
    pitch, pattern = facts.layout.pitch[0], facts.layout.pattern
    found = []
    for wall in facts.layout.walls:
        shift = wall.row_shift
        if pattern:
            shift = float(np.dot(pattern.across, pattern.up)) / pitch
        if facts.layout.bond not in HERRINGBONE:
            offset = min(shift % pitch, pitch - shift % pitch)
            found.append(Measured(where=wall.name, value=offset, against=pitch, side=pitch))
    return found


def _is_running(facts: Facts) -> bool:
    return any((found.value or 0.0) > SNAP for found in _bond_offset(facts))


def _joint(facts: Facts) -> list[Measured]:
    return [Measured(value=min(facts.system.joint), side=max(facts.layout.pitch))]


def _joint_for_variation(facts: Facts) -> list[Measured]:
    """Measure the joint against what the tiles differ in size."""
    variation = facts.job.facts.size_variation
    if variation is None:
        return [Measured(value=None)]
    return [Measured(value=min(facts.system.joint), against=variation)]


def _bond_joint(facts: Facts) -> list[Measured]:
    """Measure the joint of a running bond, what the edge of a tile is warped taken off."""
    if not _is_running(facts):
        return []
    value = min(facts.system.joint) - (facts.job.facts.warpage or 0.0)
    return [Measured(value=value, side=max(facts.layout.pitch))]


def _calibrated_bond_joint(facts: Facts) -> list[Measured]:
    """Measure the same of tile that is not rectified; unknown where nobody has said."""
    rectified, side = facts.job.facts.rectified, max(facts.layout.pitch)
    found = [] if rectified else _bond_joint(facts)
    return [Measured(value=None, side=side)] if found and rectified is None else found


def _soft_joint(facts: Facts) -> list[Measured]:
    gaps = facts.system.gaps
    return [Measured(value=min(gaps.deck, gaps.butt, gaps.ceiling))]


def _unbroken_run(facts: Facts) -> list[Measured]:
    """Measure the longest run of tile from soft joint to soft joint, across or up."""
    runs = {
        wall.name: max(
            wall.right.offset - wall.left.offset,
            facts.layout.top - min(y for _, y in wall.deck),
        )
        for wall in facts.walls.walls
    }
    longest = max(runs, key=runs.__getitem__)
    return [Measured(where=longest, value=runs[longest])]


def _lippage(facts: Facts) -> list[Measured]:
    """Measure the worst step between tiles, what their edges are warped taken off."""
    answers, joint = facts.job.facts, min(facts.system.joint)
    if answers.lippage is None:
        return [Measured(value=None, size=joint)]
    return [Measured(value=answers.lippage - (answers.warpage or 0.0), size=joint)]


TILE_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "bond-offset": _bond_offset,
        "joint": _joint,
        "joint-for-variation": _joint_for_variation,
        "bond-joint": _bond_joint,
        "calibrated-bond-joint": _calibrated_bond_joint,
        "soft-joint": _soft_joint,
        "unbroken-run": _unbroken_run,
        "lippage": _lippage,
    }
)
