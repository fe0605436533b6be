"""Measuring by taps alone.

The sums are by hand: a back wall that is 60 in wide at three heights and 80 in high is a rectangle,
and both its corners lie 100 in apart (3-4-5, twenty times over).
"""

import pytest
from tests.unit.web.test_jobs import begun
from tests.web_pages import Browser, Element

from gaugerod.core.job.readings import Width
from gaugerod.web.fields import fields_of
from gaugerod.web.walls import KINDS, PARTS

TO_TAKE = 7
"""Three widths, the deck and the ceiling at both ends."""


def spot(page: Element, wall: str, name: str) -> Element:
    section = page.one("section", id=f"wall-{wall}")
    (found,) = (a for a in section.all("a", class_="spot") if a.one("title").text == name)
    return found


def enter(at: Browser, job: str, wall: str, name: str, **fill: str) -> Element:
    """Tap a place of a wall, fill its form in and save."""
    page = at.open(f"/jobs/{job}/measure")
    form = at.open(spot(page, wall, name).attributes["href"]).all("form")[0]
    return at.send(form, {key.replace("__", "."): text for key, text in fill.items()})


def readings(at: Browser, job: str, wall: int = 1) -> list[dict[str, str]]:
    found: list[dict[str, str]] = at.desk.book.head("job", job).document["wall"][wall]["readings"]
    return found


def square(at: Browser, job: str, walls: str = "LBR") -> None:
    """Measure walls that are 60 in wide, with the datum 30 in above the deck, 50 below the top."""
    for wall in walls:
        for height in ("up high", "near the datum", "low down"):
            enter(at, job, wall, f"width {height}", reads__whole="60")
        for side in ("left", "right"):
            enter(at, job, wall, f"down to the deck at the {side}", reads__whole="30")
            enter(at, job, wall, f"up to the ceiling at the {side}", reads__whole="50")


def test_a_new_wall_asks_for_what_it_cannot_do_without(at: Browser) -> None:
    page = at.open(f"/jobs/{begun(at)}/measure")
    for wall in "LBR":
        section = page.one("section", id=f"wall-{wall}")
        assert len(section.all("a", class_="asked")) == TO_TAKE
        assert len(section.all("a", class_="open")) == 4
    assert page.one("a", class_="hand").text.startswith("Next: wall L")


def test_keys_make_what_a_tape_says(at: Browser) -> None:
    job = begun(at)
    page = enter(at, job, "B", "width near the datum", reads__whole="59", reads__part="13")
    assert readings(at, job) == [{"kind": "width", "at": "6", "reads": "59 13/16"}]
    found = spot(page, "B", "width near the datum")
    assert "taken" in found.attributes["class"].split()
    assert found.one("text", class_="reads").text == "59 13/16"
    assert page.one("a", class_="hand").attributes["href"]


@pytest.mark.parametrize(
    ("keys", "written"),
    [
        ({"reads__part": "4"}, "1/4"),
        ({"reads__whole": "1", "reads__part": "8", "reads__minus": "minus"}, "-1 1/2"),
        ({"reads__whole": "0"}, "0"),
        ({"reads": "1 1/2 strong"}, "1 1/2 strong"),
        ({"reads__whole": "1", "reads__part": "8", "reads__strength": "shy"}, "1 1/2 shy"),
        ({"reads__part": "2", "reads__minus": "minus", "reads__strength": "strong"}, "-1/8 strong"),
        ({"reads": "-12 mm", "reads__whole": "3"}, "-12 mm"),
    ],
)
def test_a_lean_is_written_as_it_was_said(at: Browser, keys: dict[str, str], written: str) -> None:
    job = begun(at)
    enter(at, job, "B", "lean of the left edge", over="72", **keys)
    said = {"kind": "lean", "edge": "left", "over": "72", "reads": written}
    assert readings(at, job) == [said]


def test_what_is_no_length_is_told_beside_its_field(at: Browser) -> None:
    job = begun(at)
    page = at.open(f"/jobs/{job}/walls/B/readings/new?kind=width&at=6")
    form = page.one("form")
    for fill, field in (
        ({"reads": "59 13/17"}, "reads"),
        ({}, "reads"),
        ({"reads": "60", "at": "high"}, "at"),
        ({"reads": "-60"}, "reads"),
    ):
        page = at.send(form, fill, status=422)
        assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{field}"
        for name, text in fill.items():
            assert page.one("input", name=name).attributes["value"] == text
    assert readings(at, job) == []


def test_a_reading_is_mended_and_taken_out(at: Browser) -> None:
    job = begun(at)
    page = enter(at, job, "B", "width near the datum", reads__whole="59", reads__part="13")
    page = at.open(spot(page, "B", "width near the datum").attributes["href"])
    form, gone = page.all("form")[:2]
    assert form.one("input", name="reads.whole").attributes["value"] == "59"
    (part,) = (i for i in form.all("input", name="reads.part") if "checked" in i.attributes)
    assert part.attributes["value"] == "13"
    page = at.send(form, {"reads.part": "12"})
    assert [reading["reads"] for reading in readings(at, job)] == ["59 3/4"]
    page = at.open(spot(page, "B", "width near the datum").attributes["href"])
    at.send(page.all("form")[1])
    assert readings(at, job) == []
    assert len(at.desk.book.history("job", job)) == 4
    at.send(gone, status=409)


def test_two_who_measure_at_once_lose_no_reading(at: Browser) -> None:
    job = begun(at)
    page = at.open(f"/jobs/{job}/walls/B/readings/new?kind=width&at=6")
    late = page.one("form")
    enter(at, job, "B", "width up high", reads__whole="60")
    page = at.send(late, {"reads.whole": "59"}, status=409)
    assert "60" in page.one("td", class_="now").text
    assert "59" in page.one("td", class_="mine").text
    at.send(page.one("form"))
    assert [reading["reads"] for reading in readings(at, job)] == ["60", "59"]


def test_a_reading_that_another_took_out_comes_back_by_who_puts_his_on_top(at: Browser) -> None:
    job = begun(at)
    page = enter(at, job, "B", "width near the datum", reads__whole="59")
    page = at.open(spot(page, "B", "width near the datum").attributes["href"])
    form, gone = page.all("form")[:2]
    at.send(gone)
    page = at.send(form, {"reads.whole": "60"}, status=409)
    assert any("60" in cell.text for cell in page.all("td", class_="mine"))
    assert not any("59" in cell.text for cell in page.all("td", class_="now"))
    at.send(page.one("form"))
    assert [reading["reads"] for reading in readings(at, job)] == ["60"]


def test_a_reading_that_nobody_saw_there_is_not_mended(at: Browser) -> None:
    job = begun(at)
    page = enter(at, job, "B", "width near the datum", reads__whole="59")
    form = at.open(spot(page, "B", "width near the datum").attributes["href"]).all("form")[0]
    page = at.send(form, {"reads.whole": "60", "was": "{}"}, status=404)
    assert "no such place" in page.one("p", class_="wrong").text
    assert [reading["reads"] for reading in readings(at, job)] == ["59"]


def test_a_survey_that_closes_and_one_that_does_not(at: Browser) -> None:
    job = begun(at)
    square(at, job)
    page = at.open(f"/jobs/{job}/measure")
    assert page.all("a", class_="asked") == []
    assert page.one("p", class_="chip").text
    diagonal = {"left_at": "-30", "right_at": "50"}
    page = enter(at, job, "B", "corner to corner, up to the right", reads__whole="100", **diagonal)
    closures = page.one("ul", class_="closures")
    assert closures.all("li", class_="re-measure") == []
    assert page.all("ul", class_="suspects") == []
    found = spot(page, "B", "corner to corner, up to the right")
    form = at.open(found.attributes["href"]).all("form")[0]
    page = at.send(form, {"reads.whole": "103"})
    assert page.one("ul", class_="closures").all("li", class_="re-measure")
    assert "B corner to corner 1" in page.one("ul", class_="suspects").text
    section = page.one("section", id="wall-B")
    (suspect,) = section.one("ul", class_="readings").all("li", class_="suspect")
    assert suspect.one("b").text == "103"
    assert len(section.all("svg", class_="drawing")) == 1


@pytest.mark.parametrize("unit", ["in", "mm", "cm"])
def test_every_kind_of_reading_has_its_form(at: Browser, unit: str) -> None:
    at.send(at.open("/new").one("form"), {"name": "Bath", "unit": unit})
    (job,) = (heading.id for heading in at.desk.book.contents("job"))
    for kind, model in KINDS.items():
        page = at.open(f"/jobs/{job}/walls/B/readings/new?kind={kind}")
        names = {one.attributes.get("name") for one in page.one("form").all("input")}
        assert {"reads", "surface", "note", "seen", "key"} <= names
        needed = {n: info for n, info in model.model_fields.items() if info.is_required()}
        assert {info.alias or name for name, info in needed.items()} - {"kind"} <= names


@pytest.mark.parametrize("slot", [*PARTS])
def test_every_part_of_a_wall_has_its_form(at: Browser, slot: str) -> None:
    page = at.open(f"/jobs/{begun(at)}/walls/B/{slot}/new")
    names = {one.attributes.get("name", "").partition(".")[0] for one in page.walk()}
    assert set(PARTS[slot].model_fields) <= names


def test_a_hole_and_a_niche_are_entered(at: Browser) -> None:
    job = begun(at)
    form = at.open(f"/jobs/{job}/walls/L/hole/new").one("form")
    limits = {"rough_in.0": "1/2", "rough_in.1": "1 1/4"}
    at.send(form, {"name": "valve", "diameter": "3", "plate": "7", **limits})
    form = at.open(f"/jobs/{job}/walls/L/opening/new").one("form")
    page = at.send(form, {"name": "niche", "kind": "niche", "lined": "no"})
    wall = at.desk.book.head("job", job).document["wall"][0]
    hole = {"name": "valve", "diameter": "3", "plate": "7", "rough_in": ["1/2", "1 1/4"]}
    assert wall["hole"] == [hole]
    assert wall["opening"] == [{"name": "niche", "kind": "niche", "lined": False}]
    parts = page.one("section", id="wall-L").one("ul", class_="parts")
    assert [row.one("b").text for row in parts.all("li")] == ["valve", "niche"]
    page = at.open(f"/jobs/{job}/walls/L/hole/0")
    assert page.one("input", name="rough_in.1").attributes["value"] == "1 1/4"
    page = at.open(f"/jobs/{job}/walls/L/opening/0")
    (lined,) = (i for i in page.all("input", name="lined") if "checked" in i.attributes)
    assert lined.attributes["value"] == "no"
    form = at.open(f"/jobs/{job}/walls/L/fixture/new").one("form")
    page = at.send(form, {"name": "shelf", "kind": "shelf", "size.0": "8"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-size"


@pytest.mark.parametrize(
    "where",
    ["X/readings/new?kind=width", "B/readings/new?kind=depthless", "B/roof/new", "B/readings/7"],
)
def test_a_place_that_a_job_has_not_is_not_found(at: Browser, where: str) -> None:
    at.open(f"/jobs/{begun(at)}/walls/{where}", status=404)


def test_a_number_of_a_file_is_split_for_the_keys() -> None:
    def reads(value: object) -> tuple[str, ...]:
        (found,) = (f for f in fields_of(Width, {"reads": value}, "in") if f.sort == "reads")
        return found.values

    assert reads(60) == ("60", "0", "", "", "")
    assert reads("-1 1/2") == ("1", "8", "minus", "", "")
    assert reads("59 13/32") == ("", "", "", "59 13/32", "")
    assert reads("59 strong") == ("59", "0", "", "", "strong")
    assert reads("-1/2 shy") == ("0", "8", "minus", "", "shy")
    assert reads("59 heavy") == ("", "", "", "59 heavy", "")
    assert reads("5/") == ("", "", "", "5/", "")
    assert reads("shy") == ("", "", "", "shy", "")


def test_a_job_of_odd_tables_can_still_be_opened(at: Browser) -> None:
    source = b"""name = "Odd"
unit = "in"
wall = [{ name = "A", readings = [{ kind = "guess", reads = 3 }, 7] }, 4, { name = "B", hole = 3 }]
"""
    at.client.post(
        "/import",
        data={"key": "k9", "seen": "0"},
        files={"file": ("odd.toml", source)},
        headers={"Origin": "http://127.0.0.1:8000"},
    )
    page = at.open("/jobs/odd-k9/measure")
    assert page.one("section", id="said").one("p", class_="wrong").text
    assert len(page.all("section", class_="wall")) == 2
