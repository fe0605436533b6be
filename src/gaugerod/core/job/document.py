"""The job document: what a person measures in the room and chooses."""

from datetime import time
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.answers import Answers
from gaugerod.core.job.calendar import Progress, Room
from gaugerod.core.job.contract import Change, Contract
from gaugerod.core.job.fields import (
    Day,
    Document,
    Identifier,
    InsideFace,
    LengthField,
    Name,
    NonNegativeLength,
    PositiveLength,
    Side,
    TimeOfDay,
    Turn,
    WallName,
)
from gaugerod.core.job.own_figures import Pricing
from gaugerod.core.job.own_order import Bought, Extra
from gaugerod.core.job.readings import Practice, Reading, Surface

Bond: TypeAlias = Literal["stack", "half", "third"]
PatternBond: TypeAlias = Literal["diagonal", "diagonal half", "herringbone", "diagonal herringbone"]
Shift: TypeAlias = Annotated[float, Field(strict=True, gt=0, lt=1)]
Limit: TypeAlias = Literal[
    "under-least", "groove-left", "joint-at-hole", "shifted-too-far", "no-lift"
]
Corner: TypeAlias = Literal["inside", "outside"]
Centring: TypeAlias = Literal["module", "joint", "opening", "front", "outside", "third"]


class Site(Document):
    """Where the work is, and what must be known before anything is opened."""

    address: str = ""
    contact: str = ""
    region: str = Field(
        default="", description="Place whose code applies, such as US-IL, US-IL-CHICAGO or GB."
    )
    editions: dict[Identifier, Annotated[int, Field(strict=True, ge=1900, le=2200)]] = Field(
        default_factory=dict,
        description="Year of each code in force there, such as { IRC = 2021, NEC = 2023 }; "
        "of a code left out, the newest counts.",
    )
    built: Annotated[int, Field(strict=True, ge=1000, le=2200)] | None = Field(
        default=None, description="Year the house was built."
    )
    water_shutoff: str = ""
    breaker: str = ""
    access: str = ""
    doorway: tuple[PositiveLength, PositiveLength] | None = Field(
        default=None, description="Clear width and height of the narrowest door on the way in."
    )


class Layers(Document):
    """How thick each layer of the wall is, where a reading was taken to another."""

    backer: PositiveLength | None = Field(default=None, description="Backer on the stud.")
    old_tile: PositiveLength | None = Field(
        default=None, description="Old tile that stays, with its bed, on the backer."
    )
    lining: PositiveLength | None = Field(
        default=None, description="New lining with its bed, on the bonding face."
    )


class Survey(Document):
    """How the readings were taken, where a reading does not say otherwise."""

    taken: Day | None = None
    by: str = ""
    practice: Practice = "good"
    surface: Surface = Field(description="The surface that the readings were taken to.")
    bonding: Literal["backer", "old tile"] = Field(
        default="backer", description="What the lining is glued to."
    )
    layers: Layers = Layers()


class Hole(Document):
    """A pipe, valve, spout or arm that comes through the lining."""

    name: Name
    diameter: PositiveLength = Field(description="Diameter of the hole to drill.")
    pipe: PositiveLength | None = Field(default=None, description="Outside diameter of the pipe.")
    plate: PositiveLength | None = Field(default=None, description="Diameter that the plate hides.")
    rough_in: tuple[LengthField, LengthField] | None = Field(
        default=None, description="Least and most that the valve may stand proud of the new face."
    )


class Opening(Document):
    """A window or niche that the lining goes round."""

    name: Name
    kind: Literal["window", "niche"]
    gap: NonNegativeLength | None = Field(default=None, description="Joint left at its edges.")
    lined: bool | None = Field(
        default=None,
        description="Are its inside faces lined with the same modules? "
        "Left out, a niche is and a window is not.",
    )
    fall: NonNegativeLength | None = Field(
        default=None,
        description="What its sill drops over its depth, toward the room; else 1/4 in per ft.",
    )


class Fixture(Document):
    """A shelf, dish, bar or rail on the lining, with the zone that must stay free of joints."""

    name: Name
    kind: Literal["shelf", "dish", "bar", "rail"]
    size: tuple[PositiveLength, PositiveLength] = Field(description="Width and height.")
    clear: NonNegativeLength = 0.0
    backing: bool | None = Field(
        default=None, description="Is there wood behind its fixings, that holds them?"
    )


class Hollow(Document):
    """Old tile that sounds hollow when tapped: a box by its lower left corner."""

    at: NonNegativeLength = Field(description="Left side, from the left corner.")
    height: LengthField = Field(description="Lower side, from the datum.")
    size: tuple[PositiveLength, PositiveLength] = Field(description="Width and height.")


class Wall(Document):
    """One wall: its readings and what pierces it."""

    name: WallName
    corner: Corner = Field(
        default="inside", description="The corner at its right edge, where the next wall begins."
    )
    finish: Literal["line", "ceiling"] | PositiveLength | None = Field(
        default=None,
        description="Where its lining stops if not with the rest, as on a knee wall: on a course "
        "line, at the ceiling, or so high above the floor.",
    )
    hole: tuple[Hole, ...] = ()
    opening: tuple[Opening, ...] = ()
    fixture: tuple[Fixture, ...] = ()
    hollow: tuple[Hollow, ...] = Field(default=(), description="Hollow places in old tile.")
    old_tile_stops: LengthField | None = Field(
        default=None, description="Height from the datum at which old tile that stays ends."
    )
    readings: tuple[Reading, ...]


class Override(Document):
    """A limit that the setter sets aside, in his own name."""

    limit: Limit = Field(description="The limit that may be broken.")
    by: Name = Field(description="Who signs for it.")
    on: Day = Field(description="The day it was signed.")
    why: Name = Field(description="Why it may be broken here.")


class Accent(Document):
    """Where modules of another product stand: another colour or finish, or a lined niche."""

    material: Identifier = Field(description="The other product.")
    walls: tuple[WallName, ...] = Field(
        default=(), description="On these walls; left out, on every wall."
    )
    courses: tuple[Annotated[int, Field(strict=True, ge=-50, le=200)], ...] = Field(
        default=(),
        description="In these courses, as the tags of the pieces count them; left out, in all.",
    )
    inside: Name | None = Field(
        default=None,
        description="Name of a niche or window: inside it, and not on the wall round it.",
    )
    faces: tuple[InsideFace, ...] = Field(
        default=(), description="On these of its inside faces; left out, on all."
    )


class Choices(Document):
    """What the customer and the setter have settled; the rest is searched."""

    material: Identifier
    turn: Turn | Literal["any"] = Field(
        default="any", description="How modules hang: lying, standing, or whichever suits."
    )
    bond: Bond | PatternBond | Shift | Literal["any"] = Field(
        default="any",
        description="How each course is shifted: stack, half, third, a share of the pitch, or any "
        "of these; or a pattern that leaves the level courses.",
    )
    step: Literal["right", "left", "any"] = Field(
        default="any", description="To which side each course is shifted against the one below."
    )
    corners: Literal["afresh", "run on", "any"] = Field(
        default="afresh",
        description="Whether each wall is set out afresh, or courses run on through the corners.",
    )
    wall_order: tuple[WallName, ...] = Field(
        default=(), description="Walls in the order of setting; else the maker's order."
    )
    finish: Literal["line", "ceiling", "any"] | PositiveLength = Field(
        default="line",
        description="Stop on a course line, at the ceiling, on either, or so high above the floor.",
    )
    least_finish: PositiveLength = Field(
        default=1828.8,
        description="Lowest finish above the floor that the place allows.",
        # A plain number would be taken for one in the unit of the file.
        json_schema_extra={"default": "1828.8 mm"},
    )
    first_height: PositiveLength | None = Field(
        default=None, description="Height of the first course at the low point of the deck."
    )
    centre: dict[WallName, Centring] = Field(
        default_factory=dict, description="Wall by wall: what to centre, or full at the front."
    )
    phase: dict[WallName, LengthField] = Field(
        default_factory=dict,
        description="Wall by wall: left edge of some module of course 1, from the left corner.",
    )
    override: tuple[Override, ...] = Field(
        default=(), description="Limits that are set aside, each signed."
    )
    pick: Literal["looks first", "saw least", "buy least"] = "looks first"
    accent: tuple[Accent, ...] = Field(
        default=(),
        max_length=16,
        description="Where modules of another product stand; of two, the later one counts.",
    )


MIDNIGHT = time()
"""A day that closes then goes on to its end."""
NO_PLACE = "none"
"""Keeps no public holidays, wherever the site is."""


class WorkingWeek(Document):
    """When the crew works."""

    start: Day = Field(description="First day of work on site.")
    opens: TimeOfDay = time(8)
    closes: TimeOfDay = time(16, 30)
    days: tuple[Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"], ...] = (
        "mon",
        "tue",
        "wed",
        "thu",
        "fri",
    )
    holidays: tuple[Day, ...] = ()
    holidays_of: str = Field(
        default="",
        description="Place whose public holidays are kept, such as US, US-IL or GB, or none; "
        "left out, that of the site's region.",
    )
    room: Room | None = Field(
        default=None,
        description="How warm and damp it is while glue and grout cure; left out, as warm as "
        "[facts] says, else as usual.",
    )
    delivered: Day | None = Field(
        default=None, description="Day the order came, or is promised for."
    )
    spare_days: Annotated[int, Field(strict=True, ge=0, le=365)] = Field(
        default=0, description="Working days kept in hand between delivery and need."
    )
    progress: tuple[Progress, ...] = Field(
        default=(), description="What was begun, done or put off: the rest moves with it."
    )


class OnHand(Document):
    """What is there already and need not be bought."""

    item: Identifier = Field(
        description="Which line of the order: modules, adhesive, trim-edge and so on."
    )
    count: Annotated[float, Field(strict=True, gt=0, le=100_000)] = Field(
        description="Packages, of a part-used one the share that is left; modules one by one."
    )
    same_lot: bool = Field(
        default=False,
        description="Is it of the lot that is bought? Modules and grout of another are not used.",
    )


class OffcutAtHand(Document):
    """An offcut from another room, face up and arrow up."""

    name: Identifier = Field(description="What is written on it.")
    size: tuple[PositiveLength, PositiveLength] = Field(description="Width and height.")
    keeps: tuple[Side, ...] = Field(default=(), description="Factory edges that it still has.")
    lot: Name = Field(default="unknown", description="Lot of the module that it was cut from.")
    material: Identifier | None = Field(
        default=None, description="Which product it is of; left out, that of the choices."
    )


class Job(Document):
    """One alcove: what was measured and what was chosen."""

    format: Literal[1]
    name: Name
    scenario: str = Field(default="", description="Says so when the job is invented.")
    unit: Unit = Field(description="Unit of plain numbers: in, mm or cm.")
    display: Literal["imperial", "metric"] | None = None
    timezone: str = "UTC"
    site: Site = Site()
    facts: Answers = Answers()
    survey: Survey
    choices: Choices
    calendar: WorkingWeek
    rates: Identifier = Field(default="shop", description="Which table of rates to use.")
    on_hand: tuple[OnHand, ...] = Field(
        default=(), description="What is there already and is taken off the order."
    )
    offcut: tuple[OffcutAtHand, ...] = Field(
        default=(),
        max_length=200,
        description="Offcuts at hand, of the job's products: used before a module is begun.",
    )
    extra: tuple[Extra, ...] = Field(
        default=(), max_length=100, description="Lines of the order that nothing is counted for."
    )
    bought: tuple[Bought, ...] = Field(
        default=(),
        max_length=500,
        description="What was ordered and came: a record, that changes no plan.",
    )
    factors: tuple[Identifier, ...] = Field(
        default=(), description="Which factors of the rates hold here; one named twice, twice."
    )
    pricing: Pricing = Field(
        default=Pricing(), description="Figures of this job alone, instead of those of the rates."
    )
    contract: Contract | None = Field(default=None, description="Once it is signed.")
    change: tuple[Change, ...] = Field(default=(), description="Change orders, in turn.")
    wall: tuple[Wall, ...] = Field(min_length=1, max_length=24)
