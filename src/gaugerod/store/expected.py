"""What a document may have at a place: the key that was meant, and how one is written."""

from collections.abc import Iterator
from typing import Any

from gaugerod.core.job.faults import Place
from gaugerod.core.job.fields import Document

_Schema = dict[str, Any]


def keys_at(model: type[Document], loc: Place) -> list[str]:
    """Return the keys that a table of a document may have.

    `loc` is a location as pydantic gives it, with the kind of a reading as a part of its own.
    """
    return [key for table in _tables(model, loc) for key in table.get("properties", {})]


def beginning_of(model: type[Document], loc: Place) -> str:
    """Return how a value is begun in the file: as a table, as one of several, or by its key."""
    *_, key = loc
    for table in _tables(model, loc):
        if "properties" in table:
            return f"[{key}]"
        if "properties" in table.get("items", {}) or "$ref" in table.get("items", {}):
            return f"[[{key}]]"
    return f"{key} = …"


def _tables(model: type[Document], loc: Place) -> list[_Schema]:
    schema = model.model_json_schema()
    inside = [schema]
    for part in loc:
        inside = [found for table in inside for found in _step(table, part, schema)]
    return inside


def _step(table: _Schema, part: str | int, schema: _Schema) -> Iterator[_Schema]:
    if isinstance(part, int):
        found = table.get("items")
    else:
        kinds = table.get("discriminator", {}).get("mapping", {})
        found = {"$ref": kinds[part]} if part in kinds else table.get("properties", {}).get(part)
    if found is not None:
        yield from _open(found, schema)


def _open(table: _Schema, schema: _Schema) -> Iterator[_Schema]:
    """Follow references and alternatives to the tables they stand for."""
    if "$ref" in table:
        yield from _open(schema["$defs"][table["$ref"].rpartition("/")[2]], schema)
        return
    yield table
    for other in table.get("anyOf", ()):
        yield from _open(other, schema)
