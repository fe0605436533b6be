"""Jobs that plan for long, in the real server: told, stopped, ended, and in nobody's way.

The hard job leaves open how modules hang, their bond and where they stop: every combination is laid
out and cut up, which takes most of a minute on a fast computer.
"""

import time
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import httpx2
import pytest
from tests.pages_server import Person, Sent, Serving, children_of, running, serving
from tests.web_pages import Element, read_page

HARD = """
format = 1
name = "{name}"
unit = "in"
survey = {{ surface = "backer" }}
choices = {{ material = "keyed-24x12", turn = "any", bond = "any", finish = "any" }}
calendar = {{ start = 2026-03-02 }}
"""
WALL = """
[[wall]]
name = "{name}"
readings = [
  {{ kind = "width", at = -28, reads = "{width}" }},
  {{ kind = "width", at = 6, reads = "{width}" }},
  {{ kind = "width", at = 80, reads = "{width}" }},
  {{ kind = "deck", at = 0, reads = "30" }},
  {{ kind = "deck", at = {width}, reads = "30" }},
  {{ kind = "ceiling", at = 0, reads = "90" }},
  {{ kind = "ceiling", at = {width}, reads = "90" }},
]
"""


def hard(person: Person, name: str) -> str:
    """Take a job in that plans for long; return its address."""
    walls = (("L", 32), ("B", 230), ("R", 32))
    source = HARD.format(name=name) + "".join(WALL.format(name=n, width=w) for n, w in walls)
    return taken_in(person, name, source)


def many_readings(name: str) -> str:
    """A wall that was measured at sixty heights."""
    widths = "".join(
        f'  {{ kind = "width", at = {i - 20}, reads = "{60 + i % 7 / 8}" }},\n' for i in range(60)
    )
    return WALL.format(name=name, width=60).replace("readings = [\n", f"readings = [\n{widths}")


def taken_in(person: Person, name: str, source: str) -> str:
    """Take a job file in; return its address."""
    answer = person.client.post(
        "/import",
        data={"key": name, "seen": "0"},
        files={"file": ("hard.toml", source.encode())},
        headers={"Origin": person.address},
    )
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def easy(person: Person) -> str:
    """Take the invented job in that is planned in a moment; return its address."""
    page = person.open("/")
    form = next(f for f in page.all("form", action="/import") if f.all("button", name="demo"))
    demo = form.one("button").attributes["value"]
    return person.send(person.fill(form, {}, demo)).headers["location"]


def ask(person: Person, path: str) -> tuple[httpx2.Response, float]:
    """Open a page; return it and how long it took, in seconds."""
    start = time.monotonic()
    answer = person.client.get(path)
    return answer, time.monotonic() - start


def until(person: Person, path: str, *, most: float = 120) -> httpx2.Response:
    """Open a page again and again, as a browser does, while it says that it is being planned."""
    end = time.monotonic() + most
    while (answer := person.client.get(path)).status_code == 202:
        assert answer.headers["refresh"] == "2"
        assert time.monotonic() < end
    return answer


def press(person: Person, page: Element, button: str) -> httpx2.Response:
    (form,) = (f for f in page.all("form") if f.all("button", value=button))
    return person.send(person.fill(form, {}, button))


@pytest.fixture
def pages(tmp_path: Path) -> Iterator[Serving]:
    with serving("--book", tmp_path / "book", "--within", "600") as made:
        yield made


@pytest.fixture
def person(pages: Serving) -> Iterator[Person]:
    with closing(Person(pages.address)) as made:
        yield made


def test_a_job_that_plans_for_long_is_told_stopped_and_in_nobodys_way(person: Person) -> None:
    job, other = hard(person, "hard"), easy(person)
    answer, _ = ask(person, f"{job}/price")
    assert answer.status_code == 202
    page = read_page(answer.text)
    assert "after 600 s it is stopped" in page.one("main").text
    # Another plan goes on beside it, and is shown.
    assert until(person, f"{other}/price").status_code == 200
    # The same job, asked for by many, is planned once; the pages of others stay quick meanwhile.
    with ThreadPoolExecutor(12) as pool:
        many = [pool.submit(ask, person, f"{job}/order") for _ in range(12)]
        times = [ask(person, path)[1] for path in ("/", f"{job}/measure", f"{other}/price") * 3]
        assert {one.result()[0].status_code for one in many} == {202}
    assert sorted(times)[len(times) // 2] < 2
    answer = press(person, page, "stop")
    assert answer.headers["location"] == f"{job}/price"
    for path in ("price", "order"):
        answer, _ = ask(person, f"{job}/{path}")
        assert answer.status_code == 503
        stopped = read_page(answer.text)
        assert "Somebody stopped it" in stopped.one("p", class_="wrong").text
    press(person, stopped, "again")
    assert ask(person, f"{job}/order")[0].status_code == 202


def test_what_overruns_is_ended_and_the_page_says_what_would_do(tmp_path: Path) -> None:
    with (
        serving("--book", tmp_path / "book", "--within", "3") as pages,
        closing(Person(pages.address)) as person,
    ):
        job = hard(person, "hard")
        answer = until(person, f"{job}/set-out")
        assert answer.status_code == 503
        line = read_page(answer.text).one("p", class_="wrong").text
        assert "took longer than 3 s" in line
        assert "--within" in line
        # A form that needs the plan says that nothing was saved, and can be sent again.
        values = {"seen": "1", "key": "k", "option": "A"}
        answer = person.send(Sent(action=f"{job}/set-out", values=values))
        assert answer.status_code == 503
        page = read_page(answer.text)
        assert "Nothing of what you sent is saved yet" in page.one("main").text
        again = person.fill(page.one("form"), {})
        assert (again.action, dict(again.values)) == (f"{job}/set-out", values)
        # Another job finds the places free.
        assert ask(person, f"{job}/measure")[0].status_code == 200


def test_readings_that_take_long_keep_nobody_from_measuring(person: Person) -> None:
    names = [chr(ord("A") + i) for i in range(24)]
    source = HARD.format(name="long") + "".join(many_readings(name) for name in names)
    job, other = taken_in(person, "long", source), easy(person)
    answer, _ = ask(person, f"{job}/measure")
    assert answer.status_code == 200
    said = read_page(answer.text).all("p", class_="wrong")
    assert "still being worked out" in said[0].text
    assert ask(person, f"{job}/walls/A/readings/0")[0].status_code == 200
    answer = person.client.get(f"{other}/about")
    assert answer.status_code == 200


@pytest.mark.parametrize("how", ["interrupt", "kill"])
def test_nothing_is_left_running(person: Person, pages: Serving, how: str) -> None:
    children = children_of(pages.process.pid)
    assert len(children) == 3
    for name in ("one", "two"):
        assert ask(person, f"{hard(person, name)}/price")[0].status_code == 202
    if how == "interrupt":
        assert pages.interrupt() in {0, 130}
        assert not any(running(child) for child in children)
    else:
        pages.kill()
        end = time.monotonic() + 60
        while any(running(child) for child in children):
            assert time.monotonic() < end
            time.sleep(0.1)
