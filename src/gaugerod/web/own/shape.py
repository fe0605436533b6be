"""The form of a document as a template shows it: groups, items, rows with room for more."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from gaugerod.core.base.lengths import Unit
from gaugerod.core.job.fields import Document
from gaugerod.web.own.family import Family, left_out, unit_of, wanted
from gaugerod.web.own.inputs import inputs_of, shown
from gaugerod.web.own.sent import KEY, OUT, rows_in
from gaugerod.web.own.slots import Slot, Sort, slots_of

MORE = 2
"""Rows that are added when somebody asks for more."""
_FIRST = {
    *("key_depth", "turns", "leg", "groove_off", "half_turn", "hides_key", "key_bead", "hole_bead"),
    *("labour", "markup", "margin", "low", "high", "freight", "subs", "permit", "disposal"),
    *("joint", "edges", "left", "right", "bottom", "top"),
}
"""What may be left out and yet is asked for at once: most modules and shops have it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One row of a list: its number from 1, what it is called, and whether it is shown opened."""

    at: str
    number: int
    title: str
    short: str
    items: "tuple[Item, ...]"
    filled: bool
    opened: bool
    out: bool
    key: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One key of the document: leaves have inputs with values, tables items, lists rows."""

    at: str
    called: str
    sort: Sort
    needed: bool
    options: tuple[str, ...]
    inputs: tuple[str, ...]
    values: tuple[str, ...]
    items: "tuple[Item, ...]"
    rows: tuple[Row, ...]
    first: bool
    filled: bool
    wrong: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Group:
    """Items under one heading."""

    name: str
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shaper:
    values: Mapping[str, str]
    wrong: frozenset[str]
    hidden: frozenset[str]
    must: frozenset[str]
    more: str

    def item(self, slot: Slot, at: str, of: str) -> Item:
        unit = unit_of(self.values)
        leaf = slot.model is None
        inputs = inputs_of(slot, at, unit) if leaf else ()
        items = self.items(slot.model, at, slot.name) if slot.model and slot.sort == "table" else ()
        rows = tuple(self.rows(slot, at)) if slot.sort in {"rows", "places"} else ()
        inside = any(one.filled for one in items) or any(row.filled for row in rows)
        return Item(
            at=at,
            called=f"{of}-{slot.name}".replace("_", "-"),
            sort=slot.sort,
            needed=slot.needed or at in self.must,
            options=slot.options,
            inputs=inputs,
            values=tuple(self.values.get(name, "") for name in inputs),
            items=items,
            rows=rows,
            first=slot.needed or slot.name in _FIRST or at in self.must,
            filled=inside or any(self.values.get(name, "").strip() for name in inputs),
            wrong=self.is_wrong(at),
        )

    def is_wrong(self, at: str) -> bool:
        return any(name == at or name.startswith(f"{at}.") for name in self.wrong)

    def items(self, model: type[Document], at: str, of: str) -> "tuple[Item, ...]":
        # What it is called first, and its short name after what counts.
        slots = sorted(slots_of(model), key=lambda slot: {"name": 0, "id": 2}.get(slot.name, 1))
        found = (self.item(slot, f"{at}.{slot.name}", of) for slot in slots)
        return tuple(one for one in found if one.filled or one.at not in self.hidden)

    def rows(self, slot: Slot, at: str) -> Iterator[Row]:
        assert slot.model is not None  # noqa: S101  (lists and places have one)
        there = len(rows_in(self.values, at))
        blank = MORE if self.more == at else int(not there or self._filled(f"{at}.{there - 1}"))
        for number in range(there + blank):
            name = f"{at}.{number}"
            items = self.items(slot.model, name, slot.name)
            key = self.values.get(f"{name}.{KEY}", "") if slot.sort == "places" else None
            filled = any(one.filled for one in items if one.called != f"{slot.name}-id")
            yield Row(
                at=name,
                number=number + 1,
                title=self.values.get(f"{name}.name", "") or key or "",
                short=self.values.get(f"{name}.id", ""),
                items=items,
                filled=filled,
                opened=self.is_wrong(name) or (not there and not number and at == "trim"),
                out=bool(self.values.get(f"{name}.{OUT}")),
                key=key,
            )

    def _filled(self, at: str) -> bool:
        return any(text.strip() for name, text in self.values.items() if name.startswith(f"{at}."))


def groups(
    family: Family,
    values: Mapping[str, str],
    *,
    wrong: frozenset[str] = frozenset(),
    more: str = "",
) -> tuple[Group, ...]:
    """Return the form of a document; `more` names the list that is to have more rows."""
    kind = values.get("kind")
    shaper = _Shaper(
        values=values, wrong=wrong, hidden=left_out(kind), must=wanted(kind), more=more
    )
    slots = {slot.name: slot for slot in slots_of(family.model)}
    of = family.kind

    def asked(name: str) -> bool:
        there = name != "joint" and any(
            text for one, text in values.items() if f"{one}.".startswith(f"{name}.")
        )
        return there or name not in left_out(kind)

    shaped = (
        Group(
            name=name,
            items=tuple(shaper.item(slots[one], one, of) for one in inside if asked(one)),
        )
        for name, inside in family.groups
    )
    return tuple(group for group in shaped if group.items)


def flat(family: Family, tables: Mapping[str, Any], unit: Unit) -> dict[str, str]:
    """Return the inputs of a form that shows a document, each with its text."""
    found: dict[str, str] = {
        name: str(tables.get(name, "")) for name in ("unit", "kind") if name in family.fixed
    }
    for slot in slots_of(family.model):
        if slot.name not in family.fixed:
            found.update(_flat(slot, tables.get(slot.name), slot.name, unit))
    return found


def _flat(slot: Slot, value: Any, at: str, unit: Unit) -> Iterator[tuple[str, str]]:  # noqa: ANN401  (as JSON has it)
    if slot.model is None:
        yield from zip(inputs_of(slot, at, unit), shown(slot, value, unit), strict=True)
    elif slot.sort == "rows":
        for number, row in enumerate(value or ()):
            yield from _table(slot.model, row, f"{at}.{number}", unit)
    elif slot.sort == "places":
        for number, (key, row) in enumerate((value or {}).items()):
            yield f"{at}.{number}.{KEY}", key
            yield from _table(slot.model, row, f"{at}.{number}", unit)
    elif value is not None:
        yield from _table(slot.model, value, at, unit)


def _table(
    model: type[Document], table: Mapping[str, Any], at: str, unit: Unit
) -> Iterator[tuple[str, str]]:
    for slot in slots_of(model):
        yield from _flat(slot, table.get(slot.name), f"{at}.{slot.name}", unit)
