"""What one person changed, put on top of what another has written meanwhile."""

from collections.abc import Mapping
from typing import Any


def merged(before: Any, mine: Any, now: Any) -> Any:  # noqa: ANN401  (any part of a document)
    """Return `now` with all in which `mine` differs from `before`; None stands for nothing there.

    Tables are gone through key by key, lists of one length row by row; of the rest mine stands.
    """
    if mine == before:
        return now
    parts = (before, mine, now)
    if all(isinstance(part, Mapping) for part in parts):
        keys = dict.fromkeys((*now, *mine))
        found = {key: merged(before.get(key), mine.get(key), now.get(key)) for key in keys}
        return {key: value for key, value in found.items() if value is not None}
    if all(isinstance(part, list) for part in parts) and len({len(part) for part in parts}) == 1:
        return [merged(*three) for three in zip(before, mine, now, strict=True)]
    return mine
