"""Opening: older schemas are brought up to date, what is not ours is left alone."""

import sqlite3
import sys
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing
from pathlib import Path

import pytest
from sqlalchemy import text
from tests.books import JPEG, MORNING, NewBook, draft, where
from tests.postgres import Server

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.connect import engine_at
from gaugerod.store.book.opening import open_book

SCHEMA_1 = Path(__file__).parents[2] / "data" / "book-schema-1.sql"


def refusal(act: Callable[[], object]) -> Message:
    with pytest.raises(BookError) as caught:
        act()
    return caught.value.message


def old_book(folder: Path) -> Path:
    """A book as the first schema had it, with two revisions in it."""
    with closing(sqlite3.connect(folder / "jobs.sqlite")) as connection:
        connection.executescript(SCHEMA_1.read_text(encoding="utf-8"))
    return folder


def test_a_book_of_the_first_schema_is_brought_up_to_date(tmp_path: Path) -> None:
    book = open_book(old_book(tmp_path))
    first, second = book.history("job", "hall-bath")
    assert (first.by, first.document["name"]) == ("Setter", "Hall bath")
    assert (second.changed, second.day) == (("/day/set",), {"set": ["B1-1"]})
    assert book.write(draft(3)).n == 3
    assert book.hang("hall-bath", JPEG, subject="wall", name="B", by="S", at=MORNING).m == 1
    book.close()


def test_a_newer_schema_is_refused_and_left_alone(new_book: NewBook) -> None:
    book = new_book()
    with book.engine.begin() as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '0099'"))
    book.close()
    told = refusal(lambda: open_book(where(book), photos=book.files.folder))
    assert (told.key, told.values["found"]) == ("book.newer", 99)
    with book.engine.begin() as connection:
        assert connection.scalar(text("SELECT version_num FROM alembic_version")) == "0099"


def test_a_database_of_something_else_is_refused(new_book: NewBook) -> None:
    book = new_book()
    with book.engine.begin() as connection:
        connection.execute(text("DROP TABLE alembic_version"))
    book.close()
    again = refusal(lambda: open_book(where(book), photos=book.files.folder))
    assert again.key == "book.not-ours"


def test_a_file_that_is_no_database_is_refused(tmp_path: Path) -> None:
    (tmp_path / "jobs.sqlite").write_bytes(b"a letter to the customer, and not a database" * 100)
    assert refusal(lambda: open_book(tmp_path)).key == "book.database"


def test_a_folder_that_is_none_is_refused(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x", encoding="utf-8")
    assert refusal(lambda: open_book(tmp_path / "file")).key == "book.no-folder"


@pytest.mark.parametrize(
    ("url", "key"),
    [
        ("mysql://somewhere/x", "book.not-postgres"),
        ("sqlite:///x", "book.not-postgres"),
        ("://", "book.not-url"),
    ],
)
def test_a_url_of_something_else_is_refused(url: str, key: str, tmp_path: Path) -> None:
    assert refusal(lambda: open_book(url, photos=tmp_path)).key == key


def test_a_server_keeps_no_photos(postgres: Server) -> None:
    assert refusal(lambda: open_book(postgres.new_place())).key == "book.where-photos"


def test_a_server_that_is_not_there_is_told_without_the_password(tmp_path: Path) -> None:
    url = f"postgresql://me:secret@/x?host={tmp_path}"
    told = refusal(lambda: open_book(url, photos=tmp_path))
    assert told.key == "book.database"
    assert "secret" not in str(told)


def test_without_its_driver_the_server_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "psycopg", None)
    assert refusal(lambda: engine_at("postgresql://somewhere/x")).key == "book.no-driver"


def test_many_open_a_new_book_at_once(new_book: NewBook) -> None:
    book = new_book()
    with book.engine.begin() as connection:
        for statement in ("DROP TABLE photo", "DROP TABLE revision", "DROP TABLE alembic_version"):
            connection.execute(text(statement))
        if connection.dialect.name == "postgresql":
            connection.execute(text("DROP FUNCTION gaugerod_stays"))
    book.close()

    def opened(_: int) -> Book:
        return open_book(where(book), photos=book.files.folder)

    with ThreadPoolExecutor(6) as pool:
        books = list(pool.map(opened, range(6)))
    assert books[0].write(draft(1)) == books[5].head("job", "hall-bath")
    for one in books:
        one.close()


def test_sqlite_waits_for_the_disk(tmp_path: Path) -> None:
    """2 is FULL: each commit is brought to disk. Source: SQLite, PRAGMA synchronous."""
    book = open_book(tmp_path)
    with book.engine.begin() as connection:
        assert connection.scalar(text("PRAGMA synchronous")) == 2
        assert connection.scalar(text("PRAGMA journal_mode")) == "wal"
    book.close()


def test_a_write_to_a_server_waits_for_its_disk(postgres: Server, tmp_path: Path) -> None:
    book = open_book(postgres.new_place(), photos=tmp_path)
    with book.engine.begin() as connection:
        assert connection.scalar(text("SHOW synchronous_commit")) == "on"
    book.close()
