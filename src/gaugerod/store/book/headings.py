"""The table of contents of a book."""

from datetime import datetime

from sqlalchemy import Connection, func, select

from gaugerod.app.job_book import Heading, Kind
from gaugerod.store.book.tables import REVISION


def headings(connection: Connection, kind: Kind) -> tuple[Heading, ...]:
    """Return the headings of all documents of a kind, by id."""
    table = REVISION.c
    newest = (
        select(table.id, func.max(table.n).label("n"))
        .where(table.kind == kind)
        .group_by(table.id)
        .subquery()
    )
    wanted = select(table.id, table.n, table.who, table.at, table.title).join(
        newest, (table.kind == kind) & (table.id == newest.c.id) & (table.n == newest.c.n)
    )
    return tuple(
        Heading(
            kind=kind,
            id=row.id,
            n=row.n,
            by=row.who,
            at=datetime.fromisoformat(row.at),
            title=row.title,
        )
        for row in sorted(connection.execute(wanted), key=lambda row: str(row.id))
    )
