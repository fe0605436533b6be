"""Tolerances as data: how flat, plumb and level a wall must be, and who says so."""

from itertools import pairwise
from typing import Literal, TypeAlias

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import (
    Document,
    Identifier,
    NonNegativeLength,
    PositiveLength,
    Region,
    Sentence,
    refuse,
)
from gaugerod.core.job.materials import System
from gaugerod.core.job.readings import Surface

Fixing: TypeAlias = Literal["bead", "thin bed", "thick bed"]
Scales: TypeAlias = Literal["as stated", "straight line", "in proportion"]

THIN_BED = 5.0
"""A mortar bed up to this is a thin one, which evens out the least. [mm]"""


class Allowance(Document):
    """What is allowed over one length."""

    over: PositiveLength = Field(description="Length of the straightedge, or height, or width.")
    at_most: NonNegativeLength


class Tolerance(Document):
    """One limit: what it applies to, what it allows over which length, and who says so."""

    id: Identifier
    about: Literal["flat", "plumb", "level"]
    statement: Sentence = Field(description="The limit in plain words.")
    surfaces: tuple[Surface, ...] = Field(
        default=(), description="Surfaces that it is for; none for every one."
    )
    fixings: tuple[Fixing, ...] = Field(
        default=(), description="How the lining is fixed to it; none for every way."
    )
    regions: tuple[Region, ...] = Field(
        default=(), description="Where it applies, such as US or US-IL; none for everywhere."
    )
    edge_from: PositiveLength | None = Field(
        default=None, description="Only where the module's longest edge is this or longer."
    )
    edge_below: PositiveLength | None = Field(
        default=None, description="Only where the module's longest edge is shorter than this."
    )
    allows: tuple[Allowance, ...] = Field(
        min_length=1, description="One row, or more with growing lengths."
    )
    scales: Scales = Field(
        default="as stated",
        description="For a length that is not in a row: the next longer row; the straight line"
        " between rows; or in proportion, from nought.",
    )
    rounded_to: PositiveLength | None = Field(
        default=None, description="What the allowed figure is rounded to, where the source does."
    )
    advice: Sentence = Field(description="What to do.")
    source: Sentence = Field(description="Standard or manual, or 'common practice'.")
    edition: str = ""
    sure: Literal["found", "calc", "from memory", "common practice, no source"]

    @model_validator(mode="after")
    def _rows_grow(self) -> "Tolerance":
        # A longer straightedge never finds less, so that it can't be allowed less.
        if any(a.over >= b.over or a.at_most > b.at_most for a, b in pairwise(self.allows)):
            raise refuse(Message("flatness.not-growing", tolerance=self.id))
        return self


class Tolerances(Document):
    """A set of limits in one unit."""

    format: Literal[1]
    unit: Literal["in", "mm", "cm"]
    tolerance: tuple[Tolerance, ...]


def fixing_of(system: System) -> Fixing:
    """Return how a module is fixed to the wall: what its wall has to be flat for.

    Parameters
    ----------
    system
        The material.

    Returns
    -------
    Fixing
        By beads of adhesive unless it is grouted, else in a thin or a thick bed.

    Notes
    -----
    A bed of up to 5 mm is thin, as thin-bed mortars are laid; some texts say 3 mm. In doubt
    it is called thin, since then the wall must be flatter. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> fixing_of(sample_system())
    'bead'
    """
    if system.kind != "grouted":
        return "bead"
    return "thin bed" if system.bed <= THIN_BED else "thick bed"
