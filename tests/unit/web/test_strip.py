"""The days on every page of a job; no page waits for them."""

import pytest
from tests.unit.web.small_job import small
from tests.unit.web.test_jobs import begun
from tests.web_pages import Browser, Element

from gaugerod.web.desk import plan_at_hand

EARLY = ("about", "measure", "set-out")


def stops(page: Element) -> list[str]:
    return [stop.text for stop in page.one("ol", class_="strip").all("li")]


@pytest.mark.parametrize("name", EARLY)
def test_before_a_plan_is_made_it_says_so_and_makes_none(at: Browser, name: str) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/{name}")
    assert "not worked out" in page.one("p", class_="strip-none").text
    assert not page.all("ol", class_="strip")
    assert plan_at_hand(at.desk, at.desk.book.head("job", job)) is None


def test_a_job_without_readings_has_a_plain_strip(at: Browser) -> None:
    page = at.open(f"/jobs/{begun(at)}/measure")
    assert page.one("p", class_="strip-none").one("a").text == "Work them out"


def test_once_a_plan_is_made_every_page_has_its_days(at: Browser) -> None:
    job = small(at)
    days = stops(at.open(f"/jobs/{job}/price"))
    assert len(days) > 3
    for name in (*EARLY, "cut/B1-1"):
        assert stops(at.open(f"/jobs/{job}/{name}")) == days
    form = at.open(f"/jobs/{job}/about").one("form")
    page = at.send(form, {"calendar.start": "2026-05-11"})
    link = page.one("p", class_="strip-none").one("a").attributes["href"]
    assert stops(at.open(link)) != days


def test_days_on_site_do_not_take_the_strip_away(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/cut/B1-1")
    days = stops(page)
    ticks = page.one("form", class_="ticks")
    at.send(ticks, press=ticks.one("button", value="set"))
    assert stops(at.open(f"/jobs/{job}/measure")) == days
