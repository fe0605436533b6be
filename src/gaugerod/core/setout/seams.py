"""Seams between sheets: how many a lattice gives, and which strips lie beside one."""

from dataclasses import replace

import numpy as np

from gaugerod.core.setout.strips import Array, Batch, Ends, Strips


def seams_of(batch: Batch) -> Array:
    """Count the seams between the modules of a field.

    Parameters
    ----------
    batch
        The lattices. [mm]

    Returns
    -------
    ndarray
        Joints between modules, shape ``(n,)``: an upright one counts once in each course, a
        level one once. [1]

    Notes
    -----
    An opening that breaks a seam in two takes nothing off. Source: own derivation.

    Examples
    --------
    Six courses of three modules have five level seams and twelve upright ones. Moved, they
    have four modules and eighteen upright ones:

    >>> from gaugerod.core.setout.sample import sample_batch
    >>> batch = sample_batch(455.0, 100.0)
    >>> len(batch.courses), seams_of(batch).tolist()
    (6, [17.0, 23.0])
    """
    level = max(len(batch.courses) - 1, 0)
    count = np.full(len(batch.phases), float(level))
    for course in batch.courses:
        lefts, rights = batch.rims(course)
        across = batch.last_left(course, max(rights)) - batch.first_left(course, min(lefts))
        count += np.round(across / batch.lattice.pitch[0])
    return count


def beside_seams(batch: Batch, ends: list[Ends], levels: list[Strips]) -> list[Strips]:
    """Return the strips that lie between a seam and a rim.

    Parameters
    ----------
    batch
        The lattices. [mm]
    ends
        The end pieces of every course. [mm]
    levels
        The courses along deck and finish line. [mm]

    Returns
    -------
    list of Strips
        The same, without those that run from rim to rim. [mm]

    Notes
    -----
    A sheet that fills its wall from end to end, or from deck to finish, is as narrow as the
    wall and no sliver; nor is its leg beside an opening. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> from gaugerod.core.setout.strips import ends_of
    >>> batch = sample_batch(455.0)
    >>> len(beside_seams(batch, list(ends_of(batch)), []))
    12
    """
    strips = [
        # The right end of a piece from rim to rim is counted nought times: so is its left.
        replace(end, count=end.count * (right.count > 0))
        for left, right in ends
        for end in (left, right)
    ]
    return [*strips, *(levels if len(batch.courses) > 1 else ())]
