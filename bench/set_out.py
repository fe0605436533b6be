"""Scoring a lattice in closed form against cutting all its cells."""

from collections.abc import Iterator

from bench.timing import Row, versus
from gaugerod.core.cutting.make import make_pieces
from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
from gaugerod.core.setout.lattice import Lattice
from gaugerod.core.setout.score import score
from gaugerod.core.setout.search import set_out
from gaugerod.core.setout.strips import Case
from gaugerod.core.survey.fit import fit_walls


def rows() -> Iterator[Row]:
    """Yield the score of one layout of the sample alcove, and the whole search."""
    job, system, rates = sample_job(), sample_system(), sample_rates()
    walls = fit_walls(job)
    short = set_out(walls, job.choices, system, rates.looks)
    layout = short.layouts[0]
    cases = [
        (
            Case(
                wall=wall,
                met=(on.field.left, on.field.right),
                top=layout.top,
                system=system,
                turn=layout.turn,
                looks=rates.looks,
            ),
            Lattice(
                face=layout.face,
                pitch=layout.pitch,
                first_course=layout.first_course,
                phase=on.phase,
                row_shift=on.row_shift,
            ),
        )
        for wall, on in zip(walls.walls, layout.walls, strict=True)
    ]
    yield versus(
        "score one layout of three walls",
        lambda: [score(case, lattice) for case, lattice in cases],
        lambda: make_pieces(layout, walls, system),
        "clipping every module with shapely",
    )
    yield versus(
        f"search {short.tried} lattices",
        lambda: set_out(walls, job.choices, system, rates.looks),
        lambda: [make_pieces(layout, walls, system) for _ in range(short.tried // 3)],
        "clipping as many layouts",
    )
