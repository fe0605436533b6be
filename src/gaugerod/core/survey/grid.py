"""Depths on a grid: which are missing, and what each spot has over its two neighbours."""

from collections.abc import Iterator, Sequence
from itertools import pairwise, product

from gaugerod.core.base.geometry import SNAP, Point
from gaugerod.core.survey.limits import Departure, Held
from gaugerod.core.survey.spots import Spot

_HALF = 0.5


def missing_spots(spots: Sequence[Spot]) -> tuple[Point, ...]:
    """Return the places of a grid that were not read.

    Parameters
    ----------
    spots
        The spots.

    Returns
    -------
    tuple of Point
        Where a row and a column cross without a spot; none where the spots are no grid. [mm]

    Notes
    -----
    Spots are a grid where at least half of the crossings of their rows and columns are read.
    Source: own derivation.

    Examples
    --------
    >>> read = [(0.0, 0.0), (300.0, 0.0), (0.0, 600.0)]
    >>> missing_spots([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in read])
    ((300.0, 600.0),)
    """
    across = _apart(spot.x for spot in spots)
    up = _apart(spot.y for spot in spots)
    if len(spots) < _HALF * len(across) * len(up):
        return ()
    return tuple(
        (x, y)
        for x, y in product(across, up)
        if not any(abs(s.x - x) < SNAP and abs(s.y - y) < SNAP for s in spots)
    )


def _apart(values: Iterator[float]) -> list[float]:
    """Return values in order, without those that are the same as one before."""
    ordered = sorted(values)
    return ordered[:1] + [b for a, b in pairwise(ordered) if b - a >= SNAP]


def grid_departures(spots: Sequence[Spot]) -> tuple[Departure, ...]:
    """Return what each spot of a row or column has over the line through its two neighbours.

    Parameters
    ----------
    spots
        The spots.

    Returns
    -------
    tuple of Departure
        Row by row upwards, then column by column from the left; plus for a hump. [mm]

    Notes
    -----
    Height less the mean of the neighbours, by their distances where these are not the same;
    on a 1 m grid the span is 2 m. The grid method finds humps as well as hollows, and other
    figures than the straightedge on the same wall. Source: DIN 18202, the levelled grid, as
    engineers quote it.

    Examples
    --------
    >>> heights = [0.0, 3.0, 2.0]
    >>> row = [Spot(x=1000.0 * i, y=0.0, z=z, sigma=1.0) for i, z in enumerate(heights)]
    >>> [(found.by, found.span) for found in grid_departures(row)]
    [(2.0, 2000.0)]
    """
    return (
        *_along(sorted(spots, key=lambda s: (s.y, s.x)), held="level"),
        *_along(sorted(spots, key=lambda s: (s.x, s.y)), held="plumb"),
    )


def _along(ordered: list[Spot], *, held: Held) -> Iterator[Departure]:
    for first, spot, last in zip(ordered, ordered[1:], ordered[2:], strict=False):
        if held == "level":
            on_line = max(abs(first.y - spot.y), abs(last.y - spot.y)) < SNAP
            before, after = spot.x - first.x, last.x - spot.x
        else:
            on_line = max(abs(first.x - spot.x), abs(last.x - spot.x)) < SNAP
            before, after = spot.y - first.y, last.y - spot.y
        if on_line:
            yield _departure(first, spot, last, share=before / (before + after), held=held)


def _departure(first: Spot, spot: Spot, last: Spot, *, share: float, held: Held) -> Departure:
    variance = spot.sigma**2 + ((1 - share) * first.sigma) ** 2 + (share * last.sigma) ** 2
    return Departure(
        way="grid",
        held=held,
        start=(first.x, first.y),
        end=(last.x, last.y),
        at=(spot.x, spot.y),
        span=abs(last.x - first.x) + abs(last.y - first.y),
        by=spot.z - (1 - share) * first.z - share * last.z,
        sigma=variance**0.5,
    )
