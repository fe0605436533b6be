"""What is there and what is planned again, product by product."""

from collections.abc import Mapping
from dataclasses import replace

from gaugerod.core.cutting.pieces import CutPlan, ModuleCount, Piece
from gaugerod.core.cutting.products import counts_of
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.site import Site
from gaugerod.core.replan.stock import Made, number_of, restocked


def modules_there(plan: Plan, site: Site) -> dict[str, int]:
    """Return how many modules of each product there are, those that are cut up with them.

    Parameters
    ----------
    plan
        The plan before the first day.
    site
        Where the work stands: what broke.

    Returns
    -------
    dict of int
        By the id of each product.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> made = sample_plan()
    >>> modules_there(made, Site(job=made.job, walls=made.walls, broken=1))
    {'sample': 31}
    """
    broken = {plan.system.id: site.broken} | site.broken_of
    return {
        one.product: max(
            one.boxes * plan.products.of(one.product).per_box - broken.get(one.product, 0), 0
        )
        for one in plan.order.products
    }


def modules_short(plan: Plan, there: Mapping[str, int]) -> int:
    """Return how many modules more are needed than there are.

    Parameters
    ----------
    plan
        The plan.
    there
        How many modules of each product there are.

    Returns
    -------
    int
        Of all products together; what one has over is no help to another.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> made = sample_plan()
    >>> modules_short(made, {"sample": made.cuts.modules - 2})
    2
    """
    counts = counts_of(plan.cuts, plan.system.id)
    return sum(max(one.modules - there.get(one.product, 0), 0) for one in counts)


def restocked_by_product(
    plan: Plan,
    old: Mapping[str, Piece],
    new: Mapping[str, Piece],
    *,
    made: Made,
    there: Mapping[str, int],
) -> CutPlan:
    """Plan again what the pieces that don't hang yet are cut from, product by product.

    Parameters
    ----------
    plan
        The plan so far. [mm]
    old, new
        The pieces before and after, by tag. [mm]
    made
        What hangs and what is cut.
    there
        How many modules of each product there are.

    Returns
    -------
    CutPlan
        As `restocked` plans each product by itself; modules that are begun anew have numbers
        after all others. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> so_far = sample_plan()
    >>> pieces = {piece.tag: piece for piece in so_far.pieces}
    >>> none, there = Made(on_wall=set(), cut=set()), {"sample": 40}
    >>> restocked_by_product(so_far, pieces, pieces, made=none, there=there) == so_far.cuts
    True
    """
    cuts, main, offcuts = plan.cuts, plan.system, plan.job.offcut
    if not cuts.counts:
        in_all = there.get(main.id, 0)
        return restocked(cuts, old, new, main, made=made, there=in_all, offcuts=offcuts)
    last = max(map(number_of, cuts.stock), default=0)
    parts: dict[str, CutPlan] = {}
    for count in cuts.counts:
        own = count.product
        part = CutPlan(
            stock=tuple(stock for stock in cuts.stock if stock.product == own),
            modules=count.modules,
            lower_bound=count.lower_bound,
            proven=count.proven,
            cuts=0,
        )
        parts[own] = restocked(
            part,
            {tag: piece for tag, piece in old.items() if piece.product == own},
            {tag: piece for tag, piece in new.items() if piece.product == own},
            plan.products.of(own),
            made=made,
            there=there.get(own, 0),
            offcuts=[one for one in offcuts if (one.material or main.id) == own],
            last=last,
        )
        last = max([last, *map(number_of, parts[own].stock)])
    if all(part.stock == _own(cuts, product) for product, part in parts.items()):
        return cuts
    return _together(cuts, parts)


def _own(cuts: CutPlan, product: str) -> tuple[object, ...]:
    return tuple(stock for stock in cuts.stock if stock.product == product)


def _together(cuts: CutPlan, parts: Mapping[str, CutPlan]) -> CutPlan:
    counts = tuple(
        ModuleCount(
            product=product,
            modules=part.modules,
            lower_bound=part.lower_bound,
            proven=part.proven,
        )
        for product, part in parts.items()
    )
    return replace(
        cuts,
        stock=tuple(stock for part in parts.values() for stock in part.stock),
        modules=sum(one.modules for one in counts),
        lower_bound=sum(one.lower_bound for one in counts),
        proven=all(one.proven for one in counts),
        cuts=sum(part.cuts for part in parts.values()),
        counts=counts,
    )
