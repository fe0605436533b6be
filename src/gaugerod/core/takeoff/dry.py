"""Boards, and what is used up by the work: screws, tape, wipes, blades, hole saws, bags."""

from collections.abc import Iterator
from fractions import Fraction

from gaugerod.core.base.measures import MM2_PER_M2, MM_PER_METRE
from gaugerod.core.base.messages import Area, Length, Message, Run, Value
from gaugerod.core.job.goods import Backer, Supply
from gaugerod.core.job.materials import System
from gaugerod.core.takeoff.needs import Need
from gaugerod.core.takeoff.order import Boards, Quantities
from gaugerod.core.takeoff.packages import packages_of, whole


def dry_needs(quantities: Quantities, system: System) -> Iterator[Need]:
    """Yield what is needed of boards and of what is used up.

    Parameters
    ----------
    quantities
        Lengths, areas and counts. [mm, mm2]
    system
        The material, with its board and supplies.

    Yields
    ------
    Need
        What is asked for at all, with the sum behind it.

    Notes
    -----
    Of hole saws one size is bought for each diameter, and another where it is worn out.
    Source: common practice for what is counted, own derivation for how.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> wipes = Supply(id="wipes", name="Wipes", pack="packet", per="piece", lasts=80, price=9)
    >>> system = sample_system().model_copy(update={"supply": (wipes,)})
    >>> [need.packages for need in dry_needs(sample_order().quantities, system)]
    [Fraction(9, 20)]
    """
    if system.backer and quantities.boards:
        yield _backer(system.backer, quantities.boards)
    for supply in system.supply:
        saws = supply.per == "hole size"
        yield _saws(supply, quantities) if saws else _supply(supply, quantities)


def _backer(backer: Backer, boards: Boards) -> Need:
    wide, high = backer.size
    return Need(
        id="backer",
        name=backer.name,
        pack="board",
        packages=Fraction(boards.count),
        unit_price=backer.price,
        sum=Message(
            "takeoff.backer", pieces=boards.pieces, width=Length(wide), height=Length(high)
        ),
        undivided=True,
    )


def _saws(supply: Supply, quantities: Quantities) -> Need:
    """Return the hole saws: every diameter is a tool of its own."""
    sizes = [
        (Length(size), holes, whole(packages_of(holes, per=supply.lasts)))
        for size, holes in quantities.hole_sizes
    ]
    listed: Message | None = None
    for size, holes, saws in sizes:
        one = Message("takeoff.saws", size=size, holes=holes, saws=saws)
        listed = Message("takeoff.and", first=listed, second=one) if listed else one
    return Need(
        id=supply.id,
        name=supply.name,
        pack=supply.pack,
        packages=Fraction(sum(saws for _, _, saws in sizes)),
        unit_price=supply.price,
        sum=Message("takeoff.hole-saws", sizes=listed or "", lasts=supply.lasts),
        undivided=True,
    )


def _supply(supply: Supply, quantities: Quantities) -> Need:
    amount, shown, lasts = _spent(supply, quantities)
    return Need(
        id=supply.id,
        name=supply.name,
        pack=supply.pack,
        packages=packages_of(amount, per=supply.lasts),
        unit_price=supply.price,
        sum=Message(
            "takeoff.supply",
            amount=shown,
            what=Message(f"takeoff.of-{supply.per.replace(' ', '-')}"),
            lasts=lasts,
            pack=Message(f"takeoff.one-{supply.pack}"),
        ),
    )


def _spent(supply: Supply, quantities: Quantities) -> tuple[float, Value, Value]:
    """Return what uses a supply up, that to be shown, and what one package serves to be shown."""
    boards = quantities.boards or Boards(count=0, pieces=0, seams=0.0, corners=0.0)
    counts = {
        "alcove": 1,
        "piece": quantities.pieces + quantities.inside_pieces,
        "hole": sum(holes for _, holes in quantities.hole_sizes),
        "board": boards.count,
    }
    runs = {"metre of cut": quantities.cut_length, "metre of tape": boards.seams + boards.corners}
    if supply.per in counts:
        return counts[supply.per], counts[supply.per], supply.lasts
    if supply.per in runs:
        run = runs[supply.per]
        return run / MM_PER_METRE, Run(run), Run(supply.lasts * MM_PER_METRE)
    area = quantities.lined_area
    return area / MM2_PER_M2, Area(area), Area(supply.lasts * MM2_PER_M2)
