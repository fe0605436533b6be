"""A program that writes into a book and says so on its output: to be killed in the middle.

What it writes follows from its seed alone, so that another process knows what must be there:

    python -m tests.book_writer BOOK PHOTOS SEED FIRST COUNT

does changes FIRST to COUNT of the plan of SEED; `add` instead of SEED adds readings to one job, as
one of several who do.
"""

import sys
import time
from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import timedelta
from pathlib import Path
from random import Random

from tests.books import MORNING

from gaugerod.app.job_book import ConflictError, Draft
from gaugerod.store.book.book import Book
from gaugerod.store.book.opening import open_book

JOBS = ("hall", "attic", "guest")


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """One change of a plan: a revision, an undo (`to`), or a photo."""

    i: int
    job: str
    seen: int
    document: dict[str, object] | None = None
    to: int | None = None
    photo: bytes | None = None

    def do(self, book: Book) -> str:
        """Make the change; return what was acknowledged."""
        at = MORNING + timedelta(seconds=self.i)
        if self.photo is not None:
            name = f"photo {self.i}"
            made = book.hang(self.job, self.photo, subject="wall", name=name, by="W", at=at)
            return f"{self.i} {made.sha256}"
        key = f"change-{self.i}"
        if self.to is not None:
            back = book.undo("job", self.job, to=self.to, seen=self.seen, key=key, by="W", at=at)
            return f"{self.i} {back.n}"
        draft = Draft(
            id=self.job, seen=self.seen, key=key, by="W", at=at, document=self.document or {}
        )
        return f"{self.i} {book.write(draft).n}"


def plan(seed: int, count: int) -> Iterator[Change]:
    """Return the changes of a seed."""
    lots = Random(seed)  # noqa: S311  (no secret)
    written: Counter[str] = Counter()
    for i in range(count):
        job = lots.choice(JOBS)
        n, dice = written[job], lots.random()
        if n and dice < 0.15:
            content = b"\xff\xd8\xff" + lots.randbytes(lots.randrange(100_000))
            yield Change(i=i, job=job, seen=n, photo=content)
            continue
        written[job] += 1
        if n and dice < 0.3:
            yield Change(i=i, job=job, seen=n, to=lots.randint(1, n))
        else:
            filling = "x" * lots.randrange(30_000)
            yield Change(i=i, job=job, seen=n, document={"i": i, "filling": filling})


def say(line: str) -> None:
    """Say what was acknowledged, at once."""
    sys.stdout.write(f"{line}\n")
    sys.stdout.flush()


def add(book: Book, name: str, count: int) -> None:
    """Add readings to one job; tell each conflict, and begin again from what stands then."""
    for number in range(count):
        reading, tries = f"{name}{number}", 0
        while True:
            seen = book.head("job", "shared")
            time.sleep(0.002)  # a person needs time to write
            document = {"readings": [*seen.document["readings"], reading]}
            tries += 1
            key = f"{reading}.{tries}"
            draft = Draft(id="shared", seen=seen.n, key=key, by=name, at=MORNING, document=document)
            try:
                book.write(draft)
            except ConflictError as error:
                before = error.seen.n if error.seen else 0
                say(f"conflict {before} {error.head.n} {error.draft.key}")
            else:
                say(f"added {reading}")
                break


def main() -> None:
    """Do what the command line says."""
    place, photos, what, *rest = sys.argv[1:]
    book = open_book(place if "://" in place else Path(place), photos=Path(photos))
    if what == "add":
        say("ready")
        sys.stdin.readline()
        add(book, rest[0], int(rest[1]))
    else:
        first, count = map(int, rest)
        for change in list(plan(int(what), count))[first:]:
            say(change.do(book))
    book.close()


if __name__ == "__main__":
    main()
