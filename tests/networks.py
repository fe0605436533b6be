"""Networks set down by hand or drawn at random, worked by anybody at any hour."""

from collections.abc import Mapping
from datetime import UTC, datetime

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.floats import Float, Slot, floats
from gaugerod.core.works.network import Activity
from gaugerod.core.works.schedule import schedule
from gaugerod.core.works.working_time import working_time

ALWAYS = working_time(
    WorkingWeek.model_validate(
        {
            "start": "2026-03-02",
            "opens": "00:00",
            "closes": "00:00",
            "days": ["mon", "tue", "wed", "thu", "fri", "sat", "sun"],
        }
    ),
    "UTC",
)
BEGIN = datetime(2026, 3, 2, tzinfo=UTC)


def activity(
    id_: str, minutes: int, *after: str, hold: int = 0, inspection: bool = False
) -> Activity:
    return Activity(
        id=id_, name=id_, minutes=minutes, hold_minutes=hold, after=after, inspection=inspection
    )


def unbound(tasks: Mapping[str, Activity]) -> tuple[dict[str, Slot], dict[str, Float]]:
    """Slots and floats where nobody waits for the crew: of inspections any number may run."""
    slots = schedule(tasks, BEGIN, ALWAYS, went={})
    return slots, floats(tasks, slots, ALWAYS)


def since(moment: datetime) -> int:
    """Minutes since the begin."""
    return int((moment - BEGIN).total_seconds()) // 60
