from dataclasses import replace

import pytest
from tests.laid_by_hand import keyed

from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.material_measures import MATERIAL_MEASURES
from gaugerod.core.job.document import Site


def at_site(facts: Facts, site: Site) -> Facts:
    system = keyed(face=(2438.4, 1219.2))
    return replace(facts, system=system, job=facts.job.model_copy(update={"site": site}))


def test_a_piece_weighs_its_share_of_the_sheet(facts: Facts) -> None:
    # The pieces of this alcove are cut from corner to corner: half of 600 x 300 in 1.5 kg.
    (found,) = MATERIAL_MEASURES["piece-weight"](facts)
    assert found.where == "B2-2"
    assert found.value == pytest.approx(0.75)
    narrow = [piece for piece in facts.pieces if piece.tag == "L2-2"]
    (found,) = MATERIAL_MEASURES["piece-weight"](replace(facts, pieces=tuple(narrow)))
    # Half of 200 x 300.
    assert found.where == "L2-2"
    assert found.value == pytest.approx(0.25)


def test_a_sheet_is_held_against_the_diagonal_of_the_door(facts: Facts) -> None:
    assert MATERIAL_MEASURES["doorway"](at_site(facts, Site())) == []
    # A door of 3 x 4 has a diagonal of 5.
    door = at_site(facts, Site(doorway=(900.0, 1200.0)))
    assert MATERIAL_MEASURES["doorway"](door) == [Measured(value=1219.2, against=1500.0)]
