"""What happened on the wall: pieces set and cut, and what was found that nobody had planned."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.fields import (
    Day,
    Document,
    Identifier,
    LengthField,
    Name,
    NonNegativeLength,
    WallName,
)
from gaugerod.core.job.readings import Reading

Course: TypeAlias = Annotated[int, Field(strict=True, ge=1, le=1000)]


class FoundLine(Document):
    """How the top of a course that stands lies against where it should be."""

    wall: WallName
    course: Course
    left: LengthField = Field(default=0.0, description="Off at its left end, high positive.")
    right: LengthField = Field(default=0.0, description="Off at its right end, high positive.")


class FoundGap(Document):
    """What is left between the last module that stands in a course and what it closes on."""

    wall: WallName
    course: Course
    side: Literal["left", "right"]
    reads: NonNegativeLength


class FoundReading(Document):
    """A reading taken now, beside those of the survey or instead of one."""

    wall: WallName
    reading: Reading
    instead_of: Name | None = Field(default=None, description="Id of the reading that it replaces.")


class SiteDay(Document):
    """One day on site, or a part of one: first what was done, then what was found."""

    on: Day | None = None
    set: tuple[Name, ...] = Field(
        default=(), description="Pieces that hang: tags such as B2-1, courses (B2), walls (B)."
    )
    cut: tuple[Name, ...] = Field(default=(), description="Pieces that are cut, not yet set.")
    broken: Annotated[int, Field(strict=True, ge=0, le=10_000)] = Field(
        default=0, description="Whole modules that broke or are not fit to hang."
    )
    broken_of: dict[Identifier, Annotated[int, Field(strict=True, ge=0, le=10_000)]] = Field(
        default_factory=dict, description="The same of other products, by the id of each."
    )
    line: tuple[FoundLine, ...] = ()
    gap: tuple[FoundGap, ...] = ()
    reading: tuple[FoundReading, ...] = ()


class OnSite(Document):
    """The days on site so far, in turn."""

    format: Literal[1]
    unit: Unit = Field(description="Unit of plain numbers: in, mm or cm.")
    day: tuple[SiteDay, ...] = Field(min_length=1)
