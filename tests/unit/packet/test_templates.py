"""The hole sheet, and which templates there are."""

from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.paper import Block, FullSize, Paragraph, Table
from gaugerod.packet.templates import template_paper


def tables(blocks: tuple[Block, ...]) -> list[Table]:
    return [block for block in blocks if isinstance(block, Table)]


def pages(plan: Plan, words: Catalogue) -> list[str]:
    sections = template_paper(plan, words).sections
    return [block.drawing.name for block in sections if isinstance(block, FullSize)]


def changed(plan: Plan, **changes: object) -> Plan:
    """The plan with other things known of the valve."""

    def of(hole: FittedHole) -> FittedHole:
        return replace(hole, **changes) if hole.name == "valve" else hole  # type: ignore[arg-type]  # fields by name

    walls = tuple(replace(w, holes=tuple(map(of, w.holes))) for w in plan.walls.walls)
    return replace(plan, walls=replace(plan.walls, walls=walls))


def test_each_hole_has_its_centre_and_its_drill(keyed: Plan, inches: Catalogue) -> None:
    centres, *_ = tables(template_paper(keyed, inches).sections)
    rows = {row[0]: row[1:6] for row in centres.rows}
    # Readings: 15 in from the right, 17 1/8 from the left, 18 1/4 under the datum; 3 in across.
    assert rows["valve"] == ("L2-1", '17 1/8"', '15"', '↓\u00a018 1/4"', '3"')
    assert rows["spout"][0] == "L1-1"


def test_depths_are_told_against_the_new_lining(keyed: Plan, inches: Catalogue) -> None:
    """1 3/4 in out of the backer, less 3/8 of lining and 1/16 of bed, is 1 5/16."""
    _, depths, _ = tables(template_paper(keyed, inches).sections)
    rows = {row[0]: row[1:] for row in depths.rows}
    assert rows["valve"] == ('7"', '2"', '1 3/4"', '1 5/16"', '1" to 2 1/4"')
    assert rows["spout"] == ('2 1/8"', '7/16"', "–", "–", "–")


def test_what_nobody_knows_is_a_dash(tiled: Plan, millimetres: Catalogue) -> None:
    bare = changed(tiled, plate=None, rough_in=None, rough_in_limits=None)
    _, depths, _ = tables(template_paper(bare, millimetres).sections)
    assert depths.rows[0] == ("valve", "–", "–", "–", "–", "–")


def test_each_drilled_piece_has_a_template_either_way(tiled: Plan, millimetres: Catalogue) -> None:
    found = pages(tiled, millimetres)
    drilled = {piece.tag for piece in tiled.pieces if piece.holes}
    for tag in drilled:
        ways = [[name for name in found if f"{tag}-{way}-" in name] for way in ("up", "down")]
        assert len(ways[0]) == len(ways[1]) > 0
    *_, listed = tables(template_paper(tiled, millimetres).sections)
    assert {row[0] for row in listed.rows} == drilled
    assert 2 * sum(int(row[2]) for row in listed.rows) == len(found)


def test_what_hangs_already_has_no_template(tiled: Plan, millimetres: Catalogue) -> None:
    first, *others = [piece.tag for piece in tiled.pieces if piece.holes]
    found = pages(replace(tiled, done=frozenset({first})), millimetres)
    assert not [name for name in found if first in name]
    assert all(any(tag in name for name in found) for tag in others)


def test_a_hole_above_the_lining_has_no_template(tiled: Plan, millimetres: Catalogue) -> None:
    pieces = tuple(replace(piece, holes=()) for piece in tiled.pieces)
    bare = replace(tiled, pieces=pieces)
    assert pages(bare, millimetres) == []
    centres, *others = tables(template_paper(bare, millimetres).sections)
    assert [row[1] for row in centres.rows] == ["R", "R"]
    assert len(others) == 1


def test_a_survey_to_price_from_has_the_sheet_alone(keyed: Plan, inches: Catalogue) -> None:
    rough = replace(keyed, walls=replace(keyed.walls, fit_for="price"))
    assert pages(rough, inches) == []
    sections = template_paper(rough, inches).sections
    assert len(tables(sections)) == 2
    (boxed,) = [b.text for b in sections if isinstance(b, Paragraph) and b.style == "boxed"]
    assert boxed.startswith("No full-size paper yet.")
