"""What pricing gives: lines in whole cents, and the price they add up to."""

from dataclasses import dataclass

from gaugerod.core.base.messages import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskHours:
    """The time one task takes: how many, how long. [minutes]."""

    id: str
    name: str
    count: float
    minutes: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLine:
    """One line of the price. [cents]. `name` is a name of the data, or a message."""

    id: str
    name: str | Message
    cost: int
    arithmetic: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The price of one alcove; all amounts in [cents], `minutes` in [minutes].

    The lines add up to `price`; all but the last, the mark-up, add up to `cost`. `margin`
    is the part of the price that is not cost.
    """

    currency: str
    tasks: tuple[TaskHours, ...]
    lines: tuple[PriceLine, ...]
    minutes: int
    labour: int
    material: int
    tax: int
    other: int
    contingency: int
    cost: int
    price: int
    margin: float
