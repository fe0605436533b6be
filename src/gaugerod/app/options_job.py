"""Use case: from a job file to its options, and why not another."""

from collections.abc import Mapping
from dataclasses import dataclass

from gaugerod.app.in_file import in_file
from gaugerod.app.plan_job import Ready
from gaugerod.app.writers import SheetWriters
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.products import with_products
from gaugerod.core.job.consistent import consistent
from gaugerod.core.job.document import Choices
from gaugerod.core.job.own_prices import priced_products
from gaugerod.core.job.products import products_of
from gaugerod.core.options.ask import Answer, ask
from gaugerod.core.options.option import Option, Options
from gaugerod.core.options.weigh import choose, weigh
from gaugerod.core.pricing.conditions import rates_for
from gaugerod.core.setout.relax import laid_out
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.small import draw_small
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.walls import Walls
from gaugerod.packet.options import options_paper

_PAPER = "options"


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """The options of a job, the one that its choices pick, and what was asked about."""

    ready: Ready
    walls: Walls
    options: Options
    chosen: Option
    answer: Answer | None


def weigh_job(ready: Ready, asked: Choices | None) -> Weighed:
    """Set out a job in every way that its choices leave open, and answer for one more.

    Parameters
    ----------
    ready
        The job, with what it needs.
    asked
        Choices of a layout that somebody asks about.

    Raises
    ------
    GaugerodError
        The readings give no walls, no layout keeps the limits (the message names the job), or
        what is asked about does not go together.
    """
    job = ready.job
    rates = rates_for(ready.rates, job)
    products = priced_products(job, ready.materials)
    system = products.main
    if asked is not None:
        consistent(job.model_copy(update={"choices": asked}), ready.materials)
    with in_file(ready.name):
        walls = fit_walls(job)
        short = laid_out(walls, job.choices, system, rates.looks)
        options = weigh(
            short,
            walls,
            system,
            rates,
            on_hand=job.on_hand,
            extra=job.extra,
            offcuts=job.offcut,
            accented=products.accented,
        )
        answer = None
        if asked is not None:
            answer = ask(
                walls,
                asked,
                system,
                rates,
                on_hand=job.on_hand,
                extra=job.extra,
                offcuts=job.offcut,
                accented=products.accented,
            )
    return Weighed(
        ready=ready,
        walls=walls,
        options=options,
        chosen=choose(options, job.choices.pick),
        answer=answer,
    )


def asked_of(ready: Ready, wanted: Mapping[str, object]) -> Choices:
    """Return the choices of a job with some of them put otherwise.

    Raises
    ------
    ValueError
        A choice has no such name, or cannot be so.
    """
    job = ready.job
    read = Choices.model_validate(
        {"material": job.choices.material, **wanted}, context={"unit": job.unit}
    )
    return job.choices.model_copy(update={name: getattr(read, name) for name in wanted})


def options_papers(made: Weighed, words: Catalogue, writers: SheetWriters) -> dict[str, bytes]:
    """Return every file of the options by its name."""
    drawings = option_drawings(made, words)
    files = {f"{one.name}.svg": writers.drawing(one).encode() for one in drawings.values()}
    whole = options_paper(made.ready.job, made.options, drawings, words)
    return {**files, f"{_PAPER}.pdf": writers.paper(whole)}


def option_drawings(made: Weighed, words: Catalogue) -> dict[str, Drawing]:
    """Return a small drawing of each option, by its letter."""
    products = products_of(made.ready.job.choices, made.ready.materials)
    return {
        option.id: draw_small(
            f"option-{option.id}",
            made.walls,
            with_products(make_pieces(option.layout, made.walls, products.main), products),
            words,
            main=products.main.id,
        )
        for option in made.options.options
    }
