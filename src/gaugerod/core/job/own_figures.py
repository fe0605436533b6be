"""Figures of one job alone, instead of those of the shop and of the makers."""

from typing import Annotated, Self

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Cents, Document, Hours, Identifier, Share, refuse
from gaugerod.core.job.terms import Allowance, Charge, HoursRange, PlaceRates


class OwnHours(HoursRange):
    """The hours of one task on this job, whatever it is counted by; factors leave them alone."""

    task: Identifier = Field(description="Which task of the rates.")
    hours: Hours = Field(description="Likely hours of all of it on this job, by the clock.")
    why: str = Field(default="", max_length=200, description="Where the figure comes from.")


class OwnPrice(Document):
    """What one package of something costs this job: what the supplier said."""

    item: Identifier = Field(
        description="Which line of the order: modules, adhesive, trim-edge and so on."
    )
    price: Cents = Field(description="Price of one package, before tax.")
    why: str = Field(default="", max_length=200, description="Who said so, and when.")


class Pricing(PlaceRates):
    """Figures of this job alone; what is left out is as in the rates and materials."""

    labour: Cents | None = Field(default=None, description="Burdened rate of one hour.")
    markup: Annotated[float, Field(strict=True, ge=0, le=5)] | None = Field(
        default=None, description="Share of the cost that comes on top; or give margin."
    )
    margin: Annotated[float, Field(strict=True, ge=0, le=0.9)] | None = Field(
        default=None, description="Share of the price that is not cost; or give markup."
    )
    contingency: Share | None = None
    task: tuple[OwnHours, ...] = Field(default=(), description="Hours of tasks on this job.")
    item: tuple[OwnPrice, ...] = Field(default=(), description="Prices of lines of the order.")
    allowance: tuple[Allowance, ...] = Field(
        default=(), description="Allowances of this job; one of an id in the rates replaces that."
    )
    charge: tuple[Charge, ...] = Field(
        default=(), description="What comes on the price after the mark-up, or off it."
    )

    @model_validator(mode="after")
    def _says_one_of_two(self) -> Self:
        if self.markup is not None and self.margin is not None:
            raise refuse(Message("rates.markup-or-margin"))
        return self
