import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, words_in

from gaugerod.core.base.lengths import Display
from gaugerod.packet.blank import blank_paper
from gaugerod.packet.paper import Heading, Picture


def test_each_wall_has_a_page_and_one_is_spare() -> None:
    blocks = blank_paper(words_in(INCHES)).sections
    assert [block.text for block in blocks if isinstance(block, Heading)] == [
        "L, the left end wall",
        "B, the back wall",
        "R, the right end wall",
        "One more wall",
    ]
    pictures = [block for block in blocks if isinstance(block, Picture)]
    # As high on paper as it is drawn, so that its letters keep their size.
    assert all(picture.height == picture.drawing.bounds.height for picture in pictures)


@pytest.mark.parametrize(
    ("display", "size", "unit"),
    [(INCHES, "us-letter", "inches and sixteenths"), (MILLIMETRES, "a4", "millimetres")],
)
def test_sheet_and_unit_go_together(display: Display, size: str, unit: str) -> None:
    paper = blank_paper(words_in(display))
    assert (paper.size, paper.revision) == (size, unit)


def test_another_size_may_be_asked_for() -> None:
    assert blank_paper(words_in(INCHES), size="a4").size == "a4"
