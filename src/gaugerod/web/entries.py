"""An entry of a list in a job, found again by what it says: its number may have changed."""

import json
from collections.abc import Mapping, Sequence
from typing import Any

from gaugerod.app.job_book import BookError
from gaugerod.web.walls import no_place


def text_of(entry: Mapping[str, Any]) -> str:
    """Return an entry as a text that a form can carry."""
    return json.dumps(entry, sort_keys=True)


def place_of(entries: Sequence[Mapping[str, Any]], was: str) -> int:
    """Return where the entry stands that a form was made from; it may have moved since.

    Raises
    ------
    BookError
        It is gone, or says something else now.
    """
    texts = [text_of(entry) for entry in entries]
    if was not in texts:
        raise BookError(no_place())
    return texts.index(was)


def entry_at(entries: Sequence[Mapping[str, Any]], place: str) -> Mapping[str, Any]:
    """Return the entry that an address names by its number.

    Raises
    ------
    BookError
        There is none.
    """
    if not place.isdecimal() or int(place) >= len(entries):
        raise BookError(no_place())
    return entries[int(place)]
