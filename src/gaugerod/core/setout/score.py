"""How lattices suit one wall: hard limits kept or broken, looks priced."""

import numpy as np

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.job.materials import Meets
from gaugerod.core.setout.beside import Hole, beside_of, holes_of
from gaugerod.core.setout.clearance import joints_met
from gaugerod.core.setout.closing import lifts
from gaugerod.core.setout.lattice import Lattice, key_at
from gaugerod.core.setout.levels import levels_of, slopes_of
from gaugerod.core.setout.scores import Flags, Score, Scores
from gaugerod.core.setout.seams import beside_seams, seams_of
from gaugerod.core.setout.strips import Array, Batch, Case, Ends, Strips, batch_of, ends_of
from gaugerod.core.setout.variants import SAME_SHARE
from gaugerod.core.setout.zones import ZoneKind

INCH = 25.4
"""Looks are agreed per inch of difference. [mm]"""

DEARER = 2.0
"""How many times more a sliver of nothing costs than one just under half a module. [1]"""

SHOWN: tuple[Meets, ...] = ("front", "outside")
"""Ends of a wall that the eye sees from the side."""


def score(case: Case, lattice: Lattice) -> Score:
    """Score one lattice on one wall.

    Parameters
    ----------
    case
        The wall, its field, the material and the price of looks.
    lattice
        The lattice. [mm]

    Returns
    -------
    Score
        Limits broken, looks in cents, end cuts in mm.

    Notes
    -----
    See `score_phases`, of which it is the case of one. Source: as there.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> case = Case(wall=fit_walls(sample_job()).walls[1], met=("butts", "runs behind"),
    ...     top=1000.0, system=sample_system(), turn="lying", looks=sample_rates().looks)
    >>> centred = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=-470.0,
    ...     phase=455.0, row_shift=0.0)
    >>> [round(end) for end in score(case, centred).ends]
    [441, 442]
    """
    return score_phases(batch_of(case, lattice, np.array([lattice.phase])))[0]


def score_phases(batch: Batch) -> tuple[Score, ...]:
    """Score lattices that differ in their phase only.

    Parameters
    ----------
    batch
        The lattices, and the wall that they are scored against. [mm]

    Returns
    -------
    tuple of Score
        One for each phase.

    Notes
    -----
    The columns of `scores_of`, row by row. Source: as there.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> [found.refused for found in score_phases(sample_batch(455.5, 30.0))]
    [(), ('under-least',)]
    """
    found = scores_of(batch)
    return tuple(map(found.one, range(len(batch.phases))))


def scores_of(batch: Batch) -> Scores:
    """Score lattices that differ in their phase only, as columns.

    Parameters
    ----------
    batch
        The lattices, and the wall that they are scored against. [mm]

    Returns
    -------
    Scores
        One value for each phase in every column. [mm], [cents]

    Notes
    -----
    Hard: no strip under the material's least; no joint of keyed modules or sheets in a hole or
    nearer than its clearance; no groove left at an end that nothing hides; no shift beyond the
    material's; room to lift a keyed top course over the tongue below. Soft: slivers under half
    a module (the dearer the smaller), unequal ends, cut pieces at a front, jambs without a
    joint, joints of tile under a plate, joints under a fixture, seams between sheets, joints
    so close to the clearance of a hole that the day may take it. All in closed form on the
    rims of the field; no polygon is cut.
    Source: limits are the material's; balance after ANSI A108.02 4.3.1 and 4.3.2; prices are
    the shop's own.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> scores_of(sample_batch(455.5, 30.0)).legal.tolist()
    [True, False]
    """
    case, holes = batch.case, holes_of(batch)
    ends = list(ends_of(batch))
    strips = _all_strips(batch, ends, holes)
    near = joints_met(batch)
    priced = _faults(batch, strips, ends, near=near, holes=holes)
    sawn = [(end.size < end.whole - SNAP) * end.count for pair in ends for end in pair]
    return Scores(
        broken={
            **_strip_limits(case, strips),
            "joint-at-hole": (near["hole"] > 0) & (case.system.kind != "grouted"),
            **_whatever_phase(batch),
        },
        allowed=case.allowed,
        priced=priced,
        looks=np.round(np.sum(list(priced.values()), axis=0)).astype(int),
        cuts=np.sum(sawn, axis=0).astype(int),
        lefts=np.min([left.size for left, _ in ends], axis=0),
        rights=np.min([right.size for _, right in ends], axis=0),
    )


def hopeless(batch: Batch) -> tuple[tuple[str, ...], ...]:
    """Return the limits that are broken whatever the phase.

    Parameters
    ----------
    batch
        The wall with its lattices; their phases do not count. [mm]

    Returns
    -------
    tuple of tuple of str
        For each lattice, the limits that a course along deck or finish line breaks, the bond,
        or the top course.

    Notes
    -----
    Source: as `score_phases`, of which this is the part that no phase changes.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> hopeless(sample_batch(0.0))
    ((),)
    """
    case = batch.case
    limits = {**_strip_limits(case, list(levels_of(batch))), **_whatever_phase(batch)}
    held = {name: flags for name, flags in limits.items() if name not in case.allowed}
    count = range(len(batch.phases))
    return tuple(tuple(name for name, flags in held.items() if flags[i]) for i in count)


def _whatever_phase(batch: Batch) -> dict[str, Flags]:
    """Return the limits that the courses break as such."""
    stuck = any(room < -SNAP for room in lifts(batch))
    flags: dict[str, Flags] = {
        "shifted-too-far": _too_far(batch),
        "no-lift": np.full(len(batch.phases), stuck),
    }
    return flags


def _all_strips(batch: Batch, ends: list[Ends], holes: list[Hole]) -> list[Strips]:
    """Return every strip that is held to the limits and priced."""
    strips = [strip for pair in ends for strip in pair]
    return [*strips, *levels_of(batch), *slopes_of(batch), *beside_of(batch, holes)]


def _strip_limits(case: Case, strips: list[Strips]) -> dict[str, Flags]:
    system = case.system
    sizes = np.array([strip.size for strip in strips])
    lost = np.array([strip.lost for strip in strips if _bare_groove(case, strip)])
    return {
        "under-least": np.any(sizes < system.cutting.least - SNAP, axis=0),
        "groove-left": np.any(
            lost.reshape(-1, sizes.shape[1]) < system.cutting.groove_off - SNAP, axis=0
        ),
    }


def _bare_groove(case: Case, strip: Strips) -> bool:
    """Tell whether a groove that is left there would show."""
    grooved = key_at(case.system, strip.where, case.turn) == "groove"
    return grooved and strip.meets not in case.system.gaps.hides_key


def _too_far(batch: Batch) -> Flags:
    """Tell whether the courses are shifted by more than the material allows."""
    lattice, cutting = batch.lattice, batch.case.system.cutting
    share = np.abs(batch.shifts) / lattice.pitch[0]
    long = lattice.face[0] > cutting.shift_over + SNAP
    return long & (np.minimum(share, 1 - share) > cutting.most_shift + SAME_SHARE)


def _bare_jambs(batch: Batch, holes: list[Hole]) -> Array:
    """Count the jambs of windows and niches on which no joint of course 1 falls."""
    pitch = batch.lattice.pitch[0]
    half_joint = (pitch - batch.lattice.face[0]) / 2
    bare = np.zeros(len(batch.phases))
    for hole in holes:
        for jamb in (hole.left, hole.right):
            off = (jamb - batch.phases + half_joint) % pitch
            bare += np.minimum(off, pitch - off) > half_joint + SNAP
    return bare


def _faults(
    batch: Batch,
    strips: list[Strips],
    ends: list[Ends],
    *,
    near: dict[ZoneKind, Array],
    holes: list[Hole],
) -> dict[str, Array]:
    """Price every fault, one value for each lattice. [cents]."""
    case = batch.case
    looks = case.looks
    fronts, unequal = np.zeros((2, len(batch.phases)))
    sheets = case.system.kind == "sheet"
    small = beside_seams(batch, ends, list(levels_of(batch))) if sheets else strips
    sizes = np.array([strip.size for strip in small])
    half = np.array([[strip.whole / 2] for strip in small])
    dear = np.where(sizes < half - SNAP, 1 + DEARER * (1 - sizes / half), 0.0)
    for end in (end for pair in ends for end in pair if end.meets in SHOWN):
        # A sheet is cut to a narrow wall in any case: let its own edge show.
        fronts += looks.front_cut * (end.lost > SNAP if sheets else end.size < end.whole - SNAP)
    if not any(left.meets in SHOWN or right.meets in SHOWN for left, right in ends):
        both = [pair for pair in ends if all(np.isfinite(end.size[0]) for end in pair)]
        differ = sum(np.abs(left.size - right.size) for left, right in both)
        unequal += looks.unequal * differ / max(len(both), 1) / INCH
    priced = {
        "sliver": looks.sliver * np.sum([strip.count for strip in small] * dear, axis=0),
        "front-cut": fronts,
        "unequal": unequal,
        "off-jamb": looks.off_jamb * _bare_jambs(batch, holes),
        "near-hole": looks.near_hole * near["hole"],
        "close-to-hole": looks.close_to_hole * (near["close"] - near["hole"]),
        "near-fixture": looks.near_fixture * near["fixture"],
    }
    return {**priced, "seam": looks.seam * seams_of(batch)} if sheets else priced
