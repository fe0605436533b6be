from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.care import care
from gaugerod.packet.paper import Paragraph, Table
from gaugerod.packet.phrases import moment


def rows(plan: Plan, words: Catalogue) -> dict[str, str]:
    (table,) = [block for block in care(plan, words) if isinstance(block, Table)]
    assert {row[2] for row in table.rows} == {"common practice"}
    return {row[0]: row[1] for row in table.rows}


def test_no_water_before_the_last_hold_is_over(keyed: Plan, inches: Catalogue) -> None:
    first, note = [block for block in care(keyed, inches) if isinstance(block, Paragraph)]
    assert first.style == "boxed"
    assert moment(keyed.days.no_water_until, inches) in first.text
    assert "makers' sheets you are given win" in note.text


def test_each_material_has_its_own_cleaners_and_its_own_enemies(
    keyed: Plan, tiled: Plan, inches: Catalogue
) -> None:
    plastic, tile = rows(keyed, inches), rows(tiled, inches)
    assert "acetone" in plastic["Never use"]
    assert "acid on cement grout" in tile["Never use"]
    assert "Grout" not in plastic
    assert "poisonous gas" in plastic["Never together"] == tile["Never together"]


def test_only_cement_grout_is_sealed(tiled: Plan, millimetres: Catalogue) -> None:
    assert "sealer: put it on" in rows(tiled, millimetres)["Grout"]
    assert tiled.system.grout
    epoxy = tiled.system.grout.model_copy(update={"binder": "epoxy"})
    plan = replace(tiled, system=tiled.system.model_copy(update={"grout": epoxy}))
    assert rows(plan, millimetres)["Grout"].startswith("Epoxy grout takes no sealer")


def test_sealant_is_renewed_with_its_like_and_left_dry_as_long_as_its_hold(
    keyed: Plan, inches: Catalogue
) -> None:
    renew = rows(keyed, inches)["Renew the sealant"]
    assert "Neutral-cure sanitary sealant, 10.1 oz" in renew
    assert "No water for 24 h" in renew


def test_openings_and_spares_are_told_of_where_there_are_any(
    keyed: Plan, inches: Catalogue
) -> None:
    told = rows(keyed, inches)
    assert "window" in told["Sill and niche"]
    assert told["Spares"].startswith("2 of Keyed wall module 24 x 12")
    walls = tuple(replace(wall, openings=()) for wall in keyed.walls.walls)
    bare = replace(
        keyed,
        walls=replace(keyed.walls, walls=walls),
        order=replace(keyed.order, spares=0),
    )
    assert not {"Sill and niche", "Spares"} & rows(bare, inches).keys()
