"""From what is needed to what is bought: less what is on hand, in whole packages."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from math import floor

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import OnHand
from gaugerod.core.job.goods import Pack
from gaugerod.core.takeoff.order import OrderLine
from gaugerod.core.takeoff.packages import whole, written


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What is needed of one thing, in `packages` and parts of one. [cents].

    `undivided` is what is bought and kept whole; of `one_lot` is what must match in colour.
    What is on hand is counted by `per_pack` to a package.
    """

    id: str
    name: str
    pack: Pack
    packages: Fraction
    unit_price: int
    sum: Message
    per_pack: int = 1
    undivided: bool = False
    one_lot: bool = False


def bought(needs: Iterable[Need], on_hand: Iterable[OnHand] = ()) -> tuple[OrderLine, ...]:
    """Turn needs into lines of an order.

    Parameters
    ----------
    needs
        What is needed.
    on_hand
        What is there already; one entry to a line at most.

    Returns
    -------
    tuple of OrderLine
        A line for all that is needed, of nought packages where what is on hand will do.

    Notes
    -----
    What is on hand is taken off before packages are rounded up, whole lengths only of trims,
    and nothing of another lot where colours must match. Source: own derivation.

    Examples
    --------
    Three and a half cartridges are needed, and six tenths of one are left: three are bought.

    >>> glue = Need(
    ...     id="adhesive",
    ...     name="Adhesive",
    ...     pack="cartridge",
    ...     packages=Fraction(7, 2),
    ...     unit_price=1200,
    ...     sum=Message("takeoff.invented"),
    ... )
    >>> [line.count for line in bought([glue], [OnHand(item="adhesive", count=0.6)])]
    [3]
    """
    held = {one.item: one for one in on_hand}
    return tuple(_line(need, held.get(need.id)) for need in needs if whole(need.packages))


def _line(need: Need, held: OnHand | None) -> OrderLine:
    key, have = "takeoff.buy-all" if need.undivided else "takeoff.buy", Fraction(0)
    if held and need.one_lot and not held.same_lot:
        key = "takeoff.buy-other-lot"
    elif held:
        key = "takeoff.buy-all-less" if need.undivided else "takeoff.buy-less"
        have = written(held.count) / need.per_pack
        have = Fraction(floor(have)) if need.undivided else have
    count = whole(need.packages - have)
    return OrderLine(
        id=need.id,
        name=need.name,
        pack=need.pack,
        count=count,
        unit_price=need.unit_price,
        arithmetic=Message(
            key, sum=need.sum, exact=float(need.packages), have=float(have), count=count
        ),
        needed=float(need.packages),
    )
