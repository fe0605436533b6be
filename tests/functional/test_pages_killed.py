"""What a page said was saved is there, whole, after the server was killed over its work.

Three people write at once, through the forms of the pages, until the server is killed as `kill -9`
does it. What must be there follows from what they were told, and not from the book.
"""

import time
from collections.abc import Callable, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path
from random import Random
from threading import Lock
from typing import Any

import httpx2
import pytest
from tests.pages_server import Person, Sent, Serving, serving
from tests.postgres import Server, server

from gaugerod.store.book.book import Book
from gaugerod.store.book.connect import reading
from gaugerod.store.book.opening import open_book
from gaugerod.store.book.soundness import look_over

WRITES = 500
PEOPLE = 3
Count = Callable[[int, int], int]


@dataclass(frozen=True, slots=True)
class State:
    """What these tests write into a job: its address, and the widths of its back wall."""

    address: str = ""
    widths: tuple[str, ...] = ()


@dataclass(slots=True)
class Diary:
    """What one person did to his job: what stood there after each form that was answered.

    `unanswered` is the form that the server was killed over, and what it would have made.
    """

    job: str
    after: list[State]
    keys: list[str]
    unanswered: tuple[Sent, State] | None = None


@dataclass(slots=True)
class Tally:
    """How many forms were answered so far, by all."""

    count: int = 0
    lock: Lock = field(default_factory=Lock)

    def add(self) -> None:
        with self.lock:
            self.count += 1


@pytest.fixture(scope="module")
def durable() -> Iterator[Server]:
    """A database server that waits for its disk."""
    with server(durable=True) as running:
        yield running


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a book is kept."""

    where: Path | str
    photos: Path

    def opened(self) -> Book:
        return open_book(self.where, photos=self.photos)

    @property
    def words(self) -> tuple[object, ...]:
        return "--book", self.where, "--photos", self.photos


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    where: Path | str = tmp_path / "book"
    if request.param == "postgresql":
        where = request.getfixturevalue("durable").new_place()
    return Place(where=where, photos=tmp_path / "photos")


def begin(person: Person, name: str) -> Diary:
    """Begin a job by its form."""
    form = person.open("/new").one("form")
    sent = person.fill(form, {"name": name, "unit": "mm"})
    answer = person.send(sent)
    assert answer.status_code == 303, answer.text
    return Diary(answer.headers["location"].rpartition("/")[2], [State()], [sent.key])


def next_form(person: Person, diary: Diary, i: int, lots: Random) -> tuple[Sent, State]:
    """Open a page that is drawn by lot and fill its form in; also what the job then says."""
    job, now, dice = f"/jobs/{diary.job}", diary.after[-1], lots.random()
    if dice < 0.1:
        to = lots.randint(1, len(diary.after))
        forms = person.open(f"{job}/history").all("form")
        found = [form for form in forms if form.all("button", value=str(to))]
        if found:
            return person.fill(found[0], {}, str(to)), diary.after[to - 1]
    if dice < 0.3:
        address = f"{i} Alder Row" + "x" * lots.randrange(60)
        form = person.open(f"{job}/about").one("form")
        return person.fill(form, {"site.address": address}), State(address, now.widths)
    reads = str(500 + i)
    if dice < 0.6 or not now.widths:
        form = person.open(f"{job}/walls/B/readings/new?kind=width").one("form")
        made = State(now.address, (*now.widths, reads))
        return person.fill(form, {"at": str(i), "reads": reads}), made
    n = lots.randrange(len(now.widths))
    mend, remove, *_ = person.open(f"{job}/walls/B/readings/{n}").all("form")
    before, rest = now.widths[:n], now.widths[n + 1 :]
    if dice < 0.8:
        return person.fill(mend, {"reads": reads}), State(now.address, (*before, reads, *rest))
    return person.fill(remove, {}), State(now.address, (*before, *rest))


def write(address: str, diary: Diary, seed: int, tally: Tally) -> None:
    """Send one form after another until nobody answers, or all are sent."""
    lots = Random(seed)  # noqa: S311  (no secret)
    with closing(Person(address)) as person:
        for i in range(WRITES // PEOPLE):
            try:
                sent, made = next_form(person, diary, i, lots)
            except httpx2.TransportError:
                return
            diary.unanswered = (sent, made)
            try:
                answer = person.send(sent)
            except httpx2.TransportError:
                return
            assert answer.status_code == 303, answer.text
            diary.unanswered = None
            diary.after.append(made)
            diary.keys.append(sent.key)
            tally.add()


def found(book: Book, job: str) -> list[State]:
    """What each revision of a job says in the book."""
    return [_state(one.document) for one in book.history("job", job)]


def _state(document: Mapping[str, Any]) -> State:
    (wall,) = (one for one in document["wall"] if one["name"] == "B")
    assert all(one["kind"] == "width" for one in wall["readings"])
    widths = tuple(one["reads"] for one in wall["readings"])
    return State(document.get("site", {}).get("address", ""), widths)


def killed(running: Serving, number: int, lots: Random) -> list[Diary]:
    """Let three people write, and kill the server in the middle of it."""
    with closing(Person(running.address)) as person:
        diaries = [begin(person, f"Bath {number} {who}") for who in range(PEOPLE)]
    tally, enough = Tally(), lots.randint(1, WRITES - 100)
    with ThreadPoolExecutor(PEOPLE) as pool:
        people = [
            pool.submit(write, running.address, diary, number * PEOPLE + who, tally)
            for who, diary in enumerate(diaries)
        ]
        while tally.count < enough and not all(one.done() for one in people):
            time.sleep(0.001)
        time.sleep(lots.uniform(0, 0.02))
        running.kill()
        for one in people:
            one.result(timeout=120)
    assert enough <= tally.count < WRITES - PEOPLE
    return diaries


def looked_for(place: Place, diaries: list[Diary]) -> None:
    """Every form that was answered is there; of an unanswered one all or nothing."""
    with closing(place.opened()) as book:
        for diary in diaries:
            there, keys = found(book, diary.job), [r.key for r in book.history("job", diary.job)]
            done = len(diary.after)
            assert there[:done] == diary.after
            assert keys[:done] == diary.keys
            if diary.unanswered is None:
                assert len(there) == done
            else:
                sent, made = diary.unanswered
                assert there[done:] in ([], [made])
                assert keys[done:] in ([], [sent.key])
                assert len(keys) == len(there)
        with reading(book.engine) as connection:
            assert look_over(connection).sound


def sent_again(place: Place, running: Serving, diaries: list[Diary]) -> int:
    """Send what got no answer again, twice: it is written once. Return how many there were."""
    left = [(diary, *diary.unanswered) for diary in diaries if diary.unanswered]
    with closing(Person(running.address)) as person, closing(place.opened()) as book:
        for diary, sent, made in left:
            for _ in range(2):
                answer = person.send(sent)
                assert answer.status_code == 303, answer.text
                assert found(book, diary.job) == [*diary.after, made]
            keys = [revision.key for revision in book.history("job", diary.job)]
            assert keys == [*diary.keys, sent.key]
    return len(left)


def test_what_was_saved_outlives_a_server_that_is_killed(place: Place, count: Count) -> None:
    lots, diaries, left = Random(11), list[Diary](), 0  # noqa: S311  (no secret)
    for number in range(count(3, 20) + 1):
        with serving(*place.words) as running:
            left += sent_again(place, running, diaries)
            if number < count(3, 20):
                diaries = killed(running, number, lots)
        looked_for(place, diaries if number < count(3, 20) else [])
    assert left > 0
