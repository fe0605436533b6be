"""The catalogue's file becomes sentences by their dotted keys."""

import tomllib
from collections.abc import Iterator, Mapping


def sentences(text: str) -> Mapping[str, str]:
    """Return the sentences of a catalogue written as nested tables."""
    return dict(_leaves(tomllib.loads(text), ""))


def _leaves(table: Mapping[str, object], path: str) -> Iterator[tuple[str, str]]:
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from _leaves(value, f"{path}{name}.")
        else:
            yield f"{path}{name}", str(value)
