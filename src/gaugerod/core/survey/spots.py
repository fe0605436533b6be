"""Depth readings become spots of a surface."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.job.readings import Depth, Practice
from gaugerod.core.survey.sigmas import sigma_of


@dataclass(frozen=True, slots=True, kw_only=True)
class Spot:
    """One place of a surface: z out of the wall, into the room. [mm].

    `spread` is how far repeated readings of it lie apart, in units of their sigma.
    """

    x: float
    y: float
    z: float
    sigma: float
    spread: float = 0.0


def spots_of(readings: Sequence[Depth], practice: Practice) -> tuple[Spot, ...]:
    """Return the places that depths were read at, repeated readings taken together.

    Parameters
    ----------
    readings
        Depths of one surface from one plumb plane.
    practice
        How they were taken, where a reading has no sigma of its own.

    Returns
    -------
    tuple of Spot
        One for each place, from the left, then upwards. [mm]

    Notes
    -----
    A depth is plus where the wall stands back, so z is minus the depth. Repeats give their
    weighted mean. Source: any text on adjustment computations.

    Examples
    --------
    >>> here = {"kind": "depth", "at": 300, "height": 0}
    >>> twice = [Depth(**here, reads=50.0), Depth(**here, reads=50.8)]
    >>> [(spot.z, round(spot.sigma, 3), round(spot.spread, 3)) for spot in spots_of(twice, "good")]
    [(-50.4, 0.283, 1.414)]
    """
    ordered = sorted(readings, key=lambda reading: (reading.at, reading.height))
    places: list[list[Depth]] = []
    for reading in ordered:
        for place in places:
            if np.hypot(place[0].at - reading.at, place[0].height - reading.height) < SNAP:
                place.append(reading)
                break
        else:
            places.append([reading])
    return tuple(_spot(place, practice) for place in places)


def _spot(readings: list[Depth], practice: Practice) -> Spot:
    depths = np.array([reading.reads for reading in readings])
    sigmas = np.array([sigma_of(reading, practice) for reading in readings])
    weights = sigmas**-2
    first, last = int(depths.argmin()), int(depths.argmax())
    return Spot(
        x=readings[0].at,
        y=readings[0].height,
        z=-float(depths @ weights / weights.sum()),
        sigma=float(weights.sum() ** -0.5),
        spread=float((depths[last] - depths[first]) / np.hypot(sigmas[first], sigmas[last])),
    )


def spans_a_plane(spots: Sequence[Spot]) -> bool:
    """Tell whether spots fix a plane: three or more, not on one line.

    Parameters
    ----------
    spots
        The spots.

    Returns
    -------
    bool
        Whether they do.

    Notes
    -----
    Spots count as on one line where they keep within a thousandth of their extent. Source: own
    derivation.

    Examples
    --------
    >>> column = [Spot(x=0.0, y=float(y), z=0.0, sigma=1.0) for y in (0, 300, 600)]
    >>> spans_a_plane(column), spans_a_plane([*column, Spot(x=300.0, y=0.0, z=0.0, sigma=1.0)])
    (False, True)
    """
    if len(spots) < 3:  # noqa: PLR2004 - a plane has three unknowns
        return False
    places = np.array([(spot.x, spot.y) for spot in spots])
    long, short = np.linalg.svd(places - places.mean(axis=0), compute_uv=False)
    return bool(short > _ON_ONE_LINE * long)


_ON_ONE_LINE = 1e-3
