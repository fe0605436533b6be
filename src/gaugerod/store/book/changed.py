"""What differs between two documents, as JSON Pointers (RFC 6901)."""

from collections.abc import Iterator, Mapping

_MOST = 100
_ROUGH = 3


def changed(before: Mapping[str, object], after: Mapping[str, object]) -> tuple[str, ...]:
    """Return where two documents differ, in order.

    A list that grew or shrank is named as a whole, and so is a table that came or went. Where more
    than a hundred places differ, only the tables and lists that hold them are named.
    """
    found = sorted(_differences(before, after, ()))
    if len(found) > _MOST:
        found = sorted({where[:_ROUGH] for where in found})
    return tuple("".join(f"/{_escaped(part)}" for part in where) for where in found)


def _differences(
    before: object, after: object, where: tuple[str, ...]
) -> Iterator[tuple[str, ...]]:
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        for key in before.keys() | after.keys():
            if key in before and key in after:
                yield from _differences(before[key], after[key], (*where, key))
            else:
                yield (*where, key)
    elif isinstance(before, list) and isinstance(after, list) and len(before) == len(after):
        for number, (one, other) in enumerate(zip(before, after, strict=True)):
            yield from _differences(one, other, (*where, str(number)))
    elif type(before) is not type(after) or before != after:
        yield where


def _escaped(part: str) -> str:
    return part.replace("~", "~0").replace("/", "~1")
