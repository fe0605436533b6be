"""In what order a piece is worked, and with which tool."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.materials import Cutting

Work: TypeAlias = Literal["length", "rip", "slant", "notch", "u-cut", "scribe", "corner", "hole"]
Tool: TypeAlias = Literal[
    "saw", "jigsaw", "hole saw", "score and snap", "wet saw", "grinder", "wet hole saw"
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One piece of work with its tool."""

    work: Work
    tool: Tool


_OF_MARK: Mapping[str, Work] = MappingProxyType(
    {
        "bottom": "length",
        "top": "length",
        "left": "rip",
        "right": "rip",
        "along bottom": "slant",
        "along top": "slant",
        "along left": "slant",
        "along right": "slant",
        "notch": "notch",
        "u-cut": "u-cut",
        "scribe": "scribe",
        "corner": "corner",
        "hole": "hole",
    }
)
ORDER: tuple[Work, ...] = (
    "length",
    "rip",
    "slant",
    "notch",
    "u-cut",
    "scribe",
    "corner",
    "hole",
)
"""Cuts right through while the module is whole, holes last: what holds them is then full size."""
THROUGH: frozenset[Work] = frozenset({"length", "rip", "slant"})
"""Straight cuts from edge to edge."""
_SHAPED: Mapping[str, tuple[Tool, Tool]] = MappingProxyType(
    {
        "saw": ("jigsaw", "hole saw"),
        "score and snap": ("grinder", "wet hole saw"),
        "wet saw": ("wet saw", "wet hole saw"),
    }
)
"""For the tool of straight cuts, what shaped cuts and holes take."""


def tool_for(work: Work, cutting: Cutting) -> Tool:
    """Return the tool for a kind of work.

    Parameters
    ----------
    work
        The work.
    cutting
        How the material is cut.

    Returns
    -------
    str
        The tool.

    Notes
    -----
    Source: common practice, no source. What is scored snaps along a straight line only.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> tool_for("notch", sample_system().cutting)
    'jigsaw'
    """
    shaped, hole = _SHAPED[cutting.tool]
    if work in THROUGH:
        return cutting.tool
    return hole if work == "hole" else shaped


def steps_of(piece: Piece, cutting: Cutting) -> tuple[Step, ...]:
    """Return the work on a piece in its order.

    Parameters
    ----------
    piece
        The piece, with its marks.
    cutting
        How its material is cut.

    Returns
    -------
    tuple of Step
        Length, rip, cuts on the slant, notches, scribes, holes: what of this there is.

    Notes
    -----
    Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> steps_of(sample_pieces()[0], sample_system().cutting)
    ()
    """
    asked = dict.fromkeys(_OF_MARK[mark.what] for mark in piece.marks if mark.what in _OF_MARK)
    # What goes right through comes first, in the order of the marks; sorting keeps that.
    order = sorted(asked, key=lambda work: -1 if work in THROUGH else ORDER.index(work))
    return tuple(Step(work=work, tool=tool_for(work, cutting)) for work in order)
