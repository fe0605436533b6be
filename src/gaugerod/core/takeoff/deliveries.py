"""How far an order is: what is still to be ordered, what is on its way, what it came to."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from gaugerod.core.job.own_order import Bought
from gaugerod.core.takeoff.order import OrderLine


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """How far one line of an order is, in packages. [cents].

    `over` is what was ordered beyond what the plan asks for. `dearer` is what those that came at
    another price than the one reckoned with cost more than was reckoned.
    """

    item: str
    needed: int
    ordered: int
    arrived: int
    to_order: int
    over: int
    dearer: int
    lots: tuple[str, ...]


def standing(lines: Sequence[OrderLine], bought: Iterable[Bought]) -> tuple[Standing, ...]:
    """Return how far each line of an order is.

    Parameters
    ----------
    lines
        The lines, as the plan asks for them now.
    bought
        What was ordered so far.

    Returns
    -------
    tuple of Standing
        A line for each of the order; what was ordered of anything else comes after them.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> lines = sample_order().lines
    >>> came = Bought(item="modules", count=2, arrived="2026-03-09", lot="A7")
    >>> first = standing(lines, [came])[0]
    >>> first.needed, first.ordered, first.arrived, first.to_order, first.lots
    (5, 2, 2, 3, ('A7',))
    """
    came = tuple(bought)
    needed = {line.id: line for line in lines}
    items = dict.fromkeys((*needed, *(one.item for one in came)))
    return tuple(
        _standing(item, needed.get(item), [one for one in came if one.item == item])
        for item in items
    )


def _standing(item: str, line: OrderLine | None, came: Sequence[Bought]) -> Standing:
    needed = line.count if line else 0
    ordered = sum(one.count for one in came)
    each = line.unit_price if line else 0
    return Standing(
        item=item,
        needed=needed,
        ordered=ordered,
        arrived=sum(one.count for one in came if one.arrived),
        to_order=max(needed - ordered, 0),
        over=max(ordered - needed, 0),
        dearer=sum(one.count * (one.price - each) for one in came if one.price is not None),
        lots=tuple(dict.fromkeys(one.lot for one in came if one.lot)),
    )
