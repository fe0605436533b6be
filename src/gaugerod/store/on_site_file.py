"""The days on site from a TOML file."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeVar

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.faults import InconsistentError
from gaugerod.core.job.on_site import OnSite
from gaugerod.store.toml_file import TomlFile, document, read_toml

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class OnSiteFile:
    """The bytes of a file of days on site, and what it is called on the screen."""

    name: str
    source: bytes

    def use(self, work: Callable[[OnSite], T]) -> T:
        """Return what `work` makes of the days.

        Raises
        ------
        JobError
            The file cannot be read, or `work` refuses a place of it; with the file, the line
            where it can be found, what was read and what would do.
        """
        return use_days(read_toml(self.source, name=self.name, error=JobError), work)


def use_days(file: TomlFile, work: Callable[[OnSite], T]) -> T:
    """Return what `work` makes of the days that the tables of a file hold.

    Raises
    ------
    JobError
        They are no days on site, or `work` refuses a place of them.
    """
    days = document(file, OnSite, error=JobError)
    try:
        return work(days)
    except InconsistentError as error:
        raise JobError(file.at(error.at, error.message)) from error
