"""The set-out: scoring in closed form against cutting every module, and how the search grows."""

from collections.abc import Iterator
from dataclasses import replace
from functools import partial
from statistics import median

import numpy as np
import shapely
from shapely.geometry import box

from bench.timing import Row, seconds, shown, versus
from gaugerod.core.base.geometry import shape_of
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.document import Job
from gaugerod.core.job.materials import System
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.field import set_field
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.score import scores_of
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.survey.fit import fit_walls
from gaugerod.store.shelf import Library

PHASES = 600
"""Lattices of one wall scored at once: as many as a search tries."""
SIDES = {60: 1, 600: 10, 6000: 100}
"""Modules on three walls of the sample alcove, by the share of a module's face."""


def rows() -> Iterator[Row]:
    """Yield scores against a plain loop, a full search, and its growth."""
    batch = _batch()
    yield versus(
        f"score {PHASES} layouts of a wall",
        partial(scores_of, batch),
        partial(_clip_all, batch),
        "a plain loop that clips every module",
        rounds=3,
    )
    yield from _demo()
    yield from _growth()


def _batch() -> Batch:
    """Return the back wall of the sample alcove with many lattices. [mm]."""
    job, system = sample_job(), sample_system()
    case = Case(
        wall=fit_walls(job).walls[1],
        met=("butts", "runs behind"),
        top=730.0,
        system=system,
        turn="lying",
        looks=sample_rates().looks,
    )
    lattice = Lattice(
        face=(600.0, 300.0),
        pitch=(600.0, 300.0),
        first_course=-470.0,
        phase=0.0,
        row_shift=300.0,
    )
    return batch_of(case, lattice, np.linspace(0.0, 600.0, PHASES, endpoint=False))


def _clip_all(batch: Batch) -> list[tuple[int, float]]:
    """Return the cut pieces and the least side of each lattice, one module at a time."""
    case = batch.case
    field = set_field(case.wall, case.met, case.system, top=case.top)
    net = shapely.union_all([shape_of(region) for region in field.regions])
    left, bottom, right, top = net.bounds
    found = []
    for phase in batch.phases.tolist():
        lattice = Lattice(
            face=batch.lattice.face,
            pitch=batch.lattice.pitch,
            first_course=batch.lattice.first_course,
            phase=phase,
            row_shift=batch.lattice.row_shift,
        )
        cuts, least = 0, np.inf
        for course in lattice.courses(bottom=bottom, top=top):
            for number in lattice.numbers(course, left=left, right=right):
                c = lattice.cell(course, number)
                piece = box(c.left, c.bottom, c.right, c.top).intersection(net)
                x0, y0, x1, y1 = piece.bounds
                cuts += piece.area < lattice.face[0] * lattice.face[1] - 1.0
                least = min(least, x1 - x0, y1 - y0)
        found.append((cuts, least))
    return found


def _demo() -> Iterator[Row]:
    """Yield the full search of the keyed demo alcove: both turns, three bonds, both steps."""
    library = Library()
    job = next(demo for demo in library.demos() if demo.name.startswith("alcove")).read(_accept)
    system, looks = library.materials().systems[job.choices.material], library.rates()["shop"].looks
    walls = fit_walls(job)
    every = job.choices.model_copy(update={"turn": "any", "bond": "any"})
    short = set_out(walls, every, system, looks)
    layout = short.layouts[0]
    yield versus(
        f"full search of the demo, {short.tried} positions",
        partial(set_out, walls, every, system, looks),
        lambda: [make_pieces(layout, walls, system) for _ in range(20)],
        "making the pieces of 20 layouts",
        rounds=3,
    )


def _accept(job: Job) -> None:
    """Find nothing wrong with a job."""


def _growth() -> Iterator[Row]:
    job, looks = sample_job(), sample_rates().looks
    walls = fit_walls(job)
    # Small keyed modules could not keep clear of the valve.
    walls = replace(walls, walls=tuple(replace(wall, holes=()) for wall in walls.walls))
    each: dict[int, float] = {}
    for modules, share in SIDES.items():
        system = _smaller(sample_system(), share**0.5)
        search = partial(set_out, walls, job.choices, system, looks)
        each[modules] = median(seconds(search) for _ in range(3))
    first = each[60]
    for modules in list(SIDES)[1:]:
        yield Row(
            what=f"search with about {modules} modules",
            ours=shown(each[modules]),
            theirs=shown(first),
            ratio=each[modules] / first,
            against="times as long as with about 60",
        )


def _smaller(system: System, by: float) -> System:
    """Return a module whose sides are a part of what they were; limits likewise. [mm]."""
    cutting = system.cutting.model_copy(
        update={
            "least": system.cutting.least / by,
            "groove_off": system.cutting.groove_off / by,
        }
    )
    face = tuple(side / by for side in system.face)
    return system.model_copy(update={"face": face, "cutting": cutting})
