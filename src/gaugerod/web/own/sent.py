"""A form becomes the tables of a document; what can't be read is told at its place."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from gaugerod.core.base.messages import Message
from gaugerod.core.job.faults import Place
from gaugerod.core.job.fields import Document
from gaugerod.web.naming import plain_name
from gaugerod.web.own.family import Family, unit_of, wanted
from gaugerod.web.own.inputs import Said, UnreadableError, inputs_of, said
from gaugerod.web.own.slots import Slot, slots_of

MOST_ROWS = 200
OUT = "out"
KEY = "key"
"""A row to be taken out has an input of the first name; what a place is called has the other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Sent:
    """What a form said: tables, what is wrong by name in the form, and each place by that name."""

    tables: dict[str, Any]
    wrong: dict[str, Message]
    names: dict[Place, str]


@dataclass(slots=True, kw_only=True)
class _Reader:
    values: Mapping[str, str]
    wrong: dict[str, Message] = field(default_factory=dict)
    names: dict[Place, str] = field(default_factory=dict)

    def slot(self, slot: Slot, at: str, place: Place) -> Said:
        self.names[place] = at
        if slot.model is None:
            return self.leaf(slot, at)
        match slot.sort:
            case "rows":
                return self.rows(slot.model, at, place)
            case "places":
                return self.places(slot.model, at, place)
            case _:
                return self.table(slot.model, at, place, needed=slot.needed)

    def leaf(self, slot: Slot, at: str) -> Said:
        unit = unit_of(self.values)
        texts = [self.values.get(name, "").strip() for name in inputs_of(slot, at, unit)]
        try:
            value = said(slot, texts, unit)
        except UnreadableError as error:
            self.wrong[at] = error.message
            return texts[0]
        if slot.sort == "pair" and value and None in value:
            self.wrong[at] = Message("web.own.half")
        return value

    def table(
        self, model: type[Document], at: str, place: Place, *, needed: bool = False
    ) -> dict[str, Any] | None:
        found = {
            slot.name: value
            for slot in slots_of(model)
            if (value := self.slot(slot, f"{at}.{slot.name}", (*place, slot.name))) is not None
        }
        if not found and not needed:
            return None
        self.missing(model, found, at)
        return found

    def missing(self, model: type[Document], found: Mapping[str, Any], at: str) -> None:
        """Note what a table can't do without."""
        for slot in slots_of(model):
            name = f"{at}.{slot.name}"
            must = slot.needed or name in wanted(self.values.get("kind"))
            if must and slot.name not in {"id", *found}:
                self.wrong.setdefault(name, Message("web.own.empty"))

    def rows(self, model: type[Document], at: str, place: Place) -> list[dict[str, Any]] | None:
        found: list[dict[str, Any]] = []
        for number in rows_in(self.values, at):
            row = self.row(model, f"{at}.{number}", (*place, len(found)))
            if row:
                if "id" in model.model_fields and "id" not in row:
                    row["id"] = _free(str(row.get("name", at)), found)
                found.append(row)
        return found or None

    def row(self, model: type[Document], at: str, place: Place) -> dict[str, Any] | None:
        if self.values.get(f"{at}.{OUT}"):
            return None
        self.names[place] = at
        known = dict(self.wrong)
        row = self.table(model, at, place)
        if row and row.keys() - {"id"}:
            return row
        # Only the name that it had is left: the row was emptied.
        self.wrong = known
        return None

    def places(self, model: type[Document], at: str, place: Place) -> dict[str, Any] | None:
        found: dict[str, Any] = {}
        for number in rows_in(self.values, at):
            name, key = f"{at}.{number}", self.values.get(f"{at}.{number}.{KEY}", "").strip()
            row = self.row(model, name, (*place, key))
            if row and (not key or key in found):
                self.wrong[f"{name}.{KEY}"] = Message("web.own.no-place")
            elif row:
                found[key] = row
        return found or None


def sent(family: Family, values: Mapping[str, str]) -> Sent:
    """Return what a form says, without the keys that a document keeps from its beginning."""
    kind = values.get("kind")
    reader, tables = _Reader(values=values), dict[str, Any]()
    for slot in slots_of(family.model):
        if slot.name in family.fixed:
            continue
        must = slot.needed or slot.name in wanted(kind)
        whole = Slot(
            name=slot.name, sort=slot.sort, needed=must, options=slot.options, model=slot.model
        )
        value = reader.slot(whole, slot.name, (slot.name,))
        if value is None and slot.name == "joint" and kind == "keyed":
            value = [0, 0]
        if value is not None:
            tables[slot.name] = value
        elif must:
            reader.wrong.setdefault(slot.name, Message("web.own.empty"))
    return Sent(tables=tables, wrong=reader.wrong, names=reader.names)


def rows_in(values: Mapping[str, str], at: str) -> range:
    """Return the numbers of the rows of a list that a form has inputs of."""
    return range(max((number + 1 for number in _numbers(values, at)), default=0))


def _numbers(values: Mapping[str, str], at: str) -> Iterator[int]:
    for name in values:
        if name.startswith(f"{at}."):
            number = name.removeprefix(f"{at}.").partition(".")[0]
            if number.isdecimal() and len(number) <= len(str(MOST_ROWS)):
                yield min(int(number), MOST_ROWS - 1)


def _free(name: str, rows: list[dict[str, Any]]) -> str:
    """Return an id for a row out of its name, which no row before it has."""
    plain = plain_name(name) or "row"
    taken = {row["id"] for row in rows}
    others = (f"{plain}-{number}" for number in range(2, MOST_ROWS + 2))
    return next(one for one in (plain, *others) if one not in taken)
