"""What the use cases need from outside: jobs, data, a place to write, a day, an end."""

from collections.abc import Callable, Mapping
from datetime import date
from typing import Protocol, TypeVar

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.lengths import Display
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.on_site import OnSite
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.tolerances import Tolerances

T = TypeVar("T")


class OutputError(GaugerodError):
    """What was made cannot be written: name another place."""


class StoppedError(GaugerodError):
    """The work was stopped before its end: give it longer, or ask for less."""


class JobSource(Protocol):
    """Where a job comes from."""

    @property
    def name(self) -> str:
        """What the source is called on the screen."""
        ...

    def read(self, check: Callable[[Job], None]) -> Job:
        """Return the job, or raise `JobError`; `check` may refuse it."""
        ...


class SiteDays(Protocol):
    """Where the days on site come from."""

    def use(self, work: Callable[[OnSite], T]) -> T:
        """Return what `work` makes of them, or raise `JobError`; `work` may refuse them."""
        ...


class Library(Protocol):
    """The data beside the jobs: packaged, and the user's own."""

    def materials(self) -> Materials:
        """Return every material at hand."""
        ...

    def rules(self) -> Rules:
        """Return the rules that findings are held against."""
        ...

    def tolerances(self) -> Tolerances:
        """Return how flat, plumb and level walls must be."""
        ...

    def rates(self) -> Mapping[str, RateTable]:
        """Return the tables of rates by their id."""
        ...

    def words(self, display: Display, *, currency: str) -> Catalogue:
        """Return the sentences, with lengths and money as the reader wants them."""
        ...

    def template(self) -> str:
        """Return a job to be written over."""
        ...


class Folder(Protocol):
    """Where papers go."""

    def write(self, files: Mapping[str, bytes]) -> None:
        """Write all files, or raise `OutputError`."""
        ...


class NewFile(Protocol):
    """A file that is not there yet."""

    def create(self, content: bytes) -> None:
        """Write it, or raise `OutputError`; nothing is ever overwritten."""
        ...


class Clock(Protocol):
    """What day it is."""

    def today(self) -> date:
        """Return the day."""
        ...


class HardStop(Protocol):
    """An end to work that takes too long."""

    def run(self, work: Callable[[], T]) -> T:
        """Return what `work` returns, or raise `StoppedError`."""
        ...
