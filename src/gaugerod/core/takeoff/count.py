"""The take-off: from pieces to packages, each line with its arithmetic."""

from collections.abc import Iterator
from fractions import Fraction

from gaugerod.core.base.messages import Length, Message, Run
from gaugerod.core.cutting.pieces import CutPlan, Inside, ModuleCount, Piece
from gaugerod.core.cutting.products import counts_of
from gaugerod.core.job.document import OnHand
from gaugerod.core.job.materials import System, Trim, Use
from gaugerod.core.job.own_order import Extra
from gaugerod.core.job.products import MODULES, Accented, Products, modules_of
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.beads import at_once
from gaugerod.core.takeoff.dry import dry_needs
from gaugerod.core.takeoff.needs import Need, bought
from gaugerod.core.takeoff.order import Order, OrderLine, ProductOrder, Quantities, TrimRun
from gaugerod.core.takeoff.packages import share_of
from gaugerod.core.takeoff.quantities import count_quantities
from gaugerod.core.takeoff.reuse import spares_for
from gaugerod.core.takeoff.runs import EdgeRuns, corner_runs, edge_runs
from gaugerod.core.takeoff.seams import seam_runs
from gaugerod.core.takeoff.trims import TrimPlan, plan_trim
from gaugerod.core.takeoff.wet import wet_needs


def take_off(
    pieces: tuple[Piece, ...],
    cuts: CutPlan,
    layout: Layout,
    walls: Walls,
    system: System,
    *,
    insides: tuple[Inside, ...] = (),
    on_hand: tuple[OnHand, ...] = (),
    extra: tuple[Extra, ...] = (),
    accented: tuple[Accented, ...] = (),
) -> Order:
    """Count everything to buy for one alcove.

    Parameters
    ----------
    pieces
        All pieces of the layout. [mm]
    cuts
        What they are cut from.
    layout
        The set-out, with the field of every wall. [mm]
    walls
        The surveyed alcove. [mm]
    system
        The material: packages, beads, beds. [mm]
    insides
        Inside faces of niches and reveals. [mm]
    on_hand
        What is there already and is taken off.
    extra
        Lines that nothing is counted for.
    accented
        Other products that stand here and there: of these modules alone are bought.

    Returns
    -------
    Order
        Whole packages, with the sum behind each; what is not needed has no line.

    Notes
    -----
    Modules are those that the cut plan uses, and on top the share for breakage and the share
    for the attic, each rounded up, and the spares. Formulas: ``docs/theory/takeoff.md``.
    Source: common practice for what is counted; own derivation for how.

    Examples
    --------
    >>> from gaugerod.core.cutting.make import make_pieces
    >>> from gaugerod.core.cutting.plan import plan_cuts
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job, system = sample_job(), sample_system()
    >>> walls = fit_walls(job)
    >>> layout = set_out(walls, job.choices, system, sample_rates().looks).layouts[0]
    >>> pieces = make_pieces(layout, walls, system)
    >>> order = take_off(pieces, plan_cuts(pieces, system), layout, walls, system)
    >>> [line.id for line in order.lines]
    ['modules', 'trim-edge', 'trim-top', 'adhesive', 'sealant']
    """
    by_name = {wall.name: wall.field for wall in layout.walls}
    fields = tuple(by_name[wall.name] for wall in walls.walls)
    runs = tuple(
        edge_runs(field, wall, system) for field, wall in zip(fields, walls.walls, strict=True)
    )
    seams = seam_runs(pieces, layout) if system.kind == "sheet" else ()
    quantities = count_quantities(pieces, fields, runs, walls, system, seams=seams, insides=insides)
    trims = tuple(_trims(runs, seams, system))
    counts = counts_of(cuts, system.id)
    products = Products(main=system, accented=accented)
    needs = (
        *(_modules(count, products) for count in counts),
        *(_trim(trim, plan, system) for trim, plan in zip(system.trim, trims, strict=True)),
        *wet_needs(quantities, system),
        *dry_needs(quantities, system),
        *map(_extra, extra),
    )
    lines = bought(needs, on_hand)
    of_each = tuple(_of_product(count, lines, products) for count in counts)
    return Order(
        quantities=quantities,
        modules=cuts.modules,
        spares=sum(one.spares for one in of_each),
        boxes=sum(one.boxes for one in of_each),
        lines=lines,
        products=of_each,
        trims=tuple(length for plan in trims for length in plan.lengths),
        trim_counts=tuple(plan.count for plan in trims if plan.count.lengths),
        at_once=_at_once(quantities, system),
    )


def _line_of(product: str, products: Products) -> str:
    return MODULES if product == products.main.id else modules_of(product)


def _of_product(
    count: ModuleCount, lines: tuple[OrderLine, ...], products: Products
) -> ProductOrder:
    line = _line_of(count.product, products)
    return ProductOrder(
        product=count.product,
        modules=count.modules,
        spares=spares_for(count.modules, products.of(count.product)),
        boxes=sum(one.count for one in lines if one.id == line),
    )


def _modules(count: ModuleCount, products: Products) -> Need:
    system = products.of(count.product)
    breakage = share_of(count.modules, system.breakage)
    spares = spares_for(count.modules, system)
    total = count.modules + spares
    return Need(
        id=_line_of(system.id, products),
        name=system.name,
        pack="box",
        packages=Fraction(total, system.per_box),
        unit_price=system.price,
        sum=Message(
            "takeoff.modules",
            modules=count.modules,
            breakage=breakage,
            spares=spares - breakage,
            total=total,
            per_box=system.per_box,
        ),
        per_pack=system.per_box,
        one_lot=True,
    )


def _extra(extra: Extra) -> Need:
    return Need(
        id=extra.id,
        name=extra.name,
        pack=extra.pack,
        packages=Fraction(extra.count),
        unit_price=extra.price,
        sum=Message("takeoff.extra"),
        undivided=True,
    )


def _at_once(quantities: Quantities, system: System) -> int | None:
    glue = system.adhesive
    if glue is None or not quantities.buttered:
        return None
    return at_once(
        open_minutes=glue.open_minutes,
        bead_minutes=quantities.longest_bead / glue.bead_in_a_minute,
        hang_minutes=glue.hang_minutes,
    )


def _trims(
    runs: tuple[EdgeRuns, ...], seams: tuple[TrimRun, ...], system: System
) -> Iterator[TrimPlan]:
    by_use: dict[Use, tuple[TrimRun, ...]] = {
        "edge": tuple(edge for run in runs for edge in run.edges),
        "top": tuple(top for run in runs for top in run.tops),
        "inside corner": corner_runs(runs),
        "outside corner": corner_runs(runs, "outside"),
        "seam": seams,
    }
    for trim in system.trim:
        yield plan_trim(trim, by_use[trim.use], system)


def _trim(trim: Trim, plan: TrimPlan, system: System) -> Need:
    cuts = [cut for length in plan.lengths for cut in length.runs]
    return Need(
        id=f"trim-{trim.id}",
        name=trim.name,
        pack="length",
        packages=Fraction(plan.count.lengths),
        unit_price=trim.price,
        sum=Message(
            "takeoff.trim",
            runs=len(cuts),
            total=Run(sum(cut.length for cut in cuts)),
            kerf=Length(system.cutting.kerf),
            stock=Length(trim.stock),
        ),
        undivided=True,
    )
