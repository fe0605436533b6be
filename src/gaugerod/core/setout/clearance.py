"""Where joints keep clear of zones, and how many do not."""

from collections.abc import Iterator
from typing import get_args

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.setout.strips import Array, Batch
from gaugerod.core.setout.zones import ZoneKind, grown


def joints_met(batch: Batch) -> dict[ZoneKind, Array]:
    """Count the joints that run through zones, kind by kind.

    Parameters
    ----------
    batch
        The lattices on the wall. [mm]

    Returns
    -------
    dict
        For each kind one count for each lattice, shape ``(n,)``. [1]

    Notes
    -----
    A course line counts once, a joint once in each course. Source: own derivation, as
    `Lattice.numbers`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> joints_met(sample_batch(0.0))["fixture"].tolist()
    [0.0]
    """
    met: dict[ZoneKind, Array] = {kind: np.zeros(len(batch.phases)) for kind in get_args(ZoneKind)}
    for zone in batch.zones:
        met[zone.kind] += _met(batch, zone.box)
    return met


def _met(batch: Batch, zone: Box) -> Array:
    lattice = batch.lattice
    across, up = (lattice.pitch[i] - lattice.face[i] for i in (0, 1))
    inner = grown(zone, -SNAP)
    bottom, top = max(inner.bottom, batch.box.bottom), min(inner.top, batch.box.top)
    lines = max(len(lattice.courses(bottom=bottom - up, top=top + up)) - 1, 0)
    met = np.full(len(batch.phases), float(lines))
    for course in lattice.courses(bottom=bottom, top=top):
        first = batch.first_left(course, inner.left - across)
        met += np.round((batch.last_left(course, inner.right + across) - first) / lattice.pitch[0])
    return met


def clear_starts(batch: Batch, *, low: float, high: float) -> Iterator[float]:
    """Yield left edges of a module with which a joint is just clear of a zone.

    Parameters
    ----------
    batch
        The lattices on the wall. [mm]
    low, high
        Heights between which a course lies. [mm]

    Yields
    ------
    float
        Left edge of some module of that course. [mm]

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> list(clear_starts(sample_batch(0.0), low=-470.0, high=-170.0))
    []
    """
    face, pitch = batch.lattice.face[0], batch.lattice.pitch[0]
    for zone in batch.zones:
        if zone.box.bottom < high and zone.box.top > low:
            yield from (zone.box.left - pitch, zone.box.left - face)
            yield from (zone.box.right, zone.box.right + pitch - face)
