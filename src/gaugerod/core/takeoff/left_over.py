"""What is left when all hangs: offcuts with the edges that they keep, and whole modules."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from math import floor

from gaugerod.core.cutting.pieces import CutPlan
from gaugerod.core.job.document import OffcutAtHand, OnHand
from gaugerod.core.job.fields import Side
from gaugerod.core.job.products import MODULES, Products, modules_of
from gaugerod.core.takeoff.order import Order


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftOffcut:
    """An offcut that may be used elsewhere. [mm].

    `lot` is empty where it was cut from a module that was bought for this job.
    """

    tag: str
    product: str
    size: tuple[float, float]
    keeps: tuple[Side, ...]
    lot: str


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftModules:
    """Whole modules of a product that are left; `line` is where they stand in the order."""

    product: str
    line: str
    count: int


def left_offcuts(
    cuts: CutPlan, products: Products, at_hand: Iterable[OffcutAtHand] = ()
) -> tuple[LeftOffcut, ...]:
    """Return the offcuts that a cut plan leaves.

    Parameters
    ----------
    cuts
        What is cut from what. [mm]
    products
        The products: what came from elsewhere is of the main one where it does not say.
    at_hand
        Offcuts that came from elsewhere; those that were not begun are left as they came. [mm]

    Returns
    -------
    tuple of LeftOffcut
        The largest first; none that is narrower or lower than a piece may be. [mm]

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_system
    >>> of = Products(main=sample_system())
    >>> brought = OffcutAtHand(name="bath-2-O-7a", size=(300, 250), lot="A113")
    >>> [one.tag for one in left_offcuts(plan_cuts((), sample_system()), of, [brought])]
    ['bath-2-O-7a']
    """
    found = [
        one
        for one in _offcuts(cuts, products, at_hand)
        if min(one.size) >= products.of(one.product).cutting.least
    ]
    return tuple(sorted(found, key=lambda one: (-one.size[0] * one.size[1], one.tag)))


def left_modules(
    cuts: CutPlan,
    order: Order,
    products: Products,
    *,
    on_hand: Iterable[OnHand] = (),
    broken: Mapping[str, int] | None = None,
) -> tuple[LeftModules, ...]:
    """Return the whole modules that are left of each product.

    Parameters
    ----------
    cuts
        Which modules are cut or hung whole.
    order
        The boxes that were bought.
    products
        The products, with how many modules a box holds.
    on_hand
        What was there already; modules of another lot are not used and not counted.
    broken
        How many broke, by product.

    Returns
    -------
    tuple of LeftModules
        Never less than none; products of which none are left have no line.

    Notes
    -----
    What is bought in whole boxes, and what was there, less what is used and what broke.
    Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.takeoff.sample import sample_order
    >>> of = Products(main=sample_system())
    >>> left_modules(plan_cuts((), sample_system()), sample_order(), of)
    ()
    """
    held = {one.item: floor(one.count) for one in on_hand if one.same_lot}
    lost = broken or {}
    left = (
        LeftModules(
            product=one.product,
            line=(line := _line(one.product, products)),
            count=one.boxes * products.of(one.product).per_box
            + held.get(line, 0)
            - sum(s.source == "module" and s.product == one.product for s in cuts.stock)
            - lost.get(one.product, 0),
        )
        for one in order.products
    )
    return tuple(one for one in left if one.count > 0)


def _line(product: str, products: Products) -> str:
    return MODULES if product == products.main.id else modules_of(product)


def _offcuts(
    cuts: CutPlan, products: Products, at_hand: Iterable[OffcutAtHand]
) -> Iterator[LeftOffcut]:
    for stock in cuts.stock:
        for left in stock.offcuts:
            yield LeftOffcut(
                tag=left.id,
                product=stock.product,
                size=left.size,
                keeps=left.keeps,
                lot=stock.lot,
            )
    begun = {stock.id for stock in cuts.stock}
    for one in at_hand:
        if f"H-{one.name}" not in begun:
            yield LeftOffcut(
                tag=one.name,
                product=one.material or products.main.id,
                size=one.size,
                keeps=one.keeps,
                lot=one.lot,
            )
