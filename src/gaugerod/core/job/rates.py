"""Rates as data: hours of each task, wages, mark-up, tax, and what looks are worth."""

from typing import Annotated, Literal, Self, TypeAlias

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Cents, Document, Hours, Identifier, Name, Share, refuse
from gaugerod.core.job.materials import Kind
from gaugerod.core.job.terms import (
    Allowance,
    Charge,
    Crew,
    Factor,
    HoursRange,
    PlaceRates,
    Terms,
)

Per: TypeAlias = Literal[
    "alcove",
    "square metre",
    "piece",
    "straight cut",
    "shaped cut",
    "hole",
    "metre",
    "metre of trim",
    "niche",
    "reveal",
]


class Inspection(Document):
    """Somebody who must look before the work goes on, and how long he is waited for."""

    name: Name
    hours: Hours = Field(description="Working hours until he has been.")
    who: tuple[Name, ...] = ("inspector",)


class Driver(HoursRange):
    """What a task is counted by, and the hours for one of it."""

    per: Per
    hours: Hours = Field(description="Likely hours for one of `per`.")


class Task(Driver):
    """One task: the hours it takes for each of what it is counted by."""

    id: Identifier
    name: Name
    kind: Literal["any"] | Kind | tuple[Kind, ...] = Field(
        default="any", description="The kind of material that asks for it, or several."
    )
    also: tuple[Driver, ...] = Field(
        default=(), description="What else it is counted by; hours come on top."
    )
    people: Annotated[int, Field(strict=True, ge=1, le=20)] = Field(
        default=1, description="How many work at it together; hours are by the clock."
    )
    after: tuple[Identifier, ...] = Field(default=(), description="Tasks that must end first.")
    hold: Literal["none", "adhesive", "mortar", "grout", "sealant"] | Hours = Field(
        default="none", description="Hold after it: the material's own, or hours."
    )
    inspection: Inspection | None = Field(
        default=None, description="Who looks at it before the next task, once the hold is over."
    )
    who: tuple[Name, ...] = Field(default=("setter",), description="Who is on site for it.")
    needs_order: bool = Field(
        default=False, description="The order must be on site before it begins."
    )

    def suits(self, kind: Kind) -> bool:
        """Tell whether a kind of material asks for the task."""
        asking = self.kind if isinstance(self.kind, tuple) else (self.kind,)
        return kind in asking or "any" in asking


class Looks(Document):
    """What the eye is worth: agreed penalties, so that looks can be priced."""

    sliver: Cents = Field(
        description="Each cut just under half a module; three times that for one of nothing."
    )
    unequal: Cents = Field(description="Each inch (25.4 mm) by which two ends differ.")
    front_cut: Cents = Field(description="Each cut piece at a front edge.")
    off_jamb: Cents = Field(description="Each jamb without a joint on it.")
    near_hole: Cents = Field(description="Each joint under a plate.")
    close_to_hole: Cents = Field(
        default=0, description="Each joint that clears a hole by less than the spare."
    )
    near_fixture: Cents = Field(
        default=0, description="Each joint under a fixture or in its clear zone."
    )
    seam: Cents = Field(
        default=0,
        description="Each seam between sheets: upright in each course, level on each wall.",
    )


class RateTable(Document):
    """The shop's own figures."""

    format: Literal[1]
    id: Identifier
    currency: Literal["USD", "GBP", "EUR"]
    labour: Cents | None = Field(
        default=None, description="Burdened rate of one hour of one person; or give [crew]."
    )
    crew: Crew | None = Field(default=None, description="The parts of that rate; or give labour.")
    markup: Annotated[float, Field(strict=True, ge=0, le=5)] | None = Field(
        default=None, description="Share of the cost that comes on top; or give margin."
    )
    margin: Annotated[float, Field(strict=True, ge=0, le=0.9)] | None = Field(
        default=None, description="Share of the price that is not cost; or give markup."
    )
    contingency: Share
    tax: Share = Field(description="Sales tax on material.")
    freight: Cents = Field(default=0, description="Delivery of one order.")
    freight_taxed: bool = Field(default=False, description="Is delivery taxed with the material?")
    subs: Cents = 0
    permit: Cents = 0
    disposal: Cents = 0
    together: Share = Field(
        default=0.0,
        description="How far tasks run late together: 0 each by itself, 1 all at once.",
    )
    factor: tuple[Factor, ...] = Field(default=(), description="What a job may name.")
    allowance: tuple[Allowance, ...] = ()
    charge: tuple[Charge, ...] = Field(
        default=(), description="What comes on every price after the mark-up, or off it."
    )
    terms: Terms | None = Field(default=None, description="Deposit and draws; else none are told.")
    place: dict[Identifier, PlaceRates] = Field(
        default_factory=dict, description="Other figures by place, such as US-CA."
    )
    looks: Looks
    task: tuple[Task, ...]

    @model_validator(mode="after")
    def _says_each_once(self) -> Self:
        if (self.labour is None) == (self.crew is None):
            raise refuse(Message("rates.labour-or-crew"))
        if (self.markup is None) == (self.margin is None):
            raise refuse(Message("rates.markup-or-margin"))
        return self
