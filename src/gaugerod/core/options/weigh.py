"""Weigh the short list: make the pieces of each layout, count them, price them."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import reduce
from math import floor

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.lettering import letters
from gaugerod.core.base.messages import Length, Message, Money
from gaugerod.core.cutting.cut_up import cut_up
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.products import nowhere
from gaugerod.core.job.document import OffcutAtHand, OnHand
from gaugerod.core.job.materials import System
from gaugerod.core.job.own_order import Extra
from gaugerod.core.job.products import Accented, Products
from gaugerod.core.job.rates import RateTable
from gaugerod.core.options.option import Option, Options, Pick
from gaugerod.core.pricing.job import price_job
from gaugerod.core.setout.layout import Layout, ShortList
from gaugerod.core.setout.odds import Odds, odds_of
from gaugerod.core.survey.walls import Walls
from gaugerod.core.takeoff.count import take_off


def weigh(
    short: ShortList,
    walls: Walls,
    system: System,
    rates: RateTable,
    *,
    seed: int = 0,
    on_hand: tuple[OnHand, ...] = (),
    extra: tuple[Extra, ...] = (),
    offcuts: tuple[OffcutAtHand, ...] = (),
    accented: tuple[Accented, ...] = (),
    proven: bool = True,
) -> Options:
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
    seed
        Seed of the odds, which are drawn by lot.
    on_hand
        What is there already and need not be bought.
    extra
        Lines of the order that nothing is counted for.
    offcuts
        Offcuts from elsewhere, cut up before a module is begun. [mm]
    accented
        Where other products stand. [mm]
    proven
        Whether to look for the fewest modules of each; else they are planned at once.

    Returns
    -------
    Options
        Layouts that no other beats in price, cuts, modules and looks together. Three are
        picked: *looks first*, *saw least*, *buy least*; one layout may hold several.

    Raises
    ------
    LayoutError
        No layout has the courses that another product is to stand in.

    Notes
    -----
    Each is weighed by its own pieces, cuts, order and price, not by estimates. Of layouts whose
    looks are alike to the dollar the one that more likely holds on the day ranks first. Source:
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
    products = Products(main=system, accented=accented)
    weighed = [
        _weigh(
            layout,
            walls,
            products,
            rates,
            seed=seed,
            on_hand=on_hand,
            extra=extra,
            offcuts=offcuts,
            proven=proven,
        )
        for layout in _with_courses(short.layouts, walls, products)
    ]
    kept = [option for option in weighed if not _beaten(option, weighed)]
    first: dict[Figures, _Weighed] = {}
    for option in sorted(kept, key=_by_looks):
        first.setdefault(_figures(option), option)
    named = tuple(_name_picks(tuple(first.values())))
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


def _with_courses(layouts: Sequence[Layout], walls: Walls, products: Products) -> Sequence[Layout]:
    """Leave out the layouts that have not every course that another product is to stand in."""
    if not any(one.where.courses for one in products.accented):
        return layouts
    missing = [
        next(nowhere(make_pieces(layout, walls, products.main), products), None)
        for layout in layouts
    ]
    kept = [layout for layout, message in zip(layouts, missing, strict=True) if message is None]
    if not kept:
        raise LayoutError(next(filter(None, missing)))
    return kept


@dataclass(frozen=True, slots=True, kw_only=True)
class _Weighed:
    """One layout with its figures, before it is compared with others. Money in [cents]."""

    layout: Layout
    pieces: int
    cuts: int
    modules: int
    price: int
    looks: int
    smallest: float
    odds: Odds


def _weigh(
    layout: Layout,
    walls: Walls,
    products: Products,
    rates: RateTable,
    *,
    seed: int,
    on_hand: tuple[OnHand, ...],
    extra: tuple[Extra, ...],
    offcuts: tuple[OffcutAtHand, ...],
    proven: bool,
) -> _Weighed:
    system = products.main
    made = cut_up(layout, walls, products, at_hand=offcuts, proven=proven)
    pieces, cuts = made.pieces, made.cuts
    order = take_off(
        pieces,
        cuts,
        layout,
        walls,
        system,
        insides=made.insides,
        on_hand=on_hand,
        extra=extra,
        accented=products.accented,
    )
    price = price_job(order, cuts, rates, system)
    return _Weighed(
        layout=layout,
        pieces=len(pieces),
        cuts=cuts.cuts,
        modules=cuts.modules,
        price=price.price,
        looks=layout.looks,
        smallest=min(min(piece.size) for piece in pieces),
        odds=odds_of(walls, layout, system, seed=seed),
    )


Figures = tuple[int, ...]


def _figures(option: _Weighed) -> Figures:
    return (option.price, option.cuts, option.modules, option.looks)


def _beaten(option: _Weighed, others: Sequence[_Weighed]) -> bool:
    mine = _figures(option)
    return any(
        all(theirs <= own for theirs, own in zip(_figures(other), mine, strict=True))
        and _figures(other) != mine
        for other in others
    )


def _by_looks(option: _Weighed) -> Figures:
    # Alike to the dollar, take what holds more likely; of those the larger smallest piece.
    return (
        option.looks // 100,
        -_in_hundred(option),
        -round(option.smallest),
        option.price,
        option.cuts,
    )


def _in_hundred(option: _Weighed) -> int:
    """Return in how many cases of a hundred all limits hold; all only where none fails."""
    return floor(100 * option.odds.chance)


def _by_cuts(option: _Weighed) -> Figures:
    return (option.cuts, option.price, option.looks, option.modules)


def _by_modules(option: _Weighed) -> Figures:
    return (option.modules, option.price, option.looks, option.cuts)


_PICKS: dict[Pick, Callable[[_Weighed], Figures]] = {
    "looks first": _by_looks,
    "saw least": _by_cuts,
    "buy least": _by_modules,
}


def _name_picks(ranked: Sequence[_Weighed]) -> Iterator[Option]:
    best = {pick: min(ranked, key=key) for pick, key in _PICKS.items()}
    cheapest, fewest_cuts, fewest, fairest = map(
        min, zip(*(_figures(option) for option in ranked), strict=True)
    )
    for place, option in enumerate(ranked):
        yield Option(
            id=letters(place).upper(),
            layout=option.layout,
            pieces=option.pieces,
            cuts=option.cuts,
            modules=option.modules,
            price=option.price,
            looks=option.looks,
            smallest=option.smallest,
            odds=option.odds,
            picks=tuple(pick for pick, winner in best.items() if winner is option),
            reason=Message(
                "options.reason",
                smallest=Length(option.smallest),
                cuts=option.cuts,
                modules=option.modules,
                looks=Money(option.looks),
                over=_over(option.price - cheapest),
                chance=_in_hundred(option),
            ),
            gives_up=_gives_up(
                over=option.price - cheapest,
                cuts=option.cuts - fewest_cuts,
                modules=option.modules - fewest,
                looks=option.looks - fairest,
            ),
        )


def _over(cents: int) -> Message:
    """Say how much dearer than the cheapest an option is. [cents]."""
    return Message("options.dearer", over=Money(cents)) if cents else Message("options.cheapest")


def _gives_up(*, over: int, cuts: int, modules: int, looks: int) -> Message:
    """Name what others do better, and by how much; what is as good as any goes without saying."""
    found = [
        message
        for amount, message in (
            (over, _over(over)),
            (cuts, Message("options.more-cuts", n=cuts)),
            (modules, Message("options.more-modules", n=modules)),
            (looks, Message("options.worse-looks", looks=Money(looks))),
        )
        if amount
    ]
    if not found:
        return Message("options.gives-nothing")
    return Message("options.gives-up", what=reduce(_both, found))


def _both(first: Message, second: Message) -> Message:
    return Message("options.and", first=first, second=second)
