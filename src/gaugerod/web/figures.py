"""Tables of a job that a form changes entry by entry: what is said otherwise, what was bought.

An entry goes by a name where its table has one, else by all that it says: so a form that comes late
changes the entry that it was made from, or none.
"""

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation
from typing import Any, Literal, TypeAlias

from pydantic import ValidationError

from gaugerod.app.job_book import BookError
from gaugerod.core.base.lengths import Unit
from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import Document
from gaugerod.store.complaints import complaint
from gaugerod.web.fields import YES
from gaugerod.web.form import FieldError, Form
from gaugerod.web.walls import no_place

Sort: TypeAlias = Literal["number", "percent", "text", "date", "tick", "pair", "sides", "choice"]
Value: TypeAlias = str | int | float | bool | list[str]
TABLE, ENTRY, WAS, BACK = "table", "entry", "was", "back"
"""What a form says beside the values: which table, which entry, what it said, to take it back."""
SIDES = ("left", "right", "bottom", "top")
_HUNDRED = 100
_LARGEST = 10**12
"""What is larger is refused before it is written out in digits."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Box:
    """One thing that an entry says; `needed` where it says nothing without it."""

    name: str
    sort: Sort = "text"
    needed: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """A table of entries: where it stands in a job, what names an entry in it, what one says."""

    path: tuple[str, ...]
    model: type[Document]
    boxes: tuple[Box, ...]
    named: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Filled:
    """A box with what stands in it; of a choice, what would do."""

    name: str
    sort: Sort
    needed: bool
    values: tuple[str, ...]
    options: tuple[tuple[str, str], ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Own:
    """Something that a job may say of its own.

    `now` is what counts, `instead` what it took the place of; `own` where it is the job's.
    """

    table: str
    entry: str
    title: str
    boxes: tuple[Filled, ...]
    was: str = ""
    now: str = ""
    instead: str = ""
    own: bool = False

    @property
    def id(self) -> str:
        """What it goes by on the page."""
        return f"{self.table}.{self.entry}"


def entries(document: Mapping[str, Any], path: tuple[str, ...]) -> list[dict[str, Any]]:
    """Return the entries of a table of a job; none where it is not there."""
    found: Any = document
    for name in path:
        found = found.get(name) if isinstance(found, Mapping) else None
    there = found if isinstance(found, list) else []
    return [entry for entry in there if isinstance(entry, dict)]


def named(
    document: Mapping[str, Any], path: tuple[str, ...], key: str
) -> Mapping[str, dict[str, Any]]:
    """Return the entries of a table by what names them."""
    return {str(entry.get(key)): entry for entry in entries(document, path)}


def text_of(entry: Mapping[str, Any]) -> str:
    """Return all that an entry says, as a form carries it."""
    return json.dumps(entry, sort_keys=True) if entry else ""


def filled(
    boxes: tuple[Box, ...],
    entry: Mapping[str, Any],
    sent: Form | None = None,
    options: Mapping[str, tuple[tuple[str, str], ...]] | None = None,
) -> tuple[Filled, ...]:
    """Return boxes with what an entry says, or with what a form said that was refused."""
    return tuple(
        Filled(
            name=box.name,
            sort=box.sort,
            needed=box.needed,
            values=tuple(sent.text(name) for name in _inputs(box))
            if sent
            else _shown(box, entry.get(box.name)),
            options=(options or {}).get(box.name, ()),
        )
        for box in boxes
    )


def is_of(sent: Form | None, table: str, entry: str) -> bool:
    """Tell whether a form is the one of an entry."""
    return sent is not None and (sent.text(TABLE), sent.text(ENTRY)) == (table, entry)


def form_id(form: Form) -> str:
    """Return what the entry of a form goes by on the page."""
    return f"{form.text(TABLE)}.{form.text(ENTRY)}"


def told(document: dict[str, Any], kind: Kind, form: Form, unit: Unit, **also: Value) -> None:
    """Write what a form says of one entry into a job, or take the entry out.

    Raises
    ------
    FieldError
        A box has to be mended.
    BookError
        The entry is no longer what the form was made from.
    """
    there = entries(document, kind.path)
    at = _place(there, kind, form)
    if form.text(BACK):
        if at is not None:
            del there[at]
    else:
        made = checked(kind, form, unit, **also)
        if at is None:
            there.append(made)
        else:
            there[at] = made
    put(document, kind.path, there)


def checked(kind: Kind, form: Form, unit: Unit, **also: Value) -> dict[str, Any]:
    """Return what a form says of an entry, as a job has it.

    Raises
    ------
    FieldError
        A box has to be mended.
    """
    raw = {**also, **dict(_read(kind.boxes, form))}
    try:
        kind.model.model_validate(raw, context={"unit": unit})
    except ValidationError as error:
        found = complaint(error, raw, kind.model)
        name = str(found.at[0]) if found.at else kind.boxes[0].name
        raise FieldError(_id(form, name), _message(kind, name, found.message)) from error
    return raw


def put(document: dict[str, Any], path: tuple[str, ...], value: object) -> None:
    """Put a value into a job; what is empty is taken out, with the tables that it leaves empty."""
    (name, *rest) = path
    if rest:
        old = document.get(name)
        inside = dict(old) if isinstance(old, dict) else {}
        put(inside, tuple(rest), value)
        value = inside
    if value in ([], {}, "", None):
        document.pop(name, None)
    else:
        document[name] = value


def number(text: str, *, per: int = 1) -> Value:
    """Return a number as a job has it; `per` hundred where it is written in percent.

    Raises
    ------
    ValueError
        It is none.
    """
    try:
        exact = Decimal(text) / per
    except InvalidOperation as error:
        raise ValueError(text) from error
    if not exact.is_finite() or abs(exact) > _LARGEST:
        raise ValueError(text)
    return int(exact) if exact == exact.to_integral_value() else float(exact)


def in_percent(share: float) -> str:
    """Return a share in percent, as it was meant."""
    return f"{(Decimal(str(share)) * _HUNDRED).normalize():f}"


def _place(there: list[dict[str, Any]], kind: Kind, form: Form) -> int | None:
    was = form.text(ENTRY) if kind.named else form.text(WAS)
    said = [str(one.get(kind.named)) if kind.named else text_of(one) for one in there]
    if was in said:
        return said.index(was)
    if was and not kind.named:
        raise BookError(no_place())
    return None


def _message(kind: Kind, name: str, message: Message) -> Message:
    """Return what is said of a value beside its box; of a share, in percent as it was written."""
    wrong = message.values.get("wrong")
    told_of = wrong if isinstance(wrong, Message) else message
    shares = [box.name for box in kind.boxes if box.sort == "percent"]
    bound = told_of.values.get("bound")
    if name in shares and isinstance(bound, int | float):
        return Message("web.figure.percent", bound=in_percent(bound))
    return told_of


def _read(boxes: tuple[Box, ...], form: Form) -> Iterator[tuple[str, Value]]:
    for box in boxes:
        texts = [form.text(name) for name in _inputs(box)]
        if box.sort == "sides":
            sides = [side for side, text in zip(SIDES, texts, strict=True) if text]
            if sides:
                yield box.name, sides
        elif box.sort == "tick":
            if texts[0]:
                yield box.name, texts[0] == YES
        elif box.needed and not all(texts):
            raise FieldError(_id(form, box.name), Message("web.figure.needed"))
        elif any(texts):
            yield box.name, texts if box.sort == "pair" else _one(box, texts[0], form)


def _one(box: Box, text: str, form: Form) -> Value:
    if box.sort not in {"number", "percent"}:
        return text
    try:
        return number(text, per=_HUNDRED if box.sort == "percent" else 1)
    except ValueError as error:
        raise FieldError(
            _id(form, box.name), Message("web.figure.number", read=text[:40])
        ) from error


def _id(form: Form, name: str) -> str:
    return f"{form_id(form)}.{name}"


def _inputs(box: Box) -> tuple[str, ...]:
    if box.sort == "pair":
        return f"{box.name}.0", f"{box.name}.1"
    if box.sort == "sides":
        return tuple(f"{box.name}.{side}" for side in SIDES)
    return (box.name,)


def _shown(box: Box, value: object) -> tuple[str, ...]:
    if box.sort == "sides":
        kept = value if isinstance(value, list) else []
        return tuple(YES if side in kept else "" for side in SIDES)
    if box.sort == "pair":
        return tuple(map(str, value)) if isinstance(value, list) else ("", "")
    if box.sort == "tick":
        return (YES if value is True else "",)
    if box.sort == "percent" and isinstance(value, int | float):
        return (in_percent(value),)
    return ("" if value is None else str(value),)
