"""A small invented order to try prices and days with."""

from gaugerod.core.base.messages import Message
from gaugerod.core.job.goods import Pack
from gaugerod.core.takeoff.order import Order, OrderLine, Quantities


def sample_order() -> Order:
    """Return the invented order of an alcove of 36 keyed pieces.

    Returns
    -------
    Order
        Modules, adhesive and sealant.

    Notes
    -----
    Source: invented.

    Examples
    --------
    >>> [line.id for line in sample_order().lines]
    ['modules', 'adhesive', 'sealant']
    """
    return Order(
        quantities=Quantities(
            pieces=36,
            straight_cuts=12,
            shaped_cuts=10,
            holes=3,
            niches=0,
            area=5.75e6,
            key_length=23_000.0,
            joint_volume=0.0,
            seal_length=6_700.0,
            bead_length=81_000.0,
            edge_length=3_500.0,
            buttered=36,
            longest_bead=2_600.0,
        ),
        modules=36,
        spares=2,
        boxes=5,
        lines=(
            _line("modules", "box", 5, 200_00),
            _line("adhesive", "cartridge", 4, 12_00),
            _line("sealant", "cartridge", 3, 9_00),
        ),
    )


def _line(id_: str, pack: Pack, count: int, unit_price: int) -> OrderLine:
    return OrderLine(
        id=id_,
        name=f"Sample {id_}",
        pack=pack,
        count=count,
        unit_price=unit_price,
        arithmetic=Message("takeoff.invented"),
    )
