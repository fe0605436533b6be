"""What the hand of keyed modules asks: room to lift the top course, room to close a row."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import EIGHTH, System
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.lattice import key_at
from gaugerod.core.setout.layout import Layout, Meeting
from gaugerod.core.setout.strips import Batch

Way: TypeAlias = Literal["whole", "shaved", "sprung"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Closing:
    """How the last piece of every row of a wall gets onto the tongue before it. [mm].

    `side` is the end at which the rows close and `hider` the wall whose lining or trim hides
    the gap that is left there. ``whole`` tongues need `room` for their whole depth; ``shaved``
    ones are taken down to `left`, and sealant and glue hold them; where even that does not go
    in, the last two modules are ``sprung`` in together.
    """

    wall: str
    side: Literal["left", "right"]
    way: Way
    room: float
    tongue: float
    left: float
    hider: str


def closings(layout: Layout, system: System) -> tuple[Closing, ...]:
    """Say how the rows of each wall close.

    Parameters
    ----------
    layout
        The layout. [mm]
    system
        The material. [mm]

    Returns
    -------
    tuple of Closing
        One for each wall whose rows close in a corner, in the order of the walls; none for
        edges without keys, and none where a row runs out at an open front.

    Notes
    -----
    Rows are set from their grooves to their tongues, so they close at the end that the
    tongues point to. The last module starts back from its place by the depth of the tongue.
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> _, layout, system = sample_layout()
    >>> [(one.wall, one.side, one.way, one.hider) for one in closings(layout, system)]
    [('L', 'right', 'sprung', 'B'), ('B', 'right', 'sprung', 'R')]
    """
    side = closing_side(system, layout.turn)
    names = [wall.name for wall in layout.walls]
    found = []
    for place, wall in enumerate(layout.walls):
        meeting = wall.field.left if side == "left" else wall.field.right
        if side and meeting in _CLOSED:
            beyond = names[place + (1 if side == "right" else -1)]
            found.append(_closing(wall.name, side, meeting, beyond, system))
    return tuple(found)


_CLOSED: tuple[Meeting, ...] = ("runs behind", "butts", "trim")


def closing_side(system: System, turn: Turn) -> Literal["left", "right"] | None:
    """Return the end of a row that its tongues point to.

    Parameters
    ----------
    system
        The material.
    turn
        How the modules hang.

    Returns
    -------
    str or None
        ``left`` or ``right``; none where the ends carry no tongue.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> closing_side(sample_system(), "lying"), closing_side(sample_system(), "standing")
    ('right', 'left')
    """
    if key_at(system, "right", turn) == "tongue":
        return "right"
    return "left" if key_at(system, "left", turn) == "tongue" else None


def _closing(
    wall: str, side: Literal["left", "right"], meeting: Meeting, beyond: str, system: System
) -> Closing:
    tongue = system.key_depth
    # A wall that butts another's face has its own joint to back into, and no more.
    room = system.gaps.butt if meeting == "butts" else deduct(meeting, system)
    way: Way = "sprung" if room < EIGHTH - SNAP else "shaved"
    if room >= tongue - SNAP:
        way = "whole"
    return Closing(
        wall=wall,
        side=side,
        way=way,
        room=room,
        tongue=tongue,
        left=min(tongue, room),
        hider=wall if meeting == "butts" else beyond,
    )


def lifts(batch: Batch) -> Iterator[float]:
    """Yield the room over the top course under each point of the ceiling.

    Parameters
    ----------
    batch
        The lattices on the wall. [mm]

    Yields
    ------
    float
        Room to lift, less the depth of the tongue below; negative where the course can't be
        lifted over it. [mm]

    Notes
    -----
    A course that the ceiling cuts has its gap over it; one that ends lower, on its own edge or
    on the finish line, has more. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_batch
    >>> all(room > 0 for room in lifts(sample_batch(0.0)))
    True
    """
    system = batch.case.system
    if key_at(system, "bottom", batch.case.turn) != "groove":
        return
    top = min(batch.lattice.row_top(batch.courses[-1]), batch.case.top)
    for _, y in batch.case.wall.ceiling:
        yield y - min(top, y - system.gaps.ceiling) - system.key_depth
