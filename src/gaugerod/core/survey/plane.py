"""The plane that fits a surface best, and its lean."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message
from gaugerod.core.survey.adjust import Array, adjust
from gaugerod.core.survey.spots import Spot, spans_a_plane


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """The plane ``z = offset + across * x + up * y`` that fits a surface best. [mm, mm/mm].

    `covariance` belongs to offset, across, up, and rests on the stated sigmas. `residuals` are
    spot less plane, plus for a hump. `sigma0` near 1 is a flat wall, well above it a wavy one.
    """

    offset: float
    across: float
    up: float
    covariance: Array
    residuals: tuple[float, ...]
    sigma0: float
    dof: int


def fit_plane(spots: Sequence[Spot]) -> Plane:
    r"""Fit a plane to spots by weighted least squares.

    Parameters
    ----------
    spots
        Three or more, not on one line.

    Returns
    -------
    Plane
        The plane, its covariance, and what each spot has over it. [mm, mm/mm]

    Raises
    ------
    SurveyError
        The spots lie on one line.

    Notes
    -----
    Readings are plumb to the wall's own frame within a cosine: 10 mm over 1800 mm costs
    1 - cos = 0.000015 of a depth, so the vertical fit serves. Source: any text on adjustment
    computations; `gaugerod.core.survey.adjust`.

    Examples
    --------
    Leans in by 3 mm over 600 mm:

    >>> corners = [(0.0, 0.0), (600.0, 0.0), (0.0, 600.0), (600.0, 600.0)]
    >>> plane = fit_plane([Spot(x=x, y=y, z=y / 200 - 50, sigma=0.4) for x, y in corners])
    >>> round(plane.up * 600, 9), plane.dof
    (3.0, 1)
    """
    if not spans_a_plane(spots):
        raise SurveyError(Message("flatness.no-plane"))
    x, y, z, sigma = np.array([(spot.x, spot.y, spot.z, spot.sigma) for spot in spots]).T
    fit = adjust(np.column_stack([np.ones_like(x), x, y]), z, sigma)
    offset, across, up = (float(value) for value in fit.x)
    return Plane(
        offset=offset,
        across=across,
        up=up,
        covariance=fit.covariance,
        residuals=tuple(float(value) for value in fit.residuals),
        sigma0=fit.sigma0,
        dof=fit.dof,
    )


def lean_sigma(plane: Plane, *, over: float) -> float:
    """Return how sure the lean of a plane over a height is.

    Parameters
    ----------
    plane
        The plane.
    over
        The height, > 0. [mm]

    Returns
    -------
    float
        One sigma of ``plane.up * over``. [mm]

    Notes
    -----
    The covariance is scaled by what the spots scatter, where that is more than their sigmas
    say: a wavy wall leaves its lean less sure. Source: any text on adjustment computations.

    Examples
    --------
    Two columns 600 apart, read at 0 and 600 with a sigma of 1 mm: each end is the mean of two.

    >>> corners = [(0.0, 0.0), (600.0, 0.0), (0.0, 600.0), (600.0, 600.0)]
    >>> plane = fit_plane([Spot(x=x, y=y, z=0.0, sigma=1.0) for x, y in corners])
    >>> round(lean_sigma(plane, over=600.0), 9)
    1.0
    """
    return over * float(np.sqrt(plane.covariance[2, 2])) * max(plane.sigma0, 1.0)
