"""Writing a revision: once for each key, on what the writer saw, or not at all."""

from typing import Any

from sqlalchemy import Connection, Engine, insert

from gaugerod.app.job_book import BookError, ConflictError, Draft, Revision
from gaugerod.core.base.messages import Message
from gaugerod.store.book.connect import alone, writing
from gaugerod.store.book.rows import Row, last_row, revision_of, row_of, row_with, signed
from gaugerod.store.book.tables import REVISION

_ASKED = ("n", "who", "note", "restores", "document", "day")


def write(engine: Engine, draft: Draft) -> Revision:
    """Keep a draft as the next revision; it is on disk when this returns.

    A draft whose key was written already gives the revision that it made then.

    Raises
    ------
    ConflictError
        The writer did not see the newest revision.
    BookError
        The draft can't be kept, or its key was used for another one.
    """
    row = row_of(draft)
    with writing(engine) as connection:
        alone(connection, f"{draft.kind} {draft.id}")
        made = row_with(connection, draft.kind, draft.id, token=draft.key)
        return revision_of(_again(row, made) if made else _next(connection, draft, row))


def _again(row: Row, made: Row) -> Row:
    if any(row[name] != made[name] for name in _ASKED):
        raise BookError(Message("book.key-used", key=row["token"], n=made["n"]))
    return made


def _next(connection: Connection, draft: Draft, row: dict[str, Any]) -> Row:
    head = last_row(connection, draft.kind, draft.id)
    if draft.seen != (head["n"] if head else 0):
        raise _stale(connection, draft, head)
    full = signed(row, head)
    connection.execute(insert(REVISION).values(full))
    return full


def _stale(connection: Connection, draft: Draft, head: Row | None) -> BookError:
    seen = row_with(connection, draft.kind, draft.id, n=draft.seen)
    if head is None or (seen is None and draft.seen != 0):
        return BookError(Message("book.no-revision", id=draft.id, n=draft.seen))
    return ConflictError(draft, seen=revision_of(seen) if seen else None, head=revision_of(head))
