"""Backups: made while others write, held against checksums, laid out where there is no book."""

import json
import sqlite3
import zipfile
from collections.abc import Callable
from contextlib import closing
from hashlib import sha256
from pathlib import Path
from threading import Event, Thread

import pytest
from sqlalchemy import text
from tests.books import JPEG, MORNING, PNG, draft, where
from tests.postgres import Server

from gaugerod.app.job_book import BookError, Report
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.carry import export_job
from gaugerod.store.book.opening import open_book
from gaugerod.store.book.safe import back_up, restore


def refusal(act: Callable[[], object]) -> Message:
    with pytest.raises(BookError) as caught:
        act()
    return caught.value.message


def fill(book: Book) -> Book:
    book.write(draft(1, name="mine", kind="material"))
    book.write(draft(1))
    book.write(draft(2, document={"odd": "half \ud83d, nul \0"}, day={"set": [1.5]}))
    book.hang("hall-bath", JPEG, subject="wall", name="B", by="Setter", at=MORNING)
    off = book.hang("hall-bath", PNG, subject="hole", name="valve", by="Setter", at=MORNING)
    book.take_off("hall-bath", off.sha256, subject="hole", name="valve", by="Setter", at=MORNING)
    return book


def same(one: Book, other: Book) -> bool:
    """Whether two books hold the same."""
    return all(
        one.contents(kind) == other.contents(kind)
        and all(one.history(kind, h.id) == other.history(kind, h.id) for h in one.contents(kind))
        for kind in ("job", "material", "rates")
    ) and one.photos("hall-bath") == other.photos("hall-bath")


@pytest.fixture
def file(book: Book, tmp_path: Path) -> Path:
    back_up(fill(book), tmp_path / "backup.zip")
    return tmp_path / "backup.zip"


def test_what_was_backed_up_comes_back(book: Book, file: Path, tmp_path: Path) -> None:
    report = restore(file, tmp_path / "new" / "place")
    assert report == Report(documents=2, revisions=3, photos=2, broken=(), missing=())
    with closing(open_book(tmp_path / "new" / "place", new=False)) as again:
        assert same(book, again)
        for content in (JPEG, PNG):
            path = again.files.checked(sha256(content).hexdigest())
            assert path.read_bytes() == content
        assert again.write(draft(3)).n == 3


def test_it_comes_back_on_a_server_too(
    book: Book, file: Path, tmp_path: Path, postgres: Server
) -> None:
    url = postgres.new_place()
    report = restore(file, url, photos=tmp_path / "photos")
    assert report.sound
    with closing(open_book(url, photos=tmp_path / "photos", new=False)) as again:
        assert same(book, again)
        assert again.write(draft(3)).n == 3
    told = refusal(lambda: restore(file, url, photos=tmp_path / "photos"))
    assert told.key == "book.already"


def test_photos_may_lie_elsewhere(file: Path, tmp_path: Path) -> None:
    restore(file, tmp_path / "place", photos=tmp_path / "pictures")
    assert [path.name for path in (tmp_path / "place").iterdir()] == ["jobs.sqlite"]
    with closing(open_book(tmp_path / "place", photos=tmp_path / "pictures")) as again:
        assert again.files.checked(sha256(JPEG).hexdigest()).read_bytes() == JPEG


def test_a_backup_is_a_plain_zip(file: Path, tmp_path: Path) -> None:
    """Anyone can look into it, with the standard library alone."""
    with zipfile.ZipFile(file) as archive:
        assert archive.testzip() is None
        manifest = json.loads(archive.read("manifest.json"))
        archive.extract("jobs.sqlite", tmp_path)
    assert (manifest["what"], manifest["format"]) == ("gaugerod backup", 1)
    with closing(sqlite3.connect(tmp_path / "jobs.sqlite")) as connection:
        assert connection.execute("SELECT count(*) FROM revision").fetchone() == (3,)
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)


def test_others_write_while_it_is_made(book: Book, tmp_path: Path) -> None:
    """Each backup holds every revision that was acknowledged before it was asked for."""
    book.write(draft(1))
    stop = Event()

    def write() -> None:
        n = 1
        while not stop.is_set():
            n += 1
            book.write(draft(n, document={"filling": "x" * 20_000, "n": n}))

    writer = Thread(target=write)
    writer.start()
    try:
        for number in range(4):
            acknowledged = book.head("job", "hall-bath").n
            report = back_up(book, tmp_path / f"{number}.zip")
            assert report.sound
            assert acknowledged <= report.revisions
    finally:
        stop.set()
        writer.join()
    for number in range(4):
        assert restore(tmp_path / f"{number}.zip", tmp_path / f"place-{number}").sound


def test_a_book_that_is_there_is_never_written_over(file: Path, tmp_path: Path) -> None:
    restore(file, tmp_path / "place")
    assert refusal(lambda: restore(file, tmp_path / "place")).key == "book.already"
    (tmp_path / "place" / "jobs.sqlite").rename(tmp_path / "place" / "jobs.sqlite-wal")
    assert refusal(lambda: restore(file, tmp_path / "place")).key == "book.already"


def test_a_backup_that_is_there_is_never_written_over(book: Book, file: Path) -> None:
    before = file.read_bytes()
    assert refusal(lambda: back_up(book, file)).key == "app.already-there"
    assert file.read_bytes() == before


def test_a_damaged_photo_is_told_and_the_rest_is_kept(book: Book, tmp_path: Path) -> None:
    fill(book)
    name = sha256(JPEG).hexdigest()
    book.files.path(name).write_bytes(b"\xff\xd8\xff no longer what it was")
    assert back_up(book, tmp_path / "backup.zip").missing == (name,)
    assert restore(tmp_path / "backup.zip", tmp_path / "place").missing == (name,)
    with closing(open_book(tmp_path / "place")) as again:
        assert same(book, again)


def test_a_revision_that_was_tampered_with_is_told(book: Book, tmp_path: Path) -> None:
    fill(book)
    with book.engine.begin() as connection:
        sqlite = connection.dialect.name == "sqlite"
        trigger = "revision_stays_UPDATE" if sqlite else "revision_stays ON revision"
        connection.execute(text(f"DROP TRIGGER {trigger}"))
        connection.execute(text("UPDATE revision SET note = 'paid' WHERE kind = 'job' AND n = 2"))
    assert back_up(book, tmp_path / "backup.zip").broken == ("job hall-bath 2",)
    assert restore(tmp_path / "backup.zip", tmp_path / "place").broken == ("job hall-bath 2",)


def test_every_byte_that_is_lost_is_found_out(file: Path, tmp_path: Path) -> None:
    whole, refused = file.read_bytes(), 0
    for at in range(0, len(whole), len(whole) // 30):
        file.write_bytes(whole[:at] + bytes([whole[at] ^ 0xFF]) + whole[at + 1 :])
        place = tmp_path / f"place-{at}"
        try:
            assert restore(file, place).sound
        except BookError as error:
            refused += error.message.key == "book.not-bundle"
            assert not place.exists()
    assert refused > 25  # what a zip says twice, and never looks at, may be lost


@pytest.mark.parametrize("share", [0, 0.3, 0.9, 0.999])
def test_half_a_file_is_refused(file: Path, tmp_path: Path, share: float) -> None:
    file.write_bytes(file.read_bytes()[: int(file.stat().st_size * share)])
    assert refusal(lambda: restore(file, tmp_path / "place")).key == "book.not-bundle"
    assert not (tmp_path / "place").exists()


def packed(folder: Path, database: bytes, **other: object) -> Path:
    """A backup made by hand around a database."""
    entry = {"sha256": sha256(database).hexdigest(), "size": len(database)}
    files = {"jobs.sqlite": entry}
    manifest = {"what": "gaugerod backup", "format": 1, "about": {}, "files": files, **other}
    with zipfile.ZipFile(folder / "by-hand.zip", "w") as archive:
        archive.writestr("manifest.json", json.dumps(manifest))
        archive.writestr("jobs.sqlite", database)
    return folder / "by-hand.zip"


def database(book: Book, *statements: str) -> bytes:
    """The bytes of a book in a folder, after something was done to it."""
    with book.engine.begin() as connection:
        for statement in statements:
            connection.execute(text(statement))
    book.close()
    return (Path(str(where(book))) / "jobs.sqlite").read_bytes()


def test_a_newer_backup_is_refused(tmp_path: Path) -> None:
    newer = packed(tmp_path, b"", format=2, more=1)
    told = refusal(lambda: restore(newer, tmp_path / "place"))
    assert (told.key, told.values["found"], told.values["known"]) == ("book.newer", 2, 1)


def test_a_backup_of_a_newer_book_is_refused(tmp_path: Path) -> None:
    content = database(
        open_book(tmp_path / "book"), "UPDATE alembic_version SET version_num = '0099'"
    )
    told = refusal(lambda: restore(packed(tmp_path, content), tmp_path / "place"))
    assert (told.key, told.values["found"]) == ("book.newer", 99)
    assert not (tmp_path / "place").exists()


def test_a_backup_of_an_older_book_is_brought_up_to_date(tmp_path: Path) -> None:
    old = Path(__file__).parents[2] / "data" / "book-schema-1.sql"
    with closing(sqlite3.connect(tmp_path / "old.sqlite")) as connection:
        connection.executescript(old.read_text(encoding="utf-8"))
    file = packed(tmp_path, (tmp_path / "old.sqlite").read_bytes())
    assert restore(file, tmp_path / "place").revisions == 2
    with closing(open_book(tmp_path / "place")) as book:
        assert book.head("job", "hall-bath").n == 2


def test_pages_that_are_damaged_are_found_by_the_database_itself(tmp_path: Path) -> None:
    book = open_book(tmp_path / "book")
    for n in range(1, 30):
        book.write(draft(n, document={"filling": "x" * 9000}))
    content = bytearray(database(book))
    middle = len(content) // 2 // 4096 * 4096
    content[middle : middle + 4096] = b"\x0d" * 4096
    told = refusal(lambda: restore(packed(tmp_path, bytes(content)), tmp_path / "place"))
    assert told.key in {"book.not-bundle", "book.database"}
    assert not (tmp_path / "place").exists()


def test_a_book_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    with closing(open_book(tmp_path / "book")) as book:
        book.write(draft(1))
        book.engine.dispose()
        (tmp_path / "book" / "jobs.sqlite").write_bytes(b"no longer a database" * 1000)
        told = refusal(lambda: back_up(book, tmp_path / "backup.zip"))
    assert told.key == "book.database"
    assert not (tmp_path / "backup.zip").exists()


def test_a_photo_of_another_name_is_refused(book: Book, tmp_path: Path) -> None:
    fill(book)
    back_up(book, tmp_path / "backup.zip")
    with zipfile.ZipFile(tmp_path / "backup.zip") as archive:
        parts = {name: archive.read(name) for name in archive.namelist()}
    manifest = json.loads(parts["manifest.json"])
    name = f"photos/{sha256(JPEG).hexdigest()}"
    manifest["files"][name] = {"sha256": sha256(PNG).hexdigest(), "size": len(PNG)}
    parts |= {name: PNG, "manifest.json": json.dumps(manifest).encode()}
    with zipfile.ZipFile(tmp_path / "other.zip", "w") as archive:
        for part, content in parts.items():
            archive.writestr(part, content)
    told = refusal(lambda: restore(tmp_path / "other.zip", tmp_path / "place"))
    assert told.key == "book.not-bundle"
    assert not (tmp_path / "place").exists()


def test_without_a_book_there_is_nothing_to_copy(tmp_path: Path, postgres: Server) -> None:
    assert refusal(lambda: open_book(tmp_path / "none", new=False)).key == "book.none"
    assert not (tmp_path / "none").exists()
    url = postgres.new_place()
    assert refusal(lambda: open_book(url, photos=tmp_path, new=False)).key == "book.none"


def test_a_job_is_no_backup(book: Book, file: Path, tmp_path: Path) -> None:
    export_job(book, "hall-bath", tmp_path / "job.zip")
    assert refusal(lambda: restore(tmp_path / "job.zip", tmp_path / "x")).key == "book.not-bundle"
    assert file.exists()
