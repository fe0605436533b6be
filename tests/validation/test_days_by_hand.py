"""Two alcoves on the calendar, worked out by hand, hour by hour.

Source of the network: the usual order of the trade (strip out, first fix and inspection, backer,
membrane, set out, set, grout or seal, soft joints, second fix, hand over) with durations from the
middle of its ranges. Common practice, no source. The days are hand arithmetic. Holidays, from
memory: Memorial Day is the last Monday of May (5 U.S.C. 6103); Good Friday and Easter Monday are
holidays in England, Easter 2026 is on 5 April.

What is expected of both: "the critical path is usually inspections and cures, not hands."
"""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from tests.laid_by_hand import grouted, keyed
from tests.shop_by_hand import ordered, shop, timed

from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.works.days import Days
from gaugerod.core.works.plan import plan_days

H = 60

MODULES = shop(
    {"id": "demo", "who": ["setter", "helper"], "needs_order": True},
    {
        "id": "frame",
        "after": ["demo"],
        "who": ["plumber", "carpenter"],
        "inspection": {"name": "Rough-in", "hours": 8},
    },
    {"id": "backer", "after": ["frame"], "hold": 4},
    {"id": "set-out", "after": ["backer"]},
    {"id": "set", "after": ["set-out"], "hold": "adhesive"},
    {"id": "seal", "after": ["set"], "hold": "sealant"},
    {"id": "trim", "after": ["seal"], "hold": 24, "who": ["plumber", "glazier"]},
    {"id": "punch", "after": ["trim"], "who": ["foreman", "owner"]},
)
TILE = shop(
    {"id": "demo"},
    {"id": "frame", "after": ["demo"], "inspection": {"name": "First fix", "hours": 4}},
    {"id": "backer", "after": ["frame"], "hold": 12},
    {"id": "membrane", "after": ["backer"], "hold": 24},
    {"id": "set-out", "after": ["backer", "membrane"]},
    {"id": "set", "after": ["set-out"], "hold": "mortar"},
    {"id": "grout", "after": ["set"], "hold": "grout"},
    {"id": "seal", "after": ["grout"], "hold": "sealant"},
    {"id": "trim", "after": ["seal"], "hold": 24},
    {"id": "punch", "after": ["trim"]},
)


def modules() -> Days:
    hours = {"demo": 6, "frame": 6, "backer": 6, "set_out": 2, "set": 8}
    hours |= {"seal": 2, "trim": 4, "punch": 2}
    minutes = {id_.replace("_", "-"): H * taken for id_, taken in hours.items()}
    week = WorkingWeek.model_validate({"start": "2026-05-20", "holidays_of": "US"})
    system = keyed().model_copy(update={"lead_days": 10})
    return plan_days(
        ordered("adhesive", "sealant"),
        timed(**minutes),
        system,
        week,
        rates=MODULES,
        timezone="America/Chicago",
    )


def tile() -> Days:
    hours = {"demo": 8, "frame": 6, "backer": 6, "membrane": 2, "set-out": 2, "set": 16}
    hours |= {"grout": 4, "seal": 2, "trim": 4, "punch": 2}
    week = WorkingWeek.model_validate({"start": "2026-03-24"})
    return plan_days(
        ordered("mortar", "grout", "sealant"),
        timed(**{id_: H * taken for id_, taken in hours.items()}),
        grouted(),
        week,
        rates=TILE,
        timezone="Europe/London",
        region="GB-ENG",
    )


def told(days: Days) -> list[str]:
    """Start, end and end of hold of each task, as a person would write them."""
    return [
        f"{task.id}: {task.start:%a %d %H:%M} to {task.end:%a %d %H:%M}"
        + (f", hold to {task.hold_until:%a %d %H:%M}" if task.hold_minutes else "")
        for task in days.tasks
    ]


def test_modules_over_memorial_day() -> None:
    # 8:00 to 16:30, 8.5 h a day, from Wednesday 20 May 2026; Monday 25 is Memorial Day.
    assert told(modules()) == [
        "demo: Wed 20 08:00 to Wed 20 14:00",  # 6 h
        "frame: Wed 20 14:00 to Thu 21 11:30",  # 2.5 h and 3.5 h
        "frame-inspection: Thu 21 11:30 to Fri 22 11:00",  # 5 h and 3 h of working time
        # 5.5 h on Friday; no work on Saturday, Sunday and the holiday; 0.5 h on Tuesday.
        "backer: Fri 22 11:00 to Tue 26 08:30, hold to Tue 26 12:30",
        "set-out: Tue 26 12:30 to Tue 26 14:30",  # 2 h
        "set: Tue 26 14:30 to Wed 27 14:00, hold to Thu 28 14:00",  # 2 h and 6 h; 24 h
        "seal: Thu 28 14:00 to Thu 28 16:00, hold to Fri 29 16:00",  # 2 h; 24 h
        # 0.5 h on Friday, 3.5 h on Monday 1 June; 24 h.
        "trim: Fri 29 16:00 to Mon 01 11:30, hold to Tue 02 11:30",
        "punch: Tue 02 11:30 to Tue 02 13:30",
    ]
    chicago = ZoneInfo("America/Chicago")
    assert modules().finish == datetime(2026, 6, 2, 13, 30, tzinfo=chicago)
    assert modules().no_water_until == datetime(2026, 6, 2, 11, 30, tzinfo=chicago)


def test_modules_are_on_site_before_anything_is_stripped_out() -> None:
    # Needed on Wednesday 20 May at eight: there by Tuesday's close. Ten days before is Saturday
    # 9 May: ordered on Friday 8 May.
    assert modules().order_by == date(2026, 5, 8)


def test_modules_one_after_the_other_have_no_float() -> None:
    # Every hold ends in working hours, and then the next task begins.
    assert [task.id for task in modules().tasks if not task.critical] == []


def test_who_is_on_site_for_modules() -> None:
    who = {task.id: task.who for task in modules().tasks}
    assert who["demo"] == ("setter", "helper")
    assert who["frame-inspection"] == ("inspector",)
    assert who["set"] == ("setter",)
    assert who["punch"] == ("foreman", "owner")


def test_tile_over_easter_and_a_change_of_the_clock() -> None:
    # 8:00 to 16:30 from Tuesday 24 March 2026; clocks go forward on Sunday 29 March; Friday
    # 3 and Monday 6 April are holidays.
    assert told(tile()) == [
        "demo: Tue 24 08:00 to Tue 24 16:00",  # 8 h
        "frame: Tue 24 16:00 to Wed 25 13:30",  # 0.5 h and 5.5 h
        "frame-inspection: Wed 25 13:30 to Thu 26 09:00",  # 3 h and 1 h
        "backer: Thu 26 09:00 to Thu 26 15:00, hold to Fri 27 03:00",  # 6 h; 12 h, at night
        "membrane: Fri 27 08:00 to Fri 27 10:00, hold to Sat 28 10:00",  # 2 h; 24 h
        "set-out: Mon 30 08:00 to Mon 30 10:00",  # 2 h
        # 6.5 h, 8.5 h and 1 h; 24 h.
        "set: Mon 30 10:00 to Wed 01 09:00, hold to Thu 02 09:00",
        "grout: Thu 02 09:00 to Thu 02 13:00, hold to Sun 05 13:00",  # 4 h; 72 h
        "seal: Tue 07 08:00 to Tue 07 10:00, hold to Wed 08 10:00",  # 2 h; 24 h
        "trim: Wed 08 10:00 to Wed 08 14:00, hold to Thu 09 14:00",  # 4 h; 24 h
        "punch: Thu 09 14:00 to Thu 09 16:00",  # 2 h
    ]
    london = ZoneInfo("Europe/London")
    assert tile().finish == datetime(2026, 4, 9, 16, 0, tzinfo=london)
    assert tile().no_water_until == datetime(2026, 4, 9, 14, 0, tzinfo=london)
    assert tile().holidays_of == "GB-ENG"


def test_float_of_tile() -> None:
    # Backwards from Thursday 9 April, 16:00. punch 14:00, trim Wed 10:00, seal Tue 8:00: none.
    # grout: its 72 h must be over on Tue 7 at 8:00, so it ends by Sat 8:00, that is on Thu 2 at
    #   16:30, and begins at 12:30 instead of 9:00: 210 minutes.
    # set: its 24 h over on Thu 12:30, so it ends on Wed 12:30 instead of 9:00: 210. It then
    #   begins on Mon 13:30; set-out at 11:30 instead of 8:00: 210.
    # membrane: its 24 h over on Mon 11:30, so it ends by Sun 11:30, that is on Fri 16:30, and
    #   begins at 14:30 instead of 8:00: 390.
    # backer: its 12 h over on Fri 14:30, so it ends by Fri 2:30, that is on Thu 16:30 instead of
    #   15:00: 90. So do all before it.
    total = {task.id: task.float_minutes for task in tile().tasks}
    assert total == {
        "demo": 90,
        "frame": 90,
        "frame-inspection": 90,
        "backer": 90,
        "membrane": 390,
        "set-out": 210,
        "set": 210,
        "grout": 210,
        "seal": 0,
        "trim": 0,
        "punch": 0,
    }
    # What may be late and nobody moves: backer and membrane end before a night and a weekend
    # that nobody works in anyway, grout before the holidays; the rest pushes the next task.
    free = {task.id: task.free_minutes for task in tile().tasks}
    assert {id_: one for id_, one in free.items() if one} == {
        "backer": 90,
        "membrane": 390,
        "grout": 210,
    }
    assert [task.id for task in tile().tasks if task.critical] == ["seal", "trim", "punch"]
