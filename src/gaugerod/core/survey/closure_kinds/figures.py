"""Figures reckoned from readings, each with what its readings do to it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import hypot, sqrt

LEAST_SIGMA = 1e-6
"""No reading is surer than this, whatever its writer says. [mm]"""
LEAST_PART = 0.05
"""A reading that moves a figure by less than this part of what the strongest does is not named."""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Source:
    """What the readings of one thing say together; a belief rests on no reading. [mm].

    `per` is how far it moves for each mm of a reading.
    """

    ids: tuple[str, ...]
    sigma: float
    per: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Figure:
    """A value, and how much it changes with each of the sources it rests on. [mm]."""

    value: float
    rates: Mapping[Source, float]

    def __add__(self, other: "Figure | float") -> "Figure":
        """Return the sum."""
        return self._with(other, 1.0)

    def __sub__(self, other: "Figure | float") -> "Figure":
        """Return the difference."""
        return self._with(other, -1.0)

    def __mul__(self, other: "Figure | float") -> "Figure":
        """Return the product, its rates to first order."""
        if isinstance(other, Figure):
            return _mixed(self.value * other.value, (self, other.value), (other, self.value))
        return _mixed(self.value * other, (self, other))

    def _with(self, other: "Figure | float", sign: float) -> "Figure":
        if isinstance(other, Figure):
            return _mixed(self.value + sign * other.value, (self, 1.0), (other, sign))
        return Figure(value=self.value + sign * other, rates=self.rates)

    @property
    def sigma(self) -> float:
        """Standard deviation. [mm]."""
        return hypot(*(rate * source.sigma for source, rate in self.rates.items()))

    @property
    def ids(self) -> tuple[str, ...]:
        """Names of the readings whose slip it would show, however sure they are."""
        moves = [(source.ids, abs(rate) * source.per) for source, rate in self.rates.items()]
        worth = LEAST_PART * max((move for ids, move in moves if ids), default=0.0)
        return tuple(name for ids, move in moves if move > worth for name in ids)


def _mixed(value: float, *parts: tuple[Figure, float]) -> Figure:
    rates: dict[Source, float] = {}
    for figure, share in parts:
        for source, rate in figure.rates.items():
            rates[source] = rates.get(source, 0.0) + share * rate
    return Figure(value=value, rates=rates)


def known(value: float) -> Figure:
    """Return a figure that is sure.

    Parameters
    ----------
    value
        Its value. [mm]

    Returns
    -------
    Figure
        A figure that rests on nothing. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> known(2.0).sigma
    0.0
    """
    return Figure(value=value, rates={})


def believed(*, value: float, sigma: float) -> Figure:
    """Return a figure that nobody has read.

    Parameters
    ----------
    value
        What is believed. [mm]
    sigma
        How sure that is, > 0. [mm]

    Returns
    -------
    Figure
        A figure that rests on no reading. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> believed(value=0.0, sigma=2.0).ids
    ()
    """
    return Figure(value=value, rates={Source(ids=(), sigma=sigma): 1.0})


def mean_of(
    ids: Sequence[str], values: Sequence[float], sigmas: Sequence[float], *, per: float = 1.0
) -> Figure:
    """Return the weighted mean of readings of one thing.

    Parameters
    ----------
    ids
        Names of the readings, at least one.
    values
        What they say, shape ``(n,)``. [mm]
    sigmas
        Their sigmas, shape ``(n,)``, > 0. [mm]
    per
        How far the mean moves for each mm of a reading, where they were scaled. [mm/mm]

    Returns
    -------
    Figure
        The mean. [mm]

    Notes
    -----
    Weights are ``1 / sigma**2``, so that ``n`` equal readings have a mean sure to
    ``sigma / sqrt(n)``. Source: any text on adjustment computations.

    Examples
    --------
    >>> four = mean_of("abcd", (10.0, 12.0, 10.0, 12.0), (1.0, 1.0, 1.0, 1.0))
    >>> four.value, four.sigma
    (11.0, 0.5)
    """
    weights, least = weights_of(sigmas)
    total = sum(weights)
    value = sum(weight * v for weight, v in zip(weights, values, strict=True)) / total
    source = Source(ids=tuple(ids), sigma=least / sqrt(total), per=per)
    return Figure(value=value, rates={source: 1.0})


def weights_of(sigmas: Sequence[float]) -> tuple[list[float], float]:
    """Return the weights of readings, the surest with 1, and the sigma of that one.

    Parameters
    ----------
    sigmas
        Their sigmas, shape ``(n,)``, > 0. [mm]

    Returns
    -------
    tuple of list and float
        Weights, shape ``(n,)``, and the sigma that has the weight 1. [mm]

    Notes
    -----
    As parts of the largest, weights neither overflow nor vanish. Source: own design.

    Examples
    --------
    >>> weights_of((1.0, 2.0))
    ([1.0, 0.25], 1.0)
    """
    least = min(sigmas)
    return [(least / sigma) ** 2 for sigma in sigmas], least
