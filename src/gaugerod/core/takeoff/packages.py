"""Whole packages: never one too few, and never one too many for the last bit of a float."""

from decimal import Decimal
from fractions import Fraction
from math import ceil

GUARD = Fraction(1, 10**6)
"""A millionth of a package is the noise of a sum of floats, not a need for one more."""


def written(value: float) -> Fraction:
    """Return a number exactly as it was written in decimals.

    Parameters
    ----------
    value
        The number. [1]

    Returns
    -------
    Fraction
        What its shortest decimals say: a tenth for 0.1, which as a float is a little more.

    Notes
    -----
    Source: own derivation.

    Examples
    --------
    >>> written(0.1), written(12)
    (Fraction(1, 10), Fraction(12, 1))
    """
    return Fraction(str(value))


def packages_of(amount: float, *, per: float) -> Fraction:
    """Return how many packages an amount is, exactly.

    Parameters
    ----------
    amount
        What is needed, >= 0, in the unit of `per`. [1]
    per
        What one package holds, > 0. [1]

    Returns
    -------
    Fraction
        Packages and parts of one.

    Notes
    -----
    The one division of a package is done in fractions of the numbers as they are written, so
    that nothing is lost or gained by it. Source: own derivation.

    Examples
    --------
    >>> packages_of(0.3, per=0.1), packages_of(266.6, per=73)
    (Fraction(3, 1), Fraction(1333, 365))
    """
    return written(amount) / written(per)


def whole(packages: Fraction) -> int:
    """Return the whole packages that hold so many and parts of one.

    Parameters
    ----------
    packages
        Packages and parts of one; less than nought where more is on hand than is needed.

    Returns
    -------
    int
        Least whole number, short by `GUARD` of a package at most, and never less than nought.

    Notes
    -----
    ``ceil(packages - GUARD)``. A plain ``ceil`` buys a fifth package for 4.0000001.
    Source: own derivation.

    Examples
    --------
    >>> whole(packages_of(0.1 + 0.2, per=0.1)), whole(Fraction(31, 10)), whole(Fraction(-1))
    (3, 4, 0)
    """
    return max(ceil(packages - GUARD), 0)


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
