"""Why not this one? A layout that somebody asks about, held against the one that was picked."""

from dataclasses import dataclass
from typing import get_args

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Choices, Limit, OffcutAtHand, OnHand
from gaugerod.core.job.materials import System
from gaugerod.core.job.own_order import Extra
from gaugerod.core.job.products import Accented
from gaugerod.core.job.rates import RateTable
from gaugerod.core.options.option import Option
from gaugerod.core.options.weigh import choose, weigh
from gaugerod.core.setout.again import score_again
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.walls import Walls

EVERY_LIMIT: frozenset[str] = frozenset(get_args(Limit))


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """The best layout of the kind asked for, and which walls break which limits.

    `broken` is empty where it is legal: then it was not picked for its figures.
    """

    option: Option
    broken: tuple[Message, ...]


def ask(
    walls: Walls,
    choices: Choices,
    system: System,
    rates: RateTable,
    *,
    on_hand: tuple[OnHand, ...] = (),
    extra: tuple[Extra, ...] = (),
    offcuts: tuple[OffcutAtHand, ...] = (),
    accented: tuple[Accented, ...] = (),
) -> Answer:
    """Weigh the best layout of a kind, legal or not.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What is asked for: turn, bond, height, phases, centring, finish.
    system
        The material. [mm]
    rates
        The shop's rates.
    on_hand
        What is there already and need not be bought.
    extra
        Lines of the order that nothing is counted for.
    offcuts
        Offcuts from elsewhere, cut up before a module is begun. [mm]
    accented
        Where other products stand. [mm]

    Returns
    -------
    Answer
        A legal layout where there is one, else the best of those that break a limit.

    Raises
    ------
    LayoutError
        Nothing can be laid so at all, or nothing has the courses of another product.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> asked = job.choices.model_copy(update={"first_height": 30.0})
    >>> answer = ask(fit_walls(job), asked, sample_system(), sample_rates())
    >>> [broken.key for broken in answer.broken]
    ['options.breaks', 'options.breaks', 'options.breaks']
    """
    try:
        short = set_out(walls, choices, system, rates.looks)
    except LayoutError:
        short = set_out(walls, choices, system, rates.looks, allowed=EVERY_LIMIT)
    weighed = weigh(
        short,
        walls,
        system,
        rates,
        on_hand=on_hand,
        extra=extra,
        offcuts=offcuts,
        accented=accented,
    )
    option = choose(weighed, choices.pick)
    broken = tuple(
        Message("options.breaks", wall=wall, limit=Message(f"setout.limit-{limit}"))
        for wall, found in score_again(option.layout, walls, system, rates.looks)
        for limit in found.refused
    )
    return Answer(option=option, broken=broken)
