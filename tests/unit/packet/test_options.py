from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, banded_plan, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.packet.options import laid, options_paper, picked_first
from gaugerod.packet.paper import Heading, Paper, Paragraph, Picture, Table

WORDS = words_in(INCHES)
MADE = keyed_plan()


def blank(name: str) -> Drawing:
    return Drawing(name=name, title=name, bounds=Box(left=0, bottom=0, right=1, top=1), items=())


@pytest.fixture(scope="module")
def paper() -> Paper:
    drawings = {option.id: blank(option.id) for option in MADE.options.options}
    return options_paper(MADE.job, MADE.options, drawings, WORDS)


def test_picks_come_first_each_with_its_picture(paper: Paper) -> None:
    pictures = [block.drawing.name for block in paper.sections if isinstance(block, Picture)]
    assert pictures == [option.id for option in picked_first(MADE.options)]
    heads = [block.text for block in paper.sections if isinstance(block, Heading)]
    assert heads[:2] == ["Options", "A (looks first)"]
    assert heads[-1] == "All options"


def test_the_table_has_every_figure(paper: Paper) -> None:
    (table,) = (block for block in paper.sections if isinstance(block, Table))
    assert len(table.header) == len(table.rows[0]) == len(table.widths)
    for row, option in zip(table.rows, picked_first(MADE.options), strict=True):
        assert row[0].startswith(option.id)
        assert row[1] == f"{option.layout.turn}, {option.layout.bond}"
        assert (row[3], row[4]) == (str(option.cuts), str(option.modules))


def test_the_side_to_which_courses_step_is_told() -> None:
    words = words_in(MILLIMETRES)
    option = tiled_plan().chosen

    def shifted(share: float, bond: str) -> str:
        walls = tuple(replace(wall, row_shift=share) for wall in option.layout.walls)
        return laid(replace(option, layout=replace(option.layout, bond=bond, walls=walls)), words)

    assert shifted(200.0, "third").startswith("lying, third to the right; first course ")
    assert shifted(-200.0, "third").startswith("lying, third to the left; ")
    assert shifted(300.0, "half").startswith("lying, half; ")
    assert shifted(0.0, "stack").startswith("lying, stack; ")


def test_dots_are_explained_where_there_are_several_products(paper: Paper) -> None:
    dotted = "Dotted pieces are of another product than the rest."
    assert dotted not in {block.text for block in paper.sections if isinstance(block, Paragraph)}
    made, words = banded_plan(), words_in(MILLIMETRES)
    drawings = {option.id: blank(option.id) for option in made.options.options}
    banded = options_paper(made.job, made.options, drawings, words)
    assert dotted in {block.text for block in banded.sections if isinstance(block, Paragraph)}
