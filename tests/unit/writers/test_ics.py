from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from functools import cache

from icalendar import Calendar, Event

from gaugerod.core.base.lengths import METRIC
from gaugerod.core.job.document import Site
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.pipeline import Plan, plan
from gaugerod.store.shelf import Library
from gaugerod.writers.ics import ics

WORDS = Library().words(METRIC, currency="USD")
STAMP = datetime(2026, 2, 1, 12, 0, tzinfo=UTC)


@cache
def made() -> Plan:
    materials = Materials(systems={"sample": sample_system()})
    rules = Rules(format=1, unit="mm", rule=())
    job = sample_job().model_copy(
        update={"timezone": "America/Chicago", "site": Site(address="1 Any Street (invented)")}
    )
    return plan(job, materials, rules, sample_rates())


def entries(plan: Plan, stamp: datetime = STAMP) -> list[Event]:
    read = Calendar.from_ical(ics(plan, WORDS, stamp=stamp))
    return [entry for entry in read.walk("VEVENT") if isinstance(entry, Event)]


def ids(plan: Plan) -> list[str]:
    return [str(entry["uid"]) for entry in entries(plan)]


def told(plan: Plan) -> list[tuple[str, object, object]]:
    return [
        (str(entry["summary"]), entry.decoded("dtstart"), entry.decoded("dtend", None))
        for entry in entries(plan)
    ]


def test_every_stretch_of_work_and_every_hold_has_its_entry() -> None:
    # 35 pieces at a quarter of an hour from Monday at eight in Chicago, which is 14:00 in UTC;
    # the day closes at half past four; then the adhesive is held for 24 hours.
    assert told(made()) == [
        (
            "Sample alcove: Set",
            datetime(2026, 3, 2, 14, 0, tzinfo=UTC),
            datetime(2026, 3, 2, 22, 30, tzinfo=UTC),
        ),
        (
            "Sample alcove: Set",
            datetime(2026, 3, 3, 14, 0, tzinfo=UTC),
            datetime(2026, 3, 3, 14, 15, tzinfo=UTC),
        ),
        (
            "Sample alcove: hands off after Set",
            datetime(2026, 3, 3, 14, 15, tzinfo=UTC),
            datetime(2026, 3, 4, 14, 15, tzinfo=UTC),
        ),
        (
            "Sample alcove: no water until now",
            datetime(2026, 3, 4, 14, 15, tzinfo=UTC),
            None,
        ),
    ]


def test_only_work_keeps_anybody_busy() -> None:
    assert [str(entry["transp"]) for entry in entries(made())] == [
        "OPAQUE",
        "OPAQUE",
        "TRANSPARENT",
        "TRANSPARENT",
    ]
    assert str(entries(made())[0]["description"]) == "setter"
    assert {str(entry["location"]) for entry in entries(made())} == {"1 Any Street (invented)"}


def test_the_last_day_to_order_is_a_whole_day() -> None:
    due = replace(made(), days=replace(made().days, order_by=date(2026, 2, 20)))
    assert told(due)[-1] == (
        "Sample alcove: last day to order",
        date(2026, 2, 20),
        None,
    )


def test_the_same_plan_and_stamp_give_the_same_bytes() -> None:
    first, again = (ics(made(), WORDS, stamp=STAMP) for _ in range(2))
    assert first == again
    later = ics(made(), WORDS, stamp=STAMP + timedelta(days=1))
    assert later != first
    assert later.replace(b"DTSTAMP:20260202", b"DTSTAMP:20260201") == first


def test_an_entry_keeps_its_id_when_its_task_moves() -> None:
    task = made().days.tasks[0]
    moved = replace(
        task,
        stretches=tuple(
            (start + timedelta(days=1), end + timedelta(days=1)) for start, end in task.stretches
        ),
    )
    later = replace(made(), days=replace(made().days, tasks=(moved,)))
    assert ids(later) == ids(made())
    assert len(set(ids(made()))) == 4
    assert told(later) != told(made())


def test_jobs_at_two_addresses_have_nothing_in_common() -> None:
    job = made().job.model_copy(update={"site": Site()})
    nowhere = replace(made(), job=job)
    assert not set(ids(nowhere)) & set(ids(made()))
    assert all("location" not in entry for entry in entries(nowhere))


def test_lines_are_as_the_standard_asks() -> None:
    # RFC 5545: CR LF ends a line (3.1), no line is over 75 octets, and a text keeps its commas
    # behind a backslash (3.3.11).
    lines = ics(made(), WORDS, stamp=STAMP).split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert lines[-2:] == [b"END:VCALENDAR", b""]
    assert max(map(len, lines)) <= 75
    assert not any(b"\n" in line for line in lines)
    assert b"DTSTART:20260302T140000Z" in lines
    assert lines.count(b"DTSTAMP:20260201T120000Z") == 4
