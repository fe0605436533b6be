"""The pad: keys that work without script, digits that a script makes tappable, the next reading.

Strong and shy are a thirty-second more or less than the mark (common practice, no source).
"""

import pytest
from tests.unit.web.test_jobs import begun
from tests.unit.web.test_measure import readings, spot
from tests.web_pages import Browser, Element

from gaugerod.web.sketch import next_spot

WIDTH = "walls/B/readings/new?kind=width&at=6"


def entry(at: Browser, job: str, where: str = WIDTH) -> Element:
    return at.open(f"/jobs/{job}/{where}")


def keys(page: Element, name: str) -> dict[str, str]:
    labels = [one for one in page.all("label", class_="key") if one.all("input", name=name)]
    return {one.one("input").attributes["value"]: one.one("span").text for one in labels}


def test_sixteenths_are_keys_as_a_tape_says_them(at: Browser) -> None:
    page = entry(at, begun(at))
    parts = keys(page, "reads.part")
    assert list(parts) == [str(part) for part in range(16)]
    assert [parts[key] for key in ("0", "1", "2", "4", "8", "12", "13")] == [
        "0",
        "1/16",
        "1/8",
        "1/4",
        "1/2",
        "3/4",
        "13/16",
    ]
    assert list(keys(page, "reads.strength")) == ["", "strong", "shy"]
    assert page.one("input", name="reads.whole").attributes["inputmode"] == "numeric"


def test_what_cannot_be_below_nought_has_no_minus(at: Browser) -> None:
    job = begun(at)
    assert entry(at, job).all("input", name="reads.minus") == []
    lean = entry(at, job, "walls/B/readings/new?kind=lean&edge=left")
    assert lean.one("input", name="reads.minus").attributes["type"] == "checkbox"


def test_strong_and_shy_are_kept_as_words_and_shown_as_keys(at: Browser) -> None:
    job = begun(at)
    form = entry(at, job).one("form")
    at.send(form, {"reads.whole": "59", "reads.part": "13", "reads.strength": "strong"})
    assert readings(at, job)[0]["reads"] == "59 13/16 strong"
    form = entry(at, job, "walls/B/readings/0").all("form")[0]
    (key,) = (i for i in form.all("input", name="reads.strength") if "checked" in i.attributes)
    assert key.attributes["value"] == "strong"
    at.send(form, {"reads.strength": ""})
    assert readings(at, job)[0]["reads"] == "59 13/16"


@pytest.mark.parametrize("fill", [{"reads.strength": "strong"}, {"reads.part": "0"}])
def test_a_strength_without_a_mark_is_no_reading(at: Browser, fill: dict[str, str]) -> None:
    job = begun(at)
    page = at.send(entry(at, job).one("form"), fill, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == "wrong-reads"
    assert readings(at, job) == []


def test_digits_are_there_for_a_script_that_is_our_own(at: Browser) -> None:
    page = entry(at, begun(at))
    (script,) = page.all("script")
    assert (script.attributes["type"], script.inside) == ("module", [])
    answer = at.client.get(script.attributes["src"])
    assert answer.status_code == 200
    assert "javascript" in answer.headers["content-type"]
    buttons = page.one("template", id="pad").all("button")
    pressed = {one.attributes["data-key"] for one in buttons}
    assert set("0123456789./- ") | {"back"} == pressed
    assert {one.attributes["type"] for one in buttons} == {"button"}
    boxes = {
        i.attributes["name"]: i.attributes["data-pad"]
        for i in page.all("input")
        if "data-pad" in i.attributes
    }
    assert boxes["reads.whole"] == "whole"
    assert boxes["at"] == "length"


@pytest.mark.parametrize(
    ("unit", "kind", "pad"),
    [("mm", "width", "metric"), ("cm", "drain", "metric"), ("mm", "depth", "signed")],
)
def test_metric_digits_have_one_box(at: Browser, unit: str, kind: str, pad: str) -> None:
    at.send(at.open("/new").one("form"), {"name": "Bath", "unit": unit})
    (job,) = (heading.id for heading in at.desk.book.contents("job"))
    page = entry(at, job, f"walls/B/readings/new?kind={kind}")
    box = page.one("input", name="reads")
    assert (box.attributes["data-pad"], box.attributes["inputmode"]) == (pad, "decimal")
    assert page.all("input", name="reads.whole") == []


def save_next(at: Browser, page: Element, fill: dict[str, str]) -> Element:
    form = page.one("form")
    return at.send(form, fill, press=form.one("button", name="then"))


def test_the_next_reading_opens_after_one_is_saved(at: Browser) -> None:
    job = begun(at)
    first = spot(at.open(f"/jobs/{job}/measure"), "B", "width up high")
    page = at.open(first.attributes["href"])
    for height in ("40", "6", "-28"):
        assert page.one("input", name="at").attributes["value"] == height
        page = save_next(at, page, {"reads.whole": "60"})
        assert page.one("p", class_="chip").text == "✓ Wall B: width entered."
    for kind in ("down to the deck", "up to the ceiling"):
        for station in ("0", "60"):
            assert page.one("h1").text == f"Wall B: {kind}"
            assert page.one("input", name="at").attributes["value"] == station
            page = save_next(at, page, {"reads.whole": "30"})
    assert page.one("h1").text == "Wall R: width"
    assert len(readings(at, job)) == 7


def test_after_the_last_reading_the_survey_speaks(at: Browser) -> None:
    job = begun(at)
    page = at.open(at.open(f"/jobs/{job}/measure").one("a", class_="hand").attributes["href"])
    for _ in range(21):
        assert page.all("section", id="said") == []
        page = save_next(at, page, {"reads.whole": "30"})
    assert page.all("section", id="said")
    assert next_spot(job, at.desk.book.head("job", job).document, "R") is None


def test_what_is_mended_leads_back_to_its_wall(at: Browser) -> None:
    job = begun(at)
    at.send(entry(at, job).one("form"), {"reads.whole": "60"})
    form = entry(at, job, "walls/B/readings/0").all("form")[0]
    assert form.all("button", name="then") == []
    assert at.send(form).one("section", id="said").attributes["id"] == "said"


def test_what_somebody_else_saved_is_not_told_as_saved_here(at: Browser) -> None:
    job = begun(at)
    save_next(at, entry(at, job), {"reads.whole": "60"})
    page = entry(at, job, f"{WIDTH}&saved=1")
    assert page.all("p", class_="chip") == []


def test_a_reading_sent_twice_leads_on_and_is_one(at: Browser) -> None:
    job = begun(at)
    page = entry(at, job)
    save_next(at, page, {"reads.whole": "60"})
    save_next(at, page, {"reads.whole": "60"})
    assert len(readings(at, job)) == 1
