"""What the set-out gives: layouts, each with its limits kept and its looks priced."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.base.geometry import Box, Region
from gaugerod.core.base.messages import Message
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.pattern import Pattern

Meeting: TypeAlias = Literal[
    "runs behind", "butts", "trim", "laps", "stops", "outside trim", "open"
]
Turn: TypeAlias = Literal["lying", "standing"]


@dataclass(frozen=True, slots=True, kw_only=True)
class SetField:
    """The part of a wall that the lining covers, gaps and laps taken off. [mm].

    `regions` are net of openings and of holes; `gross` is the outline they are cut from.
    `openings` are the boxes taken out, with the joint round them.
    """

    wall: str
    left: Meeting
    right: Meeting
    gross: Region
    regions: tuple[Region, ...]
    deck_low: float
    openings: tuple[Box, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WallLayout:
    """The lattice on one wall: `phase` is the x of the left edge of some module. [mm].

    `row_shift` is how far each course moves against the one below. [mm]. `ends` are the
    least widths of the cut pieces at the left and right end over all courses. [mm]. `top` is
    the finish line of this wall, where it has one of its own.
    """

    name: str
    phase: float
    row_shift: float
    field: SetField
    centring: str
    ends: tuple[float, float]
    top: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """One level set-out of all walls. [mm].

    `face` and `pitch` are as the module hangs on the wall (turned when standing);
    `first_course` is the height of the top edge of course 1. `looks` is the agreed
    price of what the eye minds, and `faults` what it is made of. [cents]. `set_aside` are
    limits that it breaks, each by an override that was signed.

    Where the modules don't lie in level courses, `pattern` says how they lie, and
    `first_course` and the `phase` of each wall are the origin of it there: a crossing of
    joints. `face` and `pitch` are then the module's own.
    """

    product: str
    turn: Turn
    bond: str
    face: tuple[float, float]
    pitch: tuple[float, float]
    first_course: float
    top: float
    order: tuple[str, ...]
    walls: tuple[WallLayout, ...]
    looks: int
    reasons: tuple[Message, ...]
    set_aside: tuple[str, ...] = ()
    faults: tuple[tuple[str, int], ...] = ()
    pattern: Pattern | None = None

    @property
    def rise(self) -> float:
        """Height from one course line to the next. [mm]."""
        return self.pattern.rise if self.pattern else self.pitch[1]


def placed_pattern(layout: Layout, wall: WallLayout) -> Pattern | None:
    """Return the pattern where it lies on one wall; nothing for level courses.

    Parameters
    ----------
    layout
        The set-out. [mm]
    wall
        One of its walls. [mm]

    Returns
    -------
    Pattern or None
        The pattern with its origin on the wall. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout
    >>> placed_pattern(sample_layout(), sample_layout().walls[0]) is None
    True
    """
    return layout.pattern.at((wall.phase, layout.first_course)) if layout.pattern else None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortList:
    """Layouts that keep every hard limit, best looks first, and why others fell out."""

    layouts: tuple[Layout, ...]
    tried: int
    refused: tuple[tuple[str, int], ...]


def top_of(layout: Layout, name: str) -> float:
    """Return the finish line of a wall.

    Parameters
    ----------
    layout
        The set-out. [mm]
    name
        Name of the wall.

    Returns
    -------
    float
        Its own finish line, or that of the layout; height from the datum. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout
    >>> layout = sample_layout()
    >>> top_of(layout, layout.walls[0].name) == layout.top
    True
    """
    own = (wall.top for wall in layout.walls if wall.name == name)
    return next((top for top in own if top is not None), layout.top)


def lattice_on(layout: Layout, wall: WallLayout) -> Lattice:
    """Return the lattice of one wall of a layout.

    Parameters
    ----------
    layout
        The layout. [mm]
    wall
        One of its walls. [mm]

    Returns
    -------
    Lattice
        Its courses and places. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> _, layout, _ = sample_layout()
    >>> lattice_on(layout, layout.walls[0]).pitch == layout.pitch
    True
    """
    return Lattice(
        face=layout.face,
        pitch=layout.pitch,
        first_course=layout.first_course,
        phase=wall.phase,
        row_shift=wall.row_shift,
    )
