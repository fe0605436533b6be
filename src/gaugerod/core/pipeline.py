"""The program as one readable sentence: from a job to its plan."""

from dataclasses import dataclass

from gaugerod.core.checks.check import check
from gaugerod.core.checks.finding import Finding
from gaugerod.core.cutting.cut_up import CutUp, MakePieces, cut_up
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.pieces import CutPlan, Inside, Piece
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import Materials, System
from gaugerod.core.job.own_prices import priced_products
from gaugerod.core.job.products import Products
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.week import week_of
from gaugerod.core.options.option import Option, Options
from gaugerod.core.options.weigh import choose, weigh
from gaugerod.core.pricing.agreement import Agreement, agree
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.pricing.job import price_job
from gaugerod.core.pricing.price import Price, Spread
from gaugerod.core.pricing.spread import spread_of
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.relax import laid_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.count import take_off
from gaugerod.core.takeoff.order import Order
from gaugerod.core.takeoff.reuse import Reuse, reuse_by_product
from gaugerod.core.works.days import Days
from gaugerod.core.works.plan import plan_days


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """Everything decided for one alcove, from reading to hand-over.

    `done` are the tags of the pieces that hang already.
    """

    job: Job
    system: System
    products: Products
    walls: Walls
    options: Options
    chosen: Option
    layout: Layout
    pieces: tuple[Piece, ...]
    insides: tuple[Inside, ...]
    cuts: CutPlan
    reuse: tuple[Reuse, ...]
    order: Order
    rates: RateTable
    price: Price
    spread: Spread
    agreement: Agreement
    days: Days
    findings: tuple[Finding, ...]
    done: frozenset[str] = frozenset()


def plan(
    job: Job,
    materials: Materials,
    rules: Rules,
    rates: RateTable,
    *,
    seed: int = 0,
    proven: bool = True,
) -> Plan:
    """Plan one alcove, from its readings to its days and checks.

    Parameters
    ----------
    job
        What was measured and chosen.
    materials
        The systems at hand; the job names one of them.
    rules
        Rules to hold the plan against.
    rates
        The shop's hours and prices.
    seed
        Seed for stages that draw lots.
    proven
        Whether to look for the fewest modules, and prove them; else they are planned at once.

    Returns
    -------
    Plan
        Everything decided.

    Raises
    ------
    GaugerodError
        A stage cannot go on; the message says where, what was read and what would do.

    Notes
    -----
    Each stage takes results of earlier ones and nothing else. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> made = plan(sample_job(), materials, rules, sample_rates())
    >>> len(made.pieces), made.layout.walls[1].centring
    (35, 'module')
    """
    products, rates = priced_products(job, materials), rates_for(rates, job)
    walls = fit_walls(job)
    options, chosen = _weighed(job, walls, products, rates, seed=seed, proven=proven)
    brief = Brief(job=job, walls=walls, products=products, rules=rules, rates=rates)
    return plan_of(options, chosen, brief, seed=seed, proven=proven)


@dataclass(frozen=True, slots=True, kw_only=True)
class Brief:
    """What every layout of a job is followed up with; `rates` are those for the job."""

    job: Job
    walls: Walls
    products: Products
    rules: Rules
    rates: RateTable


@dataclass(frozen=True, slots=True, kw_only=True)
class Followed:
    """All that follows from a layout: pieces and their cuts, order, price, days and checks."""

    cut_up: CutUp
    order: Order
    price: Price
    days: Days
    findings: tuple[Finding, ...]


def plan_of(
    options: Options, chosen: Option, brief: Brief, *, seed: int = 0, proven: bool = True
) -> Plan:
    """Return the plan of a job whose layouts were weighed already.

    Parameters
    ----------
    options
        The layouts, weighed.
    chosen
        That which is planned.
    brief
        The job and what goes with it.
    seed
        Seed for stages that draw lots.
    proven
        Whether to look for the fewest modules, and prove them; else they are planned at once.

    Returns
    -------
    Plan
        Everything decided.

    Raises
    ------
    GaugerodError
        A stage cannot go on.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> made = plan(sample_job(), materials, rules, sample_rates())
    >>> brief = Brief(job=made.job, walls=made.walls, products=made.products, rules=rules,
    ...     rates=made.rates)
    >>> plan_of(made.options, made.chosen, brief) == made
    True
    """
    job, products, rates = brief.job, brief.products, brief.rates
    made = follow(chosen.layout, brief, proven=proven)
    cuts, price = made.cut_up.cuts, made.price
    return Plan(
        job=job,
        system=products.main,
        products=products,
        walls=brief.walls,
        options=options,
        chosen=chosen,
        layout=chosen.layout,
        pieces=made.cut_up.pieces,
        insides=made.cut_up.insides,
        cuts=cuts,
        reuse=reuse_by_product(made.cut_up.every, cuts, products, proven=proven),
        order=made.order,
        rates=rates,
        price=price,
        spread=spread_of(price, rates, seed=seed),
        agreement=agree(price, job, rates, brief.rules.place),
        days=made.days,
        findings=made.findings,
    )


def follow(
    layout: Layout, brief: Brief, *, proven: bool = True, make: MakePieces = make_pieces
) -> Followed:
    """Follow a layout up, from its pieces to its checks.

    Parameters
    ----------
    layout
        The layout. [mm]
    brief
        The job and what goes with it.
    proven
        Whether to look for the fewest modules, and prove them; else they are planned at once.
    make
        What makes its pieces.

    Returns
    -------
    Followed
        What follows.

    Raises
    ------
    GaugerodError
        A stage cannot go on.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> (walls, layout, system), rates = sample_layout(), sample_rates()
    >>> brief = Brief(job=sample_job(), walls=walls, products=Products(main=system),
    ...     rules=Rules(format=1, unit="mm", rule=()), rates=rates)
    >>> len(follow(layout, brief).cut_up.pieces)
    35
    """
    job, walls, products = brief.job, brief.walls, brief.products
    made = cut_up(layout, walls, products, at_hand=job.offcut, proven=proven, make=make)
    order = _counted(job, walls, layout, products, made)
    price = price_job(order, made.cuts, brief.rates, products.main)
    days = _days(order, price, products, job, brief.rates)
    findings = check(
        job=job,
        walls=walls,
        layout=layout,
        pieces=made.pieces,
        insides=made.insides,
        cuts=made.cuts,
        order=order,
        days=days,
        system=products.main,
        others=products.systems[1:],
        rules=brief.rules,
    )
    return Followed(cut_up=made, order=order, price=price, days=days, findings=findings)


def _weighed(
    job: Job, walls: Walls, products: Products, rates: RateTable, *, seed: int, proven: bool
) -> tuple[Options, Option]:
    """Weigh the layouts and choose one."""
    options = weigh(
        laid_out(walls, job.choices, products.main, rates.looks),
        walls,
        products.main,
        rates,
        seed=seed,
        on_hand=job.on_hand,
        extra=job.extra,
        offcuts=job.offcut,
        accented=products.accented,
        proven=proven,
    )
    return options, choose(options, job.choices.pick)


def _days(order: Order, price: Price, products: Products, job: Job, rates: RateTable) -> Days:
    zone, region, week = job.timezone, job.site.region, week_of(job)
    return plan_days(
        order, price, products.slowest, week, rates=rates, timezone=zone, region=region
    )


def _counted(job: Job, walls: Walls, layout: Layout, products: Products, made: CutUp) -> Order:
    return take_off(
        made.pieces,
        made.cuts,
        layout,
        walls,
        products.main,
        insides=made.insides,
        on_hand=job.on_hand,
        extra=job.extra,
        accented=products.accented,
    )
