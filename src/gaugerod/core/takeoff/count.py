"""The take-off: from pieces to packages, each line with its arithmetic."""

from collections.abc import Iterator

from gaugerod.core.base.messages import Length, Message
from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.job.materials import Adhesive, Grout, Mortar, System, Trim, Use
from gaugerod.core.setout.layout import Layout
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.beads import MM3_PER_LITRE, bead_yield, fillet_section, round_section
from gaugerod.core.takeoff.beds import mean_bed
from gaugerod.core.takeoff.order import Order, OrderLine, Quantities, TrimRun
from gaugerod.core.takeoff.packages import share_of, whole_packages
from gaugerod.core.takeoff.quantities import count_quantities
from gaugerod.core.takeoff.reuse import boxes_for
from gaugerod.core.takeoff.runs import EdgeRuns, corner_runs, edge_runs
from gaugerod.core.takeoff.seams import seam_runs
from gaugerod.core.takeoff.trims import TrimPlan, plan_trim

MM2_PER_M2 = 1e6
MM3_PER_MILLILITRE = 1e3


def take_off(
    pieces: tuple[Piece, ...],
    cuts: CutPlan,
    layout: Layout,
    walls: Walls,
    system: System,
    *,
    insides: tuple[Inside, ...] = (),
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

    Returns
    -------
    Order
        Whole packages, with the sum behind each; what is not needed has no line.

    Notes
    -----
    Modules are those that the cut plan uses, and on top the share for breakage, rounded up,
    and the spares. Formulas: ``docs/theory/takeoff.md``. Source: common practice for what is
    counted; own derivation for how.

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
    trim_lines = (_trim(trim, plan, system) for trim, plan in zip(system.trim, trims, strict=True))
    modules = _modules(cuts, system)
    return Order(
        quantities=quantities,
        modules=cuts.modules,
        spares=share_of(cuts.modules, system.breakage) + system.spares,
        boxes=modules.count,
        lines=tuple(
            line for line in (modules, *trim_lines, *_wet_lines(quantities, system)) if line.count
        ),
        trims=tuple(length for plan in trims for length in plan.lengths),
        trim_counts=tuple(plan.count for plan in trims if plan.count.lengths),
    )


def _modules(cuts: CutPlan, system: System) -> OrderLine:
    breakage = share_of(cuts.modules, system.breakage)
    total = cuts.modules + breakage + system.spares
    count = boxes_for(cuts.modules, system)
    return OrderLine(
        id="modules",
        name=system.name,
        pack="box",
        count=count,
        unit_price=system.price,
        arithmetic=Message(
            "takeoff.modules",
            modules=cuts.modules,
            breakage=breakage,
            spares=system.spares,
            total=total,
            per_box=system.per_box,
            count=count,
        ),
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


def _trim(trim: Trim, plan: TrimPlan, system: System) -> OrderLine:
    cuts = [cut for length in plan.lengths for cut in length.runs]
    return OrderLine(
        id=f"trim-{trim.id}",
        name=trim.name,
        pack="length",
        count=plan.count.lengths,
        unit_price=trim.price,
        arithmetic=Message(
            "takeoff.trim",
            runs=len(cuts),
            total=Length(sum(cut.length for cut in cuts)),
            kerf=Length(system.cutting.kerf),
            stock=Length(trim.stock),
            count=plan.count.lengths,
        ),
    )


def _wet_lines(quantities: Quantities, system: System) -> Iterator[OrderLine]:
    if system.adhesive:
        yield _adhesive(quantities, system.adhesive)
    yield _sealant(quantities, system)
    if system.mortar:
        yield _mortar(quantities, system.mortar)
    if system.grout:
        yield _grout(quantities, system.grout)


def _adhesive(quantities: Quantities, glue: Adhesive) -> OrderLine:
    per = bead_yield(
        volume=glue.cartridge * MM3_PER_LITRE,
        section=round_section(glue.bead),
        usable=glue.usable,
    )
    count = whole_packages(quantities.bead_length, per=per)
    pieces = quantities.pieces + quantities.inside_pieces
    return OrderLine(
        id="adhesive",
        name=glue.name,
        pack="cartridge",
        count=count,
        unit_price=glue.price,
        arithmetic=Message(
            "takeoff.adhesive",
            pieces=pieces,
            each=Length(quantities.bead_length / max(pieces, 1)),
            total=Length(quantities.bead_length),
            bead=Length(glue.bead),
            per=Length(per),
            exact=quantities.bead_length / per,
            count=count,
        ),
    )


def _sealant(quantities: Quantities, system: System) -> OrderLine:
    seal, keys = system.sealant, None
    volume = quantities.key_length * round_section(seal.key_bead)
    if quantities.key_length:
        length, bead = Length(quantities.key_length), Length(seal.key_bead)
        keys = Message("takeoff.keys", length=length, bead=bead)
    if quantities.seam_length:
        volume = _in_seams(quantities, system)
        length, millilitres = Length(quantities.seam_length), volume / MM3_PER_MILLILITRE
        keys = Message("takeoff.seams", length=length, millilitres=millilitres)
    fillets = quantities.seal_length + quantities.inside_seal
    volume += fillets * fillet_section(seal.fillet)
    per = seal.cartridge * MM3_PER_LITRE * seal.usable
    count = whole_packages(volume, per=per)
    return OrderLine(
        id="sealant",
        name=seal.name,
        pack="cartridge",
        count=count,
        unit_price=seal.price,
        arithmetic=Message(
            "takeoff.sealant",
            fillets=Length(fillets),
            leg=Length(seal.fillet),
            keys=keys or "",
            millilitres=volume / MM3_PER_MILLILITRE,
            per=per / MM3_PER_MILLILITRE,
            exact=volume / per,
            count=count,
        ),
    )


def _in_seams(quantities: Quantities, system: System) -> float:
    """Return the sealant in the seams of sheets. [mm3].

    A bonded seam is filled to its depth; in a trim a bead lies along the edge of each sheet.
    """
    bead = quantities.seam_length * round_section(system.sealant.key_bead)
    if any(trim.use == "seam" for trim in system.trim):
        return 2 * bead
    return bead + quantities.joint_volume


def _mortar(quantities: Quantities, mortar: Mortar) -> OrderLine:
    bed = mean_bed(depth=mortar.notch_depth, width=mortar.notch_width, gap=mortar.notch_gap)
    area = quantities.area + quantities.inside_area
    litres = area * bed * (1 + mortar.back_butter) / MM3_PER_LITRE
    count = whole_packages(litres, per=mortar.bag_yield)
    return OrderLine(
        id="mortar",
        name=mortar.name,
        pack="bag",
        count=count,
        unit_price=mortar.price,
        arithmetic=Message(
            "takeoff.mortar",
            area=area / MM2_PER_M2,
            bed=bed,
            butter=100 * mortar.back_butter,
            litres=litres,
            per=mortar.bag_yield,
            exact=litres / mortar.bag_yield,
            count=count,
        ),
    )


def _grout(quantities: Quantities, grout: Grout) -> OrderLine:
    millilitres = quantities.joint_volume / MM3_PER_MILLILITRE
    kilograms = millilitres / 1e3 * grout.density * (1 + grout.waste)
    count = whole_packages(kilograms, per=grout.bag)
    return OrderLine(
        id="grout",
        name=grout.name,
        pack="bag",
        count=count,
        unit_price=grout.price,
        arithmetic=Message(
            "takeoff.grout",
            millilitres=millilitres,
            density=grout.density,
            waste=100 * grout.waste,
            kilograms=kilograms,
            bag=grout.bag,
            exact=kilograms / grout.bag,
            count=count,
        ),
    )
