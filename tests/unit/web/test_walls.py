"""Walls after the job was made: what names a wall goes with it, and nothing is lost in silence."""

import pytest
from tests.unit.web.test_jobs import begun
from tests.unit.web.test_measure import enter, spot
from tests.unit.web.test_planned import opened
from tests.unit.web.test_site import tick
from tests.web_pages import HERE, Browser, Element

from gaugerod.web.desk import planned, replanned

ODD = b"""format = 1
name = "Odd"
unit = "in"
survey = { surface = "backer" }
calendar = { start = 2026-03-02 }
[choices]
material = "keyed-24x12"
wall_order = ["B", "L", "R"]
centre = { B = "opening", L = "front" }
phase = { B = "3 1/2" }
accent = [
  { material = "keyed-24x12", walls = ["B"], courses = [3] },
  { material = "keyed-24x12", walls = ["B", "R"], courses = [4] },
  { material = "keyed-24x12", inside = "niche" },
  { material = "keyed-24x12", courses = [2] },
]
[[wall]]
name = "L"
corner = "outside"
readings = []
[[wall]]
name = "B"
readings = [{ kind = "width", at = 0, reads = 60 }]
opening = [{ name = "niche", kind = "niche" }]
hollow = [{ at = 3, height = 4, size = [6, 6] }]
[[wall]]
name = "R"
readings = []
"""


def taken_in(at: Browser, source: bytes = ODD) -> str:
    at.client.post(
        "/import",
        data={"key": "k9", "seen": "0"},
        files={"file": ("odd.toml", source)},
        headers={"Origin": HERE},
    )
    return "odd-k9"


def names(at: Browser, job: str) -> list[str]:
    return [wall["name"] for wall in at.desk.book.head("job", job).document["wall"]]


def mend(at: Browser, job: str, wall: str, fill: dict[str, str], status: int = 200) -> Element:
    form = at.open(f"/jobs/{job}/walls/{wall}").all("form")[0]
    return at.send(form, fill, status=status)


def adding(at: Browser, job: str) -> Element:
    return at.open(f"/jobs/{job}/walls").one("form", action=f"/jobs/{job}/walls")


def test_a_wall_is_added_and_asks_to_be_measured(at: Browser) -> None:
    job = begun(at)
    page = at.send(adding(at, job), {"name": "k", "after": "B"})
    assert names(at, job) == ["L", "B", "K", "R"]
    assert len(page.one("section", id="wall-K").all("a", class_="asked")) == 7
    at.send(adding(at, job), {"name": "A", "after": ""})
    assert names(at, job) == ["A", "L", "B", "K", "R"]
    enter(at, job, "K", "width up high", reads__whole="20")


@pytest.mark.parametrize("name", ["B", "b", "", "ABC", "3", "É"])
def test_a_name_that_is_none_or_taken_is_told_beside_its_field(at: Browser, name: str) -> None:
    job = begun(at)
    page = at.send(adding(at, job), {"name": name}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-name"
    assert page.one("input", name="name").attributes["value"] == name
    if name.upper() != "B":
        page = mend(at, job, "B", {"name": name}, status=422)
        assert page.one("p", class_="wrong").attributes["id"] == "wrong-name"
    assert at.desk.book.head("job", job).n == 1


def test_a_job_has_no_more_walls_than_a_file_may(at: Browser) -> None:
    letters = "ABCDEFGHIJKLMNOPQRSTUVWX"
    rows = "".join(f'[[wall]]\nname = "{one}"\nreadings = []\n' for one in letters)
    job = taken_in(at, b'name = "Odd"\nunit = "in"\n' + rows.encode())
    page = at.send(adding(at, job), {"name": "Z"}, status=422)
    assert "24" in page.one("p", class_="wrong").text


def test_a_wall_is_renamed_with_all_that_names_it(at: Browser) -> None:
    job = taken_in(at)
    page = mend(at, job, "B", {"name": "bk"})
    assert page.one("li", id="row-BK").one("b").text == "Wall BK"
    document = at.desk.book.head("job", job).document
    assert document["choices"]["wall_order"] == ["BK", "L", "R"]
    assert document["choices"]["centre"] == {"BK": "opening", "L": "front"}
    assert document["choices"]["phase"] == {"BK": "3 1/2"}
    accents = document["choices"]["accent"]
    assert [accent.get("walls") for accent in accents] == [["BK"], ["BK", "R"], None, None]
    assert document["wall"][1]["readings"] == [{"kind": "width", "at": 0, "reads": 60}]
    assert document["wall"][1]["opening"] == [{"name": "niche", "kind": "niche"}]


def test_what_hangs_hangs_under_the_new_name(at: Browser) -> None:
    job = opened(at)
    tick(at, at.open(f"/jobs/{job}/cut/B1-1"), "marked")
    for tag in ("B1-1", "B1-2"):
        tick(at, at.open(f"/jobs/{job}/cut/{tag}"), "set")
    form = next(f for f in at.open(f"/jobs/{job}/found").all("form") if f.all("input", name="side"))
    before = replanned(at.desk, at.desk.book.head("job", job)).plan
    (third,) = (piece for piece in before.pieces if piece.tag == "B1-3")
    gap = {"wall": "B", "course": "1", "side": "right", "reads": f"{third.size[0]:.1f} mm"}
    at.send(form, gap)
    before = replanned(at.desk, at.desk.book.head("job", job)).plan
    mend(at, job, "B", {"name": "C"})
    revision = at.desk.book.head("job", job)
    assert revision.day["day"][0]["set"] == ["C1-1", "C1-2"]
    assert revision.day["day"][0]["gap"][0]["wall"] == "C"
    assert revision.day["ticks"]["cards"] == {"C1-1": ["marked"]}
    after = replanned(at.desk, revision).plan
    assert after.done == {"C1-1", "C1-2"}
    assert [piece.region for piece in after.pieces] == [piece.region for piece in before.pieces]


def test_walls_are_moved_in_order(at: Browser) -> None:
    job = begun(at)
    page = at.open(f"/jobs/{job}/walls")
    assert page.one("li", id="row-L").all("button", value="left") == []
    form = page.one("form", action=f"/jobs/{job}/walls/L/move")
    page = at.send(form, press=form.one("button", value="right"))
    assert names(at, job) == ["B", "L", "R"]
    form = page.one("form", action=f"/jobs/{job}/walls/R/move")
    at.send(form, press=form.one("button", value="left"))
    assert names(at, job) == ["B", "R", "L"]
    at.send(form, press=form.one("button", value="left"))
    assert at.desk.book.head("job", job).n == 3
    stale = {"seen": "2", "key": "k", "way": "left"}
    at.post(f"/jobs/{job}/walls/L/move", stale, status=409)
    at.post(f"/jobs/{job}/walls/R/move", {**stale, "way": "up"}, status=404)


def test_an_outside_corner_is_not_left_at_the_end(at: Browser) -> None:
    job = taken_in(at)
    form = at.open(f"/jobs/{job}/walls").one("form", action=f"/jobs/{job}/walls/L/move")
    page = at.send(form, press=form.one("button", value="right"))
    form = page.one("form", action=f"/jobs/{job}/walls/L/move")
    page = at.send(form, press=form.one("button", value="right"))
    assert names(at, job) == ["B", "R", "L"]
    assert "corner" not in at.desk.book.head("job", job).document["wall"][2]


def test_what_goes_with_a_wall_is_told_before_and_gone_after(at: Browser) -> None:
    job = taken_in(at)
    page = at.open(f"/jobs/{job}/walls/B")
    told = {item.text for item in page.one("ul", class_="goes").all("li")}
    assert {text.split()[0] + " " + text.split()[1] for text in told} == {
        "1 readings",
        "1 windows",
        "1 hollow",
        "3 choices",
        "2 accents",
    }
    at.send(page.one("form", action=f"/jobs/{job}/walls/B/take-out"))
    document = at.desk.book.head("job", job).document
    assert names(at, job) == ["L", "R"]
    assert document["choices"] == {
        "material": "keyed-24x12",
        "wall_order": ["L", "R"],
        "centre": {"L": "front"},
        "accent": [
            {"material": "keyed-24x12", "walls": ["R"], "courses": [4]},
            {"material": "keyed-24x12", "courses": [2]},
        ],
    }
    page = at.open(f"/jobs/{job}/walls/R")
    assert "1 outside corner" in page.one("ul", class_="goes").text
    at.send(page.one("form", action=f"/jobs/{job}/walls/R/take-out"))
    assert at.desk.book.head("job", job).document["wall"] == [{"name": "L", "readings": []}]
    page = at.open(f"/jobs/{job}/walls/L")
    assert page.all("form", action=f"/jobs/{job}/walls/L/take-out") == []
    values = {"seen": "3", "key": "k"}
    page = at.post(f"/jobs/{job}/walls/L/take-out", values, status=422)
    assert "only wall" in page.one("p", class_="wrong").text
    back = at.open(f"/jobs/{job}/history").one("li", id="r1").one("form")
    at.send(back, press=back.one("button"))
    assert names(at, job) == ["L", "B", "R"]


def test_marks_of_a_wall_that_goes_are_forgotten(at: Browser) -> None:
    job = opened(at)
    for tag in ("B1-1", "R1-1"):
        tick(at, at.open(f"/jobs/{job}/cut/{tag}"), "marked")
    page = at.open(f"/jobs/{job}/walls/R")
    assert "1 pieces with ticks" in page.one("ul", class_="goes").text
    at.send(page.one("form", action=f"/jobs/{job}/walls/R/take-out"))
    revision = at.desk.book.head("job", job)
    assert revision.day["ticks"]["cards"] == {"B1-1": ["marked"]}
    assert {wall.name for wall in planned(at.desk, revision).walls.walls} == {"L", "B"}


def test_where_pieces_hang_walls_stay(at: Browser) -> None:
    job = opened(at)
    tick(at, at.open(f"/jobs/{job}/cut/L1-1"), "set")
    page = at.open(f"/jobs/{job}/walls")
    assert page.all("button", value="left") == []
    seen = {"seen": "2", "key": "k"}
    page = at.post(f"/jobs/{job}/walls/R/take-out", seen, status=422)
    assert "hang" in page.one("p", class_="wrong").text
    at.post(f"/jobs/{job}/walls/R/move", {**seen, "way": "left"}, status=422)
    assert at.open(f"/jobs/{job}/walls/R").one("section", id="out").all("form") == []
    assert names(at, job) == ["L", "B", "R"]


def test_corner_finish_and_old_tile_of_a_wall_are_kept(at: Browser) -> None:
    job = begun(at)
    fill = {"corner": "outside", "finish.other": "40 1/2", "old_tile_stops": "12"}
    page = mend(at, job, "L", fill)
    assert "outside corner" in page.one("li", id="row-L").text
    wall = at.desk.book.head("job", job).document["wall"][0]
    assert wall == {
        "name": "L",
        "readings": [],
        "corner": "outside",
        "finish": "40 1/2",
        "old_tile_stops": "12",
    }
    form = at.open(f"/jobs/{job}/walls/L").all("form")[0]
    assert form.one("input", name="finish.other").attributes["value"] == "40 1/2"
    at.send(form, {"finish": "ceiling", "finish.other": "", "corner": "inside"})
    wall = at.desk.book.head("job", job).document["wall"][0]
    assert (wall["finish"], wall["corner"]) == ("ceiling", "inside")


@pytest.mark.parametrize(
    ("wall", "key", "text", "field"),
    [
        ("L", "finish.other", "high", "finish"),
        ("L", "finish.other", "-3", "finish"),
        ("L", "old_tile_stops", "x", "old_tile_stops"),
        ("R", "corner", "outside", "corner"),
    ],
)
def test_what_is_wrong_of_a_wall_stands_beside_its_field(
    at: Browser, wall: str, key: str, text: str, field: str
) -> None:
    job = begun(at)
    page = mend(at, job, wall, {key: text}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{field}"
    assert at.desk.book.head("job", job).n == 1


def test_two_who_change_walls_at_once_see_both(at: Browser) -> None:
    job = begun(at)
    late, twice = adding(at, job), adding(at, job)
    at.send(twice, {"name": "K"})
    at.send(twice, {"name": "K"})
    assert names(at, job) == ["L", "B", "R", "K"]
    page = at.send(late, {"name": "M"}, status=409)
    at.send(page.one("form"))
    assert sorted(names(at, job)) == ["B", "K", "L", "M", "R"]


def test_hollow_places_are_entered_and_mended(at: Browser) -> None:
    job = begun(at)
    form = at.open(f"/jobs/{job}/walls/B/hollow/new").one("form")
    page = at.send(form, {"at": "3", "height": "-12", "size.0": "8", "size.1": "x"}, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-size"
    at.send(form, {"at": "3", "height": "-12", "size.0": "8", "size.1": "6 1/2"})
    hollow = {"at": "3", "height": "-12", "size": ["8", "6 1/2"]}
    assert at.desk.book.head("job", job).document["wall"][1]["hollow"] == [hollow]
    gone = at.open(f"/jobs/{job}/walls/B/hollow/0").all("form")[1]
    at.send(gone)
    assert at.desk.book.head("job", job).document["wall"][1]["hollow"] == []


def test_a_wall_that_is_not_there_has_no_page(at: Browser) -> None:
    job = begun(at)
    at.open(f"/jobs/{job}/walls/Z", status=404)
    values = {"seen": "1", "key": "k", "name": "Z", "way": "left"}
    for address in ("Z", "Z/move", "Z/take-out"):
        at.post(f"/jobs/{job}/walls/{address}", values, status=404)
    assert spot(at.open(f"/jobs/{job}/measure"), "L", "width up high").attributes["href"]
