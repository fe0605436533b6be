"""Modules bought against the bound, and against one module for each piece."""

from collections.abc import Iterator

from bench.timing import Row
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.setout.search import set_out
from gaugerod.core.survey.fit import fit_walls
from gaugerod.store.shelf import Library


def rows() -> Iterator[Row]:
    """Yield the modules of each demo job."""
    library = Library()
    systems, tables = library.materials().systems, library.rates()
    for source in library.demos():
        job = source.read(lambda _: None)
        system = systems[job.choices.material]
        walls = fit_walls(job)
        short = set_out(walls, job.choices, system, tables[job.rates].looks)
        pieces = make_pieces(short.layouts[0], walls, system)
        plan = plan_cuts(pieces, system)
        yield _row(source.name, plan.modules, plan.lower_bound, "lower bound")
        yield _row(source.name, plan.modules, len(pieces), "a module for each piece")


def _row(name: str, ours: int, theirs: int, against: str) -> Row:
    return Row(
        what=f"modules, {name}",
        ours=str(ours),
        theirs=str(theirs),
        ratio=theirs / ours,
        against=against,
    )
