"""The best phases of one wall at one height of the first course, for all bonds in one go."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from gaugerod.core.job.document import Choices
from gaugerod.core.setout.events import bond_phases
from gaugerod.core.setout.score import Score, hopeless, score_phases
from gaugerod.core.setout.strips import Array, Batch

PER_WALL = 2
"""Phases of each wall that are combined, for their looks and again for their few cuts."""
APART = 10.0
"""Phases closer than this look the same from the tub. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """One phase on one wall, with its price in looks. [mm], [cents].

    `batch` is of one lattice, that of its bond.
    """

    batch: Batch
    centring: str
    phase: float
    score: Score


@dataclass(frozen=True, slots=True, kw_only=True)
class Best:
    """The best phases for one bond, apart enough to be worth telling apart; how many were tried."""

    kept: tuple[Scored, ...]
    tried: int


def best_phases(
    bare: Batch, shifts: Sequence[float], choices: Choices, refused: Counter[str]
) -> list[Best]:
    """Find the best phases of a wall for each of several bonds.

    Parameters
    ----------
    bare
        The wall with the courses that the bonds share. [mm]
    shifts
        By how much each bond moves a course against the one below. [mm]
    choices
        The setter's choices.
    refused
        Counts the limits that stopped a phase; added to.

    Returns
    -------
    list of Best
        One for each bond: at most `PER_WALL` phases for their looks, and as many for their
        cuts.

    Notes
    -----
    All phases of all bonds are scored together: that is several times as quick as bond by
    bond. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> stack, half = best_phases(sample_batch(0.0), [0.0, 300.0], sample_job().choices, Counter())
    >>> len(stack.kept) > 0, len(half.kept) > 0
    (True, True)
    """
    none = np.zeros(len(shifts))
    broken = hopeless(replace(bare, phases=none, shifts=np.array(shifts)))
    for limits in broken:
        refused.update(limits)
    bonds = [_with_shift(bare, shift) for shift in shifts]
    tries = [
        () if limits else tried
        for tried, limits in zip(bond_phases(bare, shifts, choices), broken, strict=True)
    ]
    scores = iter(_scored_at_once(bonds, [[x for _, x in tried] for tried in tries]))
    found = []
    for bond, tried in zip(bonds, tries, strict=True):
        own = [Scored(batch=bond, centring=name, phase=x, score=next(scores)) for name, x in tried]
        for one in own:
            refused.update(one.score.refused)
        legal = [one for one in own if not one.score.refused]
        found.append(Best(kept=_best(legal), tried=max(len(tried), 1)))
    return found


def _with_shift(bare: Batch, shift: float) -> Batch:
    lattice = replace(bare.lattice, row_shift=shift)
    return replace(bare, lattice=lattice, shifts=np.array([shift]))


def _scored_at_once(bonds: Sequence[Batch], tries: Sequence[Sequence[float]]) -> tuple[Score, ...]:
    """Score the phases of every bond, one bond after the other."""
    every: Array = np.array([x for tried in tries for x in tried])
    if not len(every):
        return ()
    counts = [len(tried) for tried in tries]
    shifts = np.repeat([bond.shifts[0] for bond in bonds], counts)
    return score_phases(replace(bonds[0], phases=every, shifts=shifts))


def _best(legal: Sequence[Scored]) -> tuple[Scored, ...]:
    """Return the phases that look best, then those with the fewest cuts."""
    looks = _apart(sorted(legal, key=lambda one: (one.score.looks, one.score.cuts)), ())
    return _apart(sorted(legal, key=lambda one: (one.score.cuts, one.score.looks)), looks)


def _apart(ranked: Sequence[Scored], kept: tuple[Scored, ...]) -> tuple[Scored, ...]:
    """Return the kept phases with the first `PER_WALL` that lie apart from them."""
    best = list(kept)
    for scored in ranked:
        if len(best) == len(kept) + PER_WALL:
            break
        pitch = scored.batch.lattice.pitch[0]
        off = (abs(scored.phase - other.phase) for other in best)
        if all(min(d, pitch - d) > APART for d in off):
            best.append(scored)
    return tuple(best)
