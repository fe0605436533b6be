"""Weigh the short list: make the pieces of each layout, count them, price them."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from gaugerod.core.base.messages import Length, Message, Money
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import RateTable
from gaugerod.core.options.option import Option, Options, Pick
from gaugerod.core.pricing.job import price_job
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.count import take_off


def weigh(short: ShortList, walls: Walls, system: System, rates: RateTable) -> Options:
    """Weigh every layout of a short list and name the picks.

    Parameters
    ----------
    short
        The short list; at least one layout.
    walls
        The surveyed alcove. [mm]
    system
        The material.
    rates
        The shop's rates.

    Returns
    -------
    Options
        Layouts that no other beats in price, cuts, modules and looks together. Three are
        picked: *looks first*, *saw least*, *buy least*; one layout may hold several.

    Notes
    -----
    Each is weighed by its own pieces, cuts, order and price, not by estimates. Source:
    Pareto dominance; picks are own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job, system, rates = sample_job(), sample_system(), sample_rates()
    >>> walls = fit_walls(job)
    >>> found = weigh(set_out(walls, job.choices, system, rates.looks), walls, system, rates)
    >>> found.options[0].id
    'A'
    """
    weighed = [_weigh(layout, walls, system, rates) for layout in short.layouts]
    kept = [option for option in weighed if not _beaten(option, weighed)]
    distinct = {_figures(option): option for option in reversed(kept)}
    ranked = sorted(distinct.values(), key=_by_looks)
    named = _name_picks([replace(o, id=chr(ord("A") + i)) for i, o in enumerate(ranked)])
    return Options(options=named, tried=short.tried, refused=short.refused)


def choose(options: Options, pick: Pick) -> Option:
    """Return the option that a job's choices pick.

    Parameters
    ----------
    options
        The weighed options.
    pick
        Which of the named picks.

    Returns
    -------
    Option
        The option of that name.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.search import set_out
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job, system, rates = sample_job(), sample_system(), sample_rates()
    >>> walls = fit_walls(job)
    >>> short = set_out(walls, job.choices, system, rates.looks)
    >>> "looks first" in choose(weigh(short, walls, system, rates), "looks first").picks
    True
    """
    return next(option for option in options.options if pick in option.picks)


def _weigh(layout: Layout, walls: Walls, system: System, rates: RateTable) -> Option:
    pieces = make_pieces(layout, walls, system)
    cuts = plan_cuts(pieces, system)
    order = take_off(pieces, cuts, layout, walls, system)
    price = price_job(order, cuts, rates, system)
    return Option(
        id="",
        layout=layout,
        pieces=len(pieces),
        cuts=cuts.cuts,
        modules=cuts.modules,
        price=price.price,
        looks=layout.looks,
        smallest=min(min(piece.size) for piece in pieces),
        picks=(),
        reason=Message("options.reason"),
    )


Figures = tuple[int, int, int, int]


def _figures(option: Option) -> Figures:
    return (option.price, option.cuts, option.modules, option.looks)


def _beaten(option: Option, others: Sequence[Option]) -> bool:
    mine = _figures(option)
    return any(
        all(theirs <= own for theirs, own in zip(_figures(other), mine, strict=True))
        and _figures(other) != mine
        for other in others
    )


def _by_looks(option: Option) -> Figures:
    return (option.looks, option.price, option.cuts, option.modules)


def _by_cuts(option: Option) -> Figures:
    return (option.cuts, option.price, option.looks, option.modules)


def _by_modules(option: Option) -> Figures:
    return (option.modules, option.price, option.looks, option.cuts)


_PICKS: dict[Pick, Callable[[Option], Figures]] = {
    "looks first": _by_looks,
    "saw least": _by_cuts,
    "buy least": _by_modules,
}


def _name_picks(options: Sequence[Option]) -> tuple[Option, ...]:
    best = {pick: min(options, key=key).id for pick, key in _PICKS.items()}
    cheapest = min(option.price for option in options)
    named = []
    for option in options:
        picks = tuple(pick for pick, winner in best.items() if winner == option.id)
        reason = Message(
            "options.reason",
            smallest=Length(option.smallest),
            cuts=option.cuts,
            modules=option.modules,
            looks=Money(option.looks),
            over=Money(option.price - cheapest),
        )
        named.append(replace(option, picks=picks, reason=reason))
    return tuple(named)
