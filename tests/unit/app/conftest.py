"""Fakes written by hand for what the use cases need from outside."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import TypeVar

import pytest

from gaugerod.app.ports import OutputError, StoppedError
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import Display
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.job.tolerances import Tolerances
from gaugerod.store.shelf import Library as Packaged

T = TypeVar("T")


@dataclass
class FakeSource:
    """A job that is there already."""

    job: Job
    name: str = "sample.toml"

    def read(self, check: Callable[[Job], None]) -> Job:
        check(self.job)
        return self.job


@dataclass
class FakeLibrary:
    """The sample material and rates, no rules, the real tolerances and sentences."""

    def materials(self) -> Materials:
        return Materials(systems={"sample": sample_system()})

    def rules(self) -> Rules:
        return Rules(format=1, unit="mm", rule=())

    def tolerances(self) -> Tolerances:
        return Packaged().tolerances()

    def rates(self) -> Mapping[str, RateTable]:
        return {"shop": sample_rates()}

    def words(self, display: Display, *, currency: str) -> Catalogue:
        return Packaged().words(display, currency=currency)

    def template(self) -> str:
        return "name = 1\nstart = 2026-03-02  # note\n"


@dataclass
class FakeFolder:
    """A folder that remembers; a full one takes nothing."""

    full: bool = False
    files: dict[str, bytes] = field(default_factory=dict)

    def write(self, files: Mapping[str, bytes]) -> None:
        if self.full:
            raise OutputError(Message("app.not-written", folder="full", why="no room"))
        self.files.update(files)


@dataclass
class FakeFile:
    """A file that remembers."""

    content: bytes = b""

    def create(self, content: bytes) -> None:
        self.content = content


@dataclass
class FakeClock:
    """A clock that stands still."""

    day: date

    def today(self) -> date:
        return self.day


@dataclass
class FakeStop:
    """Lets work run, or stops it before it begins, so many times."""

    stops: int = 0

    def run(self, work: Callable[[], T]) -> T:
        self.stops -= 1
        if self.stops >= 0:
            raise StoppedError(Message("app.stopped", seconds=0))
        return work()


@pytest.fixture
def source() -> FakeSource:
    return FakeSource(job=sample_job())


@pytest.fixture
def library() -> FakeLibrary:
    return FakeLibrary()


@pytest.fixture
def folder() -> FakeFolder:
    return FakeFolder()


@pytest.fixture
def full_folder() -> FakeFolder:
    return FakeFolder(full=True)


@pytest.fixture
def new_file() -> FakeFile:
    return FakeFile()


@pytest.fixture
def clock() -> Callable[[date], FakeClock]:
    return FakeClock


@pytest.fixture
def patient() -> FakeStop:
    return FakeStop()


@pytest.fixture
def impatient() -> FakeStop:
    return FakeStop(stops=9)


@pytest.fixture
def hasty() -> FakeStop:
    return FakeStop(stops=1)
