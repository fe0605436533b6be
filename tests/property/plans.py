"""Random plans, plain and keyed, that several laws look at: each is made once in a short run.

Survey, set-out, pieces and module plan are those of the alcove drawn; price, order and days are
left as they stand in a packaged plan, since no drawing and no card shows them.
"""

from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache
from typing import Any, TypeAlias
from zlib import crc32

import pytest
from hypothesis import assume, seed, settings
from hypothesis import strategies as st
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, words_in
from tests.property.alcoves import Alcove, alcoves, keyed, line, surveyed, tiles

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.insides import make_insides, pieces_inside
from gaugerod.core.cutting.plan import plan_cuts
from gaugerod.core.job.materials import System
from gaugerod.core.job.products import Products
from gaugerod.core.pipeline import Plan

Law: TypeAlias = Callable[..., Any]


def _either_way_up(system: System, half_turn: bool) -> System:
    cutting = system.cutting.model_copy(update={"half_turn": half_turn})
    return system.model_copy(update={"cutting": cutting})


FAMILIES: dict[str, st.SearchStrategy[Alcove]] = {
    "plain": alcoves(st.builds(_either_way_up, tiles(), st.booleans())),
    "keyed": alcoves(keyed()),
}
SHOWN: dict[str, Catalogue] = {
    "inches": words_in(INCHES),
    "millimetres": words_in(MILLIMETRES),
}
_SHORT = settings().derandomize


def over_plans(law: Law) -> Law:
    """Hold a law over plans of both families in both units: 20 in the short run, 200 in the long.

    The short run draws the same plans for every law.
    """
    for name, values in (("unit", SHOWN), ("family", FAMILIES)):
        law = pytest.mark.parametrize(name, list(values))(law)
    return settings(max_examples=5 if _SHORT else 50)(seed(1)(law) if _SHORT else law)


def drawn_plan(data: st.DataObject, family: str) -> Plan:
    """Draw an alcove and plan it; one without a layout says nothing."""
    alcove = data.draw(FAMILIES[family])
    made = _planned(_Told(alcove))
    assume(made is not None)
    assert made is not None
    return made


class _Told:
    """An alcove that is known by what it says, to be found again."""

    def __init__(self, alcove: Alcove) -> None:
        self.alcove, self.said = alcove, repr(alcove)
        # Modules that are proven fewest take long; a drawing of them is a drawing like others.
        self.proven = not _SHORT and crc32(self.said.encode()) % 8 == 0

    def __hash__(self) -> int:
        return hash(self.said)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Told) and self.said == other.said


@lru_cache(maxsize=64)
def _planned(told: _Told) -> Plan | None:
    alcove = told.alcove
    found = line(surveyed(alcove), alcove.system)
    if found is None:
        return None
    layout = found.short.layouts[0]
    pieces = found.pieces(layout)
    insides = make_insides(layout, found.walls, alcove.system)
    cuts = plan_cuts((*pieces, *pieces_inside(insides)), alcove.system, proven=told.proven)
    return replace(
        keyed_plan(),
        job=found.job,
        system=alcove.system,
        products=Products(main=alcove.system),
        walls=found.walls,
        layout=layout,
        pieces=pieces,
        insides=insides,
        cuts=cuts,
    )
