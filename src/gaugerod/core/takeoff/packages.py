"""Whole packages: never one too few, and never one too many for the last bit of a float."""

from decimal import Decimal
from math import ceil

GUARD = 1e-6
"""A millionth of a package is the noise of a sum of floats, not a need for one more."""


def whole_packages(amount: float, *, per: float) -> int:
    """Return how many packages hold an amount.

    Parameters
    ----------
    amount
        What is needed, >= 0, in the unit of `per`. [1]
    per
        What one package holds, > 0. [1]

    Returns
    -------
    int
        Least whole number of packages, short by `GUARD` of a package at most.

    Notes
    -----
    ``ceil(amount / per - GUARD)``. A plain ``ceil`` buys a fifth package for 4.0000001.
    Source: own derivation.

    Examples
    --------
    >>> whole_packages(0.1 + 0.2, per=0.1), whole_packages(0.31, per=0.1)
    (3, 4)
    """
    return ceil(amount / per - GUARD)


def share_of(count: int, share: float) -> int:
    """Return a share of a count, in whole things, rounded up.

    Parameters
    ----------
    count
        How many there are, >= 0.
    share
        The share, taken as the decimal fraction that was written. [1]

    Returns
    -------
    int
        Least whole number that is no less than the share.

    Notes
    -----
    Exact: in floats 7 % of 100 is 7.000000000000001, and would cost an eighth module.
    Source: own derivation.

    Examples
    --------
    >>> share_of(100, 0.07), share_of(36, 0.02)
    (7, 1)
    """
    return ceil(count * Decimal(str(share)))
