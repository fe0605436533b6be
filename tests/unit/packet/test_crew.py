import pytest
from tests.blocks import every
from tests.fixtures_plan import INCHES, keyed_plan, words_in

from gaugerod.core.pipeline import Plan
from gaugerod.packet.crew import crew_packet
from gaugerod.packet.paper import Cards, Form, Heading


@pytest.fixture
def headings(keyed: Plan) -> list[str]:
    sections = every(crew_packet(keyed, words_in(INCHES)).sections)
    return [block.text for block in sections if isinstance(block, Heading) and block.level == 1]


def test_the_packet_follows_the_order_of_the_work(headings: list[str]) -> None:
    assert headings == [
        keyed_plan().job.name,
        "Days and holds",
        "Survey",
        "L, the left end wall",
        "R, the right end wall",
        "B, the back wall",
        "Gauge rod",
        "Holes",
        "Cut cards",
        "Module cuts",
        "On site before the first cut",
        "Gates",
        "Change order",
    ]


def test_the_packet_holds_cards_and_a_blank_form(keyed: Plan) -> None:
    sections = crew_packet(keyed, words_in(INCHES), revision=4, size="a4").sections
    assert sum(isinstance(block, Cards) for block in sections) == 1
    assert isinstance(sections[-1], Form)


def test_revision_and_size_are_passed_on(keyed: Plan) -> None:
    made = crew_packet(keyed, words_in(INCHES), revision=4, size="a4")
    assert (made.revision, made.size, made.title) == ("Revision 4", "a4", "Crew packet")
