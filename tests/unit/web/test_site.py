"""Ready, and cut and set: ticks are kept, what hangs stays, the rest follows what is found."""

import pytest
from tests.unit.web.test_jobs import begun
from tests.unit.web.test_planned import opened
from tests.web_pages import Browser, Element

from gaugerod.web.desk import replanned


def states(page: Element) -> dict[str, str]:
    rows = page.one("ol", class_="pieces").all("li")
    return {row.one("b").text: row.attributes["class"] for row in rows}


def tick(at: Browser, page: Element, step: str) -> Element:
    form = page.one("form", class_="ticks")
    return at.send(form, press=form.one("button", value=step))


@pytest.mark.parametrize("page", ["ready", "cut", "cut/B1-1", "found", "hand-over"])
def test_a_job_without_readings_says_what_comes_first(at: Browser, page: str) -> None:
    found = at.open(f"/jobs/{begun(at)}/{page}")
    assert "There is no reading" in found.one("p", class_="wrong").text


def test_a_gate_is_ticked_and_stays_ticked(at: Browser) -> None:
    job = opened(at)
    at.post("/name", {"by": "Setter"})
    form = at.open(f"/jobs/{job}/ready").one("form")
    (line,) = (label for label in form.all("label", class_="check") if "Tub firm" in label.text)
    name = line.one("input").attributes["name"]
    page = at.send(form, {name: "yes", "lot.modules": "L-77 <b>"})
    box = page.one("input", name=name)
    assert "checked" in box.attributes
    (line,) = (one for one in page.all("label", class_="check") if one.all("input", name=name))
    assert line.one("small").text == "Setter"
    assert page.one("input", name="lot.modules").attributes["value"] == "L-77 <b>"
    form = page.one("form")
    values = {n: v for n, v in _filled(form).items() if n != name}
    page = at.post(f"/jobs/{job}/ready", values)
    assert "checked" not in page.one("input", name=name).attributes
    assert at.desk.book.head("job", job).n == 3


def _filled(form: Element) -> dict[str, str]:
    return {
        one.attributes["name"]: one.attributes.get("value", "")
        for one in form.all("input")
        if one.attributes.get("type") != "checkbox" or "checked" in one.attributes
    }


def test_a_card_shows_the_figures_of_the_packet(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/cut")
    first = page.one("a", class_="hand")
    assert set(states(page).values()) == {"open"}
    card = at.open(first.attributes["href"])
    assert card.one("h1").text == "L1-1"
    assert len(card.all("div", class_="markline")) >= 2
    assert len(card.all("svg", class_="drawing")) == 1
    whole = at.open(f"/jobs/{job}/cut/L3-1")
    assert whole.one("p", class_="source").text.startswith("A whole module")
    shed = at.open(f"/jobs/{job}/cut/R2-2")
    assert shed.one("p", class_="wrong").text == "Tongue off at the right."
    at.open(f"/jobs/{job}/cut/Z9-9", status=404)


def test_what_is_ticked_is_kept_and_can_be_taken_back(at: Browser) -> None:
    job = opened(at)
    address = f"/jobs/{job}/cut/L1-1"
    page = tick(at, at.open(address), "marked")
    assert page.one("button", value="marked").attributes["aria-pressed"] == "true"
    assert states(at.open(f"/jobs/{job}/cut"))["L1-1"] == "begun"
    page = tick(at, at.open(address), "cut")
    assert states(at.open(f"/jobs/{job}/cut"))["L1-1"] == "cut"
    page = tick(at, at.open(address), "set")
    assert page.one("h1").text == "L1-2"
    page = at.open(f"/jobs/{job}/cut")
    assert states(page)["L1-1"] == "set"
    assert "1 of" in page.text
    revision = at.desk.book.head("job", job)
    assert revision.day["day"] == [{"on": "2026-03-05", "cut": ["L1-1"], "set": ["L1-1"]}]
    assert replanned(at.desk, revision).plan.done == {"L1-1"}
    for step in ("set", "cut", "marked"):
        page = tick(at, at.open(address), step)
        assert page.one("button", value=step).attributes["aria-pressed"] == "false"
    assert "day" not in at.desk.book.head("job", job).day
    values = {"seen": "1", "key": "k", "step": "eaten"}
    at.post(address, values, status=404)


def test_the_rest_follows_what_is_found(at: Browser) -> None:
    """Two of three pieces of a course hang; the gap left is an eighth less than planned."""
    job = opened(at)
    for tag in ("B1-1", "B1-2"):
        tick(at, at.open(f"/jobs/{job}/cut/{tag}"), "set")
    before = replanned(at.desk, at.desk.book.head("job", job)).plan
    page = at.open(f"/jobs/{job}/found")
    form = next(f for f in page.all("form") if f.all("input", name="side"))
    wrong = at.send(form, {"wall": "B", "course": "1", "side": "right", "reads": "x"}, status=422)
    assert wrong.one("p", class_="wrong").attributes["id"] == "wrong-reads"
    wrong = at.send(form, {"wall": "B", "course": "99", "side": "right", "reads": "10"}, status=422)
    assert wrong.one("p", class_="wrong").attributes["id"] == "wrong-wall"
    planned = next(piece for piece in before.pieces if piece.tag == "B1-3")
    gap = {"wall": "B", "course": "1", "side": "right", "reads": f"{planned.size[0]:.1f} mm"}
    page = at.send(form, gap)
    assert page.one("section", id="told").all("p")
    after = replanned(at.desk, at.desk.book.head("job", job)).plan
    hang = [piece for piece in before.pieces if piece.tag in {"B1-1", "B1-2"}]
    assert [piece for piece in after.pieces if piece.tag in after.done] == hang
    tick(at, at.open(f"/jobs/{job}/cut/B1-3"), "set")
    days = at.desk.book.head("job", job).day["day"]
    assert [sorted(day) for day in days] == [["gap", "on", "set"], ["on", "set"]]


def test_modules_that_broke_are_counted(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/found")
    form = next(f for f in page.all("form") if f.all("input", name="broken"))
    for text in ("", "many", "-1"):
        wrong = at.send(form, {"broken": text}, status=422)
        assert wrong.one("p", class_="wrong").attributes["id"] == "wrong-broken"
    at.post(f"/jobs/{job}/found", {"seen": "1", "key": "k", "what": "mice"}, status=404)
    at.send(form, {"broken": "2"})
    page = at.open(f"/jobs/{job}/found")
    form = next(f for f in page.all("form") if f.all("input", name="broken"))
    at.send(form, {"broken": "3"})
    assert at.desk.book.head("job", job).day["day"] == [{"on": "2026-03-05", "broken": 5}]


def test_what_is_handed_over_is_what_was_done(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/hand-over")
    assert page.one("section", id="lots").all("table") == []
    assert page.one("section", id="days").all("table") == []
    form = at.open(f"/jobs/{job}/ready").one("form")
    at.send(form, {"lot.modules": "L-77"})
    tick(at, at.open(f"/jobs/{job}/cut/L1-1"), "set")
    page = at.open(f"/jobs/{job}/hand-over")
    assert page.one("section", id="lots").one("td").text == "L-77"
    (day,) = page.one("section", id="days").all("tr")
    assert (day.one("th").text, day.one("td").text) == ("2026-03-05", "L1-1")
    plan = replanned(at.desk, at.desk.book.head("job", job)).plan
    assert page.one("p", class_="wrong").text.endswith(f"{len(plan.pieces) - 1}.")
    assert len(page.one("section", id="care").all("dt")) > 5
