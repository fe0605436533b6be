"""What a check gives: what, where, by how much, what to do, and who says so."""

from dataclasses import dataclass
from typing import Literal


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One rule met by something on this job.

    `value` and `limit` are in [mm] where `length` is true, else plain numbers.
    """

    rule: str
    severity: Literal["forbid", "warn", "caution"]
    where: str
    statement: str
    advice: str
    source: str
    edition: str
    sure: str
    length: bool
    value: float | None
    limit: float | None
