"""What is in a book, and whether all of it is whole."""

from sqlalchemy import Connection, select, text

from gaugerod.app.job_book import Report
from gaugerod.store.book.chain import first_broken
from gaugerod.store.book.rows import rows
from gaugerod.store.book.tables import PHOTO, REVISION


def look_over(connection: Connection, *, missing: tuple[str, ...] = ()) -> Report:
    """Read every revision against its checksum."""
    table = REVISION.c
    named = connection.execute(select(table.kind, table.id).distinct()).all()
    revisions, broken = 0, []
    for kind, name in sorted(tuple(one) for one in named):
        mine = rows(connection, kind, name)
        revisions += len(mine)
        wrong = first_broken(mine)
        if wrong is not None:
            broken.append(f"{kind} {name} {wrong}")
    return Report(
        documents=len(named),
        revisions=revisions,
        photos=len(photos_known(connection)),
        broken=tuple(broken),
        missing=missing,
    )


def photos_known(connection: Connection) -> list[str]:
    """Return the checksums of all photos that hang or ever hung, in order."""
    return sorted(connection.scalars(select(PHOTO.c.sha256).distinct()))


def damage(connection: Connection) -> str | None:
    """Return what SQLite finds wrong with its own pages, None where all is well."""
    found = str(connection.scalar(text("PRAGMA integrity_check")))
    return None if found == "ok" else found
