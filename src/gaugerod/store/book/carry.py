"""A job as one file: out of one book, into another, with its history and photos.

What the job is made of goes along: own materials and rates that any of its revisions names.
"""

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path
from typing import Any, TypeAlias

from sqlalchemy import Connection, insert

from gaugerod.app.job_book import KINDS, BookError, Kind
from gaugerod.core.base.messages import Message
from gaugerod.store.book.book import Book
from gaugerod.store.book.bundle import Bundle, What, opened, refused, write_bundle
from gaugerod.store.book.canon import identifier, tables
from gaugerod.store.book.chain import lines, photo_lines, photos_in, rows_in
from gaugerod.store.book.connect import alone, reading, writing
from gaugerod.store.book.hang import hang, hanging, place_of, rows_by_place
from gaugerod.store.book.rows import Row, rows
from gaugerod.store.book.tables import REVISION

_WHAT: What = "gaugerod job"
_PHOTOS = "photos.jsonl"
_Found: TypeAlias = Mapping[tuple[Kind, str], list[Row]]


def export_job(book: Book, job: str, path: Path) -> None:
    """Write a job into a new file. Photos that were taken off stay behind.

    Raises
    ------
    BookError
        There is no such job, one of its photos is damaged, or the file cannot be written.
    """
    with reading(book.engine) as connection:
        mine = rows(connection, "job", job)
        if not mine:
            raise BookError(Message("book.no-document", id=job))
        documents = {("job", job): mine, **_named(connection, mine)}
        photos = hanging(connection, job)
    parts: dict[str, bytes | Path] = {
        f"{kind}/{name}.jsonl": lines(found) for (kind, name), found in documents.items() if found
    }
    parts[_PHOTOS] = photo_lines(photos)
    for row in photos:
        parts[f"photos/{row['sha256']}"] = book.files.checked(row["sha256"])
    write_bundle(path, _WHAT, {"job": job, "title": mine[-1]["title"]}, parts)


def import_job(book: Book, path: Path, *, name: str | None = None) -> str:
    """Take a job in from a file; return its id, which is `name` where one is given.

    Revisions that are here already stay, and those that are missing are added.

    Raises
    ------
    BookError
        It is no such file, or it and the book have gone different ways.
    """
    with opened(path, _WHAT) as bundle:
        job = identifier(name or str(bundle.about.get("job")))
        try:
            found = dict(_documents(bundle, job))
            photos = photos_in(bundle.read(_PHOTOS), job)
        except ValueError as error:
            raise refused(bundle.file, "a revision in it is not as it was written") from error
        if ("job", job) not in found:
            raise refused(bundle.file, "there is no job in it")
        for row in photos:
            if book.files.put(bundle.read(f"photos/{row['sha256']}")) != row["sha256"]:
                raise refused(bundle.file, "a photo in it is another one")
    with writing(book.engine) as connection:
        alone(connection, *(f"{kind} {one}" for kind, one in found))
        for (kind, one), theirs in found.items():
            _add(connection, rows(connection, kind, one), theirs)
        known = rows_by_place(connection, job)
        for row in photos:
            if place_of(row) not in known:
                hang(connection, dict(row))
    return job


def _named(connection: Connection, mine: Iterable[Row]) -> _Found:
    documents = [tables(row["document"]) for row in mine]
    choices = [one.get("choices") for one in documents]
    wanted: set[tuple[str, object]] = {
        ("material", name)
        for one in choices
        if isinstance(one, dict)
        for name in (one.get("material"), *_accents(one.get("accent")))
        if isinstance(name, str)
    }
    wanted |= {("rates", one.get("rates")) for one in documents}
    return {
        (kind, name): rows(connection, kind, name)
        for kind in KINDS
        for known, name in wanted
        if known == kind and isinstance(name, str)
    }


def _accents(found: object) -> Iterator[object]:
    """Yield the materials that stand here and there instead of the job's own."""
    rows = found if isinstance(found, list) else []
    yield from (row.get("material") for row in rows if isinstance(row, dict))


def _documents(bundle: Bundle, job: str) -> Iterator[tuple[tuple[Kind, str], list[Row]]]:
    for file in bundle.files:
        folder, _, rest = file.partition("/")
        for kind in KINDS:
            if folder == kind:
                name = job if kind == "job" else identifier(rest.removesuffix(".jsonl"))
                yield (kind, name), rows_in(bundle.read(file), kind, name)


def _add(connection: Connection, ours: list[Row], theirs: list[Row]) -> None:
    for here, there in zip(ours, theirs, strict=False):
        if here["sha256"] != there["sha256"]:
            raise BookError(Message("book.other-ways", id=here["id"], n=here["n"]))
    missing: list[dict[str, Any]] = [dict(row) for row in theirs[len(ours) :]]
    if missing:
        connection.execute(insert(REVISION), missing)
