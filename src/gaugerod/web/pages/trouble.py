"""A page for what went wrong where there is no field to say it beside."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One line that says what is wrong, and what would do."""

    said: str
