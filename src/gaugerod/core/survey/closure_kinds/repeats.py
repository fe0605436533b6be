"""Closures of readings of one thing against each other."""

from collections.abc import Iterator, Sequence
from itertools import accumulate
from math import sqrt

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.survey.closure_kinds.closure import Closure, close
from gaugerod.core.survey.closure_kinds.figures import Figure, Source, weights_of
from gaugerod.core.survey.closure_kinds.gathered import Told


def repeats(told: Told) -> Iterator[Closure]:
    """Hold readings of one thing against each other.

    Parameters
    ----------
    told
        The readings of one thing.

    Yields
    ------
    Closure
        Where there are two or more, the one that stands furthest off in sigmas, less the mean
        of the others. [mm]

    Notes
    -----
    The misclosure has the sigma ``sqrt(sigma_i**2 + sigma_mean**2)``. The worst of many is
    further off than one taken blindly, so with three or more a ratio of two is less rare than
    elsewhere. Source: any text on adjustment computations.

    Examples
    --------
    >>> from gaugerod.core.survey.closure_kinds.sample import sample_told
    >>> [closure.misclosure for closure in repeats(sample_told(1500.0, 1500.0, 1503.0))]
    [3.0]
    """
    if len(told.ids) > 1:
        reads = [reading.reads for reading in told.readings]
        rest, rest_sigma = _others(reads, told.sigmas)
        off = [
            abs(one - other) / sqrt(sigma**2 + other_sigma**2)
            for one, other, sigma, other_sigma in zip(
                reads, rest, told.sigmas, rest_sigma, strict=True
            )
        ]
        worst = off.index(max(off))
        others = told.ids[:worst] + told.ids[worst + 1 :]
        one = Source(ids=(told.ids[worst],), sigma=told.sigmas[worst])
        mean = Source(ids=others, sigma=rest_sigma[worst])
        miss = Figure(value=reads[worst] - rest[worst], rates={one: 1.0, mean: -1.0})
        yield close(
            "repeat",
            (told.wall,),
            miss,
            what=Message(
                "closure.repeat",
                wall=told.wall,
                reading=told.ids[worst],
                reads=Length(reads[worst]),
                rest=Length(rest[worst]),
                others=len(others),
            ),
            hint=Message("closure.repeat-hint", reading=told.ids[worst]),
        )


def _others(reads: Sequence[float], sigmas: Sequence[float]) -> tuple[list[float], list[float]]:
    """For each reading the mean of all others and its sigma.

    Sums from both ends, since taking one reading off the sum of all would lose every digit of
    the others beside a much surer one.
    """
    weights, least = weights_of(sigmas)
    weight = _without_each(weights)
    moment = _without_each([w * r for w, r in zip(weights, reads, strict=True)])
    means = [m / w for m, w in zip(moment, weight, strict=True)]
    return means, [least / sqrt(w) for w in weight]


def _without_each(values: Sequence[float]) -> list[float]:
    before = accumulate(values[:-1], initial=0.0)
    after = list(accumulate(reversed(values[1:]), initial=0.0))
    return [b + a for b, a in zip(before, reversed(after), strict=True)]
