"""From a tolerance to what it allows over one length, and to a verdict."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from gaugerod.core.base.geometry import Point
from gaugerod.core.job.readings import Surface
from gaugerod.core.job.tolerances import Fixing, Tolerance, Tolerances
from gaugerod.core.survey.adjust import Array

Way: TypeAlias = Literal["gap", "straightedge", "grid", "plane", "edge", "deck"]
Held: TypeAlias = Literal["level", "plumb", "any"]
Verdict: TypeAlias = Literal["within", "open", "out"]

NOISE = 1e-6
"""Sums of floats carry noise: a limit is broken beyond this only. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Departure:
    """By how much a wall departs from flat, plumb or level, and where. [mm].

    `by` is plus for a hump, for a lean into the alcove, and for a deck that is high at its
    right end. `span` is the length from `start` to `end` that it was found over. `sigma` is
    missing where it is not known here.
    """

    way: Way
    held: Held
    start: Point
    end: Point
    at: Point
    span: float
    by: float
    sigma: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """A departure beside one tolerance. [mm].

    `over` is what it has beyond the limit, minus where it keeps it. A verdict is *open* where
    the limit is for a shorter length than was read, so that a shorter straightedge must tell.
    """

    departure: Departure
    tolerance: Tolerance
    limit: float
    over: float
    verdict: Verdict


def limits_for(
    limits: Tolerances, *, longest_edge: float, fixing: Fixing, surface: Surface, region: str
) -> tuple[Tolerance, ...]:
    """Return the tolerances that apply to one surface of one job.

    Parameters
    ----------
    limits
        All tolerances at hand.
    longest_edge
        Longest edge of the module, > 0. [mm]
    fixing
        How the lining is fixed to the surface.
    surface
        The surface.
    region
        Place whose standards apply, such as ``US-IL``; empty where it is not known.

    Returns
    -------
    tuple of Tolerance
        Those that apply, in their order.

    Notes
    -----
    Where the region is not known the limits of every region apply: one caution too many is
    better than one too few. Source: own design, as for rules.

    Examples
    --------
    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "regions": ["GB"],
    ...     "allows": [{"over": 2000, "at_most": 3}], "advice": "Fill it.", "source": "None.",
    ...     "sure": "calc"}
    >>> rows = Tolerances.model_validate({"format": 1, "unit": "mm", "tolerance": [row]})
    >>> [len(limits_for(rows, longest_edge=300.0, fixing="bead", surface="backer", region=place))
    ...     for place in ("GB", "", "US")]
    [1, 1, 0]
    """

    def applies(row: Tolerance) -> bool:
        return (
            (not row.surfaces or surface in row.surfaces)
            and (not row.fixings or fixing in row.fixings)
            and (not row.regions or not region or region.upper().startswith(row.regions))
            and (row.edge_from is None or longest_edge >= row.edge_from - NOISE)
            and (row.edge_below is None or longest_edge < row.edge_below - NOISE)
        )

    return tuple(row for row in limits.tolerance if applies(row))


def allowed(tolerance: Tolerance, spans: Array) -> Array:
    """Return what a tolerance allows over each of some lengths.

    Parameters
    ----------
    tolerance
        The tolerance.
    spans
        Lengths, > 0, any shape. [mm]

    Returns
    -------
    Array
        What is allowed, infinite for a length beyond the last row: nothing is made up there.
        [mm]

    Notes
    -----
    *As stated*: the first row that reaches the length; *straight line*: between rows, and the
    first row below it; *in proportion*: the same from nought. A limit for a longer straightedge
    holds for a shorter one too, since a gap never shrinks as the straightedge grows. Source:
    own derivation, ``docs/theory/flatness.md``; straight line and rounding, DIN 18202.

    Examples
    --------
    Between 5 mm at 1 m and 10 mm at 4 m, rounded to whole mm:

    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "scales": "straight line",
    ...     "allows": [{"over": 1000, "at_most": 5}, {"over": 4000, "at_most": 10}],
    ...     "rounded_to": 1, "advice": "Fill it.", "source": "None.", "sure": "calc"}
    >>> allowed(Tolerance.model_validate(row), np.array([500.0, 2500.0, 5000.0]))
    array([ 5.,  8., inf])
    """
    over = np.array([row.over for row in tolerance.allows])
    most = np.array([row.at_most for row in tolerance.allows])
    if tolerance.scales == "as stated":
        found = most[np.minimum(np.searchsorted(over, spans - NOISE), len(over) - 1)]
    elif tolerance.scales == "straight line":
        found = np.interp(spans, over, most)
    else:
        found = np.interp(spans, np.append(0.0, over), np.append(0.0, most))
    if tolerance.rounded_to is not None:
        found = np.floor(found / tolerance.rounded_to + 0.5 + NOISE) * tolerance.rounded_to
    return np.where(spans > over[-1] + NOISE, np.inf, found)


def judge(departure: Departure, tolerance: Tolerance) -> Judged:
    """Hold a departure against a tolerance.

    Parameters
    ----------
    departure
        What was found.
    tolerance
        What is allowed.

    Returns
    -------
    Judged
        Limit, excess and verdict. [mm]

    Notes
    -----
    Beyond the last row, that row still clears what keeps it: under a shorter straightedge the
    same place shows no more. What does not keep it may or may not under a shorter one.
    Source: own derivation, ``docs/theory/flatness.md``.

    Examples
    --------
    A 5 mm hollow under 2 m where 3 mm are allowed under 600 mm: lay the short one.

    >>> row = {"id": "row", "about": "flat", "statement": "Flat.", "advice": "Fill it.",
    ...     "allows": [{"over": 600, "at_most": 3}], "source": "None.", "sure": "calc"}
    >>> hollow = Departure(way="gap", held="level", start=(0.0, 0.0), end=(2000.0, 0.0),
    ...     at=(1000.0, 0.0), span=2000.0, by=-5.0, sigma=0.4)
    >>> judged = judge(hollow, Tolerance.model_validate(row))
    >>> judged.verdict, judged.over
    ('open', 2.0)
    """
    limit = float(allowed(tolerance, np.array(departure.span)))
    reached = np.isfinite(limit)
    if not reached:
        limit = tolerance.allows[-1].at_most
    over = abs(departure.by) - limit
    broken: Verdict = "out" if reached else "open"
    return Judged(
        departure=departure,
        tolerance=tolerance,
        limit=limit,
        over=over,
        verdict="within" if over <= NOISE else broken,
    )
