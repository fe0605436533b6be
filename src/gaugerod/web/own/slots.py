"""What a form asks for, out of a model of the core: every key that it has, by its sort."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import NoneType, UnionType
from typing import Annotated, Any, Literal, TypeAlias, Union, get_args, get_origin

from pydantic.fields import FieldInfo

from gaugerod.core.job.calendar import HoldTable
from gaugerod.core.job.fields import Cents, Document, LengthField
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Inspection, Task

Leaf: TypeAlias = Literal[
    "text",
    "length",
    "pair",
    "money",
    "number",
    "percent",
    "choice",
    "yes-or-no",
    "set",
    "names",
    "words",
    "numbers",
    "figures",
    "hold",
]
Sort: TypeAlias = Leaf | Literal["table", "rows", "places"]

_PERCENT = {
    *("breakage", "attic", "most_shift", "usable", "waste", "back_butter", "burden", "billable"),
    *("markup", "margin", "contingency", "tax", "together", "deposit", "share"),
}
"""Shares, which people say in per cent."""
_SPECIAL: Mapping[tuple[type[Document], str], Leaf] = {
    (HoldTable, "temperature"): "words",
    (HoldTable, "humidity"): "numbers",
    (HoldTable, "hours"): "figures",
    (Inspection, "who"): "words",
    (System, "wall_order"): "names",
    (Task, "after"): "names",
    (Task, "hold"): "hold",
    (Task, "kind"): "set",
    (Task, "who"): "words",
}
_LENGTH, _MONEY = (get_args(kind)[1] for kind in (LengthField, Cents))


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One key of a document; `model` is that of a table, of a row, or of what a place has."""

    name: str
    sort: Sort
    needed: bool
    options: tuple[str, ...]
    model: type[Document] | None


@cache
def slots_of(model: type[Document]) -> tuple[Slot, ...]:
    """Return what a model asks for, in its own order."""
    return tuple(_slot(model, name, info) for name, info in model.model_fields.items())


def _slot(model: type[Document], name: str, info: FieldInfo) -> Slot:
    kinds = _kinds(info.annotation)
    inside = kinds[0]
    sort = _SPECIAL.get((model, name)) or _sort(name, inside, _marks(info))
    if sort in {"rows", "places"}:
        inside = next(kind for kind in get_args(inside) if _is_model(kind))
    return Slot(
        name=name,
        sort=sort,
        needed=info.is_required(),
        options=tuple(dict.fromkeys(option for kind in kinds for option in _options(kind))),
        model=inside if sort in {"table", "rows", "places"} else None,
    )


def _kinds(annotation: Any) -> tuple[Any, ...]:  # noqa: ANN401  (whatever a field may hold)
    if get_origin(annotation) not in {Union, UnionType}:
        return (annotation,)
    found = (kind for kind in get_args(annotation) if kind is not NoneType)
    return tuple(get_args(kind)[0] if get_origin(kind) is Annotated else kind for kind in found)


def _marks(info: FieldInfo) -> tuple[Any, ...]:
    inside = [kind for kind in get_args(info.annotation) if get_origin(kind) is Annotated]
    return (*info.metadata, *(mark for kind in inside for mark in get_args(kind)[1:]))


def _sort(name: str, kind: Any, marks: tuple[Any, ...]) -> Sort:  # noqa: ANN401  (as above)
    origin = get_origin(kind)
    if origin is tuple:
        return _list_sort(get_args(kind))
    found: tuple[tuple[bool, Sort], ...] = (
        (origin is Literal, "choice"),
        (origin is dict, "places"),
        (_is_model(kind), "table"),
        (_LENGTH in marks, "length"),
        (_MONEY in marks, "money"),
        (name in _PERCENT, "percent"),
        (kind is bool, "yes-or-no"),
        (kind is str, "text"),
    )
    return next((sort for holds, sort in found if holds), "number")


def _list_sort(inside: tuple[Any, ...]) -> Sort:
    if inside[-1] is not Ellipsis:
        return "pair"
    return "rows" if _is_model(inside[0]) else "set"


def _is_model(kind: object) -> bool:
    return isinstance(kind, type) and issubclass(kind, Document)


def _options(kind: Any) -> tuple[str, ...]:  # noqa: ANN401  (as above)
    if get_origin(kind) is tuple:
        kind = get_args(kind)[0]
    found = get_args(kind) if get_origin(kind) is Literal else ()
    return tuple(option for option in found if option != "any")
