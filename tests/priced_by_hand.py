"""A shop, an order and a price of figures that can be followed by hand. Invented."""

from tests.laid_by_hand import cut_plan, keyed

from gaugerod.core.base.messages import Message
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.pricing.job import price_job
from gaugerod.core.pricing.price import Price, TaskHours
from gaugerod.core.takeoff.order import Order, OrderLine, Quantities

QUANTITIES = Quantities(
    pieces=30,
    straight_cuts=10,
    shaped_cuts=7,
    holes=3,
    niches=2,
    reveals=3,
    area=4.5e6,
    key_length=2e4,
    joint_volume=0.0,
    seal_length=6_500.0,
    bead_length=8e4,
    edge_length=3e3,
)
ALL_IN: dict[str, object] = {"id": "all", "per": "alcove", "hours": 38}


def bought(id_: str, *, count: int, cents: int) -> OrderLine:
    return OrderLine(
        id=id_,
        name=id_,
        pack="box",
        count=count,
        unit_price=cents,
        arithmetic=Message("takeoff.invented"),
    )


def order(*lines: OrderLine) -> Order:
    return Order(quantities=QUANTITIES, modules=30, spares=2, boxes=4, lines=lines)


def rates(*tasks: dict[str, object], **changes: object) -> RateTable:
    """A shop that charges nothing but what is given; a change to None takes a key out."""
    plain: dict[str, object] = {
        "format": 1,
        "id": "hand",
        "currency": "USD",
        "labour": 48,
        "markup": 0,
        "contingency": 0,
        "tax": 0,
        "looks": {
            "sliver": 0,
            "unequal": 0,
            "front_cut": 0,
            "off_jamb": 0,
            "near_hole": 0,
        },
        "task": [{"name": task["id"], **task} for task in tasks],
    }
    return RateTable.model_validate(plain | changes)


def priced(
    table: RateTable, *lines: OrderLine, system: System | None = None, cuts: int = 99
) -> Price:
    plan = cut_plan(modules=30, cuts=cuts)
    return price_job(order(*lines), plan, table, system or keyed())


def taken(id_: str, low: int, likely: int, high: int, *, people: int = 1) -> TaskHours:
    """A task of so many minutes."""
    return TaskHours(
        id=id_,
        name=id_,
        count=1,
        minutes=round((low + 4 * likely + high) / 6),
        low=low,
        likely=likely,
        high=high,
        people=people,
    )
