"""A fault of a job: what is wrong, and the way to the place in the document."""

from dataclasses import dataclass
from typing import TypeAlias

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.messages import Message

Place: TypeAlias = tuple[str | int, ...]
"""Keys and numbers (from 0) that lead to a value: ``("wall", 1, "readings", 0, "reads")``."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """What is wrong at one place of a job."""

    at: Place
    wrong: Message


class InconsistentError(JobError):
    """Parts of a job do not go together; `at` leads to the part to mend."""

    def __init__(self, message: Message, *, at: Place) -> None:
        super().__init__(message)
        self.at = at


def words_of(data: object, at: Place) -> str:
    """Name a place of a document as its writer would: in the document's own keys.

    Parameters
    ----------
    data
        The document as plain tables, lists and values.
    at
        Keys and numbers that lead to the place; the last may be missing in `data`.

    Returns
    -------
    str
        Keys from the outside in; what has a name goes by it, what has none by its number.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> job = {"wall": [{"name": "B", "readings": [{"kind": "width", "reads": 60}]}]}
    >>> words_of(job, ("wall", 0, "readings", 0, "reads"))
    'wall B, readings 1 (width), reads'
    """
    words: list[str] = []
    for part in at:
        data = _inside(data, part)
        if isinstance(part, int):
            words[-1] = f"{words[-1]} {_title(data, part + 1)}"
        else:
            words.append(part)
    return ", ".join(words)


def _inside(data: object, part: str | int) -> object:
    if isinstance(data, dict):
        return data.get(part)
    if isinstance(data, list | tuple) and isinstance(part, int) and part < len(data):
        return data[part]
    return None


def _title(data: object, number: int) -> str:
    table = data if isinstance(data, dict) else {}
    if isinstance(table.get("name"), str):
        return str(table["name"])
    return f"{number} ({table['kind']})" if isinstance(table.get("kind"), str) else str(number)
