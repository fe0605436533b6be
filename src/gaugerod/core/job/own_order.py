"""What a job orders beside what is counted, and what was ordered and came."""

from typing import Annotated, Self

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Cents, Day, Document, Identifier, Name, refuse
from gaugerod.core.job.goods import Pack

Packages = Annotated[int, Field(strict=True, ge=1, le=10_000)]


class Extra(Document):
    """One more line of the order, that nothing on the walls asks for."""

    id: Identifier = Field(description="What the line is called elsewhere in the file.")
    name: Name
    pack: Pack = "single"
    count: Packages = Field(default=1, description="How many packages.")
    price: Cents = Field(description="Price of one package, before tax.")


class Bought(Document):
    """Packages that were ordered, and what is known of them since."""

    item: Identifier = Field(description="Which line of the order: modules, adhesive and so on.")
    count: Packages = Field(description="How many packages.")
    ordered: Day | None = None
    arrived: Day | None = Field(default=None, description="Left out until they are here.")
    lot: str = Field(default="", max_length=80, description="What is printed on the packages.")
    price: Cents | None = Field(
        default=None, description="What one package was, before tax; left out, not known."
    )
    supplier: str = Field(default="", max_length=80, description="Where they come from.")

    @model_validator(mode="after")
    def _came_after_it_was_ordered(self) -> Self:
        if self.ordered and self.arrived and self.arrived < self.ordered:
            raise refuse(Message("job.came-too-early", ordered=str(self.ordered)))
        return self
