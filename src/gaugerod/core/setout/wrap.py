"""A pattern that runs on through an inside corner."""

from collections.abc import Sequence
from itertools import accumulate, pairwise

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.setout.strips import Batch


def after_corner(*, pitch: float, last: float, joint: float, lap: float) -> float:
    """Return where the first joint falls on the next wall, if the pattern runs on.

    Parameters
    ----------
    pitch
        Joint to joint, > 0. [mm]
    last
        What shows of the last module before the corner, > 0 and at most a pitch. [mm]
    joint
        Joint in the corner, >= 0. [mm]
    lap
        Thickness of the lining, with its bed, that laps the corner; with the joint less than
        a pitch. [mm]

    Returns
    -------
    float
        From the face before the corner to the first joint: the first piece, and with it the
        grout joint beyond it where there is one. More than nought, at most a pitch. [mm]

    Notes
    -----
    ``pitch - last - (joint + lap)``. Where nothing or less is left, the corner has swallowed
    the rest of that module: a pitch is added and the next one comes out of the corner, short
    by what it has lost there. Source: worked example of the trade, common practice, no source;
    the added pitch is own derivation, ``docs/theory/set-out.md``.

    Examples
    --------
    A module of 24 in of which 14-7/8 show, joint 1/8, lap 7/16: 8-9/16 in.

    >>> after_corner(pitch=24, last=14.875, joint=0.125, lap=0.4375)
    8.5625
    """
    rest = pitch - last - (joint + lap)
    return rest if rest > SNAP else rest + pitch


def offsets(batches: Sequence[Batch]) -> tuple[float, ...]:
    """Return how far the phase of each wall lies from that of the first, if courses run on.

    Parameters
    ----------
    batches
        The walls from left to right, their lattices alike. [mm]

    Returns
    -------
    tuple of float
        What to add to the phase of the first wall; the first is nought. [mm]

    Notes
    -----
    By `after_corner`, taken half way up, so that a leaning corner is shared. The wall that
    runs behind shows up to the face of the one that laps it; both show from edge to edge where
    they stand in a channel, whose two deducts the corner then swallows, or where the corner is
    an outside one. Source: worked example of the trade, common practice, no source; channels
    and outside corners are own derivation.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> offsets([sample_batch(0.0)])
    (0.0,)
    """
    steps = (_step(before, after) for before, after in pairwise(batches))
    return tuple(accumulate(steps, initial=0.0))


def _step(before: Batch, after: Batch) -> float:
    """Return the phase beyond a corner of a pattern with a phase of nought before it. [mm]."""
    system, met = before.case.system, before.case.met[1]
    last, first = before.right.at(_middle(before)), after.left.at(_middle(after))
    joint, lap = 0.0, 0.0
    if met in {"runs behind", "butts"}:
        joint, lap = system.gaps.butt, system.thickness + system.bed
        # The rim of the one that runs behind is hidden: what shows of it ends at the other's face.
        if met == "runs behind":
            last += system.gaps.corner - lap
        else:
            first += lap - system.gaps.corner
    elif met == "trim":
        lap = 2 * (system.gaps.inside or 0.0)
    pitch = before.lattice.pitch[0]
    shown = last % pitch or pitch
    return first + after_corner(pitch=pitch, last=shown, joint=joint, lap=lap)


def _middle(batch: Batch) -> float:
    return (batch.box.bottom + batch.box.top) / 2
