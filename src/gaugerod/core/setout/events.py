"""The positions worth trying: where something that matters falls exactly into place."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TypeAlias

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.job.document import Choices
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.clearance import clear_starts
from gaugerod.core.setout.finish import finish_above, least_finish
from gaugerod.core.setout.lattice import key_at
from gaugerod.core.setout.levels import feet
from gaugerod.core.setout.openings import EASE, opening_boxes
from gaugerod.core.setout.strips import Array, Batch
from gaugerod.core.setout.zones import clear_lines
from gaugerod.core.survey.decks import deck_stretches
from gaugerod.core.survey.walls import FittedWall, Walls

SAME = 1e-6
"""Positions this near are one event: finer than `SNAP`, so that no limit lies between. [mm]"""

_EASED = [sign * (EASE + beyond) for sign in (-1, 1) for beyond in (-2 * SNAP, 2 * SNAP)]
"""Just within and just beyond the distance at which an edge is taken to lie on a joint. [mm]"""

Height: TypeAlias = tuple[str, float]
Phase: TypeAlias = tuple[str, float]


def first_heights(
    walls: Walls,
    system: System,
    choices: Choices,
    *,
    face: float,
    pitch: float,
    deck_low: float,
    turn: Turn,
) -> tuple[Height, ...]:
    """Return the heights of the first course worth trying, at the low point of the deck.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    system
        The material. [mm]
    choices
        The setter's choices; a fixed height leaves only that.
    face, pitch
        Height of a module and of a course, as hung. [mm]
    deck_low
        Lowest point of the deck. [mm]
    turn
        How modules hang.

    Returns
    -------
    tuple of (str, float)
        Why, and the height of the first course. [mm]

    Notes
    -----
    The tallest first course is a whole module, or for a key cut off at the deck a whole
    module less that cut. Others put a course line just clear of a hole, on the sill or head
    of an opening, on a ledge or at the ceiling, make the strips under a sill and over a head
    alike, or leave a strip of just the least or of half a module; each as high as it will
    go. Source: own derivation; the rule of the whole module is NAVEDTRA 14044, p. 7-23.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> heights = first_heights(fit_walls(job), sample_system(), job.choices, face=300.0,
    ...     pitch=300.0, deck_low=-760.0, turn="lying")
    >>> heights[0]
    ('tallest', 287.3)
    """
    if choices.first_height is not None:
        return (("chosen", choices.first_height),)
    grooved = key_at(system, "bottom", turn) == "groove" and "deck" not in system.gaps.hides_key
    tallest = face - (system.cutting.groove_off if grooved else 0.0)
    base = deck_low + system.gaps.deck
    heights: dict[int, Height] = {round(tallest / SAME): ("tallest", tallest)}
    for name, line in _lines(walls, system, choices, face=face, joint=pitch - face):
        height = tallest - (base + tallest - line) % pitch
        if height >= system.cutting.least - SNAP:
            heights.setdefault(round(height / SAME), (name, height))
    return tuple(heights.values())


def _lines(
    walls: Walls, system: System, choices: Choices, *, face: float, joint: float
) -> Iterator[tuple[str, float]]:
    """Yield heights at which the top of a course would be in a good place."""
    least, gaps = system.cutting.least, system.gaps
    strips = least, face / 2
    # Just high enough for a finish on a line: a hair lower, and there would be a course more.
    yield "enough", least_finish(walls, choices, system)
    for finish in dict.fromkeys((choices.finish, *(wall.finish for wall in walls.walls))):
        if isinstance(finish, float):
            top = finish_above(walls, finish)
            yield "finish", top
            yield from (("strip", top - strip - joint) for strip in strips)
    for wall in walls.walls:
        yield from _at_deck(wall, system, strips=strips, joint=joint)
        yield from clear_lines(wall, system, joint)
        for opening in opening_boxes(wall, system):
            yield "sill", opening.bottom
            yield "head", opening.top - joint
            for off in _EASED:
                yield "strip", opening.bottom + off
                yield "strip", opening.top - joint + off
            middle = (opening.bottom + opening.top - joint) / 2
            yield "even-strips", middle
            yield "even-strips", middle + (face + joint) / 2
            for strip in strips:
                yield "strip", opening.bottom - strip - joint
                yield "strip", opening.top + strip
        lowest = min(y for _, y in wall.ceiling) - gaps.ceiling
        yield "ceiling", lowest
        # Under a gap too low to lift a keyed course in, it must end this much lower.
        yield "ceiling", lowest + min(gaps.ceiling - system.key_depth, 0.0)
        yield from (("strip", lowest - strip - joint) for strip in strips)
        if wall.finish in {"ceiling", None} and choices.finish in {"ceiling", "any"}:
            # Up to a ceiling that slopes: a hair lower, and there is a wedge of a course more.
            highest = max(y for _, y in wall.ceiling) - gaps.ceiling
            yield "ceiling", highest
            yield from (("strip", highest - strip - joint) for strip in strips)


def _at_deck(
    wall: FittedWall, system: System, *, strips: tuple[float, ...], joint: float
) -> Iterator[tuple[str, float]]:
    """Yield heights that suit a stretch of the deck: a line on a step, a strip just wide enough."""
    gap = system.gaps.deck
    for stretch in deck_stretches(wall):
        if stretch.part != "rim":
            yield "step", stretch.high + gap - joint
            yield "step", stretch.low + gap - system.cutting.groove_off - joint
        yield from (("strip", stretch.high + gap + strip) for strip in strips)


def phases(batch: Batch, choices: Choices) -> tuple[Phase, ...]:
    """Return the phases worth trying on one wall.

    Parameters
    ----------
    batch
        The wall with its lattice; phases of its own do not count. [mm]
    choices
        The setter's choices; a fixed phase leaves only that, a fixed centring only its kind,
        where it exists.

    Returns
    -------
    tuple of (str, float)
        What is centred, and the left edge of some module. [mm]

    Notes
    -----
    A module or a joint on the centre line of the field, a seam of sheets at a third of it, a
    module on the centre line of an opening or a joint on a jamb, a whole module at an open
    front; then, as ``limit``, every
    phase at which a limit or a price begins or ends to apply in some course: an end cut or a
    leg at the least, at half a module or at a whole one, a groove just cut off, a joint just
    clear of a hole, two ends alike. Between those nothing changes but by straight lines, so
    no other phase does better. The centre line is taken at half height, so that the taper
    of a leaning corner is shared. Source: half-tile rule, NAVEDTRA 14044, p. 7-23; the
    limits are own derivation; the rest common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> tried = phases(sample_batch(0.0), sample_job().choices)
    >>> [(name, round(x, 1)) for name, x in tried[:2]]
    [('module', 455.6), ('joint', 155.6)]
    """
    return bond_phases(batch, batch.shifts[:1].tolist(), choices)[0]


def bond_phases(batch: Batch, shifts: Sequence[float], choices: Choices) -> list[tuple[Phase, ...]]:
    """Return the phases worth trying on one wall with each of several bonds.

    Parameters
    ----------
    batch
        The wall with its courses; phases and shifts of its own do not count. [mm]
    shifts
        By how much each bond moves a course against the one below. [mm]
    choices
        The setter's choices.

    Returns
    -------
    list of tuple of (str, float)
        What `phases` returns, for each bond. [mm]

    Notes
    -----
    Source: as `phases`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> choices = sample_job().choices
    >>> stack, half = bond_phases(sample_batch(0.0), [0.0, 300.0], choices)
    >>> stack == phases(sample_batch(0.0), choices), len(half) > len(stack)
    (True, True)
    """
    pitch = batch.lattice.pitch[0]
    fixed = choices.phase.get(batch.case.wall.name)
    if fixed is not None:
        return [(("chosen", fixed % pitch),) for _ in shifts]
    found = list(named_phases(batch))
    wanted = choices.centre.get(batch.case.wall.name)
    tried: list[Phase] = [(name, x) for name, x in found if name == wanted]
    if tried:
        return [_distinct(tried, np.array([]), pitch) for _ in shifts]
    below, starts = np.array(list(_limits(batch))).T
    return [_distinct(found, starts - below * shift, pitch) for shift in shifts]


def _distinct(named: Sequence[Phase], limits: Array, pitch: float) -> tuple[Phase, ...]:
    """Return phases within one pitch, each once; of two alike the first."""
    found = np.concatenate([[x for _, x in named], limits]) % pitch
    keys = np.round(found / SAME).astype(np.int64) % round(pitch / SAME)
    order = np.sort(np.unique(keys, return_index=True)[1]).tolist()
    names = [name for name, _ in named]
    return tuple((names[i] if i < len(names) else "limit", float(found[i])) for i in order)


def named_phases(batch: Batch) -> Iterator[Phase]:
    """Yield the phases that have a name: what they centre, or leave whole.

    Parameters
    ----------
    batch
        The wall with its lattice; phases of its own do not count. [mm]

    Yields
    ------
    tuple of (str, float)
        What is centred or left whole, and the left edge of some module. [mm]

    Notes
    -----
    Source: as `phases`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> [(name, round(x, 1)) for name, x in named_phases(sample_batch(0.0))]
    [('module', 455.6), ('joint', 755.6)]
    """
    face, box = batch.lattice.face[0], batch.box
    joint = batch.lattice.pitch[0] - face
    middle = (box.bottom + box.top) / 2
    centre = (batch.left.at(middle) + batch.right.at(middle)) / 2
    yield "module", centre - face / 2
    yield "joint", centre + joint / 2
    if batch.case.system.kind == "sheet":
        off = (batch.right.at(middle) - batch.left.at(middle)) / 6
        yield from (("third", centre + side * off + joint / 2) for side in (-1, 1))
    for opening in _openings(batch):
        yield "opening", (opening.left + opening.right - face) / 2
        yield "opening", (opening.left + opening.right + joint) / 2
        yield "jamb", opening.left - face
        yield "jamb", opening.right
    # An end that leans has two: one tapers its modules, one leaves a wedge for the joint.
    for y in (box.bottom, box.top):
        for name, met in (("front", ("open",)), ("outside", ("laps", "stops", "outside trim"))):
            if batch.case.met[0] in met:
                yield name, batch.left.at(y)
            if batch.case.met[1] in met:
                yield name, batch.right.at(y) - face


def _openings(batch: Batch) -> list[Box]:
    boxes = opening_boxes(batch.case.wall, batch.case.system)
    return [box for box in boxes if box.bottom < batch.box.top - SNAP]


def _limits(batch: Batch) -> Iterator[tuple[int, float]]:
    """Yield how many courses lie below, and a start at which something begins or ends to apply."""
    for course in batch.courses:
        for start in _starts(batch, course):
            yield course - 1, start


def _starts(batch: Batch, course: int) -> Iterator[float]:
    """Yield left edges of some module of a course at which a limit is just met."""
    face, system = batch.lattice.face[0], batch.case.system
    joint = batch.lattice.pitch[0] - face
    cut = system.cutting
    low, high = batch.span(course)
    lefts, rights = batch.rims(course)
    for size in (cut.least, face / 2, face):
        yield max(lefts) + size - face
        yield min(rights) - size
    for rim in (min(lefts), max(lefts)):
        yield rim - face
        yield rim - cut.groove_off
    for rim in (max(rights), min(rights)):
        yield rim
        yield rim + cut.groove_off - face
    for sign in (-face, joint):
        yield (max(lefts) + min(rights) + sign) / 2
    yield from _pierced_starts(batch, low=low, high=high)
    yield from _beside_steps(batch, low=low)
    yield from _under_slopes(batch, course)


def _pierced_starts(batch: Batch, *, low: float, high: float) -> Iterator[float]:
    """Yield those beside the openings and holes that a course meets."""
    face, cut = batch.lattice.face[0], batch.case.system.cutting
    for opening in _openings(batch):
        if opening.bottom < high and opening.top > low:
            for off in _EASED:
                yield opening.left - face + off
                yield opening.right + off
            for size in (cut.least, face / 2, face - cut.groove_off):
                yield opening.left - size
                yield opening.right + size - face
    yield from clear_starts(batch, low=low, high=high)


def _beside_steps(batch: Batch, *, low: float) -> Iterator[float]:
    """Yield where a strip or a leg beside a step of the deck is at a limit."""
    face, cut = batch.lattice.face[0], batch.case.system.cutting
    for before, after in pairwise(batch.steps):
        if low < max(before.low, after.low):
            for size in (cut.least, face / 2, face - cut.groove_off, face):
                yield before.right - size if before.low < after.low else before.right + size - face


def _under_slopes(batch: Batch, course: int) -> Iterator[float]:
    """Yield where the tall side of a piece that ends under a slope is at a limit."""
    face = batch.lattice.face
    for foot in feet(batch):
        if foot.course == course:
            for size in (batch.case.system.cutting.least, face[1] / 2):
                off = max(size - foot.low, 0.0) / foot.climb
                yield foot.x + off - (face[0] if foot.climb > 0 else 0.0)
