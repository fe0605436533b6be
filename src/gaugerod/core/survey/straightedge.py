"""A straightedge rolled over a surface: the worst gap under it, from the high points."""

from collections.abc import Sequence
from functools import partial

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.adjust import Array
from gaugerod.core.survey.limits import Departure, Held, Judged, allowed, judge
from gaugerod.core.survey.lines import Line, profiles
from gaugerod.core.survey.mesh import Mesh
from gaugerod.core.survey.sag import Sag, deepest, worst_sag


def worst_gap(
    mesh: Mesh, heights: Array, *, length: float, held: Held, openings: Sequence[Box] = ()
) -> Departure | None:
    """Return the worst gap under a straightedge of one length, wherever it is laid.

    Parameters
    ----------
    mesh
        The spots of the surface in plan.
    heights
        Height of the surface at each place of the mesh, out of the wall. [mm]
    length
        Length of the straightedge, > 0. [mm]
    held
        Level or plumb through every spot, or in any direction through every two spots.
    openings
        Windows and niches: the straightedge may bridge one, but finds nothing in it.

    Returns
    -------
    Departure or None
        The gap as a hollow (minus), the two high points it was found between, and where it is
        deepest; none where no line crosses enough of the surface. [mm]

    Notes
    -----
    The gap is taken from the line that joins two high points; the straightedge may be shifted
    to where it is worst, and its ends count as high points where it rests on them. Exact for
    the surface that is straight within each triangle of the mesh. Source: DIN 18202:2019-07,
    as engineers quote it; own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    A valley 4 mm deep and 1200 mm wide: half as much straightedge finds half as much gap.

    >>> from gaugerod.core.survey.mesh import mesh_of, over_places
    >>> from gaugerod.core.survey.spots import Spot
    >>> depths = {0.0: 0.0, 600.0: -4.0, 1200.0: 0.0}
    >>> spots = [Spot(x=x, y=y, z=z, sigma=0.4) for x, z in depths.items() for y in (0.0, 600.0)]
    >>> mesh = mesh_of(spots)
    >>> heights = over_places(mesh, np.array([spot.z for spot in spots]))
    >>> [worst_gap(mesh, heights, length=length, held="level").by for length in (600.0, 1200.0)]
    [-2.0, -4.0]
    """

    def nothing(spans: Array) -> Array:
        return np.where(spans > length + SNAP, np.inf, 0.0)

    worst: tuple[Line, Sag] | None = None
    for line, profile in profiles(mesh, heights, held=held, openings=openings):
        sag = worst_sag(profile, (length,), nothing)
        if sag is not None and (worst is None or sag.excess > worst[1].excess):
            worst = (line, sag)
    return None if worst is None else _departure(*worst, held=held, sigma=None)


def straightedge(
    mesh: Mesh,
    heights: Array,
    tolerances: Sequence[Tolerance],
    *,
    sigma: float,
    held: Held,
    openings: Sequence[Box] = (),
) -> tuple[Judged, ...]:
    """Judge a surface by straightedges of every length that the tolerances name.

    Parameters
    ----------
    mesh
        The spots of the surface in plan.
    heights
        Height of the surface at each place of the mesh, out of the wall. [mm]
    tolerances
        What is allowed.
    sigma
        One sigma of a height, >= 0. [mm]
    held
        Level or plumb through every spot, or in any direction through every two spots.
    openings
        Windows and niches: the straightedge may bridge one, but finds nothing in it.

    Returns
    -------
    tuple of Judged
        For each tolerance where it is broken most, or kept with the least to spare. [mm]

    Notes
    -----
    Every two high points are held against what is allowed for their own distance, and the
    straightedge of each row's length is rolled along the whole line. Source: DIN 18202:2019-07
    and ANSI A108.02 4.2.2 (from the high points), as engineers and columns quote them; own
    derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    >>> from gaugerod.core.survey.mesh import mesh_of, over_places
    >>> from gaugerod.core.survey.spots import Spot
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 2000, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> depths = {0.0: 0.0, 600.0: -4.0, 1200.0: 0.0}
    >>> spots = [Spot(x=x, y=y, z=z, sigma=0.4) for x, z in depths.items() for y in (0.0, 600.0)]
    >>> mesh = mesh_of(spots)
    >>> heights = over_places(mesh, np.array([spot.z for spot in spots]))
    >>> limits = [Tolerance.model_validate(row)]
    >>> (judged,) = straightedge(mesh, heights, limits, sigma=0.4, held="level")
    >>> judged.verdict, judged.over, judged.departure.at[0]
    ('out', 1.0, 600.0)
    """
    worst: dict[int, tuple[Line, Sag]] = {}
    least = [float(allowed(tolerance, np.array(0.0))) for tolerance in tolerances]
    for line, profile in profiles(mesh, heights, held=held, openings=openings):
        deep = deepest(profile)
        for number, tolerance in enumerate(tolerances):
            if number in worst and deep - least[number] <= worst[number][1].excess:
                continue  # no straightedge along this line can find more
            lengths = tuple(row.over for row in tolerance.allows)
            sag = worst_sag(profile, lengths, partial(allowed, tolerance))
            if sag is not None and (number not in worst or sag.excess > worst[number][1].excess):
                worst[number] = (line, sag)
    return tuple(
        judge(_departure(*worst[number], held=held, sigma=sigma), tolerance)
        for number, tolerance in enumerate(tolerances)
        if number in worst
    )


def _departure(line: Line, sag: Sag, *, held: Held, sigma: float | None) -> Departure:
    places = [line.start + t * line.along for t in (sag.start, sag.end, sag.at)]
    start, end, at = ((float(x), float(y)) for x, y in places)
    span = sag.end - sag.start
    share = (sag.at - sag.start) / span
    weight = float(np.sqrt(1.0 + share**2 + (1.0 - share) ** 2))
    return Departure(
        way="straightedge",
        held=held,
        start=start,
        end=end,
        at=at,
        span=span,
        by=-sag.gap,
        sigma=None if sigma is None else sigma * weight,
    )
