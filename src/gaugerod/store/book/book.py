"""The book: what pages and commands speak to."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Engine

from gaugerod.app.job_book import BookError, Draft, Heading, Kind, Photo, Revision, Subject
from gaugerod.core.base.messages import Message
from gaugerod.store.book.connect import reading, writing
from gaugerod.store.book.hang import hang, hung, photo_row
from gaugerod.store.book.headings import headings
from gaugerod.store.book.photo_files import PhotoFiles, type_of
from gaugerod.store.book.revise import write
from gaugerod.store.book.rows import last_row, revision_of, row_with, rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Book:
    """A book of jobs, of materials and of rates. One for each process; threads may share it."""

    name: str
    engine: Engine
    files: PhotoFiles

    def write(self, draft: Draft) -> Revision:
        """Keep a draft as the next revision; it is on disk when this returns.

        Raises
        ------
        ConflictError
            The writer did not see the newest revision; both are told, nothing is written.
        BookError
            The draft can't be kept, or its key was used for another one.
        """
        return write(self.engine, draft)

    def undo(
        self, kind: Kind, name: str, *, to: int, seen: int, key: str, by: str, at: datetime
    ) -> Revision:
        """Make a new revision that says what an old one said; both stay.

        Raises
        ------
        ConflictError
            The writer did not see the newest revision.
        BookError
            There is no such revision.
        """
        old = self.revision(kind, name, to)
        draft = Draft(
            kind=kind,
            id=name,
            seen=seen,
            key=key,
            by=by,
            at=at,
            document=old.document,
            day=old.day,
            restores=to,
        )
        return self.write(draft)

    def head(self, kind: Kind, name: str) -> Revision:
        """Return the newest revision of a document.

        Raises
        ------
        BookError
            There is no such document.
        """
        with reading(self.engine) as connection:
            found = last_row(connection, kind, name)
            if found is None:
                raise BookError(Message("book.no-document", id=name))
            return revision_of(found)

    def revision(self, kind: Kind, name: str, n: int) -> Revision:
        """Return a revision by its number.

        Raises
        ------
        BookError
            There is no such revision.
        """
        with reading(self.engine) as connection:
            found = row_with(connection, kind, name, n=n)
            if found is None:
                raise BookError(Message("book.no-revision", id=name, n=n))
            return revision_of(found)

    def history(self, kind: Kind, name: str) -> tuple[Revision, ...]:
        """Return every revision of a document, the oldest first; none where it is not known."""
        with reading(self.engine) as connection:
            return tuple(revision_of(row) for row in rows(connection, kind, name))

    def contents(self, kind: Kind) -> tuple[Heading, ...]:
        """Return the headings of all documents of a kind, by id."""
        with reading(self.engine) as connection:
            return headings(connection, kind)

    def hang(
        self,
        job: str,
        content: bytes,
        *,
        subject: Subject,
        name: str,
        by: str,
        at: datetime,
        note: str = "",
    ) -> Photo:
        """Keep a photo and hang it where it belongs; sent again, it hangs once.

        Raises
        ------
        BookError
            It is no photo, there is no such job, or it can't be kept.
        """
        kind = type_of(content)
        row = photo_row(job, subject=subject, name=name, by=by, at=at, note=note)
        # The file first: a row never speaks of a photo that is not on disk.
        file = {"sha256": self.files.put(content), "type": kind, "size": len(content)}
        with writing(self.engine) as connection:
            return hang(connection, {**row, **file, "down": 0})

    def caption(
        self,
        job: str,
        sha256: str,
        *,
        subject: Subject,
        name: str,
        by: str,
        at: datetime,
        note: str,
    ) -> Photo:
        """Give a photo that hangs other words; what it said before is kept.

        Raises
        ------
        BookError
            There is no such photo there, or the words can't be kept.
        """
        row = photo_row(job, subject=subject, name=name, by=by, at=at, note=note)
        with writing(self.engine) as connection:
            return hang(connection, {**row, "sha256": sha256, "down": 0})

    def take_off(
        self, job: str, sha256: str, *, subject: Subject, name: str, by: str, at: datetime
    ) -> Photo:
        """Take a photo off; its file stays, and so does what is known of it.

        Raises
        ------
        BookError
            There is no such photo there.
        """
        row = photo_row(job, subject=subject, name=name, by=by, at=at)
        with writing(self.engine) as connection:
            return hang(connection, {**row, "sha256": sha256, "down": 1})

    def photos(self, job: str) -> tuple[Photo, ...]:
        """Return the photos of a job that hang now, in the order they were hung."""
        with reading(self.engine) as connection:
            return hung(connection, job)

    def close(self) -> None:
        """Let go of the database."""
        self.engine.dispose()
