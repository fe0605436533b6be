"""Weighted least squares with what a surveyor wants to know of each reading."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.linalg import solve_triangular
from scipy.special import chdtrc, ndtri

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.base.messages import Message

Array = NDArray[np.float64]

ALPHA = 0.001
"""Chance that a sound reading fails its test."""
POWER = 0.8
"""Chance that a blunder of the detectable size fails it."""
BEYOND_CHANCE = float(ndtri(1 - ALPHA / 2))
"""A w-test beyond this is chance once in a thousand."""
NON_CENTRALITY = BEYOND_CHANCE + float(ndtri(POWER))
"""Blunder over its sigma at which the test finds it with the stated power."""
UNCHECKED = 1e-6
"""A reading with less redundancy than this is checked by no other."""
DEPENDENT = 1e-10
"""Sine of the angle under which a column of the design lies among those before it."""
TALL = 6
"""Rows for each column in one factorisation: a taller one is taken in pieces."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Adjustment:
    """Solution of an adjustment.

    `covariance` rests on the stated sigmas; times ``sigma0 ** 2`` it rests on the residuals.
    `residuals` are observed minus fitted; `redundancy` sums to `dof`; `detectable` is the
    blunder that each test would find, infinite where no other reading checks it. `basis`
    spans what the unknowns can explain of the readings over their sigmas, shape ``(m, n)``.
    """

    x: Array
    covariance: Array
    residuals: Array
    redundancy: Array
    w: Array
    detectable: Array
    basis: Array
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
    :math:`w_i = v_i / (\sigma_i \sqrt{r_i})`, the detectable blunder
    :math:`\delta_0 \sigma_i / \sqrt{r_i}` with :math:`\delta_0 = 4.13` for a test at 0.001
    and a power of 0.8. Source: W. Baarda, *A testing procedure for use in geodetic
    networks* (1968); any text on adjustment computations.

    Examples
    --------
    Three readings of one width:

    >>> fit = adjust(np.ones((3, 1)), np.array([10.0, 11.0, 12.0]), np.ones(3))
    >>> float(fit.x[0]), fit.dof, float(fit.sigma0)
    (11.0, 2, 1.0)
    """
    q, r = _qr(design / sigma[:, None])
    if design.shape[0] < design.shape[1] or _dependent(r):
        raise SurveyError(Message("survey.undetermined"))
    x: Array = solve_triangular(r, q.T @ (observed / sigma))
    residuals = observed - design @ x
    redundancy = 1.0 - np.einsum("ij,ij->i", q, q)
    scaled = residuals / sigma
    checked = redundancy > UNCHECKED
    root = np.sqrt(np.where(checked, redundancy, 1.0))
    dof = design.shape[0] - design.shape[1]
    inverse = np.linalg.inv(r)
    return Adjustment(
        x=_frozen(x),
        covariance=_frozen(inverse @ inverse.T),
        residuals=_frozen(residuals),
        redundancy=_frozen(redundancy),
        w=_frozen(np.where(checked, scaled / root, 0.0)),
        detectable=_frozen(np.where(checked, NON_CENTRALITY * sigma / root, np.inf)),
        basis=_frozen(q),
        sigma0=float(np.sqrt(scaled @ scaled / dof)) if dof else 0.0,
        dof=dof,
    )


def _dependent(r: Array) -> bool:
    """Tell whether a column is made of those before it, whatever their units."""
    return bool((np.abs(np.diag(r)) <= DEPENDENT * np.linalg.norm(r, axis=0)).any())


def _qr(design: Array) -> tuple[Array, Array]:
    """Factorise in pieces, then their triangles: on a busy machine a tall matrix is slow.

    Linear algebra libraries share out large products among threads, which then wait for each
    other a hundred times longer than the sums take.
    """
    rows, columns = design.shape
    piece = TALL * columns
    if rows <= piece:
        q, r = np.linalg.qr(design)
        return q, r
    padded = np.vstack((design, np.zeros((-rows % piece, columns))))
    parts, triangles = np.linalg.qr(padded.reshape(-1, piece, columns))
    joint, r = _qr(triangles.reshape(-1, columns))
    return (parts @ joint.reshape(-1, columns, columns)).reshape(-1, columns)[:rows], r


def correlations(fit: Adjustment, reading: int) -> Array:
    r"""Return how alike the tests of one reading and of every other are.

    Parameters
    ----------
    fit
        The adjustment.
    reading
        Row of the reading.

    Returns
    -------
    ndarray
        Correlation of its w-test with each, shape ``(m,)``, nought where unchecked. [1]

    Notes
    -----
    With :math:`R = I - Q Q^T` it is :math:`R_{ij} / \sqrt{r_i r_j}`. Near one in size, a
    blunder in either reading looks the same. Source: W. Förstner, *Reliability and
    discernability of extended Gauss-Markov models* (1983).

    Examples
    --------
    Two readings of one width cannot tell which of them is wrong:

    >>> fit = adjust(np.ones((2, 1)), np.array([10.0, 13.0]), np.ones(2))
    >>> [float(round(rho, 6)) for rho in correlations(fit, 0)]
    [1.0, -1.0]
    """
    row = -(fit.basis @ fit.basis[reading])
    row[reading] += 1.0
    checked = fit.redundancy > UNCHECKED
    scale = np.sqrt(np.where(checked, fit.redundancy, 1.0) * fit.redundancy[reading])
    return _frozen(np.where(checked, row / scale, 0.0))


def global_test(squares: float, dof: float) -> float:
    """Return how likely residuals as large as these are if every reading is sound.

    Parameters
    ----------
    squares
        Sum of squared residuals over their sigmas. [1]
    dof
        Degrees of freedom, > 0. [1]

    Returns
    -------
    float
        Probability. [1]

    Notes
    -----
    The sum is chi-square with `dof` degrees of freedom. Source: any text on adjustment
    computations (global model test).

    Examples
    --------
    >>> round(global_test(18.307, 10), 3)
    0.05
    """
    return float(chdtrc(dof, squares))


def _frozen(array: Array) -> Array:
    array.setflags(write=False)
    return array
