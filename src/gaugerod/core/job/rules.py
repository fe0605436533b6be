"""Rules as data: a limit with its source, and what it is held against."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, StringConstraints, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document, Identifier, LengthField, PositiveLength, refuse
from gaugerod.core.job.materials import Kind
from gaugerod.core.job.places import Place

Holds: TypeAlias = Literal["at least", "at most", "below"]
Severity: TypeAlias = Literal["forbid", "warn", "caution"]
Sentence: TypeAlias = Annotated[str, StringConstraints(strip_whitespace=True, min_length=3)]
Region: TypeAlias = Annotated[str, StringConstraints(pattern=r"^[A-Z]{2}(-[A-Z0-9]{1,3})?$")]


class Rule(Document):
    """One rule: plain statement, limit, source, and what a breach means."""

    id: Identifier
    statement: Sentence = Field(description="The rule in plain words.")
    measure: Identifier = Field(description="What is measured; the checks know how.")
    kind: Literal["any"] | Kind = "any"
    regions: tuple[Region, ...] = Field(
        default=(), description="Where it applies, such as US or US-IL; none for everywhere."
    )
    side_over: PositiveLength | None = Field(
        default=None, description="Applies only where the module's side is longer than this."
    )
    holds: Holds | None = Field(
        default=None, description="How the measure stands to the limit; none for a caution."
    )
    limit: LengthField | None = Field(default=None, description="A limit that is a length.")
    number: float | None = Field(
        default=None,
        description="A limit that is a plain number, or a share of what is measured against.",
    )
    severity: Severity = Field(description="A broken rule that forbids stops the cutting.")
    advice: Sentence = Field(description="What to do.")
    source: Sentence = Field(description="Standard or manual, or 'common practice'.")
    edition: str = ""
    sure: Literal["found", "calc", "from memory", "common practice, no source"]

    @model_validator(mode="after")
    def _has_one_limit(self) -> "Rule":
        limits = [limit for limit in (self.limit, self.number) if limit is not None]
        if len(limits) != (self.holds is not None):
            raise refuse(Message("checks.one-limit", rule=self.id))
        return self


class Rules(Document):
    """A set of rules in one unit, and what the law of places says of money."""

    format: Literal[1]
    unit: Literal["in", "mm", "cm"]
    rule: tuple[Rule, ...]
    place: tuple[Place, ...] = ()
