import tomllib
from datetime import date, datetime, timedelta
from importlib.resources import files
from zoneinfo import ZoneInfo

import pytest
from tests.laid_by_hand import cut_plan, grouted, keyed
from tests.shop_by_hand import ordered, shop, timed

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.job import price_job
from gaugerod.core.pricing.price import Price
from gaugerod.core.takeoff.order import Order
from gaugerod.core.takeoff.sample import sample_order
from gaugerod.core.works.days import Days, DayTask
from gaugerod.core.works.plan import plan_days

CHICAGO = "America/Chicago"
LONDON = "Europe/London"
USED = ordered("modules", "adhesive", "sealant", "mortar", "grout")


def planned(
    table: RateTable,
    price: Price,
    *,
    system: System | None = None,
    order: Order = USED,
    zone: str = CHICAGO,
    **week: object,
) -> Days:
    calendar = WorkingWeek.model_validate({"start": "2026-03-02"} | week)  # a Monday
    return plan_days(order, price, system or keyed(), calendar, rates=table, timezone=zone)


def at(text: str, zone: str = CHICAGO) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=ZoneInfo(zone))


def by_id(days: Days) -> dict[str, DayTask]:
    return {task.id: task for task in days.tasks}


def critical(days: Days) -> set[str]:
    return {task.id for task in days.tasks if task.critical}


def test_the_crew_works_one_task_at_a_time() -> None:
    days = planned(shop({"id": "a"}, {"id": "b"}), timed(a=60, b=90))
    assert [(task.id, task.start, task.end) for task in days.tasks] == [
        ("a", at("2026-03-02T08:00"), at("2026-03-02T09:00")),
        ("b", at("2026-03-02T09:00"), at("2026-03-02T10:30")),
    ]


def test_what_may_start_at_once_is_taken_in_the_order_of_the_table() -> None:
    table = shop({"id": "c", "after": ["a"]}, {"id": "b"}, {"id": "a"})
    assert [task.id for task in planned(table, timed(a=60, b=60, c=60)).tasks] == ["b", "a", "c"]


def test_other_work_fills_a_hold() -> None:
    table = shop({"id": "a", "hold": 2}, {"id": "b", "after": ["a"]}, {"id": "c"})
    days = planned(table, timed(a=60, b=60, c=30))
    assert [task.id for task in days.tasks] == ["a", "c", "b"]
    assert by_id(days)["b"].start == at("2026-03-02T11:00")


def test_a_task_that_can_start_no_sooner_than_another_waits_its_turn() -> None:
    # Both holds end at night, the later one of the earlier task: both may start at eight.
    table = shop(
        {"id": "a", "hold": 14},
        {"id": "b", "hold": 12},
        {"id": "c", "after": ["a"]},
        {"id": "d", "after": ["b"]},
    )
    days = planned(table, timed(a=60, b=60, c=60, d=60))
    assert by_id(days)["a"].hold_until > by_id(days)["b"].hold_until
    assert [task.id for task in days.tasks] == ["a", "b", "c", "d"]


def test_a_hold_runs_through_the_night_and_the_weekend() -> None:
    table = shop({"id": "set", "hold": "adhesive"}, {"id": "seal", "after": ["set"]})
    friday = planned(table, timed(set=510, seal=60), start="2026-03-06")
    assert by_id(friday)["set"].hold_until == at("2026-03-07T16:30")
    assert by_id(friday)["seal"].start == at("2026-03-09T08:00")


def test_a_hold_is_real_time_when_clocks_go_forward() -> None:
    # Clocks go forward on Sunday 29 March 2026 in London at one in the morning.
    table = shop({"id": "set", "hold": "adhesive"})
    days = planned(table, timed(set=60), zone=LONDON, start="2026-03-28", days=["sat"])
    held = by_id(days)["set"]
    assert held.end == at("2026-03-28T09:00", LONDON)
    assert held.hold_until == at("2026-03-29T10:00", LONDON)
    assert held.hold_until.utcoffset() == timedelta(hours=1)
    assert days.no_water_until == held.hold_until


def test_work_begins_on_the_first_working_day() -> None:
    days = planned(shop({"id": "a"}), timed(a=1), start="2026-03-07", holidays=["2026-03-09"])
    assert days.tasks[0].start == at("2026-03-10T08:00")


def test_no_water_until_the_last_hold_is_over() -> None:
    table = shop(
        {"id": "set", "hold": "adhesive"},
        {"id": "seal", "after": ["set"], "hold": "sealant"},
        {"id": "clean", "after": ["set"]},
    )
    days = planned(table, timed(set=60, seal=60, clean=60))
    # Set Monday 8 to 9; sealed Tuesday 9 to 10, cleaned by 11; sealant until Wednesday 10.
    assert days.no_water_until == days.finish == at("2026-03-04T10:00")


def test_the_finish_may_come_after_the_last_hold() -> None:
    table = shop({"id": "seal", "hold": 1}, {"id": "clean", "after": ["seal"]})
    days = planned(table, timed(seal=60, clean=60))
    assert days.no_water_until == at("2026-03-02T10:00")
    assert days.finish == at("2026-03-02T11:00")


def test_without_a_hold_water_runs_when_all_is_done() -> None:
    days = planned(shop({"id": "a"}), timed(a=60))
    assert days.no_water_until == days.finish == at("2026-03-02T09:00")


def test_without_a_task_there_is_nothing_to_wait_for() -> None:
    days = planned(shop({"id": "a"}), timed())
    assert days.tasks == ()
    assert days.needed is None
    assert days.finish == days.no_water_until == at("2026-03-02T00:00")


def test_a_chain_is_critical_from_end_to_end() -> None:
    table = shop(
        {"id": "a"},
        {"id": "b", "after": ["a"], "hold": "adhesive"},
        {"id": "c", "after": ["b"]},
    )
    assert critical(planned(table, timed(a=60, b=60, c=60))) == {"a", "b", "c"}


def test_work_that_fills_a_hold_is_not_critical() -> None:
    table = shop({"id": "a", "hold": 2}, {"id": "b", "after": ["a"]}, {"id": "c"})
    days = planned(table, timed(a=60, b=60, c=30))
    assert critical(days) == {"a", "b"}


def test_work_that_keeps_the_crew_is_critical() -> None:
    # c does not wait for b, but the crew does: a to 9, b to 12, c to 13 at the earliest.
    table = shop({"id": "a", "hold": 2}, {"id": "b"}, {"id": "c", "after": ["a"]})
    days = planned(table, timed(a=60, b=180, c=60))
    assert critical(days) == {"a", "b", "c"}
    assert by_id(days)["c"].start == at("2026-03-02T12:00")


def test_hours_in_which_nobody_works_are_no_float() -> None:
    # The hold ends at 20:30, the next task starts at 8:00.
    table = shop({"id": "a", "hold": 4}, {"id": "b", "after": ["a"]})
    days = planned(table, timed(a=510, b=60))
    assert by_id(days)["a"].hold_until == at("2026-03-02T20:30")
    assert critical(days) == {"a", "b"}


def test_what_could_still_be_begun_today_has_float() -> None:
    # Done at 16:00, it could as well end at 16:30: the hold is over long before eight.
    table = shop({"id": "a", "hold": 4}, {"id": "b", "after": ["a"]})
    days = planned(table, timed(a=480, b=60))
    assert by_id(days)["a"].float_minutes == by_id(days)["a"].free_minutes == 30
    assert critical(days) == {"b"}


def test_the_last_hold_is_critical_and_what_is_done_meanwhile_is_not() -> None:
    table = shop({"id": "seal", "hold": "sealant"}, {"id": "clean", "after": []})
    days = planned(table, timed(seal=60, clean=60))
    assert critical(days) == {"seal"}


def test_times_are_those_of_the_place() -> None:
    days = planned(shop({"id": "a"}), timed(a=60), zone="Asia/Kathmandu")
    assert days.tasks[0].start.isoformat() == "2026-03-02T08:00:00+05:45"
    assert days.finish.isoformat() == "2026-03-02T09:00:00+05:45"


def test_a_start_at_the_end_of_the_calendar() -> None:
    with pytest.raises(JobError) as caught:
        planned(shop({"id": "a"}), timed(a=600), start="9999-12-31")
    assert caught.value.message.key == "works.too-far"
    assert caught.value.message.values["start"] == "9999-12-31"


CHAIN = shop(
    {"id": "a", "name": "Board"},
    {"id": "b", "name": "Set", "after": ["a"], "hold": "adhesive", "needs_order": True},
    {"id": "c", "name": "Seal", "after": ["b"]},
)


def went(*progress: dict[str, object]) -> Days:
    return planned(CHAIN, timed(a=60, b=60, c=60), progress=progress)


def test_as_planned() -> None:
    # Board Monday 8 to 9, set 9 to 10, held until Tuesday 10, seal to 11.
    days = went()
    assert days.finish == at("2026-03-03T11:00")
    assert not any(task.done for task in days.tasks)


@pytest.mark.parametrize(
    ("told", "finish"),
    [
        ({"task": "a", "started": "2026-03-02T10:00:00"}, "2026-03-03T13:00"),
        ({"task": "a", "finished": "2026-03-02T12:00:00"}, "2026-03-03T14:00"),
        ({"task": "a", "delay_hours": 1.5}, "2026-03-03T12:30"),
        ({"task": "b", "finished": "2026-03-03T09:00:00"}, "2026-03-04T10:00"),
    ],
)
def test_a_late_task_moves_what_depends_on_it(told: dict[str, object], finish: str) -> None:
    assert went(told).finish == at(finish)


def test_what_is_done_is_not_critical_and_what_is_begun_is() -> None:
    days = went(
        {"task": "a", "finished": "2026-03-02T09:00:00"},
        {"task": "b", "started": "2026-03-02T09:30:00"},
    )
    assert [task.id for task in days.tasks if task.done] == ["a"]
    assert critical(days) == {"b", "c"}


def test_work_on_a_day_off_is_told_as_it_was() -> None:
    days = went({"task": "a", "started": "2026-03-01T09:00:00", "finished": "2026-03-01T11:00:00"})
    (stretch,) = by_id(days)["a"].stretches
    assert stretch == (at("2026-03-01T09:00"), at("2026-03-01T11:00"))


def test_what_was_begun_under_a_hold_is_noted() -> None:
    days = went(
        {"task": "b", "finished": "2026-03-02T10:00:00"},
        {"task": "c", "started": "2026-03-03T09:00:00"},
    )
    (note,) = days.notes
    assert (note.key, dict(note.values)) == ("works.too-soon", {"task": "Seal", "before": "Set"})
    assert went().notes == ()


def test_progress_of_a_task_that_this_job_has_not() -> None:
    with pytest.raises(JobError) as caught:
        went({"task": "grout", "delay_hours": 1.0})
    assert caught.value.message.key == "works.unknown-progress"
    assert dict(caught.value.message.values) == {"read": "grout", "known": "a, b, c"}


def with_lead(**changes: object) -> Days:
    system = keyed().model_copy(update={"lead_days": 7, "acclimatise_hours": 24.0})
    week = WorkingWeek.model_validate({"start": "2026-03-02"} | changes)
    price = timed(a=600, b=60, c=60)
    return plan_days(USED, price, system, week, rates=CHAIN, timezone=CHICAGO)


def test_the_latest_day_to_order() -> None:
    # Board for ten hours to Tuesday 9:30, then set. A day in the room: Monday 9:30, so it comes
    # by Friday's close; seven days before is Friday 20 February.
    days = with_lead()
    assert days.needed == at("2026-03-03T09:30")
    assert days.order_by == date(2026, 2, 20)
    assert with_lead(spare_days=2).order_by == date(2026, 2, 18)


def test_without_a_lead_nothing_is_said_of_ordering() -> None:
    assert went().order_by is None
    assert went().needed == at("2026-03-02T09:00")


def test_what_is_needed_first_where_no_task_says_so() -> None:
    days = planned(shop({"id": "a"}, {"id": "b"}), timed(a=60, b=60))
    assert days.needed == at("2026-03-02T08:00")


def test_nothing_that_needs_the_order_begins_before_it_came() -> None:
    # It comes on Wednesday, lies until Thursday's close, and setting begins on Friday.
    days = with_lead(delivered="2026-03-04")
    assert by_id(days)["b"].start == at("2026-03-06T08:00")
    assert days.order_by is None


def test_public_holidays_are_those_of_the_site() -> None:
    order, table = USED, shop({"id": "a"})
    week = WorkingWeek.model_validate({"start": "2026-05-22"})
    # Friday 22 May for 8.5 h; Monday 25 May 2026 is Memorial Day.
    days = plan_days(order, timed(a=520), keyed(), week, rates=table, timezone=CHICAGO, region="US")
    assert days.holidays_of == "US"
    assert days.finish == at("2026-05-26T08:10")


def test_hours_of_work_are_told_day_by_day() -> None:
    days = planned(shop({"id": "a"}, {"id": "b"}), timed(a=600, b=0))
    assert by_id(days)["a"].stretches == (
        (at("2026-03-02T08:00"), at("2026-03-02T16:30")),
        (at("2026-03-03T08:00"), at("2026-03-03T09:30")),
    )
    assert by_id(days)["b"].stretches == ()


def test_a_cold_room_puts_off_the_water() -> None:
    table = shop({"id": "set", "hold": "adhesive"})
    cold = planned(table, timed(set=60), room={"temperature": "50 F"})
    assert cold.no_water_until == at("2026-03-04T09:00")


def shipped(name: str) -> RateTable:
    text = files("gaugerod").joinpath(f"data/rates/{name}.toml").read_text(encoding="utf-8")
    return RateTable.model_validate(tomllib.loads(text))


def days_of(system: System, name: str) -> Days:
    order, table = sample_order(), shipped(name)
    if system.kind == "grouted":
        order = ordered("modules", "sealant", "mortar", "grout")
    price = price_job(
        sample_order(), cut_plan(modules=36, cuts=12), table, system
    )  # the same work, whatever is bought
    return planned(table, price, system=system, order=order)


@pytest.mark.parametrize("name", ["shop", "shop-gb"])
def test_modules_with_the_shipped_rates(name: str) -> None:
    days = days_of(keyed(), name)
    assert [task.id for task in days.tasks if not task.id.endswith("-inspection")] == [
        "protect",
        "demo",
        "frame",
        "backer",
        "set-out",
        "cut-plastic",
        "cut-shaped",
        "drill",
        "set-modules",
        "seal",
        "trim-out",
        "hand-over",
    ]
    tasks = by_id(days)
    assert tasks["seal"].start >= tasks["set-modules"].end + timedelta(hours=24)
    assert tasks["trim-out"].start >= tasks["seal"].end + timedelta(hours=24)
    # Common practice, no source: modules take 3 to 5 working days from backer to hand-over,
    # and two to three for what comes before.
    assert date(2026, 3, 6) <= days.finish.date() <= date(2026, 3, 11)


@pytest.mark.parametrize("name", ["shop", "shop-gb"])
def test_tile_with_the_shipped_rates(name: str) -> None:
    days = days_of(grouted(), name)
    tasks = by_id(days)
    assert [id_ for id_ in tasks if not id_.endswith("-inspection")] == [
        "protect",
        "demo",
        "frame",
        "backer",
        "membrane",
        "set-out",
        "cut-tile",
        "cut-shaped",
        "drill",
        "set-tile",
        "grout",
        "seal",
        "trim-out",
        "hand-over",
    ]
    assert tasks["set-out"].start >= tasks["membrane"].end + timedelta(hours=24)
    assert tasks["grout"].start >= tasks["set-tile"].end + timedelta(hours=24)
    assert tasks["seal"].start >= tasks["grout"].end + timedelta(hours=72)
    assert days.no_water_until == tasks["seal"].hold_until


@pytest.mark.parametrize("name", ["shop", "shop-gb"])
def test_no_task_starts_before_what_it_waits_for(name: str) -> None:
    for system in (keyed(), grouted()):
        tasks = by_id(days_of(system, name))
        for task in tasks.values():
            assert all(tasks[before].hold_until <= task.start for before in task.after)
        ends = [task.end for task in tasks.values()]
        starts = [task.start for task in tasks.values()]
        assert all(end <= start for end, start in zip(ends, starts[1:], strict=False))
