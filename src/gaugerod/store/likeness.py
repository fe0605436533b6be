"""A material that is like another: its file has only what is different, such as a colour."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace

from gaugerod.core.base.errors import MaterialError
from gaugerod.core.base.messages import Message
from gaugerod.store.complaints import shown
from gaugerod.store.toml_file import TomlFile

LIKE = "like"
"""The key that names the material that all else is taken from."""
_ITS_OWN = ("id", "name")


def completed(
    files: Iterable[TomlFile], whole: Mapping[str, Mapping[str, object]]
) -> Iterator[TomlFile]:
    """Complete the files that are like one of the whole materials.

    Raises
    ------
    MaterialError
        There is no such material, or the file is in another unit than that.
    """
    for file in files:
        if LIKE not in file.tables:
            yield file
            continue
        like = file.tables[LIKE]
        base = whole.get(like) if isinstance(like, str) else None
        if base is None:
            known = ", ".join(sorted(whole))
            raise MaterialError(
                file.at((LIKE,), Message("read.like-unknown", read=shown(like), known=known))
            )
        own = {key: value for key, value in file.tables.items() if key != LIKE}
        unit = base.get("unit")
        if own.get("unit", unit) != unit:
            wrong = Message("read.like-unit", read=shown(own["unit"]), unit=shown(unit))
            raise MaterialError(file.at(("unit",), wrong))
        rest = {key: value for key, value in base.items() if key not in _ITS_OWN}
        yield replace(file, tables=_over(rest, own))


def _over(base: Mapping[str, object], own: Mapping[str, object]) -> dict[str, object]:
    """Put what a file says over what it is like, table by table; a list is replaced whole."""
    over = dict(base)
    for key, value in own.items():
        below = over.get(key)
        if isinstance(below, Mapping) and isinstance(value, Mapping):
            over[key] = _over(below, value)
        else:
            over[key] = value
    return over
