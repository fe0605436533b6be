"""Backups from the command line: a whole book of jobs to one file, and back.

What speaks to a database is slow to load, so only these two commands load it.
"""

from collections.abc import Callable
from contextlib import closing
from pathlib import Path
from typing import Annotated

import typer

from gaugerod.app.job_book import Report
from gaugerod.cli.speech import FORBIDDEN, complain, spoken
from gaugerod.core.base.catalogue import Catalogue

_FILE = "FILE"
_BOOK = "BOOK"


def add_backup(cli: typer.Typer, words: Catalogue) -> None:
    """Add the commands `backup` and `restore`."""

    @cli.command(help=words.text("cli.backup"))
    def backup(
        book: Annotated[str, typer.Argument(metavar=_BOOK, help=words.text("cli.book"))],
        file: Annotated[Path, typer.Argument(metavar=_FILE, help=words.text("cli.backup-file"))],
        *,
        photos: Annotated[
            Path | None, typer.Option(metavar="DIR", help=words.text("cli.photos"))
        ] = None,
    ) -> None:
        _tell(lambda: _back_up(place_of(book), photos, file), words, "cli.backed-up", file)

    @cli.command("restore", help=words.text("cli.restore"))
    def back(
        file: Annotated[Path, typer.Argument(metavar=_FILE, help=words.text("cli.backup-made"))],
        book: Annotated[str, typer.Argument(metavar=_BOOK, help=words.text("cli.book-new"))],
        *,
        photos: Annotated[
            Path | None, typer.Option(metavar="DIR", help=words.text("cli.photos"))
        ] = None,
    ) -> None:
        _tell(lambda: _restore(file, place_of(book), photos), words, "cli.restored", file)


def place_of(book: str) -> Path | str:
    """Return where a book is kept: a folder, or the URL of a database."""
    return book if "://" in book else Path(book)


def _back_up(where: Path | str, photos: Path | None, file: Path) -> Report:
    from gaugerod.store.book.opening import open_book  # noqa: PLC0415  (see above)
    from gaugerod.store.book.safe import back_up  # noqa: PLC0415  (see above)

    with closing(open_book(where, photos=photos, new=False)) as book:
        return back_up(book, file)


def _restore(file: Path, where: Path | str, photos: Path | None) -> Report:
    from gaugerod.store.book.safe import restore  # noqa: PLC0415  (see above)

    return restore(file, where, photos=photos)


def _tell(work: Callable[[], Report], words: Catalogue, key: str, file: Path) -> None:
    with spoken(words):
        report = work()
    counts = {"documents": report.documents, "revisions": report.revisions}
    typer.echo(words.text(key, file=str(file), photos=report.photos, **counts))
    for what in report.broken:
        complain(words.text("cli.broken", what=what))
    for photo in report.missing:
        complain(words.text("book.no-photo", photo=photo))
    if not report.sound:
        raise typer.Exit(FORBIDDEN)
