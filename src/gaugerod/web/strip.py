"""The days as a strip: when to order, when work begins, what must not be touched until when."""

from dataclasses import dataclass

from gaugerod.app.job_book import Revision
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.phrases import day, moment
from gaugerod.web.desk import Desk, plan_at_hand


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """One moment of a job; `name` is the key of what it is called."""

    name: str
    when: str
    what: str = ""


def strip_at_hand(desk: Desk, revision: Revision, words: Catalogue) -> tuple[Stop, ...]:
    """Return the strip where a plan was made already; nothing where there is none yet."""
    made = plan_at_hand(desk, revision)
    return strip_of(made, words) if made else ()


def strip_of(plan: Plan, words: Catalogue) -> tuple[Stop, ...]:
    """Return the moments that a crew and a customer ask for, and the holds, in turn."""
    days = plan.days
    stops = [(task.hold_until, "hold", task.name) for task in days.tasks if task.hold_minutes]
    stops += [
        (min(task.start for task in days.tasks), "start", ""),
        (days.finish, "finish", ""),
        (days.no_water_until, "water", ""),
    ]
    ordered = [
        Stop(name=name, when=moment(when, words), what=what) for when, name, what in sorted(stops)
    ]
    if days.order_by is not None:
        ordered.insert(0, Stop(name="order", when=day(days.order_by, words)))
    return tuple(ordered)
