from datetime import UTC, datetime

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.floats import floats
from gaugerod.core.works.network import Activity
from gaugerod.core.works.schedule import crew_order, schedule
from gaugerod.core.works.working_time import working_time

WHEN = working_time(WorkingWeek.model_validate({"start": "2026-03-02"}), "UTC")
MONDAY = datetime(2026, 3, 2, tzinfo=UTC)


def task(id_: str, minutes: int, *after: str, hold: int = 0, inspection: bool = False) -> Activity:
    return Activity(
        id=id_, name=id_, minutes=minutes, hold_minutes=hold, after=after, inspection=inspection
    )


def slack(*tasks: Activity) -> dict[str, tuple[int, int]]:
    """Total and free float of each, with one crew."""
    named = {one.id: one for one in tasks}
    slots = schedule(named, MONDAY, WHEN, went={})
    found = floats(named, slots, WHEN, crew=crew_order(named, slots))
    return {id_: (one.total, one.free) for id_, one in found.items()}


def test_without_a_task_there_is_no_float() -> None:
    assert floats({}, {}, WHEN) == {}


def test_a_chain_has_none() -> None:
    assert slack(task("a", 60), task("b", 60, "a")) == {"a": (0, 0), "b": (0, 0)}


def test_work_that_fills_a_hold() -> None:
    # a 8 to 9, held until 11; c 9 to 9:30; b 11 to 12. c may start at 10:30 and free the crew.
    found = slack(task("a", 60, hold=120), task("b", 60, "a"), task("c", 30))
    assert found == {"a": (0, 0), "c": (90, 90), "b": (0, 0)}


def test_total_float_is_shared_along_a_chain_and_free_float_is_not() -> None:
    # a 8 to 9, held until 12; c 9 to 9:30, d 9:30 to 10; b 12 to 13. d may start at 11:30, two
    # hours later, and nobody waits; c as much later, but then d moves with it at once.
    found = slack(task("a", 60, hold=180), task("b", 60, "a"), task("c", 30), task("d", 30, "c"))
    assert found == {"a": (0, 0), "c": (120, 0), "d": (120, 120), "b": (0, 0)}


def test_the_last_hold_counts_and_not_the_last_task() -> None:
    # Sealed by 9 and held until Tuesday 9; cleaned by 10, and could end on Tuesday at 9: from
    # nine to half past four are 450 minutes, from eight to nine 60, less its own 60.
    found = slack(task("seal", 60, hold=1440), task("clean", 60))
    assert found == {"seal": (0, 0), "clean": (450, 450)}


def test_an_inspection_has_float_while_the_crew_is_busy() -> None:
    # a to 9; looked at until 10; other work to 12; then b, which waits for both.
    found = slack(
        task("a", 60),
        task("look", 60, "a", inspection=True),
        task("other", 180, "a"),
        task("b", 60, "look", "other"),
    )
    assert found["look"] == (120, 120)
    assert found["other"] == found["b"] == (0, 0)


def test_a_milestone_at_night_has_no_working_time_to_lose() -> None:
    found = slack(task("a", 510, hold=60), task("dry", 0, "a"), task("b", 60, "dry"))
    assert found == {"a": (0, 0), "dry": (0, 0), "b": (0, 0)}
