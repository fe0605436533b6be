"""What stands on the gauge rod: every height to strike, and the walls that it is struck on."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil, floor
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.lengths import Display
from gaugerod.core.setout.field import low_point
from gaugerod.core.setout.layout import Layout, top_of
from gaugerod.core.survey.walls import FittedWall, Walls

RodKind: TypeAlias = Literal[
    "deck", "course", "row", "finish", "hole", "sill", "head", "station", "datum"
]

STEP = {"imperial": 203.2, "metric": 200.0}
"""From one sub-datum to the next: 8 in, or 200 mm. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class RodMark:
    """One height from the datum, up positive, and the walls that have it. [mm].

    `name` is the number of the course, or what the hole or the opening is called.
    """

    kind: RodKind
    name: str
    height: float
    walls: tuple[str, ...]


def rod_marks(walls: Walls, layout: Layout) -> tuple[RodMark, ...]:
    """Return every height that is struck from the rod, from the lowest up.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    layout
        The set-out of its walls. [mm]

    Returns
    -------
    tuple of RodMark
        The low point of the deck, course lines, finish lines, centres of holes, sills and
        heads. Exact heights: whoever prints one rounds it once, from the datum.

    Notes
    -----
    A course line belongs to the walls whose lining passes it: a knee wall ends sooner, and
    beside the tub a leg begins lower. Line ``n`` is ``first_course + (n - 1) * rise``.
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, _ = sample_layout()
    >>> marks = rod_marks(walls, layout)
    >>> marks[0].kind, round(marks[0].height), marks[0].walls
    ('deck', -760, ('L',))
    >>> {mark.walls for mark in marks if mark.kind == "course"}
    {('L', 'B', 'R')}
    """
    lowest, deck = low_point(walls)
    found = [RodMark(kind="deck", name="", height=deck, walls=(lowest,))]
    for wall in walls.walls:
        found += _of_wall(wall, layout)
    merged: list[RodMark] = []
    for mark in sorted(found, key=lambda m: (m.kind, m.name, m.height)):
        last = merged[-1] if merged else None
        if last and _alike(last, mark):
            both = (*last.walls, *mark.walls)
            merged[-1] = RodMark(kind=last.kind, name=last.name, height=last.height, walls=both)
        else:
            merged.append(mark)
    return tuple(sorted(merged, key=lambda m: (m.height, m.kind, m.name)))


def _alike(one: RodMark, other: RodMark) -> bool:
    same = (one.kind, one.name) == (other.kind, other.name)
    return same and one.kind not in _OWN and abs(one.height - other.height) < SNAP


_OWN = frozenset({"deck", "hole", "sill", "head"})
"""What belongs to one wall, even where another has the like."""


def _of_wall(wall: FittedWall, layout: Layout) -> Iterator[RodMark]:
    on, top = (wall.name,), top_of(layout, wall.name)
    first = 1
    if "floor" in wall.parts:  # courses go on down a leg beside the tub
        deck = min(y for _, y in wall.deck)
        first -= int((layout.first_course - deck) // layout.rise)
    count = ceil((top - SNAP - layout.first_course) / layout.rise)
    for number in range(first, count + 1):
        height = layout.first_course + (number - 1) * layout.rise
        kind: RodKind = "row" if layout.pattern else "course"
        yield RodMark(kind=kind, name=str(number), height=height, walls=on)
    yield RodMark(kind="finish", name="", height=top, walls=on)
    for hole in wall.holes:
        yield RodMark(kind="hole", name=hole.name, height=hole.y, walls=on)
    for opening in wall.openings:
        box = opening.box
        yield RodMark(kind="sill", name=opening.name, height=box.bottom, walls=on)
        yield RodMark(kind="head", name=opening.name, height=box.top, walls=on)


def stations(marks: tuple[RodMark, ...], display: Display) -> tuple[RodMark, ...]:
    """Return the sub-datums that hold the marks between them, the datum among them.

    Parameters
    ----------
    marks
        What stands on the rod, at least one mark. [mm]
    display
        The reader's units.

    Returns
    -------
    tuple of RodMark
        Whole steps from the datum, from the lowest up; at least two. [mm]

    Notes
    -----
    A length measured from the nearest of them is short, and each is itself measured from the
    datum: so the errors of a long rod don't add. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.base.lengths import METRIC
    >>> mark = RodMark(kind="course", name="1", height=310.0, walls=("B",))
    >>> [(m.kind, m.height) for m in stations((mark,), METRIC)]
    [('datum', 0.0), ('station', 200.0), ('station', 400.0)]
    """
    step = STEP[display.system]
    heights = [mark.height for mark in marks]
    low = min(0, floor((min(heights) + SNAP) / step))
    high = max(low + 1, 0, ceil((max(heights) - SNAP) / step))
    return tuple(
        RodMark(kind="station" if number else "datum", name="", height=number * step, walls=())
        for number in range(low, high + 1)
    )
