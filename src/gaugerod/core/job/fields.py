"""Field types of the documents: lengths in the document's unit, money, names."""

import math
import re
from collections.abc import Mapping
from datetime import date, datetime, time
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from typing import Annotated, Literal, TypeAlias

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    StringConstraints,
    ValidationInfo,
    WithJsonSchema,
)
from pydantic_core import PydanticCustomError

from gaugerod.core.base.errors import LengthError
from gaugerod.core.base.lengths import MM_PER_INCH, Unit, parse_length
from gaugerod.core.base.messages import Message

LONGEST = 30_000.0
"""No reading of one room is longer than this; a larger number is a slip of unit. [mm]"""
MOST_MONEY = 10_000_000
"""No amount of one job is larger; a larger number is a slip. [whole units of currency]"""
MM_PER: Mapping[Unit, Fraction] = {"in": MM_PER_INCH, "mm": Fraction(1), "cm": Fraction(10)}
"""What one of each unit is. [mm]"""

Sentence: TypeAlias = Annotated[str, StringConstraints(strip_whitespace=True, min_length=3)]
REGION = r"^[A-Z]{2}(-[A-Z0-9]{1,3}(-[A-Z]+)?)?$"
"""A country, a part of one, a city in it."""
Region: TypeAlias = Annotated[str, StringConstraints(pattern=REGION)]


class Document(BaseModel):
    """A part of a document: read once, never changed, unknown keys refused."""

    model_config = ConfigDict(frozen=True, extra="forbid", allow_inf_nan=False)


def refuse(message: Message) -> PydanticCustomError:
    """Make the error that refuses a value with a sentence of the catalogue.

    Parameters
    ----------
    message
        What is wrong with the value; the reader of the document says where.

    Returns
    -------
    PydanticCustomError
        To be raised by a validator; its context holds `message`.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> refuse(Message("field.negative")).context["message"].key
    'field.negative'
    """
    return PydanticCustomError("gaugerod", "{message}", {"message": message})


def unit_of(info: ValidationInfo) -> Unit:
    """Return the unit that plain numbers of the document being read have.

    Parameters
    ----------
    info
        What pydantic says of the reading; its context may hold a `unit`.

    Returns
    -------
    Unit
        The unit, mm where none is given.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from pydantic import TypeAdapter
    >>> TypeAdapter(LengthField).validate_python(60, context={"unit": "in"})
    1524.0
    """
    context: Mapping[str, Unit] = info.context or {}
    return context.get("unit", "mm")


def _shown(value: object) -> str:
    return str(value).lower() if isinstance(value, bool) else str(value)[:40]


def _read_length(value: object, info: ValidationInfo) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise refuse(Message("field.not-a-length", read=_shown(value)))
    if isinstance(value, str):
        try:
            mm = parse_length(value, unit=unit_of(info))
        except LengthError as error:
            raise refuse(error.message) from error
    else:
        if isinstance(value, float) and not math.isfinite(value):
            raise refuse(Message("field.not-a-length", read=_shown(value)))
        mm = Fraction(str(value)) * MM_PER[unit_of(info)]
    if abs(mm) > LONGEST:
        raise refuse(Message("field.too-long", read=_shown(value), unit=unit_of(info)))
    return float(mm)


def _read_cents(value: object) -> int:
    cents = _read_signed_cents(value)
    if cents < 0:
        raise refuse(Message("field.not-money", read=_shown(value)))
    return cents


def _read_signed_cents(value: object) -> int:
    if isinstance(value, bool) or not isinstance(value, int | float | str):
        raise refuse(Message("field.not-money", read=_shown(value)))
    try:
        amount = Decimal(str(value))
    except ArithmeticError as error:
        raise refuse(Message("field.not-money", read=_shown(value))) from error
    if not amount.is_finite() or abs(amount) > MOST_MONEY:
        raise refuse(Message("field.not-money", read=_shown(value)))
    return int((amount * 100).quantize(Decimal(1), rounding=ROUND_HALF_UP))


def _read_day(value: object) -> date:
    # Not left to the library, which takes a plain number for seconds since 1970.
    try:
        day = date.fromisoformat(value) if isinstance(value, str) else value
    except ValueError as error:
        raise refuse(Message("field.not-a-day", read=_shown(value))) from error
    if isinstance(day, datetime) or not isinstance(day, date):
        raise refuse(Message("field.not-a-day", read=_shown(value)))
    return day


def _read_time(value: object) -> time:
    # Not left to the library, which takes a plain number for seconds since midnight.
    try:
        moment = time.fromisoformat(value) if isinstance(value, str) else value
    except ValueError as error:
        raise refuse(Message("field.not-a-time", read=_shown(value))) from error
    if not isinstance(moment, time) or moment.tzinfo:
        raise refuse(Message("field.not-a-time", read=_shown(value)))
    return moment


def _positive(value: float) -> float:
    if value <= 0:
        raise refuse(Message("field.not-positive"))
    return value


def _not_negative(value: float) -> float:
    if value < 0:
        raise refuse(Message("field.negative"))
    return value


def _length_schema(numbers: dict[str, object], text: str) -> WithJsonSchema:
    number = {"type": "number", **numbers}
    return WithJsonSchema({"anyOf": [number, {"type": "string"}], "description": text})


_WRITTEN = "a plain number in the file's unit, or text such as '59 13/16'."
LengthField: TypeAlias = Annotated[
    float, BeforeValidator(_read_length), _length_schema({}, f"A length: {_WRITTEN}")
]
PositiveLength: TypeAlias = Annotated[
    float,
    BeforeValidator(_read_length),
    AfterValidator(_positive),
    _length_schema({"exclusiveMinimum": 0}, f"A length above nought: {_WRITTEN}"),
]
NonNegativeLength: TypeAlias = Annotated[
    float,
    BeforeValidator(_read_length),
    AfterValidator(_not_negative),
    _length_schema({"minimum": 0}, f"A length, nought or more: {_WRITTEN}"),
]
Cents: TypeAlias = Annotated[
    int,
    BeforeValidator(_read_cents),
    WithJsonSchema({"anyOf": [{"type": "number", "minimum": 0}, {"type": "string"}]}),
]
SignedCents: TypeAlias = Annotated[
    int,
    BeforeValidator(_read_signed_cents),
    WithJsonSchema({"anyOf": [{"type": "number"}, {"type": "string"}]}),
]
Day: TypeAlias = Annotated[date, BeforeValidator(_read_day)]
TimeOfDay: TypeAlias = Annotated[time, BeforeValidator(_read_time)]
Name: TypeAlias = Annotated[str, StringConstraints(min_length=1, max_length=80)]
Identifier: TypeAlias = Annotated[str, StringConstraints(pattern=r"^[A-Za-z0-9][A-Za-z0-9._-]*$")]
WallName: TypeAlias = Annotated[str, StringConstraints(pattern=r"^[A-Z]{1,2}$")]
Share: TypeAlias = Annotated[float, Field(strict=True, ge=0, le=1)]
Hours: TypeAlias = Annotated[float, Field(strict=True, ge=0, le=10_000)]
_TEMPERATURE = re.compile(r"\s*(?P<number>-?\d{1,3}(?:\.\d+)?)\s*°?\s*(?P<scale>[CF])\s*")
_HOTTEST = 100.0  # [degrees C]


def _read_temperature(value: object) -> float:
    """Read a temperature; its scale is always written, for 50 is warm and cold. [celsius]."""
    found = _TEMPERATURE.fullmatch(value) if isinstance(value, str) else None
    degrees = float(found["number"]) if found else 0.0
    celsius = degrees if found and found["scale"] == "C" else (degrees - 32) / 1.8
    if not found or abs(celsius) > _HOTTEST:
        raise refuse(Message("field.not-a-temperature", read=str(value)[:40]))
    return celsius


# Read with its scale, kept in degrees Celsius.
Temperature: TypeAlias = Annotated[
    float,
    BeforeValidator(_read_temperature),
    WithJsonSchema(
        {"type": "string", "description": "A temperature with its scale, such as '68 F' or '20 C'."}
    ),
]
Side: TypeAlias = Literal["left", "right", "bottom", "top"]
Turn: TypeAlias = Literal["lying", "standing"]
InsideFace: TypeAlias = Literal["sill", "head", "left", "right", "back"]
"""A face inside a niche or window, as you look into it."""
