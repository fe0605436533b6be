import pytest

from gaugerod.app.rules_page import rules_page
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL
from gaugerod.core.job.rules import Rule, Rules
from gaugerod.store.shelf import Library

ROW: dict[str, object] = {
    "id": "our-joint",
    "statement": "Our joints are wide.",
    "measure": "joint",
    "severity": "warn",
    "advice": "Widen it.",
    "source": "common practice",
    "sure": "common practice, no source",
}


@pytest.fixture(scope="module")
def words() -> Catalogue:
    return Library().words(IMPERIAL, currency="USD")


def row(say: Catalogue, **fields: object) -> list[str]:
    rule = Rule.model_validate(ROW | fields)
    page = rules_page(Rules(format=1, unit="mm", rule=(rule,)), say)
    (found,) = [line for line in page.splitlines() if line.startswith("| `our-joint`")]
    return [cell.strip() for cell in found.strip("|").split("|")]


def test_a_row_says_what_who_and_how_sure(words: Catalogue) -> None:
    assert row(words, edition="2020", gate="cut") == [
        "`our-joint`: Our joints are wide. *Widen it.*",
        "`joint`",
        "warn",
        "Before the first cut",
        "common practice, 2020 (common practice, no source)",
    ]


@pytest.mark.parametrize(
    ("fields", "held"),
    [
        ({"holds": "at least", "limit": 3}, 'at least 1/8" (3 mm)'),
        ({"holds": "at most", "number": 23}, "at most 23"),
        ({"holds": "one of", "words": ["yes", "no"]}, "one of “yes”, “no”"),
        ({"kind": "grouted"}, "(grouted)"),
        ({"code": "NEC"}, "NEC"),
        ({"code": "IBC", "since": 2015}, "IBC since 2015"),
        ({"code": "IBC", "until": 2012}, "IBC until 2012"),
        ({"side_over": 381}, 'side over 15" (381 mm)'),
        ({"size_from": 25.4}, 'size from 1" (25.4 mm)'),
        ({"size_below": 25.4}, 'size below 1" (25.4 mm)'),
        ({"area_below": 0.84}, "below 0.84 m²"),
    ],
)
def test_what_a_rule_is_held_to(words: Catalogue, fields: dict[str, object], held: str) -> None:
    assert row(words, **fields)[1].rstrip() == f"`joint` {held}"


def test_what_is_settled_before_nothing_has_a_dash(words: Catalogue) -> None:
    assert row(words)[3] == "–"


def test_rules_of_a_place_stand_under_it_and_the_others_first(words: Catalogue) -> None:
    here = Rule.model_validate(ROW | {"id": "here", "regions": ["GB"]})
    page = rules_page(Rules(format=1, unit="mm", rule=(here, Rule.model_validate(ROW))), words)
    everywhere, place = page.index("## Everywhere"), page.index("## In GB")
    assert everywhere < page.index("`our-joint`:") < place < page.index("`here`:")
