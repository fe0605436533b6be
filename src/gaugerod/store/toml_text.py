"""A document as TOML text: what the standard library reads, and does not write.

Source: TOML 1.0, https://toml.io/en/v1.0.0 (found).
"""

import json
import re
from collections.abc import Iterator, Mapping, Sequence
from typing import TypeGuard

_BARE = re.compile(r"[A-Za-z0-9_-]+")
_DELETE = "\x7f"


def toml_text(tables: Mapping[str, object], *, first: Sequence[str] = ()) -> str:
    """Return the text of a document of tables, lists, text, numbers, true and false.

    Parameters
    ----------
    tables
        The document.
    first
        Keys in the order to write them in; others follow in their own.
    """
    return "\n".join(_table(_ordered(tables, first), ())).strip() + "\n"


def _ordered(tables: Mapping[str, object], first: Sequence[str]) -> Mapping[str, object]:
    names = [name for name in first if name in tables]
    return {name: tables[name] for name in (*names, *(n for n in tables if n not in names))}


def _table(table: Mapping[str, object], where: tuple[str, ...]) -> Iterator[str]:
    for name, value in table.items():
        if not isinstance(value, Mapping) and not _are_tables(value):
            yield f"{_key(name)} = {_value(value)}"
    # What has a header of its own comes last, or plain keys would fall into it.
    for name, value in table.items():
        inside = (*where, _key(name))
        if isinstance(value, Mapping):
            yield from ("", f"[{'.'.join(inside)}]", *_table(value, inside))
        elif _are_tables(value):
            for row in value:
                yield from ("", f"[[{'.'.join(inside)}]]", *_table(row, inside))


def _are_tables(value: object) -> TypeGuard[list[Mapping[str, object]]]:
    return isinstance(value, list) and bool(value) and all(isinstance(x, Mapping) for x in value)


def _key(name: str) -> str:
    return name if _BARE.fullmatch(name) else _value(name)


def _value(value: object) -> str:
    match value:
        case list():
            return f"[{', '.join(map(_value, value))}]"
        case Mapping():
            inside = (f"{_key(name)} = {_value(one)}" for name, one in value.items())
            return f"{{ {', '.join(inside)} }}"
        case float():
            return repr(value)
        case _:
            # Text, whole numbers, true and false are written as JSON writes them, but for one sign.
            return json.dumps(value, ensure_ascii=False).replace(_DELETE, "\\u007f")
