"""The days from the command line: what the job says of them, what is printed and written."""

import json
import re
from collections.abc import Callable
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from icalendar import Calendar
from typer.testing import Result

from gaugerod.store.shelf import Library

Run = Callable[..., Result]

CALENDAR = 'days = ["mon", "tue", "wed", "thu", "fri"]\n'


def planned(run: Run, folder: Path, *lines: str) -> tuple[Result, Path]:
    """Plan the template with more lines under [calendar]."""
    text = Library().template()
    assert CALENDAR in text
    folder.mkdir()
    job = folder / "job.toml"
    job.write_text(text.replace(CALENDAR, CALENDAR + "\n".join(lines) + "\n"), encoding="utf-8")
    return run("plan", job, "--out", folder / "out"), folder / "out"


def plan_of(out: Path) -> dict[str, Any]:
    read: dict[str, Any] = json.loads((out / "plan.json").read_text(encoding="utf-8"))
    return read


def finish_of(out: Path) -> datetime:
    return datetime.fromisoformat(plan_of(out)["finish"])


def test_the_days_are_told_in_plain_words(run: Run, tmp_path: Path) -> None:
    result, out = planned(run, tmp_path / "a")
    plan = plan_of(out)
    assert result.exit_code == 0
    days = re.findall(
        r"^(?:Mon|Tue|Wed|Thu|Fri) \d+ \w+, \d\d:\d\d–\d\d:\d\d: .+$", result.stdout, re.MULTILINE
    )
    worked = {since[:10] for task in plan["days"] for since, _ in task["stretches"]}
    assert len(days) == len(worked)
    assert "Work begins 2026-03-02 08:00 and ends " in result.stdout
    water = datetime.fromisoformat(plan["no_water_until"])
    assert f"No water until {water:%Y-%m-%d %H:%M}." in result.stdout
    assert f"Order by {plan['order_by']}: " in result.stdout


def test_a_late_task_moves_what_depends_on_it(run: Run, tmp_path: Path) -> None:
    _, before = planned(run, tmp_path / "before")
    (backer,) = [task for task in plan_of(before)["days"] if task["id"] == "backer"]
    done = datetime.fromisoformat(backer["end"]) + timedelta(days=7)
    told = f'progress = [{{ task = "backer", finished = {done:%Y-%m-%dT%H:%M:%S} }}]'
    result, after = planned(run, tmp_path / "after", told)
    assert result.exit_code == 0
    # A week later to the minute: the weeks are alike.
    assert finish_of(after) == finish_of(before) + timedelta(days=7)
    early, late = ({task["id"]: task for task in plan_of(out)["days"]} for out in (before, after))
    assert early["demo"] == late["demo"] | {
        key: early["demo"][key] for key in ("critical", "float_minutes", "free_minutes")
    }
    assert late["backer"]["done"]


def test_a_delay_that_is_expected_moves_it_too(run: Run, tmp_path: Path) -> None:
    _, before = planned(run, tmp_path / "before")
    told = 'progress = [{ task = "protect", delay_hours = 8.5 }]'
    _, after = planned(run, tmp_path / "after", told)
    # The first task on a Monday, a whole working day late.
    assert finish_of(after) > finish_of(before)
    first, moved = (plan_of(out)["days"][0]["start"][:16] for out in (before, after))
    assert (first, moved) == ("2026-03-02T08:00", "2026-03-03T08:00")


@pytest.mark.parametrize(
    ("line", "part"),
    [
        ('progress = [{ task = "grouting", delay_hours = 1.0 }]', "no task of this job"),
        ('progress = [{ task = "seal", started = 2026-03-02 }]', "no moment of a day"),
        ('room = { temperature = "45 F" }', "too cold"),
        ("room = { temperature = 60 }", "no temperature"),
        ('holidays_of = "Illinois"', "not known"),
    ],
)
def test_what_will_not_do_is_said(run: Run, tmp_path: Path, line: str, part: str) -> None:
    result, _ = planned(run, tmp_path / "bad", line)
    assert result.exit_code == 2
    assert part in result.stderr
    assert "job.toml" in result.stderr


def test_a_cold_room_and_a_holiday_put_off_the_water(run: Run, tmp_path: Path) -> None:
    _, before = planned(run, tmp_path / "before")
    _, cold = planned(run, tmp_path / "cold", 'room = { temperature = "55 F" }')
    _, kept = planned(run, tmp_path / "kept", 'holidays_of = "US-IL"')
    waters = [
        datetime.fromisoformat(plan_of(out)["no_water_until"]) for out in (before, cold, kept)
    ]
    assert waters[0] < min(waters[1:])
    # In Illinois the first Monday of March is a holiday.
    assert plan_of(kept)["days"][0]["start"][:16] == "2026-03-03T08:00"


def test_the_calendar_for_a_diary_says_what_the_plan_says(run: Run, tmp_path: Path) -> None:
    _, out = planned(run, tmp_path / "a")
    calendar = Calendar.from_ical((out / "days.ics").read_bytes())
    entries = {
        (str(entry["summary"]), entry.decoded("dtstart"), entry.decoded("dtend", None))
        for entry in calendar.walk("VEVENT")
    }
    name = plan_of(out)["job"]["name"]
    for task in plan_of(out)["days"]:
        for since, until in task["stretches"]:
            span = (datetime.fromisoformat(since), datetime.fromisoformat(until))
            assert (f"{name}: {task['name']}", *span) in entries
    assert any("no water" in says for says, _, _ in entries)


def test_planned_again_entries_keep_their_ids(run: Run, tmp_path: Path) -> None:
    def ids(out: Path) -> list[str]:
        calendar = Calendar.from_ical((out / "days.ics").read_bytes())
        return [str(entry["uid"]) for entry in calendar.walk("VEVENT")]

    _, first = planned(run, tmp_path / "first")
    _, again = planned(run, tmp_path / "again", 'holidays_of = "US-IL"')
    shared = set(ids(first)) & set(ids(again))
    assert len(shared) >= len({task["id"] for task in plan_of(first)["days"]})
    assert len(ids(first)) == len(set(ids(first)))
