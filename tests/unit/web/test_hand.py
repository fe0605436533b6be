"""Set out by hand: what is shown where a layout is held, and what holding it there writes."""

from collections.abc import Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from threading import Event
from typing import Any

import pytest
from tests.unit.web.test_planned import chosen, opened
from tests.web_pages import MORNING, Browser, Element

from gaugerod.app.job_book import Draft


def by_hand(page: Element) -> Element:
    return page.one("section", id="by-hand")


def asked(
    at: Browser, job: str, sent: Mapping[str, str], *, status: int = 200, seen: int = 1
) -> Any:  # noqa: ANN401  (JSON)
    reply = at.client.get(f"/jobs/{job}/set-out/try", params={"seen": str(seen), **sent})
    assert reply.status_code == status, reply.text
    return reply.json()


def figure(section: Element, name: str) -> str:
    return section.one("dd", **{"data-text": name}).text


def holding(section: Element) -> Element:
    return next(f for f in section.all("form") if f.attributes["action"].endswith("/hold"))


def written(at: Browser, job: str, **choices: object) -> None:
    """Change choices of a job behind the pages."""
    head = at.desk.book.head("job", job)
    document = {**head.document, "choices": {**head.document["choices"], **choices}}
    at.desk.book.write(
        Draft(id=job, seen=head.n, key=f"k{head.n}", by="", at=MORNING, document=document)
    )


def test_the_page_shows_the_layout_that_is_planned(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/set-out")
    planned = page.one("article", class_="chosen")
    hand = by_hand(page)
    assert figure(hand, "price") == planned.one("span", class_="price").text
    shown = {name: figure(hand, name) for name in ("cuts", "modules", "smallest")}
    assert list(shown.values()) == [one.text for one in planned.all("dd")]
    assert [one.attributes["data-wall"] for one in hand.all("figure")] == ["L", "B", "R"]
    assert not hand.all("p", class_="wrong")
    assert hand.one("script").attributes == {"type": "module", "src": "/static/hand.js"}
    assert at.client.get("/static/hand.js").headers["content-type"].startswith("text/javascript")
    # The moving picture is this one, moved: no wall without its field, its modules and its lines.
    for figure_of in hand.all("figure"):
        assert len(figure_of.all("clippath")) == 1
        assert figure_of.all("pattern", **{"data-cells": figure_of.attributes["data-wall"]})
        assert len(figure_of.all("path", class_="line")) == 2


def test_a_drag_is_answered_with_what_the_page_shows_there(at: Browser) -> None:
    job = opened(at)
    place = {"first": "8 1/2", "phase.B": '18"'}
    answer = asked(at, job, {**place, "proven": ""})
    section = by_hand(at.open(f"/jobs/{job}/set-out?first=8+1%2F2&phase.B=18%22"))
    assert answer["first"] == pytest.approx(8.5 * 25.4)
    assert answer["phases"]["B"] == pytest.approx(18 * 25.4)
    for name in ("first", "price", "cuts", "modules", "cut-pieces", "smallest"):
        assert answer["texts"][name] == figure(section, name)
    assert answer["texts"]["first"] == '8 1/2"'
    assert answer["may"]
    # At once the modules are planned, not yet proven fewest; no figure claims more.
    moving = asked(at, job, place)
    assert moving["proven"] or moving["texts"]["modules"].startswith("at most ")
    assert moving["texts"]["cut-pieces"] == answer["texts"]["cut-pieces"]
    assert moving["findings"] == answer["findings"]
    assert moving["paths"] == answer["paths"]


@contextmanager
def others_served(at: Browser) -> Iterator[None]:
    """Hold the bench of what moves, as a thread does that works an answer out for another."""
    holds, go = Event(), Event()

    def hold() -> None:
        with at.desk.hands.bench:
            holds.set()
            assert go.wait(60)

    with ThreadPoolExecutor(1) as pool:
        held = pool.submit(hold)
        try:
            assert holds.wait(30)
            yield
        finally:
            go.set()
            held.result(30)


def test_a_moving_finger_does_not_wait_for_others(at: Browser) -> None:
    job = opened(at)
    known, place, low = ({"first": first} for first in ("8 1/4", "8 1/2", "1 in"))
    before = asked(at, job, known)
    assert before["whole"]
    with others_served(at):
        partial, broken = asked(at, job, place), asked(at, job, low)
        assert asked(at, job, known) == before
    assert (partial["whole"], partial["may"]) == (False, True)
    assert (broken["whole"], broken["may"]) == (False, False)
    # No figure that was not worked out is given, nor what stood there before.
    names = {"first"} | {f"{what}.{wall}" for what in ("ends", "phase") for wall in "LBR"}
    assert partial["texts"].keys() == names
    assert not {"findings", "paths", "marks", "proven"} & partial.keys()
    # At rest all of it is there, and no other than it was said to be.
    for glanced, at_place in ((partial, place), (broken, low)):
        whole = asked(at, job, {**at_place, "whole": ""})
        assert whole["whole"]
        assert whole["texts"]["price"]
        assert {name: whole["texts"][name] for name in names} == glanced["texts"]
        for name in ("first", "line", "phases", "broken", "may"):
            assert whole[name] == glanced[name]


def test_a_finger_at_rest_waits_for_its_turn(at: Browser) -> None:
    job = opened(at)
    asked(at, job, {})
    with ThreadPoolExecutor(1) as pool:
        with others_served(at):
            waits = pool.submit(asked, at, job, {"first": "8 1/2", "whole": ""})
            with pytest.raises(TimeoutError):
                waits.result(0.3)
        assert waits.result(60)["whole"]


def test_what_breaks_a_limit_is_told_and_not_pinned(at: Browser) -> None:
    job = opened(at)
    answer = asked(at, job, {"first": "1 in"})
    assert not answer["may"]
    assert {said[:6] for said in answer["broken"]} == {"Wall L", "Wall B", "Wall R"}
    page = at.open(f"/jobs/{job}/set-out?first=1+in")
    form = holding(by_hand(page))
    assert "disabled" in form.one("button", **{"data-pin": ""}).attributes
    refused = at.send(form, status=422)
    assert "can't be pinned" in refused.one("p", class_="wrong").text
    assert at.desk.book.head("job", job).n == 1


def test_a_place_is_pinned_as_a_revision_and_taken_back(at: Browser) -> None:
    job = opened(at)
    form = holding(by_hand(at.open(f"/jobs/{job}/set-out")))
    page = at.send(form, {"first": "8 1/2", "phase.B": "18"})
    choices = at.desk.book.head("job", job).document["choices"]
    assert choices["first_height"] == "215.900000 mm"
    assert choices["phase"]["B"] == "457.200000 mm"
    assert set(choices["phase"]) == {"L", "B", "R"}
    assert "centre" not in choices
    planned = page.one("article", class_="chosen").one("span", class_="price").text
    assert figure(by_hand(page), "price") == planned
    assert at.open(f"/jobs/{job}/price").one("p", class_="figure").text == planned
    history = at.open(f"/jobs/{job}/history")
    assert any('first course 8 1/2"' in li.text for li in history.all("li"))
    back = next(f for f in history.all("form") if f.all("button", name="to", value="1"))
    at.send(back, press=back.one("button"))
    assert "phase" not in at.desk.book.head("job", job).document["choices"]


def test_a_form_that_was_not_touched_holds_the_layout_that_is_planned(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/set-out")
    before = page.one("article", id=chosen(page)).all("p")[0].text
    page = at.send(holding(by_hand(page)))
    # Not what a sixteenth makes of it: where the search put it.
    assert page.one("article", class_="chosen").all("p")[0].text == before
    assert page.all("button", value="free")


def test_two_who_pin_at_once_see_both(at: Browser) -> None:
    job = opened(at)
    form = holding(by_hand(at.open(f"/jobs/{job}/set-out")))
    at.send(form, {"first": "8 1/2"})
    assert at.open(f"/jobs/{job}/set-out").all("form")
    other = holding(by_hand(at.open(f"/jobs/{job}/set-out")))
    other.one("input", name="seen").attributes["value"] = "1"
    conflict = at.send(other, {"first": "8 1/4"}, status=409)
    assert any("first_height" in row.text for row in conflict.all("tr"))


@pytest.mark.parametrize(
    ("sent", "why"),
    [
        ({"first": "soon"}, "soon"),
        ({"first": "0"}, "at most a module high"),
        ({"first": "13"}, "at most a module high"),
        ({"phase.B": "400 ft"}, "No wall is as long"),
    ],
)
def test_what_is_no_place_is_said(at: Browser, sent: dict[str, str], why: str) -> None:
    job = opened(at)
    assert why in asked(at, job, sent, status=422)["said"]


def test_places_worth_a_stop_are_offered(at: Browser) -> None:
    job = opened(at)
    hand = by_hand(at.open(f"/jobs/{job}/set-out"))
    offers = hand.one("ul", **{"data-marks": "first"}).all("a")
    whole = next(one for one in offers if "the tallest a module gives there" in one.text)
    # 12 in less the half inch that the groove takes.
    assert '11 1/2"' in whole.text
    again = by_hand(at.open(whole.attributes["href"].partition("#")[0]))
    assert figure(again, "first") == '11 1/2"'
    joints = [one.text for one in hand.one("ul", **{"data-marks": "B"}).all("a")]
    assert any("a joint on the centre line" in text for text in joints)


def test_courses_that_run_on_move_on_all_walls(at: Browser) -> None:
    job = opened(at)
    written(at, job, corners="run on", centre={})
    hand = by_hand(at.open(f"/jobs/{job}/set-out"))
    assert "data-wraps" in hand.attributes
    before = asked(at, job, {}, seen=2)["phases"]
    after = asked(at, job, {"phase.B": f"{before['B'] + 10} mm"}, seen=2)["phases"]
    assert {name: round(after[name] - x, 3) for name, x in before.items()} == dict.fromkeys(
        before, 10.0
    )


def test_a_pattern_without_courses_is_not_moved(at: Browser) -> None:
    job = opened(at, 1)
    written(at, job, bond="diagonal", finish="line")
    assert not at.open(f"/jobs/{job}/set-out").all("section", id="by-hand")
    assert "no level courses" in asked(at, job, {}, seen=2, status=422)["said"]
