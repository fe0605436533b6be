"""What a person is told of a document that pydantic refuses: the first thing to mend."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from difflib import get_close_matches

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from gaugerod.core.base.messages import Message
from gaugerod.core.job.faults import Place, words_of
from gaugerod.core.job.fields import Document
from gaugerod.store.expected import beginning_of, keys_at

LONGEST_SHOWN = 40
"""Characters of a value that a complaint repeats."""

_KINDS = {
    "string_type": "read.text",
    "int_type": "read.whole-number",
    "int_from_float": "read.whole-number",
    "float_type": "read.number",
    "finite_number": "read.number",
    "bool_type": "read.yes-or-no",
    "bool_parsing": "read.yes-or-no",
    "tuple_type": "read.list",
    "dict_type": "read.table",
    "model_type": "read.table",
    "model_attributes_type": "read.table",
}
_BOUNDS = {
    "greater_than": ("read.above", "gt"),
    "greater_than_equal": ("read.at-least", "ge"),
    "less_than": ("read.below", "lt"),
    "less_than_equal": ("read.at-most", "le"),
    "string_too_short": ("read.characters-at-least", "min_length"),
    "string_too_long": ("read.characters-at-most", "max_length"),
    "too_short": ("read.entries-at-least", "min_length"),
    "too_long": ("read.entries-at-most", "max_length"),
}
_PATTERNS = {
    "^[A-Z]{1,2}$": "read.wall-name",
    "^[A-Za-z0-9][A-Za-z0-9._-]*$": "read.identifier",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Complaint:
    """What to mend first, where, and how many places are wrong beside it."""

    at: Place
    message: Message
    others: int


def complaint(
    wrong: ValidationError, tables: Mapping[str, object], model: type[Document]
) -> Complaint:
    """Choose what to tell of a document that was refused."""
    found = _by_place(wrong, tables)
    # A key spelled wrong is also a key missing: the first is what to mend.
    at = min(found, key=lambda place: found[place]["type"] != "extra_forbidden")
    kind = found[at]["type"]
    message = _message(found[at], at, model)
    inside = at[:-1] if kind in {"missing", "extra_forbidden"} else at
    if inside:
        message = Message("job.at", where=words_of(tables, inside), wrong=message)
    same = {
        place
        for place, details in found.items()
        if (kind, details["type"], place[:-1]) == ("extra_forbidden", "missing", at[:-1])
    }
    return Complaint(at=at, message=message, others=len(found) - len(same) - 1)


def complaints(
    wrong: ValidationError, tables: Mapping[str, object], model: type[Document]
) -> Mapping[Place, Message]:
    """Return what is wrong with a document that was refused, place by place."""
    found = _by_place(wrong, tables)
    return {at: _message(details, at, model) for at, details in found.items()}


def _by_place(wrong: ValidationError, tables: Mapping[str, object]) -> dict[Place, ErrorDetails]:
    found: dict[Place, ErrorDetails] = {}
    for details in wrong.errors(include_url=False):
        at = _place(details["loc"], tables)
        # Of two ways to read a value, a word was meant as one of the words.
        is_word = str(details["input"]).isalpha()
        if at not in found or not is_word:
            found[at] = details
    return found


def _place(loc: Place, tables: object) -> Place:
    """Leave out of a location what names a way to read a value and no key of the file."""
    place: Place = ()
    for number, part in enumerate(loc, 1):
        if isinstance(tables, Mapping) and isinstance(part, str):
            if part not in tables and number < len(loc):
                continue
            tables = tables.get(part)
        elif isinstance(tables, Sequence) and isinstance(part, int):
            tables = tables[part] if part < len(tables) else None
        else:
            break
        place = (*place, part)
    return place


def _message(details: ErrorDetails, at: Place, model: type[Document]) -> Message:
    kind, context = details["type"], details.get("ctx", {})
    read = shown(details["input"])
    if kind == "gaugerod":
        return _told(context["message"], details["input"])
    if kind == "extra_forbidden":
        return _unknown_key(str(at[-1]), keys_at(model, details["loc"][:-1]))
    if kind in {"missing", "union_tag_not_found"}:
        loc = details["loc"] if kind == "missing" else (*details["loc"], "kind")
        return Message("read.missing", key=str(loc[-1]), would=beginning_of(model, loc))
    if kind in {"literal_error", "union_tag_invalid"}:
        return _not_one_of(details)
    if kind in _BOUNDS:
        key, bound = _BOUNDS[kind]
        return Message(key, read=read, bound=context[bound])
    key = _PATTERNS.get(str(context.get("pattern")), _KINDS.get(kind, "read.refused"))
    return Message(key, read=read, why=details["msg"])


def _told(message: Message, value: object) -> Message:
    # Some sentences name what was read, others leave it to the reader of the file.
    if message.values or isinstance(value, Mapping):
        return message
    return Message("read.value", read=shown(value), wrong=message)


def _unknown_key(key: str, known: list[str]) -> Message:
    near = get_close_matches(key, known, n=1)
    if near:
        return Message("read.unknown-key-near", key=one_line(key), near=near[0])
    return Message("read.unknown-key", key=one_line(key), known=", ".join(known))


def _not_one_of(details: ErrorDetails) -> Message:
    context = details.get("ctx", {})
    tagged = details["type"] == "union_tag_invalid"
    value = context["tag"] if tagged else details["input"]
    expected = str(context["expected_tags" if tagged else "expected"])
    words = [word.strip("'") for word in expected.replace(" or ", ", ").split(", ")]
    near = get_close_matches(str(value), words, n=1)
    known = ", ".join(words)
    if near:
        return Message("read.not-one-of-near", read=shown(value), known=known, near=near[0])
    return Message("read.not-one-of", read=shown(value), known=known)


def shown(value: object) -> str:
    """Return a value as the file has it, shortened."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return f"“{one_line(value)}”"
        case Mapping():
            return "{…}"
        case Sequence():
            return "[…]"
        case _:
            return one_line(str(value))


def one_line(text: str) -> str:
    """Return a text in one short line, without characters that steer a terminal."""
    plain = printable(text)
    return plain if len(plain) <= LONGEST_SHOWN else plain[: LONGEST_SHOWN - 1] + "…"


def printable(text: str) -> str:
    """Return a text in one line, without characters that steer a terminal."""
    return "".join(sign if sign.isprintable() else " " for sign in text)
