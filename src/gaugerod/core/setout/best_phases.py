"""The best phases of one wall at one height of the first course, for all bonds in one go."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from gaugerod.core.job.document import Choices
from gaugerod.core.setout.events import Phase, bond_phases
from gaugerod.core.setout.score import hopeless, scores_of
from gaugerod.core.setout.scores import Score, Scores
from gaugerod.core.setout.strips import Array, Batch

PER_WALL = 2
"""Phases of each wall that are combined, for their looks and again for their few cuts."""
APART = 10.0
"""Phases closer than this look the same from the tub. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """One phase on one wall, with its price in looks, fault by fault too. [mm], [cents].

    `batch` is of one lattice, that of its bond.
    """

    batch: Batch
    centring: str
    phase: float
    score: Score
    faults: dict[str, int]


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
    scores = _scored_at_once(bonds, [[x for _, x in tried] for tried in tries])
    refused.update(scores.refused if scores else ())
    found, first = [], 0
    for bond, tried in zip(bonds, tries, strict=True):
        kept: list[Scored] = []
        if scores and tried:
            kept = _best(bond, tried, scores, first)
        found.append(Best(kept=tuple(kept), tried=max(len(tried), 1)))
        first += len(tried)
    return found


def scored(batch: Batch, phase: Phase, scores: Scores, i: int) -> Scored:
    """Return one phase with its score.

    Parameters
    ----------
    batch
        Its wall and lattice. [mm]
    phase
        What is centred, and where some module begins. [mm]
    scores
        The scores among which its own is. [cents]
    i
        Where, from 0. [1]

    Returns
    -------
    Scored
        The phase. [mm]

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> batch = sample_batch(455.5)
    >>> scored(batch, ("module", 455.5), scores_of(batch), 0).score.refused
    ()
    """
    name, x = phase
    return Scored(batch=batch, centring=name, phase=x, score=scores.one(i), faults=scores.faults(i))


def _with_shift(bare: Batch, shift: float) -> Batch:
    lattice = replace(bare.lattice, row_shift=shift)
    return replace(bare, lattice=lattice, shifts=np.array([shift]))


def _scored_at_once(bonds: Sequence[Batch], tries: Sequence[Sequence[float]]) -> Scores | None:
    """Score the phases of every bond, one bond after the other; nothing where there are none."""
    every: Array = np.array([x for tried in tries for x in tried])
    if not len(every):
        return None
    counts = [len(tried) for tried in tries]
    shifts = np.repeat([bond.shifts[0] for bond in bonds], counts)
    return scores_of(replace(bonds[0], phases=every, shifts=shifts))


def _best(bond: Batch, tried: Sequence[Phase], scores: Scores, first: int) -> list[Scored]:
    """Return the phases that look best, then those with the fewest cuts.

    Their scores begin at `first`.
    """
    own = slice(first, first + len(tried))
    legal = np.flatnonzero(scores.legal[own])
    looks, cuts = scores.looks[own][legal], scores.cuts[own][legal]
    pitch = bond.lattice.pitch[0]
    kept: list[Phase] = []
    places: list[int] = []
    for keys in ((cuts, looks), (looks, cuts)):
        more = _apart(legal[np.lexsort(keys)].tolist(), tried, kept, pitch)
        kept += [tried[i] for i in more]
        places += more
    return [scored(bond, tried[i], scores, first + i) for i in places]


def _apart(
    ranked: Sequence[int], tried: Sequence[Phase], kept: Sequence[Phase], pitch: float
) -> list[int]:
    """Return the first `PER_WALL` that lie apart from those kept and from each other."""
    taken = [x for _, x in kept]
    best: list[int] = []
    for i in ranked:
        if len(best) == PER_WALL:
            break
        off = (abs(tried[i][1] - x) for x in taken)
        if all(min(d, pitch - d) > APART for d in off):
            best.append(i)
            taken.append(tried[i][1])
    return best
