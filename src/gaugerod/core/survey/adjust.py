"""Weighted least squares with what a surveyor wants to know of each reading."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """Solution of an adjustment.

    `covariance` rests on the stated sigmas; times ``sigma0 ** 2`` it rests on the residuals.
    `residuals` are observed minus fitted; `redundancy` sums to `dof`.
    """

    x: Array
    covariance: Array
    residuals: Array
    redundancy: Array
    w: Array
    sigma0: float
    dof: int


def adjust(design: Array, observed: Array, sigma: Array) -> Adjustment:
    r"""Solve ``design @ x = observed`` by weighted least squares.

    Parameters
    ----------
    design
        Partials of each reading by each unknown, shape ``(m, n)`` with full column rank.
        [any]
    observed
        Readings, shape ``(m,)``. [any]
    sigma
        Standard deviation of each reading, shape ``(m,)``, > 0. [any]

    Returns
    -------
    Adjustment
        Unknowns, covariance, residuals, redundancy numbers and w-tests.

    Raises
    ------
    SurveyError
        The readings do not determine every unknown.

    Notes
    -----
    With weights :math:`P = \mathrm{diag}(\sigma^{-2})` the solution is
    :math:`x = (A^T P A)^{-1} A^T P l`, found here by QR of :math:`P^{1/2} A`, which keeps
    twice the digits. Redundancy numbers are :math:`r_i = 1 - h_{ii}`, the test value
    :math:`w_i = v_i / (\sigma_i \sqrt{r_i})`. Source: W. Baarda, *A testing procedure for
    use in geodetic networks* (1968); any text on adjustment computations.

    Examples
    --------
    Three readings of one width:

    >>> fit = adjust(np.ones((3, 1)), np.array([10.0, 11.0, 12.0]), np.ones(3))
    >>> float(fit.x[0]), fit.dof, float(fit.sigma0)
    (11.0, 2, 1.0)
    """
    weighted = design / sigma[:, None]
    q, r = np.linalg.qr(weighted)
    pivots = np.abs(np.diag(r))
    if design.shape[0] < design.shape[1] or pivots.min() < 1e-10 * pivots.max():
        raise SurveyError(Message("survey.undetermined"))
    x = np.linalg.solve(r, q.T @ (observed / sigma))
    residuals = observed - design @ x
    redundancy = 1.0 - np.einsum("ij,ij->i", q, q)
    scaled = residuals / sigma
    checked = redundancy > _UNCHECKED
    w = np.where(checked, scaled / np.sqrt(np.where(checked, redundancy, 1.0)), 0.0)
    dof = design.shape[0] - design.shape[1]
    inverse = np.linalg.inv(r)
    return Adjustment(
        x=_frozen(x),
        covariance=_frozen(inverse @ inverse.T),
        residuals=_frozen(residuals),
        redundancy=_frozen(redundancy),
        w=_frozen(w),
        sigma0=float(np.sqrt(scaled @ scaled / dof)) if dof else 0.0,
        dof=dof,
    )


_UNCHECKED = 1e-6
"""A reading with less redundancy than this is checked by no other."""


def _frozen(array: Array) -> Array:
    array.setflags(write=False)
    return array
