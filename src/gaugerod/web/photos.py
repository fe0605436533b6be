"""Photos as the pages show them: small, with their words, and where one more can be hung."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from gaugerod.app.job_book import Photo, Subject
from gaugerod.web import urls
from gaugerod.web.desk import Desk

_APART = {"reads", "note", "sigma", "surface", "id"}
"""What a reading may say otherwise and still be the same reading."""
_MOST = 200
_SHOWN = {"image/jpeg", "image/png", "image/webp"}
"""What every browser shows; the rest is opened by what the computer has for it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One photo: its address, whether a browser shows it, what it is of, and what is said of it."""

    photo: str
    link: str
    shown: bool
    subject: Subject
    name: str
    note: str
    by: str
    at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class Hook:
    """A place where photos hang: those that do, and where the next is sent; `back` is the page."""

    subject: Subject
    name: str
    action: str
    back: str
    shots: tuple[Shot, ...]


def hook(desk: Desk, job: str, subject: Subject, name: str, *, back: str) -> Hook:
    """Return a place where photos hang, with those that hang there now."""
    there = (one for one in desk.book.photos(job) if (one.subject, one.name) == (subject, name))
    return Hook(
        subject=subject,
        name=name,
        action=urls.to(urls.PHOTOS, job=job),
        back=back,
        shots=shots(there),
    )


def shots(photos: Iterable[Photo]) -> tuple[Shot, ...]:
    """Return photos as a page shows them."""
    return tuple(
        Shot(
            photo=one.sha256,
            link=urls.to(urls.PHOTO, job=one.job, photo=one.sha256),
            shown=one.type in _SHOWN,
            subject=one.subject,
            name=one.name,
            note=one.note,
            by=one.by,
            at=one.at,
        )
        for one in photos
    )


def inside_wall(photos: Iterable[Photo], wall: str) -> tuple[Shot, ...]:
    """Return the photos of what is on a wall, also of what it says no longer."""
    return shots(one for one in photos if one.name.startswith(f"{wall}: "))


def name_of(wall: str, entry: Mapping[str, Any]) -> str:
    """Return what photos of a reading, a hole, an opening or a fixture are kept under.

    It does not change with what the tape reads.
    """
    called = entry.get("name") or entry.get("id")
    said = (f"{key} {value}" for key, value in sorted(entry.items()) if key not in _APART)
    return f"{wall}: {called or ', '.join(said)}"[:_MOST]
