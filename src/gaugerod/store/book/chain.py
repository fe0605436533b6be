"""Rows as lines of a file, and whether a row of revisions is whole."""

import json
from collections.abc import Iterable, Sequence
from datetime import datetime
from functools import partial
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, StringConstraints

from gaugerod.app.job_book import Kind, Subject
from gaugerod.store.book.canon import ID, canonical, plain
from gaugerod.store.book.rows import Row, checksum, stamp

_NESTED = ("changed", "document", "day")
_STRICT = ConfigDict(frozen=True, extra="forbid", strict=True)


_Plain = Annotated[str, AfterValidator(partial(plain, most=2000))]


class _Line(BaseModel):
    model_config = _STRICT

    n: Annotated[int, Field(ge=1)]
    token: Annotated[str, StringConstraints(pattern=ID)]
    who: _Plain
    at: str
    note: _Plain
    title: _Plain
    changed: list[str]
    restores: int | None
    document: dict[str, Any]
    day: dict[str, Any]
    sha256: str


class _PhotoLine(BaseModel):
    model_config = _STRICT

    sha256: Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]
    type: Literal["image/jpeg", "image/png", "image/webp", "image/heic"]
    size: Annotated[int, Field(ge=0)]
    subject: Subject
    name: _Plain
    who: _Plain
    at: str
    note: _Plain


def lines(rows: Iterable[Row]) -> bytes:
    """Return rows of revisions as lines of JSON."""
    return _lines({name: _open(row[name], name) for name in _Line.model_fields} for row in rows)


def photo_lines(rows: Iterable[Row]) -> bytes:
    """Return rows of photos as lines of JSON."""
    return _lines({name: row[name] for name in _PhotoLine.model_fields} for row in rows)


def rows_in(source: bytes, kind: Kind, name: str) -> list[Row]:
    """Return the rows of revisions that lines of JSON hold.

    Raises
    ------
    ValueError
        A line is not as it was written, or the revisions are not whole.
    """
    found = [_Line.model_validate(json.loads(line)) for line in source.splitlines()]
    rows: list[Row] = [{"kind": kind, "id": name, **_closed(line)} for line in found]
    broken = first_broken(rows)
    if broken is not None or not rows:
        raise ValueError(broken or 1)
    return rows


def photos_in(source: bytes, job: str) -> list[Row]:
    """Return the rows of photos that lines of JSON hold.

    Raises
    ------
    ValueError
        A line is not as it was written.
    """
    found = [_PhotoLine.model_validate(json.loads(line)) for line in source.splitlines()]
    return [{**line.model_dump(), "job": job, "at": _moment(line.at), "down": 0} for line in found]


def first_broken(rows: Sequence[Row]) -> int | None:
    """Return the first revision that is missing or not what it was, None where all are whole."""
    before: Row | None = None
    for number, row in enumerate(rows, 1):
        if row["n"] != number or row["sha256"] != checksum(row, before):
            return number
        before = row
    return None


def _lines(found: Iterable[Row]) -> bytes:
    return "".join(f"{canonical(row)}\n" for row in found).encode()


def _open(value: object, name: str) -> object:
    return json.loads(str(value)) if name in _NESTED else value


def _closed(line: _Line) -> dict[str, Any]:
    return {
        **line.model_dump(),
        "at": _moment(line.at),
        "changed": json.dumps(line.changed),
        "document": canonical(line.document),
        "day": canonical(line.day),
    }


def _moment(text: str) -> str:
    return stamp(datetime.fromisoformat(text))
