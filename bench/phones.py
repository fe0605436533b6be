"""Pages under many fingers: how long one phone waits for an answer, alone and among twenty.

A process of its own serves a book of invented jobs; the phones are threads of this one. Each has
a job to itself and does what a person does: opens Measure, mends a reading, opens Set out, drags
the joints and the datum about, opens Price, and looks at what came.
"""

import random
import re
import subprocess
import sys
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import UTC, datetime
from html.parser import HTMLParser
from http import HTTPStatus
from http.client import HTTPConnection
from pathlib import Path
from socket import IPPROTO_TCP, TCP_NODELAY
from statistics import median, quantiles
from tempfile import TemporaryDirectory
from time import perf_counter, sleep
from typing import Any
from urllib.parse import urlencode, urlsplit

from bench.timing import Row, shown
from gaugerod.app.job_book import Draft
from gaugerod.core.base.lengths import parse_length
from gaugerod.store.book.opening import open_book
from gaugerod.store.kept import to_keep
from gaugerod.store.shelf import Library

KINDS = {
    "page": "a page",
    "planned": "the first page of a new plan",
    "drag": "an answer while a finger moves",
    "rest": "a finger at rest, to all figures",
    "save": "a reading, to refreshed closures",
}
"""What is timed."""
ANSWERS = 25
"""Places that a finger drags over in one go, each asked for when the one before is answered."""
STRETCH = 12
"""Places from which the finger rests a first time: from there on it moves the datum."""
BETWEEN = 0.03
"""A finger moves on for so long at least before the next place is asked for. [s]"""
LONGEST = 0.25
"""The script waits as long as the last answer took, but no longer than this. [s]"""
AGAIN = 0.5
"""How often a phone asks whether a plan is made. [s]"""
LOOKS = (1.0, 4.0)
"""How long a person looks at what came, from and to. [s]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """How many jobs there are, how many phones, how often each does all it does."""

    jobs: int
    phones: int
    rounds: int


QUICK = Size(jobs=5, phones=4, rounds=1)
FULL = Size(jobs=50, phones=20, rounds=1)


@dataclass(slots=True)
class Times:
    """Seconds that answers took, by what was asked for."""

    taken: dict[str, list[float]] = field(default_factory=lambda: {kind: [] for kind in KINDS})

    def add(self, other: "Times") -> None:
        """Take another's times over."""
        for kind, taken in other.taken.items():
            self.taken[kind] += taken

    def middle(self, kind: str) -> float:
        """Return the median. [s]."""
        return median(self.taken[kind])

    def worst(self, kind: str) -> float:
        """Return the 95th percentile. [s]."""
        taken = self.taken[kind]
        return quantiles(taken, n=20, method="inclusive")[-1] if len(taken) > 1 else taken[0]


class _Forms(HTMLParser):
    """Every form of a page: where it goes, and the fields that a browser would send."""

    def __init__(self) -> None:
        super().__init__()
        self.found: list[tuple[str, dict[str, str]]] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        here = {name: value or "" for name, value in attrs}
        if tag == "form":
            self.found.append((here.get("action", ""), {}))
        elif tag == "input" and self.found and "name" in here:
            ticked = here.get("type") not in {"radio", "checkbox"} or "checked" in here
            if ticked:
                self.found[-1][1][here["name"]] = here.get("value", "")


class Phone:
    """One person at one job; every answer is timed."""

    def __init__(self, address: str, job: str, seed: int) -> None:
        self.link = HTTPConnection(urlsplit(address).netloc, timeout=600)
        self.link.connect()
        # As browsers do; else a form would wait until what went before it is acknowledged.
        self.link.sock.setsockopt(IPPROTO_TCP, TCP_NODELAY, 1)
        self.origin = address.rstrip("/")
        self.job = f"/jobs/{job}"
        self.lots = random.Random(seed)  # noqa: S311  (nothing is secret here)
        self.times = Times()

    def work(self, rounds: int) -> Times:
        """Do all that a person does, so many times."""
        for _ in range(rounds):
            self.look()
            self.timed("page", f"{self.job}/measure")
            self.look()
            self.mend()
            self.look()
            page = self.timed("planned", f"{self.job}/set-out")
            self.drag(page)
            self.look()
            self.timed("planned", f"{self.job}/price")
            self.look()
            self.timed("page", f"{self.job}/history")
        self.link.close()
        return self.times

    def look(self) -> None:
        """Take the time to see what came."""
        sleep(self.lots.uniform(*LOOKS))

    def mend(self) -> None:
        """Write a reading again, a hair longer or shorter, as the form has it."""
        page = self.timed("page", f"{self.job}/walls/B/readings/0")
        forms = _Forms()
        forms.feed(page)
        action, values = next(form for form in forms.found if form[0].endswith("/readings/0"))
        values |= {"reads": "", "reads.whole": "60", "reads.part": str(self.lots.randint(1, 4))}
        begun = perf_counter()
        where = self.send(action, values)
        self.get(where)
        self.times.taken["save"].append(perf_counter() - begun)

    def drag(self, page: str) -> None:
        """Drag the joints of a wall, then the datum, one question at a time as the script does.

        While the finger moves an answer may be of the layout alone; at the end of each stretch
        all figures are asked for.
        """
        found = re.search(r'data-try="([^"]+)"', page)
        if found is None:
            raise RuntimeError(page)
        address = found[1].replace("&amp;", "&")
        first, phase = self.lots.uniform(170, 220), self.lots.uniform(0, 600)
        for n in range(ANSWERS):
            up, along = (0, n) if n < STRETCH else (n - STRETCH, STRETCH)
            place = {
                "first": f"{first + up * 1.5875} mm",
                "phase.B": f"{phase + along * 7.9375} mm",
            }
            asked = f"{address}&{urlencode(place)}"
            self.timed("drag", asked)
            sleep(max(BETWEEN, min(self.times.taken["drag"][-1], LONGEST)))
            if n in {STRETCH - 1, ANSWERS - 1}:
                self.timed("rest", f"{asked}&whole=")

    def timed(self, kind: str, address: str) -> str:
        """Open an address and keep how long it took."""
        begun = perf_counter()
        text = self.get(address)
        self.times.taken[kind].append(perf_counter() - begun)
        return text

    def get(self, address: str) -> str:
        """Return what stands at an address, once it is planned."""
        while True:
            self.link.request("GET", address.partition("#")[0])
            answer = self.link.getresponse()
            text = answer.read().decode()
            if answer.status == HTTPStatus.OK:
                return text
            if answer.status != HTTPStatus.ACCEPTED:
                raise RuntimeError(text)
            sleep(AGAIN)

    def send(self, address: str, values: dict[str, str]) -> str:
        """Send a form and return where it leads."""
        head = {"Origin": self.origin, "Content-Type": "application/x-www-form-urlencoded"}
        self.link.request("POST", address, urlencode(values), head)
        answer = self.link.getresponse()
        text = answer.read().decode()
        if answer.status != HTTPStatus.SEE_OTHER:
            raise RuntimeError(text)
        return answer.headers["Location"]


def invented(folder: Path, count: int) -> list[str]:
    """Fill a book with jobs like the keyed demo, no two of a size; return their ids."""
    demo = next(one for one in Library().demos() if one.name.startswith("alcove"))
    document = to_keep(demo.source, name=demo.name)
    book = open_book(folder)
    ids = [f"bath-{n:02}" for n in range(count)]
    for n, job in enumerate(ids):
        draft = Draft(
            id=job,
            seen=0,
            key=job,
            by="",
            at=datetime(2026, 3, 2, tzinfo=UTC),
            note="Invented.",
            document=_wider(document, n) | {"name": f"Invented bath {n}"},
        )
        book.write(draft)
    book.engine.dispose()
    return ids


def _wider(document: dict[str, Any], n: int) -> dict[str, Any]:
    """Return a job whose ceilings are so many half mm higher."""
    made = deepcopy(document)
    for wall in made["wall"]:
        for reading in wall["readings"]:
            if reading["kind"] == "ceiling":
                height = float(parse_length(reading["reads"], unit=made["unit"]))
                reading["reads"] = f"{height + n / 2:.2f} mm"
    return made


@contextmanager
def served(book: Path) -> Iterator[str]:
    """Serve a book in a process of its own, and give its address."""
    command = [sys.executable, "-u", "-m", "gaugerod", "serve", "--port", "0", "--book", str(book)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as serving:
        try:
            said = serving.stdout.readline() if serving.stdout else ""
            found = re.search(r"http://[\d.]+:\d+/", said)
            if found is None:
                raise RuntimeError(said)
            yield found[0]
        finally:
            serving.terminate()


def measured(size: Size) -> tuple[Times, Times]:
    """Return the times of one phone alone, and of all at once."""
    alone, together = Times(), Times()
    with TemporaryDirectory() as folder:
        jobs = invented(Path(folder), size.jobs)
        with served(Path(folder)) as address:
            alone.add(Phone(address, jobs[-1], 0).work(2 * size.rounds))
            phones = [Phone(address, jobs[n], n + 1) for n in range(size.phones)]
            with ThreadPoolExecutor(size.phones) as threads:
                for times in threads.map(lambda phone: phone.work(size.rounds), phones):
                    together.add(times)
    return alone, together


def rows() -> Iterator[Row]:
    """Yield what four phones wait for at once against one alone, over a small book."""
    alone, together = measured(QUICK)
    for kind, what in KINDS.items():
        yield Row(
            what=f"{what}, {QUICK.phones} phones at once",
            ours=shown(together.middle(kind)),
            theirs=shown(alone.middle(kind)),
            ratio=together.middle(kind) / alone.middle(kind),
            against="times as long as one phone alone",
        )


def main() -> None:
    """Print the full table."""
    alone, together = measured(FULL)
    write = sys.stdout.write
    write(f"{FULL.jobs} jobs; median and 95th percentile of what a phone waits\n")
    write(f"{'what':<36} {'one alone':>21} {f'{FULL.phones} at once':>21} {'answers':>8}\n")
    for kind, what in KINDS.items():
        pair = [
            f"{shown(t.middle(kind)):>10} {shown(t.worst(kind)):>10}" for t in (alone, together)
        ]
        write(f"{what:<36} {' '.join(pair)} {len(together.taken[kind]):>8}\n")


if __name__ == "__main__":
    main()
