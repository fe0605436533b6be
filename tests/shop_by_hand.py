"""Rates, an order and a price set down by hand, to plan days with. Invented."""

from gaugerod.core.base.messages import Message
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.price import Price, TaskHours
from gaugerod.core.takeoff.order import Order, OrderLine, Quantities


def shop(*tasks: dict[str, object]) -> RateTable:
    """Rates of which only the tasks matter; each is counted by the alcove unless it says."""
    return RateTable.model_validate(
        {
            "format": 1,
            "id": "hand",
            "currency": "USD",
            "labour": 48,
            "markup": 0.5,
            "contingency": 0.05,
            "tax": 0.07,
            "looks": {
                "sliver": 25,
                "unequal": 10,
                "front_cut": 15,
                "off_jamb": 30,
                "near_hole": 30,
            },
            "task": [{"name": task["id"], "per": "alcove", "hours": 1, **task} for task in tasks],
        }
    )


def ordered(*ids: str) -> Order:
    """An order of which only the ids of the lines matter."""
    nothing = Quantities(
        pieces=0,
        straight_cuts=0,
        shaped_cuts=0,
        holes=0,
        niches=0,
        area=0.0,
        key_length=0.0,
        joint_volume=0.0,
        seal_length=0.0,
        bead_length=0.0,
        edge_length=0.0,
    )
    lines = tuple(
        OrderLine(
            id=id_,
            name=id_,
            pack="cartridge",
            count=1,
            unit_price=900,
            arithmetic=Message("takeoff.invented"),
        )
        for id_ in ids
    )
    return Order(quantities=nothing, modules=0, spares=0, boxes=0, lines=lines)


def timed(**minutes: int) -> Price:
    """A price of which only the minutes of the tasks matter."""
    tasks = tuple(
        TaskHours(id=id_, name=id_, count=1, minutes=m, low=m, likely=m, high=m)
        for id_, m in minutes.items()
    )
    return Price(
        currency="USD",
        tasks=tasks,
        lines=(),
        minutes=sum(minutes.values()),
        labour=0,
        material=0,
        tax=0,
        other=0,
        contingency=0,
        cost=0,
        price=0,
        margin=0.0,
    )
