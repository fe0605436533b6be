"""Materials as data: a system is a module and all that goes with it."""

from typing import Annotated, Literal, TypeAlias, get_args

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.calendar import HoldTable
from gaugerod.core.job.fields import (
    Cents,
    Document,
    Hours,
    Identifier,
    Name,
    NonNegativeLength,
    PositiveLength,
    Side,
    Turn,
    WallName,
    refuse,
)
from gaugerod.core.job.goods import Backer, Litres, Membrane, Supply

Key: TypeAlias = Literal["tongue", "groove", "plain"]
Kind: TypeAlias = Literal["keyed", "grouted", "sheet"]
Use: TypeAlias = Literal["edge", "top", "inside corner", "outside corner", "seam"]
Meets: TypeAlias = Literal["front", "corner", "outside", "opening", "deck", "top"]
EIGHTH = 3.175
"""An eighth of an inch: the least lap where the file gives none. [mm]"""


class Edges(Document):
    """What each edge of the module carries, arrow up, seen from the face."""

    left: Key = "plain"
    right: Key = "plain"
    bottom: Key = "plain"
    top: Key = "plain"

    def __getitem__(self, side: Side) -> Key:
        """Return what the edge `side` carries."""
        value: Key = getattr(self, side)
        return value


class Cutting(Document):
    """What a cut takes, and what may not be cut."""

    kerf: NonNegativeLength
    least: PositiveLength = Field(description="No piece narrower or lower than this.")
    groove_off: NonNegativeLength = Field(
        default=0.0, description="Face lost where a groove is cut off."
    )
    most_shift: Annotated[float, Field(strict=True, gt=0, le=0.5)] = Field(
        default=0.5, description="Most that a course may be shifted, as a share of the pitch."
    )
    shift_over: NonNegativeLength = Field(
        default=0.0, description="Width as hung over which `most_shift` holds."
    )
    half_turn: bool = Field(default=False, description="May a module be turned upside down?")
    tool: Literal["saw", "score and snap", "wet saw"]
    material: Literal["plastic", "ceramic", "porcelain"]


class Gaps(Document):
    """Room left where the lining meets something else."""

    deck: NonNegativeLength
    corner: NonNegativeLength = Field(description="Before a corner that another wall laps.")
    butt: NonNegativeLength = Field(description="Sealed joint against the face of another wall.")
    outside: NonNegativeLength | None = Field(
        default=None,
        description="Deduct for a trim that both walls end in at an outside corner; "
        "left out, the wall set later laps the other.",
    )
    opening: NonNegativeLength
    ceiling: NonNegativeLength
    front: NonNegativeLength = Field(default=0.0, description="Deduct for the edge trim.")
    inside: NonNegativeLength | None = Field(
        default=None,
        description="Deduct for a channel that is set first in every inside corner and takes "
        "both walls; left out, the wall set later laps the other.",
    )
    hides_key: tuple[Meets, ...] = Field(
        default=(), description="Where a trim or seal hides a groove that is left on."
    )
    hole_clear: NonNegativeLength = Field(description="Least distance from a hole to a joint.")
    hole_spare: NonNegativeLength = Field(
        default=EIGHTH,
        description="What more is kept where it can be, for the day to take; else 1/8 in.",
    )
    least_lap: NonNegativeLength = Field(
        default=EIGHTH,
        description="What a lap, a trim or a fillet must cover to hide an edge; else 1/8 in.",
    )


class Trim(Document):
    """A trim or profile bought by the length."""

    id: Identifier
    name: Name
    use: Use
    stock: PositiveLength
    price: Cents = Field(description="Price of one stock length.")
    leg: PositiveLength | None = Field(
        default=None,
        description="How much of the lining its leg covers; of a seam trim, on either side.",
    )
    mitre: NonNegativeLength | None = Field(
        default=None,
        description="What a mitred end adds to the length; left out, ends are cut square.",
    )
    no_joint_from_end: NonNegativeLength = Field(
        default=150.0,
        description="A run longer than the stock has no joint this near its ends; else 150 mm.",
    )
    no_joint_from_hole: NonNegativeLength = Field(
        default=50.0,
        description="Nor this near a hole or an opening; else 50 mm.",
    )


class Adhesive(Document):
    """What holds a keyed module or a sheet: beads from a cartridge."""

    name: Name
    cartridge: Litres
    bead: PositiveLength
    inset: NonNegativeLength
    infill: PositiveLength = Field(description="Spacing of the infill bead.")
    usable: Annotated[float, Field(strict=True, gt=0, le=1)]
    price: Cents
    open_minutes: Annotated[int, Field(strict=True, gt=0)]
    none_under: NonNegativeLength = Field(
        default=12.7,
        description="A piece narrower than this takes no bead, its key and the seal hold it; "
        "else 1/2 in.",
    )
    bead_in_a_minute: PositiveLength = Field(
        default=3000.0, description="How much bead the hand lays in a minute; else 3 m."
    )
    hang_minutes: Annotated[float, Field(strict=True, gt=0, le=120)] = Field(
        default=2.0, description="Minutes to hang and press one piece; else 2."
    )
    hold_hours: Hours
    hold: HoldTable | None = None


class Sealant(Document):
    """What closes joints, deck and corners."""

    name: Name
    cartridge: Litres
    key_bead: NonNegativeLength = Field(
        default=0.0, description="Bead in every key, or along each sheet in a seam trim."
    )
    fillet: PositiveLength = Field(description="Leg of the fillet at deck, corners and openings.")
    shoulder_bead: NonNegativeLength = Field(
        default=0.0, description="Second bead, along the shoulder of every key."
    )
    cut_bead: NonNegativeLength = Field(
        default=0.0, description="Bead that seals every cut edge before it is hung."
    )
    hole_bead: NonNegativeLength = Field(
        default=0.0, description="Bead round every hole, under its plate."
    )
    usable: Annotated[float, Field(strict=True, gt=0, le=1)]
    price: Cents
    hold_hours: Hours
    hold: HoldTable | None = None


class Mortar(Document):
    """What holds a grouted tile: a combed bed."""

    name: Name
    notch_depth: PositiveLength
    notch_width: PositiveLength
    notch_gap: PositiveLength
    bag_yield: Litres = Field(description="Mixed volume of one bag.")
    back_butter: Annotated[float, Field(strict=True, ge=0, le=1)] = 0.15
    price: Cents
    hold_hours: Hours
    hold: HoldTable | None = None


class Grout(Document):
    """What fills the joints of tile."""

    name: Name
    binder: Literal["cement", "epoxy"] = "cement"
    density: Annotated[
        float, Field(strict=True, gt=0, le=4, description="Dry powder in a litre of joint, kg.")
    ]
    bag: Annotated[float, Field(strict=True, gt=0, le=50, description="Weight of one bag, kg.")]
    waste: Annotated[float, Field(strict=True, ge=0, le=1)] = 0.15
    price: Cents
    hold_hours: Hours
    hold: HoldTable | None = None


class System(Document):
    """One module with its trims, adhesive, sealant or grout, and the maker's limits."""

    format: Literal[1]
    id: Identifier
    name: Name
    unit: Literal["in", "mm", "cm"]
    kind: Kind
    face: tuple[PositiveLength, PositiveLength] = Field(
        description="Width and height of the face that shows, lying, arrow up."
    )
    thickness: PositiveLength
    bed: NonNegativeLength = Field(description="Thickness of adhesive or mortar behind it.")
    key_depth: NonNegativeLength = 0.0
    edges: Edges = Edges()
    joint: tuple[NonNegativeLength, NonNegativeLength] = Field(
        description="Joint left and right, joint above and below; nought where keyed. Between "
        "sheets, the bonded seam or the web of the seam trim."
    )
    weight: Annotated[float, Field(strict=True, gt=0, le=200, description="One module, kg.")]
    per_box: Annotated[int, Field(strict=True, ge=1, le=10_000)]
    price: Cents = Field(description="Price of one box.")
    breakage: Annotated[float, Field(strict=True, ge=0, le=0.5)]
    spares: Annotated[int, Field(strict=True, ge=0, le=1000)] = Field(
        description="Modules left with the owner."
    )
    attic: Annotated[float, Field(strict=True, ge=0, le=0.5)] = Field(
        default=0.0, description="Share left with the owner, besides `spares`."
    )
    lead_days: Annotated[int, Field(strict=True, ge=0, le=730)] | None = Field(
        default=None, description="Days from order to delivery, every day counted."
    )
    acclimatise_hours: Hours = Field(
        default=0.0, description="Hours that modules lie in the room before they are cut."
    )
    turns: tuple[Turn, ...] = ("lying",)
    wall_order: tuple[WallName, ...] = Field(
        default=(), description="The maker's order of setting the walls; else as the hand asks."
    )
    cutting: Cutting
    gaps: Gaps
    trim: tuple[Trim, ...] = ()
    adhesive: Adhesive | None = None
    sealant: Sealant
    mortar: Mortar | None = None
    grout: Grout | None = None
    membrane: Membrane | None = None
    backer: Backer | None = None
    supply: tuple[Supply, ...] = ()

    @property
    def goods(self) -> tuple[str, ...]:
        """Ids of all that an order of it may hold."""
        tables = ("adhesive", "sealant", "mortar", "grout", "membrane", "backer")
        return (
            "modules",
            *(f"trim-{trim.id}" for trim in self.trim),
            *(name for name in tables if getattr(self, name) is not None),
            *(supply.id for supply in self.supply),
        )

    @model_validator(mode="after")
    def _is_whole(self) -> "System":
        plain = self.edges == Edges()
        keyed, grouted, sheet = (self.kind == kind for kind in get_args(Kind))
        seamed = any(trim.use == "seam" for trim in self.trim)
        faults = {
            "material.keyed-without-key": keyed and (plain or self.key_depth == 0),
            "material.keyed-with-joint": keyed and max(self.joint) > 0,
            "material.keyed-without-adhesive": keyed and self.adhesive is None,
            "material.grouted-with-key": grouted and not plain,
            "material.grouted-without-bed": grouted and None in (self.mortar, self.grout),
            "material.sheet-with-key": sheet and not (plain and self.key_depth == 0),
            "material.sheet-without-adhesive": sheet and self.adhesive is None,
            "material.sheet-with-bed": sheet and (self.mortar, self.grout) != (None, None),
            "material.seam-without-sheet": seamed and not sheet,
            "material.id-twice": len(set(self.goods)) < len(self.goods),
        }
        for key, wrong in faults.items():
            if wrong:
                raise refuse(Message(key))
        return self


class Materials(Document):
    """Every system at hand, by its id."""

    systems: dict[Identifier, System]
