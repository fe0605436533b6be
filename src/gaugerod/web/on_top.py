"""A change made again, to what somebody else wrote meanwhile: both changes stand.

Where both changed the same place, the one that is put on top stands there; the history has the
other.
"""

import json
from collections.abc import Mapping
from difflib import SequenceMatcher
from enum import Enum
from typing import Any


class _Gone(Enum):
    """What is at a place that one of the versions does not have."""

    GONE = 0


def on_top(before: Any, mine: Any, now: Any) -> Any:  # noqa: ANN401  (whatever JSON can say)
    """Return what stands now, with every change that leads from what was before to mine.

    Parameters
    ----------
    before
        A document that both were made from, as JSON has it.
    mine
        The same after one person's change.
    now
        The same after other people's.
    """
    if mine == before:
        return now
    if now in (before, mine):
        return mine
    if isinstance(mine, Mapping) and isinstance(now, Mapping):
        return _tables(before if isinstance(before, Mapping) else {}, mine, now)
    if isinstance(mine, list) and isinstance(now, list):
        return _lists(before if isinstance(before, list) else [], mine, now)
    return mine


def as_kept(tables: Mapping[str, Any]) -> Any:  # noqa: ANN401  (whatever JSON can say)
    """Return a document as the book has it: lists, not tuples."""
    return json.loads(json.dumps(tables))


def _tables(
    before: Mapping[str, Any], mine: Mapping[str, Any], now: Mapping[str, Any]
) -> dict[str, Any]:
    names = dict.fromkeys([*now, *mine])
    both = {
        name: on_top(*(one.get(name, _Gone.GONE) for one in (before, mine, now))) for name in names
    }
    return {name: value for name, value in both.items() if value is not _Gone.GONE}


def _lists(before: list[Any], mine: list[Any], now: list[Any]) -> list[Any]:
    my_kept, my_new = _edits(before, mine)
    kept, new = _edits(before, now)
    both: list[Any] = []
    for i in range(len(before) + 1):
        both += new[i]
        both += [one for one in my_new[i] if one not in new[i]]
        if i < len(before):
            both.append(on_top(before[i], my_kept[i], kept[i]))
    return [one for one in both if one is not _Gone.GONE]


def _edits(before: list[Any], after: list[Any]) -> tuple[list[Any], list[list[Any]]]:
    """Return what became of each entry, and what was put in before each, and after the last."""
    kept, new = list(before), [list[Any]() for _ in range(len(before) + 1)]
    old, young = ([json.dumps(one, sort_keys=True) for one in part] for part in (before, after))
    matched = SequenceMatcher(None, old, young, autojunk=False)
    for what, first, last, start, end in matched.get_opcodes():
        if what != "equal":
            instead = after[start:end]
            for i in range(first, last):
                kept[i] = instead.pop(0) if instead else _Gone.GONE
            new[last] += instead
    return kept, new
