"""Pages while a plan is made: told, sent again, stopped and begun again, without a script."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from threading import Event

import pytest
from starlette.testclient import TestClient
from tests.unit.web.test_planned import PAGES, opened
from tests.unit.web.test_price_figures import otherwise
from tests.web_pages import HERE, Browser, browser

from gaugerod.web.app import make_app
from gaugerod.web.bench.bench import Bench
from gaugerod.web.bench.parcel import attempt, packed, unpacked


class Hand:
    """A worker that waits to be told to go on, or is killed."""

    def __init__(self, go: Event) -> None:
        self.go, self.killed = go, False

    def do(self, parcel: bytes) -> bytes | None:
        assert self.go.wait(30)
        if self.killed:
            self.go.clear()
            return None
        return packed(attempt(unpacked(parcel)))

    def kill(self) -> None:
        self.killed = True
        self.go.set()

    def close(self) -> None:
        """Nothing is left of it."""


@pytest.fixture
def go() -> Event:
    """Set, it lets the only worker do what it was asked for."""
    return Event()


@pytest.fixture
def busy(tmp_path: Path, go: Event) -> Iterator[Browser]:
    """A browser at pages whose plans are made elsewhere, when `go` is set."""
    first = browser(tmp_path)
    bench = Bench(within=90, patience=0.05, workers=1, start=lambda _: Hand(go))
    desk = replace(first.desk, bench=bench)
    client = TestClient(make_app(desk), base_url=HERE)
    with closing(first.desk.book), closing(bench), first.client, client:
        yield Browser(client, desk)


def done(at: Browser, go: Event, address: str) -> None:
    """Let the worker go on until a page is there."""
    go.set()
    while at.client.get(address).status_code == 202:
        Event().wait(0.05)
    go.clear()


@pytest.mark.parametrize("page", [*PAGES, "ready", "cut", "hand-over", "found"])
def test_a_page_whose_plan_is_made_says_so_and_looks_again(busy: Browser, page: str) -> None:
    job = opened(busy)
    answer = busy.client.get(f"/jobs/{job}/{page}")
    assert answer.status_code == 202
    assert answer.headers["refresh"] == "2"
    said = busy.open(f"/jobs/{job}/{page}", status=202)
    assert said.one("h1").text == "Being planned"
    assert "after 90 s it is stopped" in said.one("main").text
    tabs = said.all("a", **{"aria-current": "page"})
    assert [tab.text for tab in tabs] != []
    busy.open(f"/jobs/{job}/measure")


def test_a_paper_is_given_when_its_plan_is_there(busy: Browser, go: Event) -> None:
    job = opened(busy)
    address = f"/jobs/{job}/papers/order.csv"
    assert busy.client.get(address).headers["refresh"] == "2"
    done(busy, go, address)
    assert busy.client.get(address).headers["content-type"].startswith("text/csv")
    busy.open(f"/jobs/{job}/price").one("p", class_="figure")


def test_a_second_plan_waits_for_its_turn(busy: Browser) -> None:
    first = opened(busy)
    form = busy.open("/").all("form", action="/import")[-1]
    busy.send(form, press=form.one("button"))
    (second,) = {job.id for job in busy.desk.book.contents("job")} - {first}
    busy.open(f"/jobs/{first}/price", status=202)
    page = busy.open(f"/jobs/{second}/set-out", status=202)
    assert "1 to go" in page.one("main").text


def test_a_plan_is_stopped_and_begun_again(busy: Browser, go: Event) -> None:
    job = opened(busy)
    address = f"/jobs/{job}/order"
    page = busy.open(address, status=202)
    form = page.one("form", action=f"/jobs/{job}/planning")
    page = busy.send(form, press=form.one("button"), status=503)
    assert busy.address == address
    assert "Somebody stopped it" in page.one("p", class_="wrong").text
    assert "refresh" not in busy.client.get(address).headers
    form = page.one("form", action=f"/jobs/{job}/planning")
    busy.send(form, press=form.one("button"), status=202)
    done(busy, go, address)
    busy.open(address).one("table", class_="lines")


def test_what_follows_a_finger_is_said_as_data_too(busy: Browser, go: Event) -> None:
    job = opened(busy)
    address = f"/jobs/{job}/set-out/try?seen=1"
    answer = busy.client.get(address)
    assert answer.status_code == 202
    assert "It is being planned" in answer.json()["said"]
    form = busy.open(f"/jobs/{job}/set-out", status=202).one("form", action=f"/jobs/{job}/planning")
    busy.send(form, press=form.one("button"), status=503)
    answer = busy.client.get(address)
    assert answer.status_code == 503
    assert "Somebody stopped it" in answer.json()["said"]
    again = busy.open(f"/jobs/{job}/set-out", status=503).one(
        "form", action=f"/jobs/{job}/planning"
    )
    busy.send(again, press=again.one("button"), status=202)
    done(busy, go, address)
    assert busy.client.get(address).json()["whole"]


def test_a_figure_that_waits_for_a_plan_is_not_lost(busy: Browser, go: Event) -> None:
    job = opened(busy)
    address = f"/jobs/{job}/price"
    done(busy, go, address)
    form = otherwise(busy.open(address), "figure", "contingency")
    page = busy.send(form, {"contingency": "7"}, status=503)
    assert "Nothing of what you sent is saved yet" in page.one("main").text
    assert busy.desk.book.head("job", job).n == 1
    assert (
        page.one("form", action=address).one("input", name="contingency").attributes["value"] == "7"
    )


def test_a_form_that_waits_for_a_plan_is_not_lost(busy: Browser, go: Event) -> None:
    job = opened(busy)
    done(busy, go, f"/jobs/{job}/ready")
    form = busy.open(f"/jobs/{job}/found").all("form")[-1]
    page = busy.send(form, {"broken": "1"}, status=503)
    assert "Nothing of what you sent is saved yet" in page.one("main").text
    assert busy.desk.book.head("job", job).n == 1
    again = page.one("form", action=f"/jobs/{job}/found")
    go.set()
    answer = 503
    while answer == 503:
        values = {one.attributes["name"]: one.attributes["value"] for one in again.all("input")}
        answer = busy.client.post(
            again.attributes["action"], data=values, headers={"Origin": HERE}
        ).status_code
    assert answer in {200, 202}
    assert busy.desk.book.head("job", job).day["day"][0]["broken"] == 1
    assert busy.desk.book.head("job", job).n == 2


def test_a_form_whose_plan_was_stopped_has_it_begun_again(busy: Browser) -> None:
    job = opened(busy)
    page = busy.open(f"/jobs/{job}/set-out", status=202)
    stop = page.one("form", action=f"/jobs/{job}/planning")
    busy.send(stop, press=stop.one("button"), status=503)
    values = {"seen": "1", "key": "k", "option": "A"}
    page = busy.post(f"/jobs/{job}/set-out", values, status=503)
    assert page.one("h1").text == "Not planned"
    page = busy.send(page.one("form", action=f"/jobs/{job}/set-out"), status=503)
    assert page.one("h1").text == "Being planned"


@pytest.mark.parametrize("back", ["https://elsewhere/", "//elsewhere/", "/jobs/another/price", ""])
def test_nobody_is_sent_elsewhere(busy: Browser, back: str) -> None:
    job = opened(busy)
    values = {"press": "stop", "ticket": "none", "back": back}
    busy.post(f"/jobs/{job}/planning", values)
    assert busy.address == f"/jobs/{job}/measure"
    busy.post(f"/jobs/{job}/planning", {**values, "press": "burn"}, status=404)


def test_without_a_bench_there_is_nothing_to_stop(at: Browser) -> None:
    job = opened(at)
    at.post(f"/jobs/{job}/planning", {"press": "stop", "ticket": "x", "back": f"/jobs/{job}/order"})
    assert at.address == f"/jobs/{job}/order"
