import pytest
from tests.rule_cases import at, said

from gaugerod.core.checks.answer_measures import ANSWER_MEASURES
from gaugerod.core.checks.facts import Facts, Measured


def measured(name: str, facts: Facts) -> list[Measured]:
    return list(ANSWER_MEASURES[name](facts))


def test_yes_no_a_word_and_nothing(facts: Facts) -> None:
    assert measured("gfci", facts) == [Measured(value=None)]
    assert measured("gfci", said(facts, gfci=True)) == [Measured(word="yes")]
    assert measured("gfci", said(facts, gfci=False)) == [Measured(word="no")]
    assert measured("backer", said(facts, backer="foam board")) == [Measured(word="foam board")]


def test_what_there_is_none_of_can_not_be_measured(facts: Facts) -> None:
    assert measured("receptacle", facts) == [Measured(value=None)]
    assert measured("receptacle", said(facts, receptacle=900)) == [Measured(value=900.0)]
    assert measured("receptacle", said(facts, receptacle="none")) == []


def test_a_strip_of_paint_runs_round_all_walls(facts: Facts) -> None:
    # 800 + 1500 + 800 wide
    old = at(facts, built=1962)
    (found,) = measured("painted-area", said(old, paint_height=200))
    assert found.value == pytest.approx(0.62)
    assert found.unit == "m2"
    assert measured("painted-area", old) == [Measured(value=None, unit="m2")]


@pytest.mark.parametrize(
    ("built", "answers", "asked"),
    [
        (1962, {}, True),
        (None, {}, True),
        (1978, {}, False),
        (1962, {"lead": "clear"}, False),
        (1962, {"lead": "found"}, True),
        (1962, {"strip_out": False}, False),
    ],
)
def test_paint_is_asked_about_while_it_may_hold_lead(
    facts: Facts, built: int | None, answers: dict[str, object], asked: bool
) -> None:
    house = said(at(facts, built=built), **answers)
    assert bool(measured("painted-area", house)) == asked
    assert bool(measured("window-out", house)) == asked


def test_the_age_of_a_house_counts_until_it_is_shown_clear(facts: Facts) -> None:
    old = at(facts, built=1962)
    assert measured("age-for-asbestos", old) == [Measured(value=1962.0)]
    assert measured("age-for-asbestos", said(old, asbestos="clear")) == []
    assert measured("age-for-asbestos", said(old, strip_out=False)) == []
    assert measured("age-for-asbestos", facts) == []
    assert measured("year-unknown", facts) == [Measured()]
    assert measured("year-unknown", said(facts, strip_out=False)) == []


@pytest.mark.parametrize(
    ("site", "named"),
    [
        ({}, False),
        ({"region": "GB"}, False),
        ({"editions": {"IRC": 2018}}, False),
        ({"region": "US", "editions": {"IRC": 2018}}, True),
    ],
)
def test_a_code_is_named_by_place_and_edition(
    facts: Facts, site: dict[str, object], named: bool
) -> None:
    assert measured("code-unnamed", at(facts, **site)) == ([] if named else [Measured()])


def test_hot_water_is_asked_about_where_a_pipe_comes_through(facts: Facts) -> None:
    hot = said(facts, hot_limit="120 F")
    (found,) = measured("hot-limit", hot)
    assert found.value == pytest.approx(48.889, abs=1e-3)
    assert found.unit == "celsius"
