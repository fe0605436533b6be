"""Goods besides modules and what holds them: membrane, backer board, and what is used up."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.job.fields import (
    Cents,
    Document,
    Identifier,
    Name,
    NonNegativeLength,
    PositiveLength,
    Share,
)

Litres: TypeAlias = Annotated[float, Field(strict=True, gt=0, le=1000)]
Pack: TypeAlias = Literal[
    "box", "length", "cartridge", "bag", "board", "bucket", "can", "roll", "packet", "single"
]
Spent: TypeAlias = Literal[
    "alcove",
    "piece",
    "hole",
    "hole size",
    "board",
    "square metre",
    "metre of cut",
    "metre of tape",
]
"""What a supply is used up by."""


class Membrane(Document):
    """A waterproofing that is brushed or rolled on under tile."""

    name: Name
    film: PositiveLength = Field(description="Wet thickness of all coats together.")
    bucket: Litres = Field(description="Volume of one bucket.")
    waste: Share = Field(default=0.1, description="Share left in bucket and roller.")
    price: Cents


class Backer(Document):
    """The board behind the lining."""

    name: Name
    size: tuple[PositiveLength, PositiveLength] = Field(description="Width and height, lying.")
    lies: Literal["lying", "standing", "either"] = Field(
        default="either", description="How it is hung; either takes the fewest boards."
    )
    gap: NonNegativeLength = Field(default=0.0, description="Gap between boards.")
    price: Cents


class Supply(Document):
    """What is used up by the work: screws, tape, primer, wipes, blades, hole saws, bags."""

    id: Identifier
    name: Name
    pack: Pack
    per: Spent = Field(description="What it is used up by.")
    lasts: Annotated[float, Field(strict=True, gt=0, le=100_000)] = Field(
        description="How many of these one package serves."
    )
    price: Cents
