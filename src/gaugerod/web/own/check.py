"""Is what a form said a document? If not, what is wrong at which place of the form."""

from collections.abc import Iterator, Mapping
from graphlib import CycleError, TopologicalSorter
from typing import Any

from pydantic import ValidationError

from gaugerod.core.base.messages import Message
from gaugerod.core.job.faults import Place
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.sizes import module_sizes
from gaugerod.store.complaints import complaints, one_line
from gaugerod.web.own.family import Family, unit_of

_WHOLE: Mapping[str, tuple[str, str]] = {
    "material.keyed-without-key": ("edges", "web.own.no-key"),
    "material.seam-without-sheet": ("trim", "web.own.no-seam"),
    "rates.out-of-order": ("hours", ""),
    "rates.labour-or-crew": ("labour", "web.own.labour-or-crew"),
    "rates.markup-or-margin": ("markup", "web.own.markup-or-margin"),
}
"""Faults of whole tables: where they are mended, and how it is said beside a form, if otherwise."""
_HAIR = 1e-6
"""Two figures in per cent that are nearer to each other are the same."""


def faults(family: Family, tables: Mapping[str, Any]) -> dict[Place, Message]:
    """Return everything that is wrong with the tables of a document, by its place."""
    try:
        found = family.model.model_validate(tables, context={"unit": unit_of(tables)})
    except ValidationError as error:
        told = complaints(error, tables, family.model)
        return dict(_moved(at, message) for at, message in told.items())
    if isinstance(found, System):
        return {fault.at: fault.wrong for fault in module_sizes(found)}
    return dict(_order(found)) if isinstance(found, RateTable) else {}


def in_form(
    wrong: Mapping[Place, Message], names: Mapping[Place, str], values: Mapping[str, str]
) -> dict[str, Message]:
    """Return the same by names in the form; what has no place there by the nearest around it."""
    found: dict[str, Message] = {}
    for at, message in wrong.items():
        name = next((names[at[:n]] for n in range(len(at), 0, -1) if at[:n] in names), "")
        found.setdefault(name, _as_typed(message, values.get(name, "").strip()))
    return found


def _moved(at: Place, message: Message) -> tuple[Place, Message]:
    if message.key not in _WHOLE:
        return at, message
    where, key = _WHOLE[message.key]
    return (*at, where), Message(key or message.key, **message.values)


def _as_typed(message: Message, typed: str) -> Message:
    """Say per cent where that was typed: the model knows shares."""
    read, bound = message.values.get("read"), message.values.get("bound")
    shares = isinstance(bound, int | float) and isinstance(read, str)
    if not (shares and typed and typed != read):
        return message
    try:
        percent = abs(float(str(read)) * 100 - float(typed.removesuffix("%"))) < _HAIR
    except ValueError:
        return message
    if not percent:
        return message
    most = Message("web.own.percent", n=float(str(bound)) * 100)
    values = {**message.values, "read": f"{one_line(typed.removesuffix('%'))} %", "bound": most}
    return Message(message.key, **values)


def _order(rates: RateTable) -> Iterator[tuple[Place, Message]]:
    """Yield what is wrong with the order of tasks; only then can days be planned."""
    ids: list[str] = []
    for number, task in enumerate(rates.task):
        if task.id in ids:
            yield ("task", number, "id"), Message("works.task-twice", task=task.id)
        ids.append(task.id)
    for number, task in enumerate(rates.task):
        for before in task.after:
            if before not in ids:
                wrong = Message("works.unknown-task", task=task.id, after=before)
                yield ("task", number, "after"), wrong
    try:
        TopologicalSorter({task.id: task.after for task in rates.task}).prepare()
    except CycleError as error:
        circle = [str(task) for task in error.args[1]]
        wrong = Message("works.circle", tasks=" -> ".join(circle))
        yield ("task", ids.index(circle[0]) if circle[0] in ids else 0, "after"), wrong
