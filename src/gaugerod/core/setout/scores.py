"""Scores of lattices on one wall: one by one, and as columns for many at once."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from gaugerod.core.setout.strips import Array

Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Why a lattice is refused (empty when it is not), its price in looks, its end cuts.

    `set_aside` are the limits that it breaks by leave of an override.
    `looks` in [cents]; `cuts` counts the end pieces that are cut to width; `ends` are the
    least widths at left and right over all courses. [mm].
    """

    refused: tuple[str, ...]
    looks: int
    cuts: int
    ends: tuple[float, float]
    set_aside: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Scores:
    """Scores of many lattices, one value for each in every column, shape ``(n,)``. [mm], [cents].

    `broken` has a column for each limit, `allowed` are those that may be, `priced` a column
    for each fault.
    """

    broken: Mapping[str, Flags]
    allowed: frozenset[str]
    priced: Mapping[str, Array]
    looks: NDArray[np.int_]
    cuts: NDArray[np.int_]
    lefts: Array
    rights: Array

    @property
    def legal(self) -> Flags:
        """Tell which lattices break no limit, but for allowed ones."""
        stopped = np.zeros(len(self.looks), dtype=bool)
        for name, flags in self.broken.items():
            if name not in self.allowed:
                stopped |= flags
        return ~stopped

    @property
    def refused(self) -> dict[str, int]:
        """Count the lattices that each limit stops."""
        counts = {name: int(flags.sum()) for name, flags in self.broken.items()}
        return {name: n for name, n in counts.items() if n and name not in self.allowed}

    def one(self, i: int) -> Score:
        """Return the score of one lattice.

        Parameters
        ----------
        i
            Which, from 0. [1]

        Returns
        -------
        Score
            Its limits, looks, cuts and ends. [mm], [cents]

        Notes
        -----
        Source: none needed.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> from gaugerod.core.setout.score import scores_of
        >>> scores_of(sample_batch(455.5, 30.0)).one(1).refused
        ('under-least',)
        """
        names = [name for name, flags in self.broken.items() if flags[i]]
        return Score(
            refused=tuple(name for name in names if name not in self.allowed),
            looks=int(self.looks[i]),
            cuts=int(self.cuts[i]),
            ends=(float(self.lefts[i]), float(self.rights[i])),
            set_aside=tuple(name for name in names if name in self.allowed),
        )

    def faults(self, i: int) -> dict[str, int]:
        """Return what the eye minds of one lattice, fault by fault.

        Parameters
        ----------
        i
            Which, from 0. [1]

        Returns
        -------
        dict
            Price of each fault that there is. [cents]

        Notes
        -----
        They add up to the looks, but for rounding. Source: none needed.

        Examples
        --------
        >>> from gaugerod.core.setout.sample import sample_batch
        >>> from gaugerod.core.setout.score import scores_of
        >>> sorted(scores_of(sample_batch(100.0)).faults(0))
        ['sliver', 'unequal']
        """
        prices = {name: round(float(price[i])) for name, price in self.priced.items()}
        return {name: cents for name, cents in prices.items() if cents}
