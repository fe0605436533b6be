"""What was agreed: the contract as signed, and every change to it."""

from typing import Annotated

from pydantic import Field, StringConstraints

from gaugerod.core.job.fields import Cents, Day, Document, Name, SignedCents

Line = Annotated[str, StringConstraints(min_length=1, max_length=200)]


class Contract(Document):
    """The contract as it was signed: it stays what it was when the job is planned again."""

    sum: Cents = Field(description="The sum that was agreed.")
    signed: Day


class Change(Document):
    """A change order: signed before the work is done, or it is not done."""

    what: Line = Field(description="What changes.")
    why: Line = Field(description="Why, and what was found.")
    price: SignedCents = Field(description="What it adds to the sum; a credit is negative.")
    days: Annotated[int, Field(strict=True, ge=-60, le=60)] = Field(
        default=0, description="Working days that it adds."
    )
    signed: Day | None = Field(default=None, description="Left out until it is signed.")
    by: Name | None = Field(default=None, description="Who signed it.")
