"""Days on site, and the packaged jobs planned again after them."""

from functools import cache
from typing import Any

from gaugerod.core.job.on_site import OnSite
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.replan import Replanned, replan
from gaugerod.store.shelf import Library


@cache
def library() -> Library:
    """The packaged data."""
    return Library()


def days(*told: dict[str, Any], unit: str = "mm") -> OnSite:
    """Days on site, in mm unless told otherwise."""
    tables = {"format": 1, "unit": unit, "day": list(told)}
    return OnSite.model_validate(tables, context={"unit": unit})


def again(plan: Plan, *told: dict[str, Any], unit: str = "mm") -> Replanned:
    """A plan after some days on site."""
    return replan(plan, days(*told, unit=unit), library().rules())


def keys(found: Replanned) -> list[str]:
    """What is told, by its keys."""
    return [message.key for message in found.changes]
