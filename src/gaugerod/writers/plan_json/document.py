"""The parts of `plan.json`, format 1. Lengths in mm, unrounded; money in cents.

On a wall x runs to the right from its left corner at the datum, y up from the datum. In a
module the origin is the lower left of its face, face up, arrow up. Rings are closed: the first
point comes again at the end; a region is its outer ring, then its holes.
"""

from datetime import date, datetime
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field

from gaugerod.writers.plan_json.part import Part
from gaugerod.writers.plan_json.price import PricePart

Pair: TypeAlias = Annotated[tuple[float, float], Field(description="x and y, or width and height.")]
Bounds: TypeAlias = Annotated[
    tuple[float, float, float, float], Field(description="Left, bottom, right, top.")
]
Ring: TypeAlias = Annotated[tuple[Pair, ...], Field(min_length=4)]
Region: TypeAlias = tuple[Ring, ...]
Side: TypeAlias = Literal["left", "right", "bottom", "top"]
Key: TypeAlias = Literal["tongue", "groove", "plain"]
Meeting: TypeAlias = Literal[
    "runs behind", "butts", "trim", "laps", "stops", "outside trim", "open"
]


class JobPart(Part):
    """Which job was planned."""

    name: str
    scenario: str
    display: Literal["imperial", "metric"]
    timezone: str


class EdgesPart(Part):
    """What each edge of a module carries, lying, face up, arrow up."""

    left: Key
    right: Key
    top: Key
    bottom: Key


class ProductPart(Part):
    """A module as it is bought."""

    id: str
    name: str
    kind: Literal["keyed", "grouted", "sheet"]
    face: Pair
    joint: Pair
    kerf: float
    thickness: float
    key_depth: float
    edges: EdgesPart


class ReadingPart(Part):
    """A reading, and how far the fitted walls are from it."""

    id: str
    wall: str
    kind: str
    value: float
    residual: float
    sigma: float
    redundancy: float
    w: float
    detectable: float | None = Field(
        description="The blunder that the test would find; none where nothing checks it."
    )


class SuspectPart(Part):
    """Readings that disagree with the rest, and the slip that would explain them."""

    readings: tuple[str, ...]
    w: float
    guess: str | None
    decide: str | None = Field(description="What to take again, where they can't be told apart.")


class SurveyPart(Part):
    """How well the readings agree."""

    sigma0: float
    dof: int
    chance: float = Field(
        description="How likely residuals as large as these are if every reading is sound."
    )
    fit_for: Literal["price", "cut"]
    reasons: tuple[str, ...]
    readings: tuple[ReadingPart, ...]
    suspects: tuple[SuspectPart, ...]


class OpeningPart(Part):
    """A window or niche, to its edges as read; where it is `lined` inside, to its bare faces.

    `depth` is from the wall's bonding face to its back or frame, null where it was not read.
    """

    name: str
    kind: Literal["window", "niche"]
    outline: Ring
    lined: bool
    depth: float | None


class HolePart(Part):
    """A hole to drill, by its centre."""

    name: str
    x: float
    y: float
    diameter: float


class FixturePart(Part):
    """A fixture on the lining, and the zone round it that stays free of joints."""

    name: str
    kind: str
    outline: Ring
    clear: float


class WallPart(Part):
    """A wall as surveyed, and the fields that the lining covers."""

    name: str
    outline: Ring
    fields: tuple[Region, ...]
    openings: tuple[OpeningPart, ...]
    holes: tuple[HolePart, ...]
    fixtures: tuple[FixturePart, ...]


class EndCutPart(Part):
    """The end piece of a course at its narrowest; `sigma` is its standard deviation."""

    course: int
    side: Literal["left", "right"]
    width: float
    sigma: float


class WallLayoutPart(Part):
    """The lattice on one wall; `phase` is the x of the left edge of some module of course 1."""

    name: str
    phase: float
    row_shift: float
    left: Meeting
    right: Meeting
    centring: str
    ends: Pair
    end_cuts: tuple[EndCutPart, ...]
    top: float


class UnitPart(Part):
    """One module of a unit cell: `at` is its lower left, arrow up, from the cell's origin."""

    at: Pair
    face: Pair
    turn: int


class PatternPart(Part):
    """A unit cell, and the two vectors that repeat it; its origin is a crossing of joints."""

    cell: tuple[UnitPart, ...]
    across: Pair
    up: Pair
    joint: float


class LayoutPart(Part):
    """The level set-out; `first_course` is the y of the top edge of course 1.

    Where there is a `pattern`, its origin on a wall is (`phase` of that wall, `first_course`).
    """

    product: str
    turn: Literal["lying", "standing"]
    bond: str
    first_course: float
    pitch: Pair
    top: float
    order: tuple[str, ...]
    walls: tuple[WallLayoutPart, ...]
    pattern: PatternPart | None
    reasons: tuple[str, ...]


class EdgePart(Part):
    """One straight stretch of a piece's outline, in the module's frame."""

    side: Side
    kind: Literal["factory", "tongue off", "cut"]
    start: Pair = Field(alias="from")
    end: Pair = Field(alias="to")


class MarkPart(Part):
    """One measurement to mark by, face up, from a kept edge."""

    what: str
    start: Side = Field(alias="from")
    value: float
    detail: str


class PiecePart(Part):
    """A piece: `rings` on the wall or inside face named `wall`, all else in the module's frame.

    `turn` is anticlockwise from module to wall, in degrees; `face` is the module's, `cell` the
    upright box on the wall round the whole of it; `tilt` is how much more it is turned where a
    line below was found off level.
    """

    tag: str
    wall: str
    course: int
    place: int
    product: str
    stock: str
    turn: Annotated[int, Field(ge=0, lt=360)]
    tilt: float
    face: Pair
    rings: Region
    cell: Bounds
    within: Bounds
    size: Pair
    whole: bool
    edges: tuple[EdgePart, ...]
    keeps: tuple[Side, ...]
    holes: tuple[HolePart, ...]
    measure_in_place: bool
    marks: tuple[MarkPart, ...]


class InsidePart(Part):
    """An inside face of an opening: `fields` on its own plane, which its pieces cover.

    Pieces whose `wall` is its `name` lie on it.
    """

    name: str
    wall: str
    opening: str
    face: Literal["sill", "head", "left", "right", "back"]
    fields: tuple[Region, ...]


class PlacedPart(Part):
    """A piece in its stock, by the box round it; `turned` where the stock lies upside down."""

    tag: str
    at: Pair
    size: Pair
    turned: bool = False
    blank: Bounds | None = Field(
        description="The part that the cuts right through leave for it; null for the whole stock."
    )


class SawCutPart(Part):
    """One cut right through `part` of a stock, in the order of sawing.

    The saw's near side is `at` from the stock's edge `from`; where the part no longer has that
    edge, `stands` is false, and the line is marked before the first cut.
    """

    part: Bounds
    start: Side = Field(alias="from")
    at: float
    near: tuple[str, ...] = Field(description="Pieces between that edge and the saw.")
    far: tuple[str, ...] = Field(description="Pieces beyond the saw.")
    stands: bool


class OffcutPart(Part):
    """What is left of a stock, with the factory edges it still has."""

    id: str
    at: Pair
    size: Pair
    keeps: tuple[Side, ...]


class StockPart(Part):
    """One module or offcut, and what is cut from it."""

    id: str
    source: Literal["module", "offcut"] = Field(alias="from")
    product: str
    size: Pair
    keeps: tuple[Side, ...]
    lot: str
    pieces: tuple[PlacedPart, ...]
    offcuts: tuple[OffcutPart, ...]
    sequence: tuple[SawCutPart, ...]


class BuyPart(Part):
    """How many modules to buy, and the fewest that could do."""

    product: str
    modules: int
    lower_bound: int
    proven: bool
    alone: int = Field(description="Modules with one piece from each.")
    edgeless: int = Field(description="Modules that would seem to do if no edge had to be kept.")
    saved: int = Field(description="Price of the boxes that reuse saves. [cents]")
    spares: int
    boxes: int


class RunPart(Part):
    """One length of trim for a run on a wall, or for a part of a run longer than the stock."""

    wall: str
    place: str
    part: int = Field(description="Which part of the run, from its start: left or bottom.")
    parts: int
    start: float = Field(description="Where it begins on the stock length.")
    length: float = Field(description="The longer side, mitres in.")
    mitred: tuple[Literal["start", "end"], ...]


class TrimPart(Part):
    """One stock length of a trim, the runs cut from it in turn, and what is left."""

    trim: str
    stock: float
    runs: tuple[RunPart, ...]
    offcut: float


class TrimCountPart(Part):
    """How many lengths of a trim, and the fewest that could do with its joints as they are."""

    trim: str
    lengths: int
    lower_bound: int
    proven: bool


class LimitOddsPart(Part):
    """A hard limit that may fail on a wall, and how likely it holds there on the day."""

    limit: str
    wall: str
    chance: float


class OptionPart(Part):
    """One layout that nothing else beats, with what it costs."""

    id: str
    chosen: bool
    picks: tuple[Literal["looks first", "saw least", "buy least"], ...]
    turn: Literal["lying", "standing"]
    bond: str
    first_course: float
    pieces: int
    cuts: int
    modules: int
    price: int
    looks: int
    smallest: float
    chance: float = Field(description="How likely every hard limit holds on the day.")
    limits: tuple[LimitOddsPart, ...] = Field(description="Those that may fail.")
    reason: str


class OrderPart(Part):
    """One thing to buy, with its arithmetic."""

    id: str
    name: str
    pack: Literal[
        "box", "length", "cartridge", "bag", "board", "bucket", "can", "roll", "packet", "single"
    ]
    count: int = Field(description="Nought where what is on hand will do.")
    needed: float = Field(description="Packages before they are rounded up, on hand or not.")
    unit_price: int
    arithmetic: str


class DayPart(Part):
    """One task on the calendar; nobody touches what it left before `hold_until`."""

    id: str
    name: str
    after: tuple[str, ...]
    minutes: int
    start: datetime
    end: datetime
    hold_minutes: int
    hold_until: datetime
    critical: bool
    float_minutes: int = Field(description="Later start that leaves the finish where it is.")
    free_minutes: int = Field(description="Later start that leaves every other task there.")
    who: tuple[str, ...] = Field(description="Who is on site for it.")
    stretches: tuple[tuple[datetime, datetime], ...] = Field(
        description="Hours of work, one stretch a day."
    )
    done: bool


class FindingPart(Part):
    """A rule that something on this job meets; lengths in mm where `length` is true.

    What asks has a question for its statement. `gate` is what it must be settled before.
    """

    rule: str
    severity: Literal["forbid", "warn", "ask", "caution", "tick"]
    where: str
    statement: str
    advice: str
    source: str
    edition: str
    sure: str
    length: bool
    value: float | None
    limit: float | None
    unit: str = Field(description="Unit of a value that is no length, such as kg or hours.")
    word: str = Field(description="An answer instead of a value.")
    gate: str | None
    short: str = Field(description="A caution in a dozen words.")


class PlanDocument(Part):
    """Everything decided for one alcove."""

    format: Literal[1]
    version: str = Field(description="Version of the program that wrote it.")
    job: JobPart
    products: tuple[ProductPart, ...]
    survey: SurveyPart
    walls: tuple[WallPart, ...]
    layout: LayoutPart
    insides: tuple[InsidePart, ...]
    pieces: tuple[PiecePart, ...]
    stock: tuple[StockPart, ...]
    buy: tuple[BuyPart, ...]
    trims: tuple[TrimPart, ...]
    trim_counts: tuple[TrimCountPart, ...]
    options: tuple[OptionPart, ...]
    order: tuple[OrderPart, ...]
    price: PricePart
    finish: datetime
    no_water_until: datetime
    needed: datetime | None = Field(description="When the order must be on site.")
    order_by: date | None = Field(description="Last day to order it.")
    days: tuple[DayPart, ...]
    findings: tuple[FindingPart, ...]
    hangs: tuple[str, ...] = Field(description="Tags of the pieces that hang already.")


def plan_schema() -> dict[str, Any]:
    """Return the JSON Schema of `plan.json`."""
    schema = PlanDocument.model_json_schema(by_alias=True, mode="serialization")
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **schema}
