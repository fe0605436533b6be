"""Messages: what the core says, as a key and values; the words live in one catalogue.

The core never writes a sentence. It names a message and hands over exact values; a shell
turns both into text, in the units and the language of the reader.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import TypeAlias


@dataclass(frozen=True, slots=True)
class Length:
    """A length to be shown in the reader's unit. [mm]."""

    mm: float


@dataclass(frozen=True, slots=True)
class Money:
    """An amount of money. [cents]."""

    cents: int


@dataclass(frozen=True, slots=True)
class Run:
    """A long length to be shown in feet or metres. [mm]."""

    mm: float


@dataclass(frozen=True, slots=True)
class Area:
    """An area to be shown in square feet or square metres. [mm2]."""

    mm2: float


@dataclass(frozen=True, slots=True)
class Volume:
    """A volume to be shown in fluid ounces and gallons or in litres. [mm3]."""

    mm3: float


@dataclass(frozen=True, slots=True)
class Mass:
    """A mass to be shown in pounds or kilograms; it is held in kg."""

    kg: float


@dataclass(frozen=True, slots=True)
class Thickness:
    """Of a bed or a film, to be shown in decimals of an inch or in mm. [mm]."""

    mm: float


Measure: TypeAlias = Run | Area | Volume | Mass | Thickness
"""What is bought by the measure: shown with its unit, as fine as it is worth."""


@dataclass(frozen=True, slots=True, init=False)
class Message:
    """A sentence of the catalogue and the values that fill it.

    Examples
    --------
    >>> Message("survey.low-point", wall="B", below=Length(762.0))
    Message(key='survey.low-point', values=mappingproxy({'wall': 'B', 'below': Length(mm=762.0)}))
    """

    key: str
    values: Mapping[str, "Value"]

    def __init__(self, key: str, /, **values: "Value") -> None:
        object.__setattr__(self, "key", key)
        object.__setattr__(self, "values", MappingProxyType(values))


Value: TypeAlias = str | int | float | Length | Measure | Money | Message
