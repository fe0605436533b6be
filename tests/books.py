"""Books to test: one in a folder, one on a server, and what is written into them."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import TypeAlias

from gaugerod.app.job_book import Draft, Kind
from gaugerod.store.book.book import Book

NewBook: TypeAlias = Callable[[], Book]
"""Opens a new, empty book; each call another."""
MORNING = datetime(2026, 3, 5, 8, tzinfo=UTC)
JPEG = bytes.fromhex("ffd8ffe000104a464946") + b"a wall before anything was opened"
PNG = b"\x89PNG\r\n\x1a\n" + b"the valve, from the left"


def draft(
    n: int,
    *,
    name: str = "hall-bath",
    kind: Kind = "job",
    key: str | None = None,
    note: str = "",
    document: Mapping[str, object] | None = None,
    day: Mapping[str, object] | None = None,
    by: str = "Setter",
) -> Draft:
    """Return the draft of revision `n`, made from the one before."""
    return Draft(
        kind=kind,
        id=name,
        seen=n - 1,
        key=key or f"key-{n}",
        by=by,
        at=MORNING + timedelta(minutes=n),
        note=note,
        document={"name": "Hall bath", "reading": n} if document is None else document,
        day=day or {},
    )


def where(book: Book) -> Path | str:
    """Return what a book can be opened again by."""
    if book.engine.name == "sqlite":
        return Path(str(book.engine.url.database)).parent
    return book.engine.url.render_as_string(hide_password=False)
