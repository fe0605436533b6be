"""What the rules measure on the material: its weight, its hold times, what it grows."""

from collections.abc import Mapping
from math import hypot
from types import MappingProxyType

from gaugerod.core.base.geometry import SNAP, shape_of
from gaugerod.core.checks.facts import Facts, Measure, Measured
from gaugerod.core.job.materials import Grout, System
from gaugerod.core.setout.layout import Meeting, SetField

BED = 1.4
"""Mortar for each millimetre of bed, as a trade page gives it. [kg/m2]"""
SQUARE_METRE = 1e6
"""[mm2]"""


def _box_weight(facts: Facts) -> list[Measured]:
    return [
        Measured(where=one.name if facts.others else "", value=one.weight * one.per_box, unit="kg")
        for one in (facts.system, *facts.others)
    ]


def _per_area(system: System) -> float:
    """Weigh the bare material. [kg/mm2]."""
    return system.weight / (system.face[0] * system.face[1])


def _piece_weight(facts: Facts) -> list[Measured]:
    """Weigh the heaviest piece by its area."""
    main = _per_area(facts.system)
    others = {one.id: _per_area(one) for one in facts.others}
    weights = {
        piece.tag: shape_of(piece.region).area * others.get(piece.product, main)
        for piece in facts.pieces
    }
    heaviest = max(weights, key=weights.__getitem__)
    return [Measured(where=heaviest, value=weights[heaviest], unit="kg")]


def _load(facts: Facts, backer: str) -> list[Measured]:
    """Weigh tile and bed on one kind of wall."""
    if facts.job.facts.backer != backer:
        return []
    heaviest = max(map(_per_area, (facts.system, *facts.others)))
    load = heaviest * SQUARE_METRE + BED * facts.system.bed
    return [Measured(value=load, unit="kg-m2")]


def _plaster_load(facts: Facts) -> list[Measured]:
    return _load(facts, "plaster")


def _board_load(facts: Facts) -> list[Measured]:
    return _load(facts, "gypsum")


def _doorway(facts: Facts) -> list[Measured]:
    """Measure the short side of a sheet against the diagonal of the narrowest door."""
    door = facts.job.site.doorway
    return [Measured(value=min(facts.system.face), against=hypot(*door))] if door else []


def _hours(holds: float | None) -> list[Measured]:
    return [] if holds is None else [Measured(value=holds, unit="hours")]


def _adhesive_hours(facts: Facts) -> list[Measured]:
    adhesive = facts.system.adhesive
    return _hours(adhesive.hold_hours if adhesive else None)


def _mortar_hours(facts: Facts) -> list[Measured]:
    mortar = facts.system.mortar
    return _hours(mortar.hold_hours if mortar else None)


def _sealant_hours(facts: Facts) -> list[Measured]:
    return _hours(facts.system.sealant.hold_hours)


def _grout_hours(grout: Grout | None, binder: str) -> list[Measured]:
    return _hours(grout.hold_hours if grout and grout.binder == binder else None)


def _cement_grout_hours(facts: Facts) -> list[Measured]:
    return _grout_hours(facts.system.grout, "cement")


def _epoxy_grout_hours(facts: Facts) -> list[Measured]:
    return _grout_hours(facts.system.grout, "epoxy")


def _glued(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.system.adhesive else []


def _plastic(facts: Facts) -> list[Measured]:
    return [Measured()] if facts.system.cutting.material == "plastic" else []


def _room_to_grow(facts: Facts) -> list[Measured]:
    """Measure the gaps at both ends of each run of plastic that is held at both ends."""
    if facts.system.cutting.material != "plastic":
        return []
    gaps, found = facts.system.gaps, []
    for wall, lattice in zip(facts.walls.walls, facts.layout.walls, strict=True):
        ends = _end_gaps(facts, lattice.field)
        if len(ends) == len(_BOTH):
            width = wall.right.offset - wall.left.offset
            found.append(Measured(where=wall.name, value=sum(ends), against=width))
        roof = min(y for _, y in wall.ceiling)
        if facts.layout.top + gaps.ceiling > roof - SNAP:
            height = roof - min(y for _, y in wall.deck)
            found.append(Measured(where=wall.name, value=gaps.deck + gaps.ceiling, against=height))
    return found


_BOTH = ("left", "right")


def _end_gaps(facts: Facts, field: SetField) -> list[float]:
    """Return the gaps at the ends of a field that meet another wall or a channel. [mm]."""
    gaps = facts.system.gaps
    rooms: dict[Meeting, float] = {
        "runs behind": gaps.corner,
        "butts": gaps.butt,
        "trim": gaps.inside or 0.0,
    }
    return [rooms[met] for met in (field.left, field.right) if met in rooms]


MATERIAL_MEASURES: Mapping[str, Measure] = MappingProxyType(
    {
        "box-weight": _box_weight,
        "piece-weight": _piece_weight,
        "plaster-load": _plaster_load,
        "board-load": _board_load,
        "doorway": _doorway,
        "adhesive-hours": _adhesive_hours,
        "mortar-hours": _mortar_hours,
        "sealant-hours": _sealant_hours,
        "cement-grout-hours": _cement_grout_hours,
        "epoxy-grout-hours": _epoxy_grout_hours,
        "glued": _glued,
        "plastic": _plastic,
        "room-to-grow": _room_to_grow,
    }
)
