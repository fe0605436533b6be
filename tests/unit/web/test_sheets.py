"""What a job file can say, the pages can say: sheets of questions, and lists.

Sums by hand: 6928.43 and 240.00 are 7168.43; a credit of 100 takes that to 7068.43.
"""

from collections.abc import Iterator, Mapping
from types import UnionType
from typing import Any, Union, get_args, get_origin

import pytest
from pydantic import BaseModel
from tests.unit.web.test_jobs import begun
from tests.unit.web.test_planned import opened
from tests.unit.web.test_walls import taken_in
from tests.web_pages import Browser, Element

from gaugerod.core.job.document import Job
from gaugerod.web.about import ASKED
from gaugerod.web.desk import planned
from gaugerod.web.sheets import SHEETS, WALL_ASKS
from gaugerod.web.walls import PARTS

ELSEWHERE = {
    "format",  # says itself
    "unit",  # asked of a new job: later it would change what every plain number means
    "bought",  # said of a line of the order
    "extra",  # a line of the order
    "on_hand",  # said of a line of the order
    "pricing",  # said of a line of the price
}
LISTS = {(listed.path, sheet) for sheet, made in SHEETS.items() for listed in made.lists}


def models_in(annotation: object) -> Iterator[type[BaseModel]]:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        yield annotation
    for inside in get_args(annotation):
        yield from models_in(inside)


def keys_of(model: type[BaseModel], way: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """Yield the way to everything that a document may say, the readings as one."""
    for name, info in model.model_fields.items():
        here = (*way, name)
        inside = [] if name == "readings" else list(models_in(info.annotation))
        if get_origin(info.annotation) in {Union, UnionType} or inside:
            for one in inside:
                yield from keys_of(one, here)
        if not inside:
            yield here


def asked() -> set[tuple[str, ...]]:
    found: set[tuple[str, ...]] = {
        (one.name,) if one.table == "job" else (one.table, one.name) for one in ASKED
    }
    for sheet in SHEETS.values():
        found |= {ask.path for ask in sheet.asks}
        for listed in sheet.lists:
            found |= {(*listed.path, *ask.path) for ask in listed.asks}
    found |= {("wall", *ask.path) for ask in WALL_ASKS} | {("wall", "name"), ("wall", "readings")}
    found |= {("wall", slot, name) for slot, model in PARTS.items() for name in model.model_fields}
    return found


def test_every_key_of_a_job_has_its_form() -> None:
    every = {way for way in keys_of(Job) if way[0] not in ELSEWHERE}
    assert len(every) > 100
    assert every - asked() == set()
    assert asked() - every == set()


def order_of(walls: str) -> dict[str, str]:
    return {f"choices.wall_order.{number}": wall for number, wall in enumerate(walls)}


def sheet(at: Browser, job: str, name: str) -> Element:
    return at.open(f"/jobs/{job}/about/{name}").one("form", id="asked")


def document(at: Browser, job: str) -> Mapping[str, Any]:
    return at.desk.book.head("job", job).document


@pytest.mark.parametrize("name", [*SHEETS])
def test_every_question_of_a_sheet_is_shown(at: Browser, name: str) -> None:
    job = begun(at)
    at.open(f"/jobs/{job}/about").one("a", href=f"/jobs/{job}/about/{name}")
    form = sheet(at, job, name)
    names = {one.attributes.get("name", "") for one in form.walk()}
    assert {f"was.{ask.key}" for ask in SHEETS[name].asks} <= names
    page = at.send(form)
    assert page.one("form", id="asked").all("button")
    for listed in SHEETS[name].lists:
        at.open(f"/jobs/{job}/about/{name}/{listed.name}/new")


def test_a_sheet_changes_only_what_was_touched(at: Browser) -> None:
    job = taken_in(at)
    before = document(at, job)
    at.send(sheet(at, job, "hung"), {"choices.step": "left"})
    assert document(at, job) == {**before, "choices": {**before["choices"], "step": "left"}}


def test_how_it_hangs_is_kept_as_it_was_said(at: Browser) -> None:
    job = begun(at)
    fill = {
        "choices.bond.other": "0.25",
        **order_of("BLR"),
        "choices.finish.other": "6'",
        "choices.least_finish": "72",
        "choices.centre.B": "joint",
        "choices.phase.L": "3 1/2",
        "choices.first_height": "11 1/2",
        "facts.rectified": "yes",
    }
    at.send(sheet(at, job, "hung"), fill)
    found = document(at, job)
    assert found["choices"] == {
        "material": "keyed-24x12",
        "bond": 0.25,
        "wall_order": ["B", "L", "R"],
        "finish": "6'",
        "least_finish": "72",
        "centre": {"B": "joint"},
        "phase": {"L": "3 1/2"},
        "first_height": "11 1/2",
    }
    assert found["facts"] == {"rectified": True}
    form = sheet(at, job, "hung")
    assert form.one("input", name="choices.bond.other").attributes["value"] == "0.25"
    fill = {"choices.bond": "herringbone", "choices.centre.B": ""}
    at.send(form, {**fill, "choices.phase.L": "", "facts.rectified": ""})
    found = document(at, job)
    assert found["choices"]["bond"] == "herringbone"
    assert not {"centre", "phase"} & found["choices"].keys()
    assert "facts" not in found


def test_days_and_the_house_are_kept(at: Browser) -> None:
    job = begun(at)
    ticked = [i.attributes["name"] for i in sheet(at, job, "days").all("input", checked="")]
    assert ticked == [f"calendar.days.{day}" for day in ("mon", "tue", "wed", "thu", "fri")]
    fill = {
        "calendar.days.tue": "",
        "calendar.days.wed": "",
        "calendar.days.thu": "",
        "calendar.days.fri": "",
        "calendar.days.sat": "yes",
        "calendar.holidays": "2026-07-03 2026-07-06",
        "calendar.spare_days": "2",
        "calendar.room.temperature": "62 F",
        "calendar.room.humidity": "65.5",
    }
    at.send(sheet(at, job, "days"), fill)
    calendar = document(at, job)["calendar"]
    assert calendar["days"] == ["mon", "sat"]
    assert calendar["holidays"] == ["2026-07-03", "2026-07-06"]
    assert (calendar["spare_days"], calendar["room"]) == (
        2,
        {"temperature": "62 F", "humidity": 65.5},
    )
    fill = {"site.editions": "IRC 2021, NEC = 2023", "site.doorway.0": "28", "site.doorway.1": "78"}
    at.send(sheet(at, job, "paper"), {**fill, "name": "Loft bath", "timezone": "Europe/London"})
    found = document(at, job)
    assert found["site"] == {"editions": {"IRC": 2021, "NEC": 2023}, "doorway": ["28", "78"]}
    assert at.desk.book.head("job", job).title == "Loft bath"
    at.send(sheet(at, job, "taped"), {"survey.layers.backer": "1/2", "facts.board_days.other": "9"})
    found = document(at, job)
    assert found["survey"] == {"surface": "backer", "layers": {"backer": "1/2"}}
    assert found["facts"] == {"board_days": 9}
    fill = {"facts.receptacle": "none", "facts.ticked.dry-fit": "yes", "facts.floor_slope": "0.02"}
    at.send(sheet(at, job, "room"), fill)
    facts = {"board_days": 9, "receptacle": "none", "floor_slope": 0.02, "ticked": ["dry-fit"]}
    assert document(at, job)["facts"] == facts


@pytest.mark.parametrize(
    ("name", "key", "text", "field"),
    [
        ("hung", "choices.bond.other", "1.5", "choices.bond"),
        ("hung", "choices.finish.other", "tall", "choices.finish"),
        ("hung", "choices.phase.B", "x", "choices.phase"),
        ("hung", "facts.lippage", "-1", "facts.lippage"),
        ("days", "calendar.holidays", "2026-07-03 soon", "calendar.holidays"),
        ("days", "calendar.spare_days", "1.5", "calendar.spare_days"),
        ("days", "calendar.room.temperature", "62", "calendar.room.temperature"),
        ("money", "contract.sum", "much", "contract.sum"),
        ("money", "contract.sum", "6928.43", "contract.signed"),
        ("paper", "site.editions", "the newest", "site.editions"),
        ("paper", "site.doorway.0", "28", "site.doorway"),
        ("paper", "name", "", "name"),
        ("room", "facts.floor_slope", "2", "facts.floor_slope"),
        ("taped", "facts.board_days.other", "some", "facts.board_days"),
    ],
)
def test_what_is_wrong_stands_beside_its_field(
    at: Browser, name: str, key: str, text: str, field: str
) -> None:
    job = begun(at)
    page = at.send(sheet(at, job, name), {key: text}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{field}"
    assert page.one("input", name=key).attributes["value"] == text
    assert at.desk.book.head("job", job).n == 1


@pytest.mark.parametrize(
    ("name", "key", "text", "field"),
    [
        ("hung", "choices.phase.B", "40000", "choices.phase"),
        ("days", "calendar.holidays_of", "Atlantis", "calendar.holidays_of"),
        ("paper", "timezone", "Mars/Olympus", "timezone"),
    ],
)
def test_what_does_not_go_with_the_rest_stands_beside_its_field(
    at: Browser, name: str, key: str, text: str, field: str
) -> None:
    job = opened(at)
    page = at.send(sheet(at, job, name), {key: text}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{field}"


def test_the_order_of_setting_says_which_wall_runs_behind(at: Browser) -> None:
    job = opened(at)
    for order, ends in (("BLR", "runs behind"), ("LRB", "butts")):
        at.send(sheet(at, job, "hung"), order_of(order))
        made = planned(at.desk, at.desk.book.head("job", job))
        (back,) = (wall for wall in made.layout.walls if wall.name == "B")
        assert (back.field.left, back.field.right) == (ends, ends)


@pytest.mark.parametrize("order", ["BL", "BLL"])
def test_an_order_of_setting_has_every_wall_once(at: Browser, order: str) -> None:
    job = opened(at)
    page = at.send(sheet(at, job, "hung"), order_of(order), status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-choices.wall_order"
    (second,) = (
        i for i in page.all("input", name="choices.wall_order.1") if "checked" in i.attributes
    )
    assert second.attributes["value"] == "L"


def test_factors_are_ticked_and_what_is_said_twice_stays_twice(at: Browser) -> None:
    job = opened(at)
    at.send(sheet(at, job, "money"), {"factors.floor": "yes", "factors.occupied": "yes"})
    assert document(at, job)["factors"] == ["floor", "occupied"]
    source = b'name = "Odd"\nunit = "in"\nfactors = ["floor", "floor", "own"]\n'
    twice = taken_in(at, source)
    at.send(sheet(at, twice, "money"), {"factors.occupied": "yes"})
    assert document(at, twice)["factors"] == ["floor", "floor", "own", "occupied"]
    at.send(sheet(at, twice, "money"), {"factors.floor": ""})
    assert document(at, twice)["factors"] == ["own", "occupied"]


def new(at: Browser, job: str, where: str) -> Element:
    return at.open(f"/jobs/{job}/about/{where}/new").one("form")


def test_accents_are_added_mended_and_taken_out(at: Browser) -> None:
    job = taken_in(at)
    page = at.open(f"/jobs/{job}/about/hung")
    rows = page.one("section", id="accent").one("ul", class_="rows").all("li")
    assert len(rows) == 4
    fill = {"material": "tile-600x300", "inside": "niche", "faces.back": "yes", "walls.B": "yes"}
    page = at.send(new(at, job, "hung/accent"), fill)
    made = {"material": "tile-600x300", "walls": ["B"], "inside": "niche", "faces": ["back"]}
    assert document(at, job)["choices"]["accent"][4] == made
    page = at.open(f"/jobs/{job}/about/hung/accent/0")
    form, gone = page.all("form")
    at.send(form, {"courses": "3 -1, 5"})
    accents = document(at, job)["choices"]["accent"]
    assert accents[0] == {"material": "keyed-24x12", "walls": ["B"], "courses": [3, -1, 5]}
    at.send(gone, status=409)
    for _ in range(5):
        at.send(at.open(f"/jobs/{job}/about/hung/accent/0").all("form")[1])
    assert "accent" not in document(at, job)["choices"]


def test_an_accent_that_cannot_be_is_refused(at: Browser) -> None:
    job = opened(at)
    page = at.send(new(at, job, "hung/accent"), {"walls.B": "yes"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-material"
    fill = {"material": "keyed-24x12", "courses": "two"}
    page = at.send(new(at, job, "hung/accent"), fill, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-courses"
    page = at.send(new(at, job, "hung/accent"), {"material": "tile-600x300"}, status=422)
    assert "id" not in page.one("p", class_="wrong").attributes
    fill = {"material": "tile-600x300", "walls.B": "yes"}
    page = at.send(new(at, job, "hung/accent"), fill, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-material"
    assert at.desk.book.head("job", job).n == 1


def test_an_override_bears_a_name_and_a_day(at: Browser) -> None:
    at.post("/name", {"by": "Setter"})
    job = begun(at)
    at.send(new(at, job, "hung/override"), {"limit": "no-lift", "why": "Top goes in from the side"})
    signed = {
        "limit": "no-lift",
        "by": "Setter",
        "on": "2026-03-05",
        "why": "Top goes in from the side",
    }
    assert document(at, job)["choices"]["override"] == [signed]
    page = at.send(new(at, job, "hung/override"), {"limit": "no-lift"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-why"


def test_offcuts_and_progress_are_entered(at: Browser) -> None:
    job = opened(at)
    fill = {"name": "K1", "size.0": "20", "size.1": "12", "keeps.left": "yes"}
    at.send(new(at, job, "hung/offcut"), fill)
    assert document(at, job)["offcut"] == [{"name": "K1", "size": ["20", "12"], "keeps": ["left"]}]
    page = at.send(new(at, job, "hung/offcut"), {**fill, "name": "K1"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-name"
    fill = {"task": "demo", "started": "2026-03-02T08:30", "finished": "2026-03-02T07:30"}
    page = at.send(new(at, job, "days/progress"), fill, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-finished"
    at.send(new(at, job, "days/progress"), {**fill, "finished": "2026-03-02T15:30"})
    went = {"task": "demo", "started": "2026-03-02T08:30", "finished": "2026-03-02T15:30"}
    assert document(at, job)["calendar"]["progress"] == [went]


def test_a_change_order_wants_a_contract_first(at: Browser) -> None:
    job = opened(at)
    change = {"what": "New sill plate", "why": "Rot", "price": "240.00"}
    page = at.send(new(at, job, "money/change"), change, status=422)
    assert "contract" in page.one("p", class_="wrong").text
    contract = {"contract.sum": "6928.43", "contract.signed": "2026-02-20"}
    page = at.send(sheet(at, job, "money"), contract)
    assert page.one("p", class_="figure").text == "$6,928.43"
    page = at.send(new(at, job, "money/change"), {**change, "days": "1"})
    assert page.one("p", class_="figure").text == "$6,928.43"
    (row,) = page.one("section", id="account").one("table", class_="lines").one("tbody").all("tr")
    assert "not signed" in row.text
    form = at.open(f"/jobs/{job}/about/money/change/0").all("form")[0]
    early = at.send(form, {"signed": "2026-02-01"}, status=422)
    assert early.one("p", class_="wrong").attributes["id"] == "wrong-signed"
    page = at.send(form, {"signed": "2026-03-05", "by": "The owner"})
    assert page.one("p", class_="figure").text == "$7,168.43"
    credit = {"what": "No shelf", "why": "Wish", "price": "-100", "signed": "2026-03-06"}
    page = at.send(new(at, job, "money/change"), credit)
    assert page.one("p", class_="figure").text == "$7,068.43"
    assert document(at, job)["change"] == [
        {**change, "days": 1, "signed": "2026-03-05", "by": "The owner"},
        credit,
    ]
    gone = {"contract.sum": "", "contract.signed": ""}
    page = at.send(sheet(at, job, "money"), gone, status=422)
    assert "contract" in page.one("p", class_="wrong").text


def test_change_orders_are_printed_with_a_place_to_sign(at: Browser) -> None:
    job = opened(at)
    assert "changes.pdf" not in at.client.get(f"/jobs/{job}/price").text
    contract = {"contract.sum": "6928.43", "contract.signed": "2026-02-20"}
    at.send(sheet(at, job, "money"), contract)
    change = {"what": "New sill plate", "why": "Rot", "price": "240.00"}
    page = at.send(new(at, job, "money/change"), change)
    link = page.one("section", id="account").one("a", class_="button")
    paper = at.client.get(link.attributes["href"])
    assert paper.headers["content-type"] == "application/pdf"
    assert paper.content.startswith(b"%PDF-")
    assert "changes.pdf" in at.client.get(f"/jobs/{job}/price").text


def test_payments_are_those_of_the_contract(at: Browser) -> None:
    """The table of rates asks for a tenth, and draws that close the sum."""
    job = opened(at)
    contract = {"contract.sum": "6928.43", "contract.signed": "2026-02-20"}
    page = at.send(sheet(at, job, "money"), contract)
    due = [row.one("td").text for row in page.one("table", class_="payments").all("tr")]
    cents = [int(text.strip("$").replace(",", "").replace(".", "")) for text in due]
    assert sum(cents) == 692843


def test_two_who_fill_the_same_sheet_lose_nothing(at: Browser) -> None:
    job = begun(at)
    late = sheet(at, job, "room")
    at.send(sheet(at, job, "room"), {"facts.hose": "60"})
    page = at.send(late, {"facts.curb": "4"}, status=409)
    at.send(page.one("form"))
    assert document(at, job)["facts"] == {"hose": "60", "curb": "4"}


def test_an_entry_sent_twice_is_one_and_one_that_moved_is_found(at: Browser) -> None:
    job = begun(at)
    form = new(at, job, "hung/offcut")
    first = {"name": "K1", "size.0": "20", "size.1": "12"}
    at.send(form, first)
    at.send(form, first)
    at.send(new(at, job, "hung/offcut"), {**first, "name": "K2"})
    assert [one["name"] for one in document(at, job)["offcut"]] == ["K1", "K2"]
    second, _ = at.open(f"/jobs/{job}/about/hung/offcut/1").all("form")
    at.send(at.open(f"/jobs/{job}/about/hung/offcut/0").all("form")[1])
    page = at.send(second, {"lot": "L-7"}, status=409)
    at.send(page.one("form"))
    assert document(at, job)["offcut"] == [{"name": "K2", "size": ["20", "12"], "lot": "L-7"}]


@pytest.mark.parametrize(
    "where", ["roof", "room/change/new", "hung/accent/0", "hung/accent/x", "money/roof/new"]
)
def test_a_sheet_that_is_none_is_not_found(at: Browser, where: str) -> None:
    at.open(f"/jobs/{begun(at)}/about/{where}", status=404)
