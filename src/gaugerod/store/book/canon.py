"""One way to write a document, so that equal documents have equal text and equal checksums."""

import json
import re
from collections.abc import Mapping
from hashlib import sha256
from typing import Any

from gaugerod.app.job_book import BookError
from gaugerod.core.base.messages import Message

MOST_CHARACTERS = 4_000_000
"""A job of a whole floor has some tens of thousands."""
ID = r"^[A-Za-z0-9][A-Za-z0-9.-]{0,63}$"


def canonical(tables: Mapping[str, object]) -> str:
    """Return a document as text: keys in order, no space, plain ASCII.

    Raises
    ------
    BookError
        It holds what JSON has no word for, or is far too large.
    """
    try:
        text = json.dumps(tables, sort_keys=True, allow_nan=False, separators=(",", ":"))
    except (TypeError, ValueError, RecursionError) as error:
        raise BookError(Message("book.not-json", why=str(error))) from error
    if len(text) > MOST_CHARACTERS:
        raise BookError(Message("book.too-large", most=MOST_CHARACTERS // 1_000_000))
    return text


def tables(text: str) -> dict[str, Any]:
    """Return the document that a text of this module holds."""
    found: dict[str, Any] = json.loads(text)
    return found


def digest(values: Mapping[str, object], *, before: str) -> str:
    """Return the checksum of a row, which covers that of the row before it."""
    return sha256(canonical({**values, "before": before}).encode()).hexdigest()


def identifier(text: str) -> str:
    """Return an id that may stand in a name of a file and in a link.

    Raises
    ------
    BookError
        It has other signs than letters, digits, points and dashes, or too many.
    """
    if not re.fullmatch(ID, text):
        raise BookError(Message("book.not-id", read=text[:64]))
    return text


def plain(text: str, *, most: int) -> str:
    """Return a text that every database can keep.

    Raises
    ------
    BookError
        It is too long, or holds a sign that is no character.
    """
    if len(text) > most:
        raise BookError(Message("book.too-long", read=text[:40], most=most))
    if any(sign == "\0" or "\ud800" <= sign <= "\udfff" for sign in text):
        raise BookError(Message("book.not-text"))
    return text
