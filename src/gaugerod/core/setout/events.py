"""The positions worth trying: where something that matters falls exactly into place."""

from collections.abc import Iterator
from typing import TypeAlias

from gaugerod.core.base.geometry import SNAP, bounds_of
from gaugerod.core.job.document import Choices
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.setout.lattice import key_at
from gaugerod.core.setout.layout import SetField
from gaugerod.core.setout.openings import opening_boxes
from gaugerod.core.survey.walls import FittedWall, Walls

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
    module less that cut. Others put a course line just clear of a hole, or on the sill or
    head of an opening, each as high as it will go. Source: own derivation; the rule of the
    whole module is NAVEDTRA 14044, p. 7-23.

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
    heights: dict[int, Height] = {round(tallest / SNAP): ("tallest", tallest)}
    for name, line in _lines(walls, system, joint=pitch - face):
        height = tallest - (base + tallest - line) % pitch
        if height >= system.cutting.least:
            heights.setdefault(round(height / SNAP), (name, height))
    return tuple(heights.values())


def _lines(walls: Walls, system: System, *, joint: float) -> Iterator[tuple[str, float]]:
    """Yield heights at which the top of a course would be in a good place."""
    for wall in walls.walls:
        for hole in wall.holes:
            reach = hole.diameter / 2 + system.gaps.hole_clear
            yield "clear-of-hole", hole.y - reach - joint
            yield "clear-of-hole", hole.y + reach
        for opening in opening_boxes(wall, system):
            yield "sill", opening.bottom
            yield "head", opening.top - joint


def phases(
    wall: FittedWall, field: SetField, choices: Choices, *, face: float, pitch: float
) -> tuple[Phase, ...]:
    """Return the phases worth trying on one wall.

    Parameters
    ----------
    wall
        The wall. [mm]
    field
        Its set field. [mm]
    choices
        The setter's choices; a fixed centring leaves only that kind, where it exists.
    face, pitch
        Width of a module and from joint to joint, as hung. [mm]

    Returns
    -------
    tuple of (str, float)
        What is centred, and the left edge of some module. [mm]

    Notes
    -----
    A module or a joint on the centre line of the field, a module on the centre line of an
    opening or a joint on a jamb, a whole module at an open front. The centre line is taken
    at half height, so that the taper of a leaning corner is shared. Source: half-tile
    rule, NAVEDTRA 14044, p. 7-23; the rest common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.setout.field import set_field
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> wall = fit_walls(job).walls[0]
    >>> field = set_field(wall, ("open", "runs behind"), sample_system(), top=1000.0)
    >>> [name for name, _ in phases(wall, field, job.choices, face=600.0, pitch=600.0)]
    ['module', 'joint', 'front']
    """
    around = bounds_of(field.gross.rings)
    middle = (around.bottom + around.top) / 2
    lap_left, lap_right = _laps(wall, field)
    left, right = wall.left.at(middle) + lap_left, wall.right.at(middle) - lap_right
    centre, joint = (left + right) / 2, pitch - face
    found = [("module", centre - face / 2), ("joint", centre + joint / 2)]
    for box in field.openings:
        found.append(("opening", (box.left + box.right - face) / 2))
        found.append(("opening", (box.left + box.right + joint) / 2))
        found.append(("jamb", box.left - face))
        found.append(("jamb", box.right))
    # A front that leans has two: one tapers its modules, one leaves a wedge for the joint.
    for y in (around.bottom, around.top):
        if field.left == "open":
            found.append(("front", wall.left.at(y) + lap_left))
        if field.right == "open":
            found.append(("front", wall.right.at(y) - lap_right - face))
    wanted = choices.centre.get(wall.name)
    kept = [(name, x) for name, x in found if name == wanted] or found
    distinct: dict[int, Phase] = {}
    for name, x in kept:
        distinct.setdefault(round(x % pitch / SNAP) % round(pitch / SNAP), (name, x % pitch))
    return tuple(distinct.values())


def _laps(wall: FittedWall, field: SetField) -> tuple[float, float]:
    """Recover what was taken off at each side from the lowest corners of the field. [mm]."""
    ring = field.gross.rings[0]
    x0, y0 = min(ring, key=lambda p: p[0] - wall.left.slope * p[1])
    x1, y1 = max(ring, key=lambda p: p[0] - wall.right.slope * p[1])
    return x0 - wall.left.at(y0), wall.right.at(y1) - x1
