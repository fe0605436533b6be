"""Opening a book: a folder on this computer, or a database on a server."""

from pathlib import Path

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.connect import FILE, engine_at, shown
from gaugerod.store.book.photo_files import PhotoFiles
from gaugerod.store.book.schema import bring_up_to_date


def open_book(where: Path | str, *, photos: Path | None = None, new: bool = True) -> Book:
    """Open the book in a folder, or at a URL of PostgreSQL.

    Where there is none a new one is made, unless it must not be `new`.

    Photos are files in the folder `photos`, beside SQLite's unless another is named.

    Raises
    ------
    BookError
        A newer program made it, something else did, it can't be reached, there is none and it
        must not be new, or there is no folder for its photos.
    """
    if photos is None and not isinstance(where, Path):
        raise BookError(Message("book.where-photos"))
    if not new and isinstance(where, Path) and not (where / FILE).is_file():
        raise BookError(Message("book.none", name=str(where)))
    engine = engine_at(where)
    name = str(where) if isinstance(where, Path) else shown(engine.url)
    try:
        if isinstance(where, Path):
            where.mkdir(parents=True, exist_ok=True)
        bring_up_to_date(engine, name=name, new=new)
    except OSError as error:
        why = error.strerror or type(error).__name__
        raise BookError(Message("book.no-folder", folder=name, why=why)) from error
    except BookError:
        engine.dispose()
        raise
    folder = photos or Path(where) / "photos"
    return Book(name=name, engine=engine, files=PhotoFiles(folder=folder))
