"""Whole packages: never one too few, and never one too many for the last bit of a float."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal
from math import ceil

from gaugerod.core.takeoff.order import TrimRun

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


def pack_runs(
    runs: Iterable[TrimRun], *, stock: float, kerf: float
) -> tuple[tuple[TrimRun, ...], ...]:
    """Share runs of trim out over stock lengths.

    Parameters
    ----------
    runs
        The runs. One longer than the stock is split into whole lengths and a rest. [mm]
    stock
        Length of one stock piece, > 0. [mm]
    kerf
        What a cut between two runs takes, >= 0. [mm]

    Returns
    -------
    tuple of tuple of TrimRun
        The runs cut from each stock length. [mm]

    Notes
    -----
    First fit, longest run first: never more than 11/9 of the fewest lengths and 6/9 of one.
    ``n`` runs from one length need their sum and ``n - 1`` kerfs. Lengths that are equal but
    for float noise fit. Source: D. S. Johnson (1973); G. Dosa (2007) for the bound (from
    memory).

    Examples
    --------
    Three runs of 47 in from lengths of 96 in: two to a length.

    >>> run = TrimRun(wall="L", place="left", length=1193.8)
    >>> [len(length) for length in pack_runs([run] * 3, stock=2438.4, kerf=3.175)]
    [2, 1]
    """
    parts = sorted((part for run in runs for part in _split(run, stock)), key=_longest_first)
    lengths: list[list[TrimRun]] = []
    for part in parts:
        room = stock * (1 + GUARD) - part.length
        home = next((taken for taken in lengths if _used(taken, kerf) <= room), None)
        if home is None:
            lengths.append([part])
        else:
            home.append(part)
    return tuple(tuple(taken) for taken in lengths)


def _split(run: TrimRun, stock: float) -> Iterator[TrimRun]:
    whole = int(run.length / stock + GUARD)
    yield from [replace(run, length=stock)] * whole
    rest = run.length - whole * stock
    if rest > GUARD * stock:
        yield replace(run, length=rest)


def _longest_first(run: TrimRun) -> float:
    return -run.length


def _used(taken: list[TrimRun], kerf: float) -> float:
    return sum(run.length + kerf for run in taken)
