from dataclasses import replace

import pytest
from tests.laid_by_hand import keyed
from tests.rule_cases import held, said, top

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


def test_the_weight_of_a_box(facts: Facts, tiled: Facts) -> None:
    # 8 x 1.5 kg and 8 x 3.6 kg
    assert MATERIAL_MEASURES["box-weight"](facts)[0].value == pytest.approx(12.0)
    assert MATERIAL_MEASURES["box-weight"](tiled)[0].value == pytest.approx(28.8)


def test_tile_and_bed_weigh_on_the_wall(tiled: Facts) -> None:
    # 3.6 kg on 0.597 x 0.297 m, and 1.4 kg for each of 4 mm of bed
    (found,) = MATERIAL_MEASURES["plaster-load"](said(tiled, backer="plaster"))
    assert found.value == pytest.approx(20.30 + 5.6, abs=0.01)
    assert found.unit == "kg-m2"
    assert MATERIAL_MEASURES["plaster-load"](tiled) == []
    assert MATERIAL_MEASURES["board-load"](said(tiled, backer="plaster")) == []


def test_a_run_between_two_walls_has_both_its_gaps_to_grow_into() -> None:
    between = held(butt=3.0, corner=2.0)
    assert MATERIAL_MEASURES["room-to-grow"](between) == [
        Measured(where="B", value=5.0, against=1500.0)
    ]


def test_under_a_ceiling_the_lining_grows_upwards_too() -> None:
    # The deck has 3 and the ceiling 9.525; from -760 to 1400 where the deck is lowest.
    found = MATERIAL_MEASURES["room-to-grow"](top(held(butt=3.0, corner=2.0), 1400.0 - 9.525))
    assert [(one.where, one.against) for one in found] == [
        ("L", 2160.0),
        ("B", 1500.0),
        ("B", 2158.0),
        ("R", 2154.0),
    ]
    assert found[0].value == pytest.approx(12.525)


def test_tile_does_not_grow(tiled: Facts) -> None:
    assert MATERIAL_MEASURES["room-to-grow"](tiled) == []


def test_holds_are_those_of_what_the_material_has(facts: Facts, tiled: Facts) -> None:
    for name in ("mortar-hours", "cement-grout-hours", "epoxy-grout-hours"):
        assert MATERIAL_MEASURES[name](facts) == []
    assert MATERIAL_MEASURES["adhesive-hours"](tiled) == []
    assert MATERIAL_MEASURES["cement-grout-hours"](tiled) == [Measured(value=72, unit="hours")]
    assert MATERIAL_MEASURES["epoxy-grout-hours"](tiled) == []


def test_with_several_products_each_weighs_what_it_weighs(facts: Facts, tiled: Facts) -> None:
    # Another product of the same size at 6 kg: a box of 4 is 24 kg, half of a module 3 kg.
    heavy = facts.system.model_copy(
        update={"id": "heavy", "name": "Heavy", "weight": 6.0, "per_box": 4}
    )
    mixed = replace(facts, others=(heavy,))
    boxes = MATERIAL_MEASURES["box-weight"](mixed)
    assert [one.where for one in boxes] == [facts.system.name, "Heavy"]
    assert [one.value for one in boxes] == pytest.approx([12.0, 24.0])
    narrow = [replace(p, product="heavy") if p.tag == "L2-2" else p for p in facts.pieces]
    (found,) = MATERIAL_MEASURES["piece-weight"](replace(mixed, pieces=tuple(narrow)))
    # Half of 200 x 300 of a module of 600 x 300: a sixth of 6 kg, over half of 1.5 kg.
    assert found.where == "L2-2"
    assert found.value == pytest.approx(1.0)
    stone = tiled.system.model_copy(update={"id": "stone", "weight": 7.2})
    loaded = said(replace(tiled, others=(stone,)), backer="plaster")
    (load,) = MATERIAL_MEASURES["plaster-load"](loaded)
    assert load.value == pytest.approx(2 * 20.30 + 5.6, abs=0.02)
