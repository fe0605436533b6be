"""A copy of a whole book in one file, made while others write, and the way back.

The copy holds a database of SQLite whatever the book is kept in, so a book can move from one to the
other.
"""

import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from shutil import copyfileobj
from tempfile import TemporaryDirectory
from typing import IO

from sqlalchemy import Engine, insert, select

from gaugerod.app.job_book import BookError, Report
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.bundle import Bundle, What, opened, refused, write_bundle
from gaugerod.store.book.connect import FILE, passing_engine, reading, writing
from gaugerod.store.book.files import keep_file
from gaugerod.store.book.opening import open_book
from gaugerod.store.book.photo_files import PhotoFiles
from gaugerod.store.book.schema import bring_up_to_date
from gaugerod.store.book.soundness import damage, look_over, photos_known
from gaugerod.store.book.tables import METADATA, REVISION

_WHAT: What = "gaugerod backup"
_BATCH = 500


def back_up(book: Book, path: Path) -> Report:
    """Copy a book, as it stands at one moment, into a new file.

    What is broken or missing in the book is told, and keeps nothing else from being copied.

    Raises
    ------
    BookError
        The book can't be read, or the file cannot be written.
    """
    with TemporaryDirectory(prefix="gaugerod-") as folder:
        copy = Path(folder) / FILE
        _copy_out(book.engine, copy)
        parts: dict[str, bytes | Path] = {FILE: copy}
        missing = []
        with _engine(copy.parent, str(path)) as engine, reading(engine) as connection:
            for name in photos_known(connection):
                try:
                    parts[_photo(name)] = book.files.checked(name)
                except BookError:
                    missing.append(name)
            report = look_over(connection, missing=tuple(missing))
        write_bundle(path, _WHAT, {"missing": missing}, parts)
    return report


def restore(path: Path, where: Path | str, *, photos: Path | None = None) -> Report:
    """Make a book out of a backup, where there is none yet.

    Everything in the backup is held against its checksum before anything is written.

    Raises
    ------
    BookError
        It is no backup, it is damaged or of a newer program, or there is a book already.
    """
    if isinstance(where, Path) and any(where.glob(f"{FILE}*")):
        raise BookError(Message("book.already", name=str(where)))
    with opened(path, _WHAT) as bundle, TemporaryDirectory(prefix="gaugerod-") as folder:
        for name in bundle.files:
            bundle.check(name)
        copy = Path(folder) / FILE
        with copy.open("wb") as file:
            bundle.copy(FILE, file)
        with _engine(copy.parent, bundle.file) as engine, reading(engine) as connection:
            wrong = damage(connection)
            if wrong is not None:
                raise refused(bundle.file, wrong)
            names = photos_known(connection)
            missing = tuple(name for name in names if _photo(name) not in bundle.files)
            report = look_over(connection, missing=missing)
        kept = [name for name in names if name not in missing]
        for name in kept:
            if bundle.files[_photo(name)].sha256 != name:
                raise refused(bundle.file, f"{_photo(name)} is another photo")
        _settle(bundle, copy, kept, where, photos)
    return report


def _settle(
    bundle: Bundle, copy: Path, names: list[str], where: Path | str, photos: Path | None
) -> None:
    """Bring photos to their folder, and the rows last: a book is never there without its photos."""
    if isinstance(where, Path):
        _put(bundle, names, PhotoFiles(folder=photos or where / "photos"))
        with copy.open("rb") as source:
            keep_file(where / FILE, lambda target: copyfileobj(source, target))
        return
    with closing(open_book(where, photos=photos)) as book:
        _put(bundle, names, book.files)
        with _engine(copy.parent, bundle.file) as engine:
            _copy_rows(engine, book.engine, book.name)


def _put(bundle: Bundle, names: list[str], files: PhotoFiles) -> None:
    for name in names:
        part = _photo(name)

        def fill(target: IO[bytes], part: str = part) -> None:
            bundle.copy(part, target)

        keep_file(files.path(name), fill)


def _copy_out(engine: Engine, copy: Path) -> None:
    if engine.name != "sqlite":
        with _engine(copy.parent, engine.name) as target:
            _copy_rows(engine, target, engine.name)
        return
    try:
        with (
            closing(sqlite3.connect(str(engine.url.database))) as source,
            closing(sqlite3.connect(copy)) as target,
        ):
            target.execute("PRAGMA synchronous=OFF").close()
            source.backup(target)  # all pages in one step: others may write meanwhile
    except sqlite3.Error as error:
        raise BookError(Message("book.database", why=str(error))) from error


def _copy_rows(source: Engine, target: Engine, name: str) -> None:
    with reading(source) as here, writing(target) as there:
        if there.execute(select(REVISION.c.n).limit(1)).first() is not None:
            raise BookError(Message("book.already", name=name))
        for table in METADATA.sorted_tables:
            found = here.execute(select(table).execution_options(yield_per=_BATCH)).mappings()
            for batch in found.partitions():
                there.execute(insert(table), [{**row} for row in batch])


@contextmanager
def _engine(folder: Path, name: str) -> Iterator[Engine]:
    engine = passing_engine(folder)
    try:
        bring_up_to_date(engine, name=name)
        yield engine
    finally:
        engine.dispose()


def _photo(name: str) -> str:
    return f"photos/{name}"
