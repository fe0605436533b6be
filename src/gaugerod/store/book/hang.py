"""Photos on walls, holes, readings and findings: hung, captioned, taken off, listed."""

from datetime import datetime
from typing import Any

from sqlalchemy import Connection, func, insert, select

from gaugerod.app.job_book import BookError, Photo, Subject
from gaugerod.core.base.messages import Message
from gaugerod.store.book.canon import identifier, plain
from gaugerod.store.book.connect import alone
from gaugerod.store.book.rows import Row, last_row, stamp
from gaugerod.store.book.tables import PHOTO

_HUNG = ("sha256", "subject", "name")
_SAID = (*_HUNG, "who", "at", "note", "down")


def photo_row(
    job: str, *, subject: Subject, name: str, by: str, at: datetime, note: str = ""
) -> dict[str, Any]:
    """Return what is said of a photo, ready to be kept.

    Raises
    ------
    BookError
        A part of it can't be kept.
    """
    return {
        "job": identifier(job),
        "subject": subject,
        "name": plain(name, most=200),
        "who": plain(by, most=200),
        "at": stamp(at),
        "note": plain(note, most=2000),
    }


def hang(connection: Connection, row: dict[str, Any]) -> Photo:
    """Hang a photo, give it other words, or take it off; where it is so, nothing is written.

    A row that hangs a photo knows its file; one that knows none is for the photo that hangs there.

    Raises
    ------
    BookError
        There is no such job, or no such photo there.
    """
    alone(connection, f"photo {row['job']}")
    if last_row(connection, "job", row["job"]) is None:
        raise BookError(Message("book.no-document", id=row["job"]))
    for known in photo_rows(connection, row["job"]):
        if all(known[name] == row[name] for name in _SAID):
            return photo_of(known)  # sent again; meanwhile it may have been taken off, and stays so
    last = rows_by_place(connection, row["job"]).get(place_of(row))
    if "type" not in row and (last is None or (last["down"] and not row["down"])):
        raise BookError(Message("book.no-photo", photo=row["sha256"]))
    if last is not None and last["down"] == row["down"] and not _says_more(row, last):
        return photo_of(last)
    full = {**_kept(row, last), "m": next_number(connection, row["job"])}
    connection.execute(insert(PHOTO).values(full))
    return photo_of(full)


def _says_more(row: Row, last: Row) -> bool:
    """Tell whether a row gives a photo that hangs other words; without any, it keeps its own."""
    spoken = "type" not in row or row["note"]
    return not row["down"] and bool(spoken) and row["note"] != last["note"]


def hung(connection: Connection, job: str) -> tuple[Photo, ...]:
    """Return the photos of a job that hang now, in the order they were hung."""
    return tuple(photo_of(row) for row in hanging(connection, job))


def hanging(connection: Connection, job: str) -> list[Row]:
    """Return the rows of the photos of a job that hang now, in the order they were hung."""
    return [row for row in rows_by_place(connection, job).values() if not row["down"]]


def photo_rows(connection: Connection, job: str) -> list[Row]:
    """Return every row of photos of a job, the oldest first."""
    mine = select(PHOTO).where(PHOTO.c.job == job).order_by(PHOTO.c.m)
    return [row._asdict() for row in connection.execute(mine)]


def next_number(connection: Connection, job: str) -> int:
    """Return the number that the next row of photos gets."""
    last = connection.scalar(select(func.max(PHOTO.c.m)).where(PHOTO.c.job == job))
    return (last or 0) + 1


def photo_of(row: Row) -> Photo:
    """Return the photo of a row."""
    return Photo(
        job=row["job"],
        m=row["m"],
        sha256=row["sha256"],
        type=row["type"],
        size=row["size"],
        subject=row["subject"],
        name=row["name"],
        by=row["who"],
        at=datetime.fromisoformat(row["at"]),
        note=row["note"],
    )


def rows_by_place(connection: Connection, job: str) -> dict[tuple[str, ...], Row]:
    """Return the newest row of each photo in each place where it ever hung."""
    newest: dict[tuple[str, ...], Row] = {}
    for row in photo_rows(connection, job):
        newest.pop(place_of(row), None)  # hung anew, it comes last
        newest[place_of(row)] = row
    return newest


def place_of(row: Row) -> tuple[str, ...]:
    """Return which photo it is and where it hangs."""
    return tuple(row[name] for name in _HUNG)


def _kept(row: dict[str, Any], last: Row | None) -> dict[str, Any]:
    """Return a row with what only the photo itself could tell, out of the row that hung it."""
    return {**row, "type": last["type"], "size": last["size"]} if last else row
