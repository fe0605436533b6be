"""What the rules for sheets measure: how heavy a piece is, and whether a sheet comes in."""

from collections.abc import Mapping
from math import hypot
from types import MappingProxyType

from gaugerod.core.base.geometry import shape_of
from gaugerod.core.checks.facts import Facts, Measure, Measured


def _piece_weight(facts: Facts) -> list[Measured]:
    """Weigh the heaviest piece by its area. [kg]."""
    system = facts.system
    per_area = system.weight / (system.face[0] * system.face[1])
    weights = {piece.tag: shape_of(piece.region).area * per_area for piece in facts.pieces}
    heaviest = max(weights, key=weights.__getitem__)
    return [Measured(where=heaviest, value=weights[heaviest])]


def _doorway(facts: Facts) -> list[Measured]:
    """Measure the short side of a sheet against the diagonal of the narrowest door."""
    door = facts.job.site.doorway
    return [Measured(value=min(facts.system.face), against=hypot(*door))] if door else []


SHEET_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {"piece-weight": _piece_weight, "doorway": _doorway}
)
