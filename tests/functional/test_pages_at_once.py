"""Two people write into one job at the same moment, through two servers of one book.

Each server is a process of its own: nothing in the memory of one can help the other.
"""

from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack, closing
from dataclasses import dataclass
from pathlib import Path
from threading import Barrier

import httpx2
import pytest
from tests.pages_server import Person, Sent, serving
from tests.postgres import Server
from tests.web_pages import Element, read_page

from gaugerod.app.job_book import Revision
from gaugerod.store.book.opening import open_book

Count = Callable[[int, int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Both:
    """Two people, each with a server of his own, and the book that both servers keep."""

    people: tuple[Person, Person]
    where: Path | str
    photos: Path

    def begin(self) -> str:
        """Begin a job; return its id."""
        person = self.people[0]
        form = person.open("/new").one("form")
        answer = person.send(person.fill(form, {"name": "Shared", "unit": "mm"}))
        return answer.headers["location"].rpartition("/")[2]

    def history(self, job: str) -> tuple[Revision, ...]:
        with closing(open_book(self.where, photos=self.photos)) as book:
            return book.history("job", job)


@pytest.fixture(scope="module", params=["sqlite", "postgresql"])
def both(
    request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[Both]:
    folder = tmp_path_factory.mktemp("both")
    where: Path | str = folder / "book"
    if request.param == "postgresql":
        postgres: Server = request.getfixturevalue("postgres")
        where = postgres.new_place()
    words = ("--book", where, "--photos", folder / "photos")
    with ExitStack() as open_ones:
        running = [open_ones.enter_context(serving(*words)) for _ in "LR"]
        left, right = (open_ones.enter_context(closing(Person(one.address))) for one in running)
        yield Both(people=(left, right), where=where, photos=folder / "photos")


def together(people: tuple[Person, Person], sent: tuple[Sent, Sent]) -> list[httpx2.Response]:
    """Send two forms at the same moment."""
    start = Barrier(2)

    def send(which: int) -> httpx2.Response:
        start.wait(60)
        return people[which].send(sent[which])

    with ThreadPoolExecutor(2) as pool:
        return list(pool.map(send, range(2)))


def told(page: Element) -> dict[str, tuple[str, str, str]]:
    """What a page of a conflict shows: place, what was seen, what is his, what stands."""
    rows = page.one("tbody").all("tr")
    cells = [(row.one("code").text, [cell.text for cell in row.all("td")]) for row in rows]
    return {place: (seen, mine, now) for place, (seen, mine, now) in cells}


def test_the_loser_sees_both_versions_and_puts_his_on_top(both: Both, count: Count) -> None:
    lost, job, rounds = [0, 0], both.begin(), count(12, 150)
    address = f"/jobs/{job}/about"
    fields = ("site.address", "site.contact")
    before = ["", ""]
    for i in range(rounds):
        mine = [f"{field} {i}" for field in fields]
        forms = [person.open(address).one("form") for person in both.people]
        left, right = (
            person.fill(form, {field: text})
            for person, form, field, text in zip(both.people, forms, fields, mine, strict=True)
        )
        answers = together(both.people, (left, right))
        assert sorted(answer.status_code for answer in answers) == [303, 409]
        loser = 0 if answers[0].status_code == 409 else 1
        lost[loser] += 1
        page = read_page(answers[loser].text)
        places = ["/document/" + field.replace(".", "/") for field in fields]
        if i:
            own, other = places[loser], places[1 - loser]
            shown = told(page)
            assert shown[own] == (before[loser], mine[loser], before[loser])
            assert shown[other] == (before[1 - loser], before[1 - loser], mine[1 - loser])
        person = both.people[loser]
        assert person.send(person.fill(page.one("form"), {})).status_code == 303
        before = mine
        newest = both.history(job)[-1]
        assert newest.n == 2 * i + 3
        assert newest.document["site"] == {"address": mine[0], "contact": mine[1]}
    assert sum(lost) == rounds


def test_two_who_measure_as_fast_as_they_can_lose_no_reading(both: Both, count: Count) -> None:
    job, each = both.begin(), count(25, 200)

    def measure(which: int) -> tuple[int, list[str]]:
        person, conflicts, reads = both.people[which], 0, list[str]()
        for i in range(each):
            page = person.open(f"/jobs/{job}/walls/B/readings/new?kind=width")
            reads.append(str(1000 * (which + 1) + i))
            sent = person.fill(page.one("form"), {"at": str(i), "reads": reads[-1]})
            answer = person.send(sent)
            while answer.status_code == 409:
                conflicts += 1
                answer = person.send(person.fill(read_page(answer.text).one("form"), {}))
            assert answer.status_code == 303, answer.text
        return conflicts, reads

    with ThreadPoolExecutor(2) as pool:
        left, right = pool.map(measure, range(2))
    history = both.history(job)
    (wall,) = (one for one in history[-1].document["wall"] if one["name"] == "B")
    written = [one["reads"] for one in wall["readings"]]
    assert sorted(written) == sorted(left[1] + right[1])
    assert [text for text in written if text in left[1]] == left[1]  # each in his own order
    assert [text for text in written if text in right[1]] == right[1]
    assert len(history) == 2 * each + 1
    assert left[0] + right[0] > 0
