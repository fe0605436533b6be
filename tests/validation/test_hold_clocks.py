"""How long nobody touches what was glued, set, sealed or grouted: what comes with the program.

Sources, each with how sure it is.

- Organic adhesive, 24 h before grout: US Navy, *Builder* training manual, NAVEDTRA 14044, ch. 7,
  https://constructionmanuals.tpub.com/14044/css/Recommended-Reading-List-234.htm. Found. The same
  in a trade list, https://www.floortrendsmag.com/articles/84854-ceramic-stone-close-up-just-do-it-just-don-t-do-it.
  Found.
- Caulk at joints with built-in fixtures, after grouting: the same manual. Found.
- Cement mortar, 24 to 72 h before grout: http://tiledoctor.com/how-to-tile/grouting-for-showers-tubs/
  on A108.10. Found.
- 50 F during the work and after: http://themoldstore.info/Architect_Specs.html, a model
  specification. Found. 50 to 70 F is best, cold lengthens the cure:
  http://tileletter.s3-website-us-east-1.amazonaws.com/201701/inc/html/78.html. Found.
- Cement grout, 48 to 72 h before the shower is used, up to 7 days:
  https://engineerfix.com/how-long-for-grout-to-dry-before-showering. Found, a weak source. 72 h of
  damp cure where the maker asks, ANSI A108.10: from memory.
- Dab-fixed plasterboard, 10 days or more before tiling: NHBC Standards 9.2.5,
  https://nhbc-standards.co.uk/9-finishes/9-2-wall-and-ceiling-finishes/9-2-5-ceramic-wall-tiling/.
  Found.
- One-part sealant: water after 24 h commonly, longer in dry air, 40 F at least: custom of that
  kind of product, from memory.
- Liquid membrane in two coats, 24 h in all: from memory. Panels, 24 to 48 h in the room before
  they are cut: from memory.
- Below 60 F or in damp air a cure takes twice as long: common practice, no source.
"""

import tomllib
from importlib.resources import files

import pytest
from tests.laid_by_hand import keyed
from tests.shop_by_hand import ordered, shop, timed

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.calendar import HoldTable, Room
from gaugerod.core.job.document import WorkingWeek
from gaugerod.core.job.materials import Adhesive, Grout, Mortar, Sealant, System
from gaugerod.core.job.rates import RateTable, Task
from gaugerod.core.works.holds import hold_minutes
from gaugerod.core.works.plan import plan_days

Held = Adhesive | Grout | Mortar | Sealant


def system(name: str) -> System:
    raw = tomllib.loads((files("gaugerod") / f"data/materials/{name}.toml").read_text("utf-8"))
    return System.model_validate(raw, context={"unit": raw["unit"]})


def tasks(name: str) -> dict[str, Task]:
    text = (files("gaugerod") / f"data/rates/{name}.toml").read_text("utf-8")
    return {task.id: task for task in RateTable.model_validate(tomllib.loads(text)).task}


KEYED, TILE, SHEET = (system(name) for name in ("keyed-24x12", "tile-600x300", "sheet-96x48"))
ADHESIVES = [one for one in (KEYED.adhesive, SHEET.adhesive) if one]
SEALANTS = [one.sealant for one in (KEYED, TILE, SHEET)]


def hours(held: Held | None, temperature: str | None, humidity: float = 50.0) -> float:
    assert held is not None
    told = {"temperature": temperature, "humidity": humidity}
    room = Room.model_validate(told) if temperature else None
    return hold_minutes(held.hold_hours, held.hold, room, of=held.name) / 60


@pytest.mark.parametrize("room", [None, "70 F"])
def test_adhesive_is_held_for_a_day(room: str | None) -> None:
    assert [hours(one, room) for one in ADHESIVES] == [24, 24]


@pytest.mark.parametrize("room", [None, "50 F", "60 F", "70 F"])
def test_mortar_is_held_for_one_to_three_days(room: str | None) -> None:
    assert 24 <= hours(TILE.mortar, room) <= 72


def test_grout_stays_dry_for_three_days_and_up_to_seven() -> None:
    assert hours(TILE.grout, None) == hours(TILE.grout, "20 C") == 72
    assert hours(TILE.grout, "50 F") == 7 * 24
    assert 72 < hours(TILE.grout, "60 F") < 7 * 24


def test_sealant_takes_water_after_a_day_and_later_in_dry_air() -> None:
    assert [hours(one, None) for one in SEALANTS] == [24, 24, 24]
    assert [hours(one, "70 F") for one in SEALANTS] == [24, 24, 24]
    assert all(hours(one, "70 F", 30) > 24 for one in SEALANTS)
    assert all(hours(one, "50 F") > 24 for one in SEALANTS)


def test_cold_lengthens_every_cure() -> None:
    held: list[Held | None] = [*ADHESIVES, *SEALANTS, TILE.mortar, TILE.grout]
    for one in held:
        assert hours(one, "50 F") > hours(one, "60 F") > hours(one, "70 F")


@pytest.mark.parametrize(
    "held", [*ADHESIVES, TILE.mortar, TILE.grout], ids=["keyed", "sheet", "mortar", "grout"]
)
def test_nothing_is_glued_set_or_grouted_under_50_degrees(held: Held) -> None:
    assert hours(held, "50 F") > 0
    with pytest.raises(JobError) as caught:
        hours(held, "49 F")
    assert caught.value.message.key == "works.too-cold"


@pytest.mark.parametrize("held", SEALANTS, ids=["keyed", "tile", "sheet"])
def test_nothing_is_sealed_under_40_degrees(held: Sealant) -> None:
    with pytest.raises(JobError) as caught:
        hours(held, "39 F")
    assert caught.value.message.key == "works.too-cold"


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [("61 F", 50, 24), ("59 F", 50, 48), ("70 F", 95, 48)],
)
def test_without_the_makers_table_cold_and_damp_double_it(
    temperature: str, humidity: float, expected: float
) -> None:
    room = Room.model_validate({"temperature": temperature, "humidity": humidity})
    assert hold_minutes(24, None, room, of="adhesive") == expected * 60


def test_a_cure_that_doubles_with_ten_degrees_never_outlasts_the_straight_line() -> None:
    # A rate that halves every 10 degrees (rule of thumb of chemists, from memory): 48 h at 10,
    # 24 h at 20, and at 15 degrees 48 / 2 ** 0.5 = 33.94 h. The straight line gives 36.
    table = HoldTable.model_validate({"temperature": ["10 C", "20 C"], "hours": [[48], [24]]})
    for tenths in range(100, 201):
        room = Room.model_validate({"temperature": f"{tenths / 10} C"})
        cure = 48 / 2 ** ((tenths / 10 - 10) / 10)
        assert hold_minutes(24, table, room, of="adhesive") >= cure * 60 - 1e-6


@pytest.mark.parametrize("name", ["shop", "shop-gb"])
def test_the_shipped_tasks_hold_what_they_should(name: str) -> None:
    table = tasks(name)
    assert table["membrane"].hold == 24
    assert "grout" in table["seal"].after  # sealed after it is grouted
    assert table["seal"].hold == "sealant"
    assert table["set-modules"].hold == table["set-sheets"].hold == "adhesive"
    assert (table["set-tile"].hold, table["grout"].hold) == ("mortar", "grout")


def test_panels_lie_in_the_room_for_a_day_or_two() -> None:
    assert (KEYED.acclimatise_hours, SHEET.acclimatise_hours) == (24, 48)


def test_dabbed_plasterboard_waits_ten_days() -> None:
    table = shop({"id": "board", "hold": 240}, {"id": "set", "after": ["board"]})
    week = WorkingWeek.model_validate({"start": "2026-03-02"})
    days = plan_days(ordered(), timed(board=60, set=60), keyed(), week, rates=table, timezone="UTC")
    # Boarded on Monday 2 March by nine; ten days later is Thursday 12 March at nine.
    assert days.tasks[1].start.isoformat() == "2026-03-12T09:00:00+00:00"
