"""What a shop agrees beside its hours: wages, allowances, draws, and figures by place."""

from decimal import Decimal
from typing import Annotated, Self

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import (
    Cents,
    Document,
    Hours,
    Identifier,
    Name,
    Share,
    SignedCents,
    refuse,
)


class HoursRange(Document):
    """Hours as a rule, and how far they may be off."""

    hours: Hours = Field(description="Likely hours.")
    low: Hours | None = Field(default=None, description="When all goes well; else as likely.")
    high: Hours | None = Field(default=None, description="When much goes ill; else as likely.")

    @model_validator(mode="after")
    def _is_in_order(self) -> Self:
        low, high = self.range
        if not low <= self.hours <= high:
            raise refuse(Message("rates.out-of-order", low=low, likely=self.hours, high=high))
        return self

    @property
    def range(self) -> tuple[float, float]:
        """The low and the high hours."""
        low = self.hours if self.low is None else self.low
        return low, self.hours if self.high is None else self.high


class Crew(Document):
    """What an hour of one person costs the shop, by its parts."""

    wage: Cents = Field(description="What one person is paid for one hour.")
    burden: Annotated[float, Field(strict=True, ge=0, le=3)] = Field(
        description="What comes on top of a wage, as a share of it: taxes, insurance, leave."
    )
    billable: Annotated[float, Field(strict=True, gt=0, le=1)] = Field(
        description="Share of the paid hours that customers pay for."
    )


class Factor(Document):
    """Something that makes all work of a job slower, or quicker."""

    id: Identifier
    name: Name
    times: Annotated[float, Field(strict=True, gt=0, le=10)] = Field(
        description="What all hours are multiplied by."
    )


class Allowance(Document):
    """So much of something unknown is in the price; beyond it, each has its own price."""

    id: Identifier
    name: Name = Field(description="What it is, as the customer reads it.")
    unit: Name = Field(description="What it is counted in, as the customer reads it.")
    included: Annotated[float, Field(strict=True, ge=0, le=10_000)] = Field(
        description="How many are in the price."
    )
    cost: Cents = Field(description="What one costs the shop.")
    beyond: Cents = Field(description="What the customer pays for each one beyond.")


class Charge(Document):
    """What comes on top of a price, or off it, whatever the work costs."""

    what: Name = Field(description="What it is, as the customer reads it.")
    price: SignedCents = Field(description="What it adds to the price; a discount is negative.")


class Draw(Document):
    """One payment after the deposit: what must be done by then, and its share of the price."""

    name: Name
    share: Share


class Terms(Document):
    """The deposit that the shop asks for and the draws after it; together the whole price."""

    deposit: Share
    draw: tuple[Draw, ...] = Field(min_length=1)

    @model_validator(mode="after")
    def _is_the_whole_price(self) -> Self:
        shares = (self.deposit, *(draw.share for draw in self.draw))
        total = sum(Decimal(str(share)) for share in shares)
        if total != 1:
            raise refuse(Message("rates.not-the-whole", percent=format(total * 100, "f")))
        return self


class PlaceRates(Document):
    """What the shop's own figures are where the place is another; what is left out stays."""

    tax: Share | None = None
    freight: Cents | None = None
    freight_taxed: bool | None = None
    subs: Cents | None = None
    permit: Cents | None = None
    disposal: Cents | None = None
