"""What the walls can't tell: questions that a person answers, once, in the job file."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.job.fields import (
    Document,
    Identifier,
    NonNegativeLength,
    PositiveLength,
    Share,
    Temperature,
)

Backer: TypeAlias = Literal[
    "fibre cement",
    "fibre-mat cement",
    "glass-mat gypsum",
    "coated glass-mat gypsum",
    "fibre gypsum",
    "foam board",
    "water-resistant gypsum",
    "gypsum",
    "plywood",
    "plaster",
    "masonry",
]

Clear: TypeAlias = Literal["clear", "found"]


class Answers(Document):
    """Answers to what no tape reads. What is left out is asked on the checklist."""

    receptor: Literal["tub", "shower"] | None = Field(
        default=None, description="Is the lining round a tub or a shower?"
    )
    shower_head: bool | None = Field(default=None, description="Is there a shower head?")
    accessible: bool | None = Field(
        default=None, description="Is the room built to a standard for access?"
    )
    strip_out: bool | None = Field(default=None, description="Is an old lining torn out?")
    lead: Clear | None = Field(default=None, description="What the test for lead found.")
    asbestos: Clear | None = Field(default=None, description="What the test for asbestos found.")
    paint_height: NonNegativeLength | None = Field(
        default=None,
        description="How high a strip of painted wall is torn out, all round; nought for none.",
    )
    window_out: bool | None = Field(default=None, description="Is a window taken out?")
    backer: Backer | None = Field(default=None, description="The board that is lined.")
    vapour_retarder: bool | None = Field(
        default=None, description="Is there a vapour retarder behind that board?"
    )
    board_days: Annotated[float, Field(strict=True, ge=0)] | Literal["none"] | None = Field(
        default=None,
        description="Days since plasterboard was fixed on dabs; none without it.",
    )
    receptacle: NonNegativeLength | Literal["none"] | None = Field(
        default=None,
        description="Level distance from the edge of the tub or shower to the nearest socket; "
        "none where the room has none.",
    )
    gfci: bool | None = Field(default=None, description="Are all its sockets on GFCI (RCD)?")
    hanging_light: NonNegativeLength | Literal["none"] | None = Field(
        default=None, description="The same to the nearest hanging light lower than 8 ft (2.5 m)."
    )
    safety_glass: bool | None = Field(
        default=None, description="Does the glass of the window carry the mark of safety glass?"
    )
    limited_valve: bool | None = Field(
        default=None, description="Does the valve guard against scalding?"
    )
    hot_limit: Temperature | None = Field(
        default=None, description="The hottest water that runs, with its scale: “118 F”."
    )
    room: Temperature | None = Field(
        default=None, description="The coolest that the room gets while it sets: “68 F”."
    )
    adhesive_fits: bool | None = Field(
        default=None, description="Does the sheet of the adhesive name this plastic?"
    )
    size_variation: NonNegativeLength | None = Field(
        default=None, description="By how much the largest of ten tiles beats the smallest."
    )
    rectified: bool | None = Field(default=None, description="Is the tile rectified?")
    warpage: NonNegativeLength | None = Field(
        default=None, description="By how much the edge of a tile is warped; nought if left out."
    )
    lippage: NonNegativeLength | None = Field(
        default=None, description="The worst step between neighbours, as set."
    )
    entry: PositiveLength | None = Field(default=None, description="Clear way into the shower.")
    curb: NonNegativeLength | None = Field(
        default=None, description="Top of the curb over the drain."
    )
    floor_slope: Share | None = Field(
        default=None,
        description="Slope of its floor as a share: 1/4 in a foot is 0.0208.",
    )
    threshold: NonNegativeLength | None = Field(
        default=None, description="Height of the threshold over the floor of the room."
    )
    hose: PositiveLength | None = Field(
        default=None, description="Length of the hose of the hand spray."
    )
    closet_side: PositiveLength | Literal["none"] | None = Field(
        default=None,
        description="From the centre of the water closet to the tub or the lining beside it; "
        "none where there is no closet in the room.",
    )
    closet_front: PositiveLength | Literal["none"] | None = Field(
        default=None, description="Clear floor in front of the water closet."
    )
    ticked: tuple[Identifier, ...] = Field(
        default=(), description="Lines of the checklist that are done, by the id of their rule."
    )
