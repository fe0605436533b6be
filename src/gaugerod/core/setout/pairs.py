"""Two ends out of one module: where the end of one wall is what the end of another leaves."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.setout.strips import Batch


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One wall as its rows go: how many, how wide, and their left and right ends. [mm]."""

    courses: int
    width: float
    left: float
    right: float


def paired_phases(batch: Batch, others: Sequence[Row]) -> Iterator[float]:
    """Yield phases at which an end of this wall and one of another just come from one module.

    Parameters
    ----------
    batch
        The wall; its phases do not count. [mm]
    others
        The other walls as they lie. [mm]

    Yields
    ------
    float
        Left edge of some module of course 1. [mm]

    Notes
    -----
    A left end keeps the right edge of its module and a right end the left one, so one of
    each may share a module if they and a kerf are no wider than its face. Source: own
    derivation.

    Examples
    --------
    A right end of 200 leaves 600 - 3 - 200 = 397 for a left end here, whose rim is at 14.2875.

    >>> from gaugerod.core.setout.sample import sample_batch
    >>> other = Row(courses=5, width=800.0, left=600.0, right=200.0)
    >>> [round(x + 600 - 14.2875) for x in paired_phases(sample_batch(0.0), [other])]
    [397]
    """
    face, cutting = batch.lattice.face[0], batch.case.system.cutting
    lefts, rights = batch.sides[0]
    for other in others:
        for end, far in ((other.right, False), (other.left, True)):
            rest = face - cutting.kerf - end
            if cutting.least - SNAP < rest < face - SNAP:
                yield min(rights) - rest if far else max(lefts) + rest - face


def modules_for(rows: Sequence[Row], *, pitch: float, face: float, kerf: float) -> int:
    """Return about how many modules rows take, ends out of one module where they can be.

    Parameters
    ----------
    rows
        The walls. [mm]
    pitch, face
        Width of a module with and without its joint, > 0. [mm]
    kerf
        Width of a cut, >= 0. [mm]

    Returns
    -------
    int
        Modules; openings, rips and tapers are not looked at.

    Notes
    -----
    The widest left end takes the narrowest right end that it leaves room for: for pieces of
    full height that is the most pairs there are. Source: own derivation (exchange argument).

    Examples
    --------
    Two walls of five rows. Each row takes a whole module and two ends; 397 of one wall and 200
    of the other share a module, 403 and 200 do not.

    >>> walls = [Row(courses=5, width=1200.0, left=397.0, right=203.0),
    ...     Row(courses=5, width=1200.0, left=400.0, right=200.0)]
    >>> modules_for(walls, pitch=600.0, face=600.0, kerf=3.0)
    25
    """
    count = 0
    lefts: list[float] = []
    rights: list[float] = []
    for row in rows:
        cut = [end for end in (row.left, row.right) if end < face - SNAP]
        whole = round((row.width - row.left - row.right) / pitch) + 2 - len(cut)
        count += row.courses * (whole + len(cut))
        lefts += [row.left] * row.courses if row.left < face - SNAP else []
        rights += [row.right] * row.courses if row.right < face - SNAP else []
    rights.sort()
    for left in sorted(lefts, reverse=True):
        if rights and left + rights[0] + kerf <= face + SNAP:
            rights.pop(0)
            count -= 1
    return count
