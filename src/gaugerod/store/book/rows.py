"""Between a draft, a row of the table and a revision."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, TypeAlias

from sqlalchemy import Connection, select

from gaugerod.app.job_book import Draft, Kind, Revision
from gaugerod.store.book.canon import canonical, digest, identifier, plain, tables
from gaugerod.store.book.changed import changed
from gaugerod.store.book.tables import REVISION

Row: TypeAlias = Mapping[str, Any]
_SIGNED = ("n", "token", "who", "at", "note", "title", "changed", "restores", "document", "day")


def row_of(draft: Draft) -> dict[str, Any]:
    """Return what a draft says by itself, ready to be kept.

    Raises
    ------
    BookError
        A part of it can't be kept.
    """
    return {
        "kind": draft.kind,
        "id": identifier(draft.id),
        "n": draft.seen + 1,
        "token": identifier(draft.key),
        "who": plain(draft.by, most=200),
        "at": stamp(draft.at),
        "note": plain(draft.note, most=2000),
        "title": _title(draft),
        "restores": draft.restores,
        "document": canonical(draft.document),
        "day": canonical(draft.day),
    }


def signed(row: Row, before: Row | None) -> dict[str, Any]:
    """Return a row with what it says of the one before: where they differ, and its checksum."""
    old = documents(before) if before else {"document": {}, "day": {}}
    full = {**row, "changed": json.dumps(changed(old, documents(row)))}
    return {**full, "sha256": checksum(full, before)}


def checksum(row: Row, before: Row | None) -> str:
    """Return the checksum that a row must have. Kind and id are left out: a copy keeps its own."""
    return digest({name: row[name] for name in _SIGNED}, before=before["sha256"] if before else "")


def documents(row: Row) -> dict[str, Any]:
    """Return both documents of a row."""
    return {"document": tables(row["document"]), "day": tables(row["day"])}


def revision_of(row: Row) -> Revision:
    """Return the revision that a row keeps."""
    return Revision(
        kind=row["kind"],
        id=row["id"],
        n=row["n"],
        key=row["token"],
        by=row["who"],
        at=datetime.fromisoformat(row["at"]),
        note=row["note"],
        title=row["title"],
        changed=tuple(json.loads(row["changed"])),
        restores=row["restores"],
        sha256=row["sha256"],
        **documents(row),
    )


def rows(connection: Connection, kind: Kind, name: str) -> list[Row]:
    """Return every row of a document, the oldest first."""
    mine = select(REVISION).where(REVISION.c.kind == kind, REVISION.c.id == name)
    return [row._asdict() for row in connection.execute(mine.order_by(REVISION.c.n))]


def last_row(connection: Connection, kind: Kind, name: str) -> Row | None:
    """Return the newest row of a document, if it has one."""
    mine = select(REVISION).where(REVISION.c.kind == kind, REVISION.c.id == name)
    newest = connection.execute(mine.order_by(REVISION.c.n.desc()).limit(1)).first()
    return newest._asdict() if newest else None


def row_with(
    connection: Connection, kind: Kind, name: str, *, n: int | None = None, token: str = ""
) -> Row | None:
    """Return the row of a document that has a number, or a key."""
    wanted = REVISION.c.token == token if n is None else REVISION.c.n == n
    mine = select(REVISION).where(REVISION.c.kind == kind, REVISION.c.id == name, wanted)
    found = connection.execute(mine).first()
    return found._asdict() if found else None


def stamp(moment: datetime) -> str:
    """Return a moment as text, in UTC; one without a zone is nobody's."""
    if moment.tzinfo is None:
        raise ValueError(moment)
    return moment.astimezone(UTC).isoformat(timespec="microseconds")


def _title(draft: Draft) -> str:
    name = draft.document.get("name")
    return plain(name[:200], most=200) if isinstance(name, str) else draft.id
