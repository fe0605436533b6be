"""Fields of a form out of a model of the core, and a part of a job out of a form."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import NoneType, UnionType
from typing import Any, Literal, TypeAlias, Union, get_args, get_origin

from pydantic import AfterValidator, ValidationError
from pydantic.fields import FieldInfo

from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.lengths import MM_PER_INCH, Unit, parse_length
from gaugerod.core.job.fields import Document
from gaugerod.store.complaints import complaint
from gaugerod.web.form import FieldError, Form

Sort: TypeAlias = Literal["reads", "length", "pair", "choice", "yes-or-no", "text"]
YES, NO = "yes", "no"
SIXTEENTHS = 16
PARTS_OF_INCH = tuple((part, str(Fraction(part, SIXTEENTHS))) for part in range(SIXTEENTHS))
"""The sixteenths of an inch, each as a tape says it."""
STRENGTHS = ("strong", "shy")
"""A thirty-second more than the mark, or less."""
_BESIDE = ("id", "surface", "sigma", "note")
"""What every reading may say, and few do: at the end of the form."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One field: its name in the job, what kind of input it has, and what stands in it.

    `values` are two for a pair, and for a tape reading the whole inches, the sixteenths, a sign,
    the reading written out, and strong or shy: as a rule the written one stands alone. `signed`
    may be below nought.
    """

    name: str
    sort: Sort
    needed: bool
    options: tuple[str, ...]
    values: tuple[str, ...]
    beside: bool
    signed: bool = False


def fields_of(
    model: type[Document], values: Mapping[str, Any], unit: Unit, sent: Form | None = None
) -> tuple[Field, ...]:
    """Return the fields of a model with what a job says, or what a form said that was refused."""
    found = [
        _field(info.alias or name, info, values, unit, sent)
        for name, info in model.model_fields.items()
        if name != "kind" or not _fixed(info)
    ]
    return tuple(sorted(found, key=lambda field: field.beside))


def part_of(model: type[Document], form: Form, unit: Unit) -> dict[str, Any]:
    """Return what a form says, as a job has it: lengths as they were written.

    Raises
    ------
    FieldError
        A field has to be mended.
    """
    raw = dict(_sent(model, form, unit))
    try:
        model.model_validate(raw, context={"unit": unit})
    except ValidationError as error:
        found = complaint(error, raw, model)
        raise FieldError("".join(map(str, found.at[:1])), found.message) from error
    return raw


def _field(
    name: str, info: FieldInfo, values: Mapping[str, Any], unit: Unit, sent: Form | None
) -> Field:
    sort = _sort(name, info)
    places = _places(name, sort)
    if sent is None:
        shown = _shown(values.get(name), sort, unit)
    else:
        shown = tuple(sent.text(place) for place in places)
    return Field(
        name=name,
        sort=sort,
        needed=info.is_required(),
        options=_options(info),
        values=shown,
        beside=name in _BESIDE,
        # What may not be below nought has a check of its own after it was read.
        signed=not any(isinstance(one, AfterValidator) for one in info.metadata),
    )


def _places(name: str, sort: Sort) -> tuple[str, ...]:
    """Return the names of the inputs of a field."""
    if sort == "pair":
        return f"{name}.0", f"{name}.1"
    if sort == "reads":
        return f"{name}.whole", f"{name}.part", f"{name}.minus", name, f"{name}.strength"
    return (name,)


def _shown(value: object, sort: Sort, unit: Unit) -> tuple[str, ...]:
    if sort == "pair":
        return tuple(map(str, value)) if isinstance(value, list) else ("", "")
    if isinstance(value, bool):
        return (YES if value else NO,)
    text = "" if value is None else str(value)
    return taped(text, unit) if sort == "reads" else (text,)


def taped(text: str, unit: Unit) -> tuple[str, ...]:
    """Split a reading into whole inches, sixteenths and strength, where that is all it says."""
    written = ("", "", "", text, "")
    strength = next((word for word in STRENGTHS if text.endswith(f" {word}")), "")
    plain = text.removesuffix(strength)
    if unit != "in" or not set(plain) <= set("0123456789/ -"):
        return written
    try:
        inches = parse_length(plain, unit=unit) / MM_PER_INCH
    except LengthError:
        return written
    whole, part = divmod(abs(inches) * SIXTEENTHS, SIXTEENTHS)
    if part.denominator != 1:
        return written
    return str(whole), str(part), "minus" if inches < 0 else "", "", strength


def _sent(model: type[Document], form: Form, unit: Unit) -> Iterator[tuple[str, Any]]:
    for own, info in model.model_fields.items():
        name = info.alias or own
        if own == "kind" and _fixed(info):
            yield name, _options(info)[0]
            continue
        sort = _sort(name, info)
        texts = [form.text(place) for place in _places(name, sort)]
        if sort == "reads":
            texts = [read_out(texts, unit)]
        if not any(texts):
            continue
        if sort == "pair":
            yield name, texts
        else:
            yield name, texts[0] == YES if sort == "yes-or-no" else texts[0]


def read_out(texts: list[str], unit: Unit) -> str:
    """Put a tape reading together; what was written out beats the keys."""
    whole, part, minus, written, strength = texts
    if written or unit != "in" or not (whole or part.strip("0")):
        return written
    if not part.isdecimal() or int(part) >= SIXTEENTHS:
        part = "0"
    fraction = Fraction(int(part), SIXTEENTHS)
    inches = (whole, str(fraction) if fraction else "")
    read = " ".join(text for text in (*inches, strength) if text)
    return f"-{read}" if minus and not read.startswith("-") else read


def _fixed(info: FieldInfo) -> bool:
    return len(_options(info)) == 1


def _options(info: FieldInfo) -> tuple[str, ...]:
    return tuple(
        option
        for kind in _kinds(info.annotation)
        if get_origin(kind) is Literal
        for option in get_args(kind)
    )


def _kinds(annotation: object) -> tuple[object, ...]:
    if get_origin(annotation) in {Union, UnionType}:
        return tuple(kind for kind in get_args(annotation) if kind is not NoneType)
    return (annotation,)


def _sort(name: str, info: FieldInfo) -> Sort:
    if name == "reads":
        return "reads"
    if _options(info):
        return "choice"
    (kind,) = _kinds(info.annotation)
    if get_origin(kind) is tuple:
        return "pair"
    if kind is bool:
        return "yes-or-no"
    return "text" if str in {kind, *get_args(kind)[:1]} else "length"
