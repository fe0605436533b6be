"""Rules as data: a limit with its source, and what it is held against."""

from typing import Annotated, Literal, TypeAlias

from pydantic import Field, model_validator

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import (
    Document,
    Identifier,
    LengthField,
    PositiveLength,
    Region,
    Sentence,
    refuse,
)
from gaugerod.core.job.materials import Kind
from gaugerod.core.job.places import Place
from gaugerod.core.job.tolerances import Tolerance

Holds: TypeAlias = Literal["at least", "at most", "below", "one of", "none of"]
Severity: TypeAlias = Literal["forbid", "warn", "ask", "caution", "tick"]
Gate: TypeAlias = Literal[
    "demo", "close", "set-out", "cut", "hole", "glue", "wall", "seal", "water", "hand-over"
]
"""What cannot be undone, in the order of the work."""
Year: TypeAlias = Annotated[int, Field(strict=True, ge=1900, le=2200)]


class Rule(Document):
    """One rule: plain statement, limit, source, and what a breach means."""

    id: Identifier
    statement: Sentence = Field(description="The rule in plain words.")
    measure: Identifier = Field(description="What is measured; the checks know how.")
    kind: Literal["any"] | Kind = "any"
    regions: tuple[Region, ...] = Field(
        default=(), description="Where it applies, such as US or US-IL; none for everywhere."
    )
    not_in: tuple[Region, ...] = Field(
        default=(), description="Where others stand in its place; it wants a place that is named."
    )
    code: str = Field(default="", description="Code whose edition decides, such as IRC.")
    since: Year | None = Field(default=None, description="First edition with this rule.")
    until: Year | None = Field(default=None, description="Last edition with this rule.")
    side_over: PositiveLength | None = Field(
        default=None, description="Applies only where the module's side is longer than this."
    )
    size_from: PositiveLength | None = Field(
        default=None,
        description="Applies only from this joint, bar or straightedge on, as the measure says.",
    )
    size_below: PositiveLength | None = Field(
        default=None, description="Applies only below this joint, bar or straightedge."
    )
    area_below: Annotated[float, Field(gt=0)] | None = Field(
        default=None, description="Applies only below this area, in square metres."
    )
    holds: Holds | None = Field(
        default=None, description="How the measure stands to the limit; none for a caution."
    )
    limit: LengthField | None = Field(default=None, description="A limit that is a length.")
    number: float | None = Field(
        default=None,
        description="A limit that is a plain number, or a share of what is measured against.",
    )
    words: tuple[str, ...] = Field(default=(), description="Answers that will do, or will not.")
    severity: Severity = Field(description="A broken rule that forbids stops the cutting.")
    ask: Sentence | None = Field(
        default=None, description="What is asked on the checklist while nobody has answered."
    )
    gate: Gate | None = Field(default=None, description="What it must be settled before.")
    short: Sentence | None = Field(default=None, description="A caution in a dozen words.")
    advice: Sentence = Field(description="What to do.")
    source: Sentence = Field(description="Standard or manual, or 'common practice'.")
    edition: str = ""
    sure: Literal["found", "calc", "from memory", "common practice, no source"]

    @model_validator(mode="after")
    def _is_whole(self) -> "Rule":
        words = self.holds in {"one of", "none of"}
        limits = [limit for limit in (self.limit, self.number) if limit is not None]
        listed = self.ask is not None or self.severity in {"ask", "tick"}
        faults = {
            "checks.one-limit": len(limits) != (self.holds is not None and not words),
            "checks.words": words != bool(self.words),
            "checks.no-gate": listed and self.gate is None,
            "checks.not-short": self.severity == "caution" and self.short is None,
            "checks.no-code": not self.code and (self.since, self.until) != (None, None),
        }
        for key, wrong in faults.items():
            if wrong:
                raise refuse(Message(key, rule=self.id))
        return self


class Rules(Document):
    """Rules and limits for flat walls in one unit, and what the law of places says of money."""

    format: Literal[1]
    unit: Literal["in", "mm", "cm"]
    rule: tuple[Rule, ...] = ()
    tolerance: tuple[Tolerance, ...] = ()
    place: tuple[Place, ...] = ()
