"""An acknowledged write survives: writers and a server are killed, and everything is looked for."""

import subprocess
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from random import Random

import pytest
from tests.book_writer import JOBS, Change, plan
from tests.books import MORNING, draft
from tests.postgres import Server, server

from gaugerod.store.book.book import Book
from gaugerod.store.book.connect import reading
from gaugerod.store.book.opening import open_book
from gaugerod.store.book.soundness import look_over

CHANGES = 500
ROOT = Path(__file__).parents[2]
Count = Callable[[int, int], int]


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Where a book is kept, as a command line and as a program name it."""

    where: Path | str
    photos: Path

    def opened(self) -> Book:
        return open_book(self.where, photos=self.photos)

    def start(self, *words: object) -> "subprocess.Popen[str]":
        return subprocess.Popen(
            [sys.executable, "-m", "tests.book_writer", self.where, self.photos, *map(str, words)],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )


@pytest.fixture(scope="module")
def durable() -> Iterator[Server]:
    """A server that waits for its disk."""
    with server(durable=True) as running:
        yield running


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request: pytest.FixtureRequest, tmp_path: Path) -> Place:
    where: Path | str = tmp_path / "book"
    if request.param == "postgresql":
        running = request.getfixturevalue("durable")
        where = running.new_place()
    return Place(where=where, photos=tmp_path / "photos")


def expected(changes: Sequence[Change]) -> dict[str, list[object]]:
    """What each job says, revision by revision, and which photos hang: from the plan alone."""
    said: dict[str, list[object]] = {name: [] for job in JOBS for name in (job, f"{job} photos")}
    for change in changes:
        if change.photo is not None:
            said[f"{change.job} photos"].append((f"photo {change.i}", change.photo))
        elif change.to is not None:
            said[change.job].append(said[change.job][change.to - 1])
        else:
            said[change.job].append(change.document)
    return said


def found(book: Book) -> dict[str, list[object]]:
    """What each job says in the book."""
    said: dict[str, list[object]] = {}
    for job in JOBS:
        said[job] = [one.document for one in book.history("job", job)]
        said[f"{job} photos"] = [
            (photo.name, book.files.checked(photo.sha256).read_bytes())
            for photo in book.photos(job)
        ]
    return said


def acknowledged(writer: "subprocess.Popen[str]", at_most: int) -> list[str]:
    """The next lines that a writer says."""
    assert writer.stdout
    lines = (writer.stdout.readline() for _ in range(at_most))
    return [line for line in lines if line.endswith("\n")]


def test_a_writer_that_is_killed_loses_nothing_it_acknowledged(
    place: Place, count: Count, tmp_path: Path
) -> None:
    lots = Random(5)  # noqa: S311  (no secret)
    for number in range(count(3, 20)):
        fresh = Place(where=place.where, photos=place.photos)
        if isinstance(place.where, Path):
            fresh = Place(where=tmp_path / f"book-{number}", photos=tmp_path / f"photos-{number}")
        killed_once(fresh, seed=number, lots=lots)
        if not isinstance(place.where, Path):
            empty(place)


def killed_once(place: Place, *, seed: int, lots: Random) -> None:
    changes = list(plan(seed, CHANGES))
    with place.start(seed, 0, CHANGES) as writer:
        said = acknowledged(writer, lots.randint(1, CHANGES - 50))
        time.sleep(lots.uniform(0, 0.01))
        writer.kill()
        said += acknowledged(writer, CHANGES)
    done = len(said)
    assert 0 < done < CHANGES
    assert [int(line.split()[0]) for line in said] == list(range(done))
    with closing(place.opened()) as book:
        # Every acknowledged change is there; of the one it was busy with, all or nothing.
        assert found(book) in (expected(changes[:done]), expected(changes[: done + 1]))
        with reading(book.engine) as connection:
            assert look_over(connection).sound
    # Sent again, since nobody knows: what was written already is not written twice.
    last = done + 20
    with place.start(seed, done, last) as writer:
        assert len(acknowledged(writer, CHANGES)) == last - done
    with closing(place.opened()) as book:
        assert found(book) == expected(changes[:last])
        for photo in place.photos.rglob("*.part"):
            assert photo.stat().st_size < 200_000  # a part that was left is nobody's photo


def empty(place: Place) -> None:
    """Make room for the next writer in a database of a server."""
    with closing(place.opened()) as book, book.engine.begin() as connection:
        connection.exec_driver_sql("TRUNCATE revision, photo")


def test_a_server_that_is_stopped_at_once_loses_nothing_it_acknowledged(
    durable: Server, tmp_path: Path
) -> None:
    where = durable.new_place()
    place = Place(where=where, photos=tmp_path / "photos")
    changes = list(plan(1, CHANGES))
    with place.start(1, 0, CHANGES) as writer:
        said = acknowledged(writer, 150)
        durable.stop_at_once()
        said += acknowledged(writer, CHANGES)
    assert writer.returncode != 0
    durable.start()
    done = len(said)
    with closing(place.opened()) as book:
        assert found(book) in (expected(changes[:done]), expected(changes[: done + 1]))


def test_two_writers_on_one_job_lose_no_reading(place: Place) -> None:
    with closing(place.opened()) as book:
        book.write(draft(1, name="shared", document={"readings": []}))
    each = 40
    writers = [place.start("add", name, each) for name in ("L", "R")]
    for writer in writers:
        assert acknowledged(writer, 1) == ["ready\n"]
    for writer in writers:
        assert writer.stdin
        writer.stdin.write("go\n")
        writer.stdin.flush()
    said = [line for writer in writers for line in writer.communicate(timeout=120)[0].splitlines()]
    assert [writer.returncode for writer in writers] == [0, 0]
    added = {line.split()[1] for line in said if line.startswith("added")}
    conflicts = [line.split()[1:] for line in said if line.startswith("conflict")]
    with closing(place.opened()) as book:
        history = book.history("job", "shared")
    assert added == {f"{name}{number}" for name in ("L", "R") for number in range(each)}
    assert set(history[-1].document["readings"]) == added
    assert [one.n for one in history] == list(range(1, 2 * each + 2))
    assert conflicts
    assert all(0 < int(seen) < int(head) for seen, head, _ in conflicts)
    keys = {one.key for one in history}
    assert not keys & {key for _, _, key in conflicts}  # what was refused was not written


def test_the_clock_of_the_writers_is_their_own(place: Place) -> None:
    """A change is dated by who made it, not by when it came in."""
    with closing(place.opened()) as book:
        book.write(draft(1))
        assert (book.head("job", "hall-bath").at - MORNING).total_seconds() == 60
