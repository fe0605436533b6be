"""Several products in one job: which piece is of which, and a plan of cuts for each."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import count

from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.pieces import CutPlan, ModuleCount, Piece, Stock
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.document import Accent, OffcutAtHand
from gaugerod.core.job.products import Products


def with_products(pieces: Sequence[Piece], products: Products) -> tuple[Piece, ...]:
    """Let pieces on walls be of the product that is to stand there.

    Parameters
    ----------
    pieces
        Pieces of walls, of the main product. [mm]
    products
        The products, and where they stand.

    Returns
    -------
    tuple of Piece
        The same pieces; where two products are to stand the later one does.

    Notes
    -----
    All products on walls are set out alike, so that nothing else changes. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.document import Accent
    >>> from gaugerod.core.job.products import Accented
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> blue = sample_system().model_copy(update={"id": "blue"})
    >>> band = Accented(where=Accent(material="blue", courses=(1,)), system=blue)
    >>> products = Products(main=sample_system(), accented=(band,))
    >>> {piece.product for piece in with_products(sample_pieces(), products) if piece.course == 1}
    {'blue'}
    """
    return tuple(replace(piece, product=_product(piece, products)) for piece in pieces)


def _product(piece: Piece, products: Products) -> str:
    found = [products.main.id]
    found += [one.system.id for one in products.accented if _on(one.where, piece)]
    return found[-1]


def _on(accent: Accent, piece: Piece) -> bool:
    return (
        not accent.inside
        and piece.wall in (accent.walls or (piece.wall,))
        and piece.course in (accent.courses or (piece.course,))
    )


def nowhere(pieces: Sequence[Piece], products: Products) -> Iterator[Message]:
    """Yield every course that another product is to stand in and that a layout has not.

    Parameters
    ----------
    pieces
        Pieces of all walls. [mm]
    products
        The products, and where they stand.

    Yields
    ------
    Message
        Which row of the table, which wall, which courses there are.

    Notes
    -----
    Where walls are named, each has to have the course; else one of all walls does. Source: own
    design.

    Examples
    --------
    >>> from gaugerod.core.job.document import Accent
    >>> from gaugerod.core.job.products import Accented
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> system = sample_system()
    >>> band = Accented(where=Accent(material="sample", courses=(9,)), system=system)
    >>> found = nowhere(sample_pieces(), Products(main=system, accented=(band,)))
    >>> [message.key for message in found]
    ['cutting.no-course']
    """
    for number, one in enumerate(products.accented, start=1):
        for wall in one.where.walls or (None,):
            there = {piece.course for piece in pieces if wall in {None, piece.wall}}
            missing = [course for course in one.where.courses if course not in there]
            if missing and not one.where.inside:
                yield Message(
                    "cutting.no-course-on" if wall else "cutting.no-course",
                    n=number,
                    wall=wall or "",
                    read=missing[0],
                    first=min(there, default=0),
                    last=max(there, default=0),
                )


def plan_products(
    pieces: Sequence[Piece],
    products: Products,
    *,
    proven: bool = True,
    at_hand: Sequence[OffcutAtHand] = (),
) -> CutPlan:
    """Plan which module gives which pieces, product by product.

    Parameters
    ----------
    pieces
        The pieces to cut, in the order of setting. [mm]
    products
        The products of the job. [mm]
    proven
        Whether to look for the fewest modules, and prove them; else a plan is made at once.
    at_hand
        Offcuts from elsewhere, each of one of the products. [mm]

    Returns
    -------
    CutPlan
        Stock of all products in the order of setting; with several, a count for each of which
        there are pieces. [mm]

    Raises
    ------
    MaterialError
        A piece is larger than the module, or would keep both ends of one that is longer.

    Notes
    -----
    No piece comes from a module of another product, so that the fewest modules of all are the
    fewest of each, and so are the bounds. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> plan_products((), Products(main=sample_system())).counts
    ()
    """
    systems = products.systems
    if len(systems) == 1:
        return plan_cuts(pieces, products.main, proven=proven, at_hand=at_hand)
    plans: dict[str, CutPlan] = {}
    for system in systems:
        own = [piece for piece in pieces if piece.product == system.id]
        held = [one for one in at_hand if (one.material or products.main.id) == system.id]
        if own:
            plans[system.id] = plan_cuts(own, system, proven=proven, at_hand=held)
    rank = {piece.tag: place for place, piece in enumerate(pieces)}
    stock = [stock for plan in plans.values() for stock in plan.stock]
    stock.sort(key=lambda one: min(rank[placed.tag] for placed in one.pieces))
    counts = tuple(
        ModuleCount(
            product=product,
            modules=plan.modules,
            lower_bound=plan.lower_bound,
            proven=plan.proven,
        )
        for product, plan in plans.items()
    )
    return CutPlan(
        stock=tuple(_numbered(stock)),
        modules=sum(one.modules for one in counts),
        lower_bound=sum(one.lower_bound for one in counts),
        proven=all(one.proven for one in counts),
        cuts=sum(plan.cuts for plan in plans.values()),
        counts=counts,
    )


def _numbered(stock: Sequence[Stock]) -> Iterator[Stock]:
    """Give the modules of all products one run of numbers, in the order they are needed in."""
    numbers = count(1)
    for one in stock:
        if one.source == "offcut":
            yield one
            continue
        number = next(numbers)
        before = one.id.removeprefix("M-")
        offcuts = tuple(
            replace(left, id=f"O-{number}{left.id.removeprefix(f'O-{before}')}")
            for left in one.offcuts
        )
        yield replace(one, id=f"M-{number}", offcuts=offcuts)


def counts_of(cuts: CutPlan, product: str) -> tuple[ModuleCount, ...]:
    """Return the modules of each product of a plan.

    Parameters
    ----------
    cuts
        The plan.
    product
        The product, where there is one only.

    Returns
    -------
    tuple of ModuleCount
        One for each product.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> none = CutPlan(stock=(), modules=0, lower_bound=0, proven=True, cuts=0)
    >>> [one.product for one in counts_of(none, "tile")]
    ['tile']
    """
    return cuts.counts or (
        ModuleCount(
            product=product,
            modules=cuts.modules,
            lower_bound=cuts.lower_bound,
            proven=cuts.proven,
        ),
    )
