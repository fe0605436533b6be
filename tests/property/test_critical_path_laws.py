"""Laws of the critical path: against every path there is, and against what a delay does."""

from collections.abc import Iterator, Mapping
from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st
from tests.networks import activity, since, unbound

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.floats import Slot, floats
from gaugerod.core.works.network import Activity
from gaugerod.core.works.schedule import Went, crew_order, schedule
from gaugerod.core.works.working_time import first_working, work, worked, working_time

WEEK = working_time(
    WorkingWeek.model_validate(
        {"start": "2026-05-20", "holidays_of": "US", "holidays": ["2026-05-28"]}
    ),
    "America/Chicago",
)
BEGIN = datetime(2026, 5, 20, tzinfo=UTC)


@st.composite
def networks(draw: st.DrawFn, *, parallel: bool, least: int = 0) -> dict[str, Activity]:
    """Up to eight tasks; each may wait for any before it."""
    count = draw(st.integers(1, 8))
    tasks: dict[str, Activity] = {}
    for number in range(count):
        before = draw(st.sets(st.sampled_from(sorted(tasks)), max_size=3)) if tasks else set()
        tasks[f"t{number}"] = activity(
            f"t{number}",
            draw(st.integers(least, 900)),
            *sorted(before),
            hold=draw(st.sampled_from([0, 0, 60, 480, 1440, 4320])),
            inspection=parallel or draw(st.booleans()),
        )
    return tasks


def paths(tasks: Mapping[str, Activity]) -> Iterator[list[str]]:
    """Every path from a task that waits for none to one that none waits for."""
    waited_for = {before for task in tasks.values() for before in task.after}

    def back(id_: str) -> Iterator[list[str]]:
        if not tasks[id_].after:
            yield [id_]
        for before in tasks[id_].after:
            yield from ([*path, id_] for path in back(before))

    for id_ in tasks:
        if id_ not in waited_for:
            yield from back(id_)


@given(tasks=networks(parallel=True))
def test_floats_are_those_of_all_paths(tasks: dict[str, Activity]) -> None:
    slots, slack = unbound(tasks)
    length = {
        tuple(path): sum(tasks[id_].minutes + tasks[id_].hold_minutes for id_ in path)
        for path in paths(tasks)
    }
    longest = max(length.values())
    assert max(since(slot.until) for slot in slots.values()) == longest
    for id_ in tasks:
        through = max(taken for path, taken in length.items() if id_ in path)
        assert slack[id_].total == longest - through
    none = {id_ for id_ in tasks if slack[id_].total == 0}
    assert none == {id_ for path, taken in length.items() if taken == longest for id_ in path}


@given(tasks=networks(parallel=True))
def test_free_float_is_the_gap_to_the_next(tasks: dict[str, Activity]) -> None:
    slots, slack = unbound(tasks)
    longest = max(since(slot.until) for slot in slots.values())
    for id_ in tasks:
        next_ = [since(slots[one].start) for one, task in tasks.items() if id_ in task.after]
        assert slack[id_].free == min([longest, *next_]) - since(slots[id_].until)


def replayed(
    tasks: Mapping[str, Activity], order: tuple[str, ...], late: str, by: int
) -> dict[str, Slot]:
    """Work in the same order, one task put off: reckoned afresh, without the passes."""
    slots: dict[str, Slot] = {}
    for id_ in order:
        task = tasks[id_]
        crew = [
            slot.end
            for one, slot in slots.items()
            if not (task.inspection or tasks[one].inspection)
        ]
        start = max([BEGIN, *crew, *(slots[before].until for before in task.after)])
        start = first_working(start, WEEK)[0]
        if id_ == late and by:
            start = first_working(work(start, by, WEEK)[1], WEEK)[0]
        end = work(start, task.minutes, WEEK)[1]
        slots[id_] = Slot(start=start, end=end, until=end + timedelta(minutes=task.hold_minutes))
    return slots


@settings(max_examples=60)
@given(tasks=networks(parallel=False, least=1), data=st.data())
def test_a_task_may_be_as_late_as_its_float_and_no_later(
    tasks: dict[str, Activity], data: st.DataObject
) -> None:
    slots = schedule(tasks, BEGIN, WEEK, went={})
    slack = floats(tasks, slots, WEEK, crew=crew_order(tasks, slots))
    order, finish = tuple(slots), max(slot.until for slot in slots.values())
    late = data.draw(st.sampled_from(order))

    def finish_of(by: int) -> datetime:
        return max(slot.until for slot in replayed(tasks, order, late, by).values())

    assert replayed(tasks, order, late, 0) == slots
    assert finish_of(slack[late].total) == finish
    assert finish_of(slack[late].total + 1) > finish


@settings(max_examples=60)
@given(tasks=networks(parallel=False, least=1), data=st.data())
def test_free_float_moves_nobody_and_a_minute_more_does(
    tasks: dict[str, Activity], data: st.DataObject
) -> None:
    slots = schedule(tasks, BEGIN, WEEK, went={})
    slack = floats(tasks, slots, WEEK, crew=crew_order(tasks, slots))
    order, finish = tuple(slots), max(slot.until for slot in slots.values())
    late = data.draw(st.sampled_from(order))

    def others(by: int) -> tuple[list[datetime], datetime]:
        moved = replayed(tasks, order, late, by)
        starts = [slot.start for id_, slot in moved.items() if id_ != late]
        return starts, max(slot.until for slot in moved.values())

    still = ([slot.start for id_, slot in slots.items() if id_ != late], finish)
    assert others(slack[late].free) == still
    assert others(slack[late].free + 1) != still
    assert slack[late].free <= slack[late].total


@settings(max_examples=60)
@given(tasks=networks(parallel=False))
def test_nothing_begins_before_what_it_waits_for(tasks: dict[str, Activity]) -> None:
    slots = schedule(tasks, BEGIN, WEEK, went={})
    for id_, task in tasks.items():
        assert slots[id_].until - slots[id_].end == timedelta(minutes=task.hold_minutes)
        assert worked(slots[id_].start, slots[id_].end, WEEK) == task.minutes
        assert all(slots[before].until <= slots[id_].start for before in task.after)
    for one, other in crew_order(tasks, slots):
        assert slots[one].end <= slots[other].start


@settings(max_examples=60)
@given(
    tasks=networks(parallel=False),
    data=st.data(),
    delay=st.integers(0, 2000),
    more=st.integers(0, 2000),
)
def test_along_a_chain_a_longer_delay_never_ends_sooner(
    tasks: dict[str, Activity], data: st.DataObject, delay: int, more: int
) -> None:
    # Each waits for the one before, so that the order of working stays.
    ids = list(tasks)
    chain = {
        id_: activity(id_, tasks[id_].minutes, *before, hold=tasks[id_].hold_minutes)
        for id_, before in zip(ids, [(), *((id_,) for id_ in ids)], strict=False)
    }
    late = data.draw(st.sampled_from(ids))

    def finish(by: int) -> datetime:
        slots = schedule(chain, BEGIN, WEEK, went={late: Went(delay=by)})
        return max(slot.until for slot in slots.values())

    assert finish(0) <= finish(delay) <= finish(delay + more)
