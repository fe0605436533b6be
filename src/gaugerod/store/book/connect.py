"""The way to a database: SQLite in a folder, or PostgreSQL by its URL."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, create_engine, event, func, select
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, SQLAlchemyError

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message

FILE = "jobs.sqlite"
_WAIT = 10_000
"""How long a writer waits for another one, in thousandths of a second."""
_LASTING = (
    "journal_mode=WAL",
    "synchronous=FULL",
    "fullfsync=ON",
    f"busy_timeout={_WAIT}",
    "foreign_keys=ON",
)
_PASSING = ("synchronous=OFF", "journal_mode=DELETE")
"""For a copy that is looked at and thrown away, or brought to disk as a file afterwards."""
_POSTGRES = {"postgres", "postgresql", "postgresql+psycopg"}


def engine_at(where: Path | str) -> Engine:
    """Return the engine of a folder or of a URL; nothing is opened yet.

    Raises
    ------
    BookError
        It is no URL of PostgreSQL, or what speaks to PostgreSQL is not installed.
    """
    if isinstance(where, Path):
        return _sqlite(where / FILE, _LASTING)
    try:
        url = make_url(where)
    except (ArgumentError, ValueError):
        # What it was read as may hold a part of a password: nobody is told.
        raise BookError(Message("book.not-url")) from None
    if "@" in f"{url.host}{url.database}":
        raise BookError(Message("book.not-url"))
    if url.drivername not in _POSTGRES:
        raise BookError(Message("book.not-postgres", read=url.drivername[:40]))
    return _postgres(url)


def shown(url: URL) -> str:
    """Return a URL to be read by anybody: without its password and its options."""
    return url.set(drivername="postgresql", query={}).render_as_string()


def passing_engine(folder: Path) -> Engine:
    """Return the engine of a copy in a folder: one file without a log, and quick."""
    return _sqlite(folder / FILE, _PASSING)


def _sqlite(file: Path, pragmas: tuple[str, ...]) -> Engine:
    engine = create_engine(URL.create("sqlite+pysqlite", database=str(file)))

    @event.listens_for(engine, "connect")
    def prepare(connection: sqlite3.Connection, _: Any) -> None:  # noqa: ANN401  (not used)
        # The driver would begin transactions by itself, and too late.
        connection.isolation_level = None
        for pragma in pragmas:
            connection.execute(f"PRAGMA {pragma}").close()

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        reads = connection.get_execution_options().get("gaugerod_reads")
        # A writer takes its place at once: later it could be told that its view is stale.
        connection.exec_driver_sql("BEGIN" if reads else "BEGIN IMMEDIATE")

    return engine


def _postgres(url: URL) -> Engine:
    # Whatever the server's own setting, a write is on its disk before it is acknowledged.
    options = " ".join([*url.normalized_query.get("options", ()), "-c synchronous_commit=on"])
    try:
        return create_engine(
            url.set(drivername="postgresql+psycopg"),
            connect_args={"options": options, "connect_timeout": _WAIT // 1000},
            pool_pre_ping=True,
        )
    except ModuleNotFoundError as error:
        raise BookError(Message("book.no-driver")) from error


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """Begin a write: it is kept whole when the block ends, and not at all when it fails."""
    with told(), engine.begin() as connection:
        yield connection


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """Begin a read: it sees the book as it stood at one moment."""
    repeatable = {"isolation_level": "REPEATABLE READ"} if engine.name == "postgresql" else {}
    view = engine.execution_options(gaugerod_reads=True, **repeatable)
    with told(), view.begin() as connection:
        yield connection


def alone(connection: Connection, *names: str) -> None:
    """Wait until no other writer has these names; SQLite has one writer at a time anyway."""
    if connection.dialect.name == "postgresql":
        for name in sorted(names):
            number = func.hashtextextended(name, 0)
            connection.execute(select(func.pg_advisory_xact_lock(number)))


@contextmanager
def told() -> Iterator[None]:
    """Tell in one line what the database refuses.

    Raises
    ------
    BookError
        The database can't be reached, is full, locked, damaged or not to be written to.
    """
    try:
        yield
    except DBAPIError as error:
        why = " ".join(str(error.orig).split())[:200]
        raise BookError(Message("book.database", why=why)) from error
    except SQLAlchemyError as error:
        why = type(error).__name__
        raise BookError(Message("book.database", why=why)) from error
