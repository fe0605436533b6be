"""What pricing gives: lines in whole cents, and the price they add up to."""

from dataclasses import dataclass

from gaugerod.core.base.messages import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class TaskHours:
    """The time one task takes by the clock, and how many work at it. [minutes].

    `minutes` is what is priced and planned with: the mean of what `low`, `likely` and `high`
    say. `count` is of what the task is counted by in the first place.
    """

    id: str
    name: str
    count: float
    minutes: int
    low: int
    likely: int
    high: int
    people: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceLine:
    """One line of the price. [cents]. `name` is a name of the data, or a message."""

    id: str
    name: str | Message
    cost: int
    arithmetic: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """The price of one alcove; all amounts in [cents], `minutes` of all people in [minutes].

    The lines add up to `price`; all before the mark-up add up to `cost`, and `charges` are those
    after it. `margin` is the part of the price that is not cost.
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
    freight: int = 0
    allowances: int = 0
    charges: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Spread:
    """How far the work may turn out otherwise: prices in [cents], hours in [minutes].

    One job in ten takes less than `low_minutes`, one in two less than `likely_minutes`, nine
    in ten less than `high_minutes`; `low`, `likely` and `high` are what those hours would be
    priced at. `over` is the share of jobs that take longer than is priced. [1]
    """

    low: int
    likely: int
    high: int
    low_minutes: int
    likely_minutes: int
    high_minutes: int
    over: float
