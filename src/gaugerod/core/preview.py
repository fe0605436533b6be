"""A layout that somebody holds with a finger: all that follows from it, legal or not, at once."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Message
from gaugerod.core.cutting.products import nowhere
from gaugerod.core.cutting.shared_pieces import SharedPieces
from gaugerod.core.job.document import Choices, Job
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.own_prices import priced_products
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.options.ask import EVERY_LIMIT
from gaugerod.core.pipeline import Brief, Followed, follow
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.setout.again import score_again
from gaugerod.core.setout.field import low_point
from gaugerod.core.setout.finish import finish_line
from gaugerod.core.setout.layout import Layout
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.variants import finishes
from gaugerod.core.survey.fit import fit_walls


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """What no movement of the finger changes, and the pieces that were made last."""

    brief: Brief
    pieces: SharedPieces


@dataclass(frozen=True, slots=True, kw_only=True)
class Glance:
    """A held layout alone, and which of its limits it breaks, and where."""

    choices: Choices
    layout: Layout
    broken: tuple[Message, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Preview:
    """A held layout and all that follows from it.

    `broken` says which limits it breaks, and where; a plan of these choices would be refused.
    """

    choices: Choices
    layout: Layout
    followed: Followed
    broken: tuple[Message, ...]


def ground_of(job: Job, materials: Materials, rules: Rules, rates: RateTable) -> Ground:
    """Return what every layout of a job stands on.

    Parameters
    ----------
    job
        What was measured and chosen.
    materials
        The systems at hand.
    rules
        Rules to hold layouts against.
    rates
        The shop's hours and prices.

    Returns
    -------
    Ground
        Fitted walls, products, rules, and rates for this job.

    Raises
    ------
    GaugerodError
        The readings give no walls.

    Notes
    -----
    Source: as `plan`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> ground = ground_of(sample_job(), materials, rules, sample_rates())
    >>> len(ground.brief.walls.walls)
    3
    """
    brief = Brief(
        job=job,
        walls=fit_walls(job),
        products=priced_products(job, materials),
        rules=rules,
        rates=rates_for(rates, job),
    )
    return Ground(brief=brief, pieces=SharedPieces())


def settled(ground: Ground, layout: Layout) -> Choices:
    """Return the choices of a job with all that one layout settles.

    Parameters
    ----------
    ground
        What it stands on.
    layout
        One of the job's layouts, its courses level. [mm]

    Returns
    -------
    Choices
        Its turn, bond, step and finish, the height of its first course and its phases. [mm]

    Notes
    -----
    Courses that run on through the corners do so only where that was asked for. Source: own
    design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> ground = ground_of(sample_job(), materials, rules, sample_rates())
    >>> settled(ground, sample_layout()[1]).bond
    'stack'
    """
    brief = ground.brief
    choices, system, walls = brief.job.choices, brief.products.main, brief.walls
    tops = {
        finish: finish_line(
            walls,
            choices,
            system,
            finish=finish,
            first_course=layout.first_course,
            pitch=layout.pitch[1],
        )
        for finish in finishes(choices)
    }
    low = low_point(walls)[1] + system.gaps.deck
    run_on = choices.corners == "run on"
    fixed: dict[str, object] = {
        "turn": layout.turn,
        "bond": layout.bond if choices.bond == "any" else choices.bond,
        "step": "left" if layout.walls[0].row_shift < 0 else "right",
        "finish": next(name for name, top in tops.items() if abs(top - layout.top) < SNAP),
        "corners": "run on" if run_on else "afresh",
    }
    phases = {wall.name: wall.phase for wall in layout.walls}
    return held(choices.model_copy(update=fixed), layout.first_course - low, phases)


DIGITS = 6
"""Digits of a millimetre that a job holds a place to."""


def held(choices: Choices, first_height: float, phases: Mapping[str, float]) -> Choices:
    """Return choices with one place held.

    Parameters
    ----------
    choices
        The choices.
    first_height
        Height of the first course at the low point of the deck, > 0. [mm]
    phases
        For each wall the left edge of some module, from the left corner. [mm]

    Returns
    -------
    Choices
        The choices, to as many digits as a job holds. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> held(sample_job().choices, 100.00000001, {"B": 7.0}).first_height
    100.0
    """
    return choices.model_copy(
        update={
            "first_height": round(first_height, DIGITS),
            "phase": {name: round(phase, DIGITS) for name, phase in phases.items()},
            "centre": {},
        }
    )


def glance(ground: Ground, choices: Choices) -> Glance:
    """Make the one layout that choices hold, whatever limits it breaks, and follow up nothing.

    Parameters
    ----------
    ground
        What it stands on.
    choices
        Choices that leave one layout, as `settled` and `held` make them. [mm]

    Returns
    -------
    Glance
        The layout, and the limits that it breaks. What no product can be cut for is found by
        `preview` only.

    Raises
    ------
    GaugerodError
        Nothing can be laid so at all.

    Notes
    -----
    The layout is the search's own, and the first step of `preview`. It changes nothing of the
    ground, so that several may be made at once. Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> ground = ground_of(sample_job(), materials, rules, sample_rates())
    >>> choices = settled(ground, sample_layout()[1])
    >>> glance(ground, choices).broken
    ()
    >>> low = held(choices, 20.0, {"L": 0.0, "B": 30.0, "R": 0.0})
    >>> len(glance(ground, low).broken)
    3
    """
    layout, limits = _laid(ground.brief, choices)
    return Glance(choices=choices, layout=layout, broken=limits)


def preview(ground: Ground, choices: Choices, *, proven: bool = False) -> Preview:
    """Follow up the one layout that choices hold, whatever limits it breaks.

    Parameters
    ----------
    ground
        What it stands on.
    choices
        Choices that leave one layout, as `settled` and `held` make them. [mm]
    proven
        Whether to look for the fewest modules; else they are planned at once, and no plan of
        these choices takes more.

    Returns
    -------
    Preview
        The layout, all that follows, and what a plan of it would be refused for.

    Raises
    ------
    GaugerodError
        Nothing can be laid or cut so at all.

    Notes
    -----
    The layout is the search's own, and what follows is what `plan` makes of it. Source: own
    design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> materials = Materials(systems={"sample": sample_system()})
    >>> rules = Rules(format=1, unit="mm", rule=())
    >>> ground = ground_of(sample_job(), materials, rules, sample_rates())
    >>> choices = settled(ground, sample_layout()[1])
    >>> preview(ground, choices).broken
    ()
    >>> phases = {"L": 0.0, "B": 30.0, "R": 0.0}
    >>> [one.key for one in preview(ground, held(choices, 20.0, phases)).broken]
    ['options.breaks', 'options.breaks', 'options.breaks']
    """
    brief = ground.brief
    seen = glance(ground, choices)
    job = brief.job.model_copy(update={"choices": choices})
    made = follow(seen.layout, replace(brief, job=job), proven=proven, make=ground.pieces.make)
    missing = nowhere(made.cut_up.pieces, brief.products)
    broken = (*seen.broken, *missing)
    return Preview(choices=choices, layout=seen.layout, followed=made, broken=broken)


def _laid(brief: Brief, choices: Choices) -> tuple[Layout, tuple[Message, ...]]:
    walls, system, looks = brief.walls, brief.products.main, brief.rates.looks
    try:
        return set_out(walls, choices, system, looks).layouts[0], ()
    except LayoutError:
        layout = set_out(walls, choices, system, looks, allowed=EVERY_LIMIT).layouts[0]
    signed = {override.limit for override in choices.override}
    return layout, tuple(
        Message("options.breaks", wall=wall, limit=Message(f"setout.limit-{limit}"))
        for wall, found in score_again(layout, walls, system, looks)
        for limit in found.refused
        if limit not in signed
    )
