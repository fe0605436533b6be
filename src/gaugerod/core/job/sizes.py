"""Sizes that no alcove has: the sign of a slip of the pen, or of another unit."""

from collections.abc import Iterator
from dataclasses import dataclass

from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job, Wall
from gaugerod.core.job.faults import Fault, Place
from gaugerod.core.job.fields import MM_PER
from gaugerod.core.job.materials import System
from gaugerod.core.job.readings import OpeningEdge, Reading


@dataclass(frozen=True, slots=True, kw_only=True)
class _Sizes:
    """Least and most that is plausible. [mm]."""

    least: float
    most: float

    def hold(self, mm: float) -> bool:
        return self.least <= mm <= self.most


# Plausible for one bath; own judgement, no source.
_ALONG = _Sizes(least=150.0, most=6000.0)
_DIAGONAL = _Sizes(least=150.0, most=8500.0)
_PLACE = _Sizes(least=-6000.0, most=6000.0)
_DOWN = _Sizes(least=-3000.0, most=3000.0)
_SMALL = _Sizes(least=-300.0, most=300.0)
_FAULT = _Sizes(least=0.0, most=100.0)
_PLANE = _Sizes(least=-1000.0, most=1000.0)
_CLEAR = _Sizes(least=20.0, most=6000.0)
_HOLE = _Sizes(least=5.0, most=400.0)
_FACE = _Sizes(least=40.0, most=3500.0)
_LINING = _Sizes(least=1.0, most=60.0)
_KEY = _Sizes(least=0.0, most=50.0)

_READS = {
    "width": _ALONG,
    "deck": _DOWN,
    "floor": _DOWN,
    "ceiling": _PLACE,
    "height": _ALONG,
    "corner to corner": _DIAGONAL,
    "lean": _SMALL,
    "gap": _FAULT,
    "depth": _PLANE,
    "hole": _PLACE,
    "rough-in": _SMALL,
    "opening": _PLACE,
    "drain": _DOWN,
    "lip": _SMALL,
    "fixture": _PLACE,
}
_BESIDE = {
    "at": _PLACE,
    "height": _PLACE,
    "left_at": _PLACE,
    "right_at": _PLACE,
    "over": _ALONG,
    "straightedge": _ALONG,
    "sigma": _FAULT,
}
_PIERCING = {"diameter": _HOLE, "pipe": _HOLE, "plate": _Sizes(least=5.0, most=600.0)}
_CHOSEN = {
    "finish": _ALONG,
    "least_finish": _ALONG,
    "first_height": _Sizes(least=10.0, most=3000.0),
}


def sizes(job: Job) -> Iterator[Fault]:
    """Yield every size that is not plausible.

    Parameters
    ----------
    job
        The job.

    Yields
    ------
    Fault
        Where, what was read in the file's unit, and the same number in a unit that would do.

    Notes
    -----
    Wide limits, meant for slips and not for taste: walls and heights 150 to 6000 mm, holes 5
    to 400 mm. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> list(sizes(sample_job()))
    []
    """
    for number, wall in enumerate(job.wall):
        yield from _sizes_of(wall, ("wall", number), job.unit)
    for name, expected in _CHOSEN.items():
        yield from _size(getattr(job.choices, name), expected, ("choices", name), job.unit)


def module_sizes(system: System) -> Iterator[Fault]:
    """Yield every size of a material that is not plausible.

    Parameters
    ----------
    system
        The material.

    Yields
    ------
    Fault
        As `sizes` does, in the unit of the material's file.

    Notes
    -----
    Faces of 40 to 3500 mm, lining of 1 to 60 mm. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> list(module_sizes(sample_system()))
    []
    """
    for axis, size in enumerate(system.face):
        yield from _size(size, _FACE, ("face", axis), system.unit)
    for axis, joint in enumerate(system.joint):
        yield from _size(joint, _KEY, ("joint", axis), system.unit)
    yield from _size(system.thickness, _LINING, ("thickness",), system.unit)
    yield from _size(system.bed, _KEY, ("bed",), system.unit)
    yield from _size(system.key_depth, _KEY, ("key_depth",), system.unit)
    yield from _size(system.cutting.kerf, _KEY, ("cutting", "kerf"), system.unit)


def _sizes_of(wall: Wall, at: Place, unit: Unit) -> Iterator[Fault]:
    for number, hole in enumerate(wall.hole):
        for name, expected in _PIERCING.items():
            yield from _size(getattr(hole, name), expected, (*at, "hole", number, name), unit)
    for number, fixture in enumerate(wall.fixture):
        for axis, size in enumerate(fixture.size):
            yield from _size(size, _CLEAR, (*at, "fixture", number, "size", axis), unit)
    for number, reading in enumerate(wall.readings):
        here = (*at, "readings", number)
        yield from _size(reading.reads, _read(reading), (*here, "reads"), unit)
        for name, expected in _BESIDE.items():
            yield from _size(getattr(reading, name, None), expected, (*here, name), unit)


def _read(reading: Reading) -> _Sizes:
    if isinstance(reading, OpeningEdge) and reading.edge in {"width", "height", "jamb depth"}:
        return _CLEAR
    return _READS[reading.kind]


def _size(mm: object, expected: _Sizes, at: Place, unit: Unit) -> Iterator[Fault]:
    if not isinstance(mm, float) or expected.hold(mm):
        return
    values = {
        "read": _written(mm, unit),
        "least": _written(expected.least, unit),
        "most": _written(expected.most, unit),
    }
    meant = _meant(mm, expected, unit)
    if meant:
        yield Fault(at=at, wrong=Message("job.size-of-another-unit", **values, meant=meant))
    else:
        yield Fault(at=at, wrong=Message("job.size", **values))


def _meant(mm: float, expected: _Sizes, unit: Unit) -> str | None:
    """Give the number of the file, else that in mm, in a unit that would do."""
    for number in (mm / float(MM_PER[unit]), mm):
        for other, scale in MM_PER.items():
            if expected.hold(number * float(scale)):
                return f"{round(number, 2):g} {other}"
    return None


def _written(mm: float, unit: Unit) -> str:
    return f"{round(mm / float(MM_PER[unit]), 2):g} {unit}"
