"""The readings a setter takes, one small model for each kind."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.job.fields import (
    Document,
    LengthField,
    Name,
    NonNegativeLength,
    PositiveLength,
)

Surface: TypeAlias = Literal["stud", "backer", "old tile", "new face"]
Practice: TypeAlias = Literal["good", "rough"]


class _Reading(Document):
    """What every reading says beside its own value."""

    id: Name | None = Field(
        default=None, description="A name of your own; else wall, kind and number."
    )
    surface: Surface | None = Field(default=None, description="The surface it was taken to.")
    sigma: PositiveLength | None = Field(default=None, description="Your own one-sigma error.")
    note: str = ""


class Width(_Reading):
    """Inside width of the wall, level, at a height from the datum."""

    kind: Literal["width"]
    at: LengthField = Field(description="Height from the datum, up positive.")
    reads: PositiveLength


class Deck(_Reading):
    """From the datum down to the deck at a station, or to the floor for a leg beside the tub."""

    kind: Literal["deck"]
    at: NonNegativeLength = Field(description="Station from the left corner.")
    reads: LengthField = Field(description="Down from the datum, positive below it.")
    part: Literal["rim", "ledge", "platform", "floor"] = "rim"


class Floor(_Reading):
    """From the deck down to the floor at a station."""

    kind: Literal["floor"]
    at: NonNegativeLength
    reads: NonNegativeLength


class Ceiling(_Reading):
    """From the datum up to the ceiling, or to the line where the lining must stop."""

    kind: Literal["ceiling"]
    at: NonNegativeLength
    reads: LengthField
    to: Literal["ceiling", "stop line"] = "ceiling"


class Height(_Reading):
    """Whole height from deck to ceiling at a station."""

    kind: Literal["height"]
    at: NonNegativeLength
    reads: PositiveLength


class CornerToCorner(_Reading):
    """Diagonal between a point on the left edge and one on the right edge."""

    kind: Literal["corner to corner"]
    left_at: LengthField = Field(description="Height of the end on the left edge, from the datum.")
    right_at: LengthField = Field(description="Height of the end on the right edge.")
    reads: PositiveLength


class Lean(_Reading):
    """Offset of an edge from plumb over a height; positive when its top leans inwards."""

    kind: Literal["lean"]
    edge: Literal["left", "right"]
    over: PositiveLength = Field(description="Height over which the offset was read.")
    reads: LengthField


class Gap(_Reading):
    """Worst gap under a straightedge."""

    kind: Literal["gap"]
    at: NonNegativeLength = Field(description="Station of the middle of the straightedge.")
    height: LengthField = Field(description="Height of its middle, from the datum.")
    straightedge: PositiveLength
    held: Literal["level", "plumb"]
    fault: Literal["hump", "hollow"] = "hollow"
    reads: NonNegativeLength


class Depth(_Reading):
    """Distance of the wall from one plumb plane; positive where the wall stands back."""

    kind: Literal["depth"]
    at: NonNegativeLength
    height: LengthField
    reads: LengthField


class HoleCentre(_Reading):
    """Centre of a pipe or valve, from an edge of the wall or from the datum."""

    kind: Literal["hole"]
    of: Name
    start: Literal["left", "right", "datum"] = Field(alias="from")
    reads: LengthField


class RoughIn(_Reading):
    """How far the valve or pipe stands proud of the surface it was read to."""

    kind: Literal["rough-in"]
    of: Name
    reads: LengthField


class OpeningEdge(_Reading):
    """An edge of an opening, its clear width or height, or the depth of its jamb.

    To the finished jamb, not the casing; to the bare faces where the inside is to be lined.
    """

    kind: Literal["opening"]
    of: Name
    edge: Literal["left", "right", "sill", "head", "width", "height", "jamb depth"]
    start: Literal["left", "right", "datum", "itself"] = Field(alias="from")
    reads: LengthField


class Drain(_Reading):
    """From the datum down to the drain."""

    kind: Literal["drain"]
    reads: NonNegativeLength


class Lip(_Reading):
    """The turned-up edge of the tub behind the lining."""

    kind: Literal["lip"]
    what: Literal["height", "thickness", "proud"]
    at: NonNegativeLength = 0.0
    reads: LengthField


class FixturePlace(_Reading):
    """Where a fixture sits: its centre from an edge or from the datum."""

    kind: Literal["fixture"]
    of: Name
    start: Literal["left", "right", "datum"] = Field(alias="from")
    reads: LengthField


Reading: TypeAlias = Annotated[
    Width
    | Deck
    | Floor
    | Ceiling
    | Height
    | CornerToCorner
    | Lean
    | Gap
    | Depth
    | HoleCentre
    | RoughIn
    | OpeningEdge
    | Drain
    | Lip
    | FixturePlace,
    Field(discriminator="kind"),
]
