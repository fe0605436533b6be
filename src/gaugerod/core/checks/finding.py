"""What a check gives: what, where, by how much, what to do, and who says so."""

from dataclasses import dataclass

from gaugerod.core.job.rules import Gate, Severity


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule met by something on this job.

    `value` and `limit` are in [mm] where `length` is true, else numbers in `unit`; `word` is
    an answer instead of a value. `gate` is what it must be settled before. `short` is a
    caution in a dozen words. A finding that asks has the question for its statement.
    """

    rule: str
    severity: Severity
    where: str
    statement: str
    advice: str
    source: str
    edition: str
    sure: str
    length: bool
    value: float | None
    limit: float | None
    unit: str = ""
    word: str = ""
    gate: Gate | None = None
    short: str = ""
