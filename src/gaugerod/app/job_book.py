"""What a book of jobs keeps, and how it answers: revisions, photos, conflicts.

A book keeps documents of three kinds. Each is a row of revisions, numbered from 1; none is ever
changed or taken out. A store fulfils this; pages and commands speak to it.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any, Literal, TypeAlias, get_args

from gaugerod.core.base.errors import GaugerodError
from gaugerod.core.base.messages import Message

Kind: TypeAlias = Literal["job", "material", "rates"]
KINDS: tuple[Kind, ...] = get_args(Kind)
Tables: TypeAlias = Mapping[str, Any]
"""A document as JSON has it: lengths as they were written, days as text."""
Subject: TypeAlias = Literal["wall", "hole", "reading", "finding", "hand-over"]
SUBJECTS: tuple[Subject, ...] = get_args(Subject)


class BookError(GaugerodError):
    """The book can't do this: what was given to it, or the book itself, has to be mended."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A revision to be written.

    `seen` is the number of the revision that it was made from, nought where there is none yet.
    `key` is made once by whoever made the change: sent twice, it is written once. `day` is what
    happened on the day: pieces set, readings found, ticks.
    """

    kind: Kind = "job"
    id: str
    seen: int
    key: str
    by: str
    at: datetime
    note: str = ""
    document: Tables
    day: Tables = field(default_factory=dict)
    restores: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """A revision as it is kept.

    `changed` names what differs from the one before, as JSON Pointers (RFC 6901) that begin with
    `/document` or `/day`. `restores` is the revision that an undo went back to. `sha256` covers
    all of it and the revision before.
    """

    kind: Kind
    id: str
    n: int
    key: str
    by: str
    at: datetime
    note: str
    title: str
    changed: tuple[str, ...]
    restores: int | None
    document: Tables
    day: Tables
    sha256: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A document in the table of contents: its last revision without the document."""

    kind: Kind
    id: str
    n: int
    by: str
    at: datetime
    title: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Photo:
    """A photo of a job; `sha256` names its file, `m` is its number in the job."""

    job: str
    m: int
    sha256: str
    type: str
    size: int
    subject: Subject
    name: str
    by: str
    at: datetime
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Report:
    """What a copy of a book holds.

    `broken` names documents, each with the first revision that is not what it was; `missing` the
    photos whose files are gone or damaged.
    """

    documents: int
    revisions: int
    photos: int
    broken: tuple[str, ...]
    missing: tuple[str, ...]

    @property
    def sound(self) -> bool:
        """Whether all of it is whole."""
        return not self.broken and not self.missing


class ConflictError(BookError):
    """Somebody else was quicker: nothing was written, and nothing is lost.

    `draft` is what was refused, `seen` the revision it was made from (none for a first one) and
    `head` the revision that stands now.
    """

    def __init__(self, draft: Draft, *, seen: Revision | None, head: Revision) -> None:
        super().__init__(
            Message("book.conflict", id=draft.id, seen=draft.seen, n=head.n, by=head.by)
        )
        self.draft = draft
        self.seen = seen
        self.head = head
