"""The gauge rod on paper: its table, and when its strips are left out."""

from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.pipeline import Plan
from gaugerod.packet.paper import TICK, Block, FullSize, Paragraph, Table
from gaugerod.packet.rod import rod_paper


def table(blocks: tuple[Block, ...]) -> Table:
    return next(block for block in blocks if isinstance(block, Table))


def test_the_table_runs_from_the_finish_down_to_the_deck(keyed: Plan, inches: Catalogue) -> None:
    found = table(rod_paper(keyed, inches).sections)
    assert found.header == ("Line", "Exact, in", "From datum", "Over its sub-datum", "L", "B", "R")
    assert found.rows[0][0] == "finish line"
    assert found.rows[-1][0] == "deck, low point"


def test_a_line_is_ticked_on_the_walls_that_have_it(tiled: Plan, millimetres: Catalogue) -> None:
    rows = {row[0]: row[4:] for row in table(rod_paper(tiled, millimetres).sections).rows}
    assert rows["course 1, top"] == (TICK, TICK, TICK)
    assert rows["niche, sill"] == ("–", TICK, "–")
    assert rows["valve, centre"] == ("–", "–", TICK)


def test_figure_and_sub_datum_sum(tiled: Plan, millimetres: Catalogue) -> None:
    """First course 604.60 under the datum: 605, which is 195 over 800 under it."""
    rows = {row[0]: row[1:4] for row in table(rod_paper(tiled, millimetres).sections).rows}
    assert rows["course 1, top"] == ("↓\u00a0604.60", "↓\u00a0605 mm", "195 over ↓\u00a0800 mm")
    # 4.60 under it: 5, which is 195 over 200 under it; the niche's sill is 140 over it.
    assert rows["course 3, top"][1:] == ("↓\u00a05 mm", "195 over ↓\u00a0200 mm")
    assert rows["niche, sill"][1:] == ("↑\u00a0140 mm", "140 over the datum")


def test_strips_are_of_the_size_asked_for(keyed: Plan, inches: Catalogue) -> None:
    letter, a4 = (
        [block.drawing.bounds for block in made.sections if isinstance(block, FullSize)]
        for made in (rod_paper(keyed, inches), rod_paper(keyed, inches, size="a4"))
    )
    # Letter is 215.9 by 279.4 with margins of 14, 19 and 15; A4 is 210 by 297.
    assert all(box.width <= 187.9 and box.height <= 245.4 for box in letter)
    assert all(box.width <= 182.0 and box.height <= 263.0 for box in a4)
    assert len(letter) == len(a4) == 9


def test_it_is_never_scaled(keyed: Plan, inches: Catalogue) -> None:
    assert rod_paper(keyed, inches).full_size


def test_a_survey_to_price_from_has_no_strips(keyed: Plan, inches: Catalogue) -> None:
    rough = replace(keyed, walls=replace(keyed.walls, fit_for="price"))
    sections = rod_paper(rough, inches).sections
    assert not [block for block in sections if isinstance(block, FullSize)]
    (boxed,) = [b.text for b in sections if isinstance(b, Paragraph) and b.style == "boxed"]
    assert boxed.startswith("No full-size paper yet.")
