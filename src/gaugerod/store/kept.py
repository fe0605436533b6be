"""Documents of a book, read as the files that people write are read.

They have the same keys and are refused in the same words; only the numbers of lines are missing.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any, TypeVar

from gaugerod.app.job_book import Tables
from gaugerod.core.base.errors import JobError
from gaugerod.core.job.document import Job
from gaugerod.core.job.on_site import OnSite
from gaugerod.store.job_file import job_in
from gaugerod.store.on_site_file import use_days
from gaugerod.store.toml_file import TomlFile, read_toml

T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptJob:
    """A job out of a book: `Revision.document`, and what it is called on the screen."""

    name: str
    tables: Tables

    def read(self, check: Callable[[Job], None]) -> Job:
        """Return the job, after `check` has found nothing wrong with it.

        Raises
        ------
        JobError
            The document is no job yet, or `check` refuses it.
        """
        return job_in(kept_file(self.name, self.tables), check)


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptDays:
    """The days on site out of a book: `Revision.day`, and what they are called on the screen."""

    name: str
    tables: Tables

    def use(self, work: Callable[[OnSite], T]) -> T:
        """Return what `work` makes of the days.

        Raises
        ------
        JobError
            The document is no days yet, or `work` refuses a place of it.
        """
        return use_days(kept_file(self.name, self.tables), work)


def kept_file(name: str, tables: Tables) -> TomlFile:
    """Return a document of a book as if it had been read from a file."""
    return TomlFile(name=name, tables=tables, lines={})


def to_keep(source: bytes, *, name: str) -> dict[str, Any]:
    """Return the document of a TOML file as a book keeps it: days and times as text.

    Lengths stay as they were written. Remarks are not part of a document and stay in the file.

    Raises
    ------
    JobError
        It is no TOML.
    """
    file = read_toml(source, name=name, error=JobError)
    return dict(_plain(file.tables))


def _plain(tables: Mapping[str, object]) -> Iterator[tuple[str, object]]:
    for key, value in tables.items():
        yield key, _value(value)


def _value(value: object) -> object:
    match value:
        case Mapping():
            return dict(_plain(value))
        case list():
            return [_value(one) for one in value]
        case datetime() | date() | time():
            return value.isoformat()
        case _:
            return value
