import re
from collections.abc import Callable
from dataclasses import replace
from types import MappingProxyType

import pytest
from pydantic import ValidationError

from gaugerod.core.base.errors import JobError
from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.job.document import Site
from gaugerod.core.job.rules import Rule, Rules

ROW: dict[str, object] = {
    "id": "tried",
    "statement": "What the rule says.",
    "measure": "tried",
    "severity": "warn",
    "advice": "What to do.",
    "source": "common practice",
    "edition": "2024",
    "sure": "common practice, no source",
}

Holding = Callable[..., tuple[Finding, ...]]


def rule(**fields: object) -> Rule:
    return Rule.model_validate(ROW | fields)


@pytest.fixture
def hold(facts: Facts, monkeypatch: pytest.MonkeyPatch) -> Holding:
    """Hold rules against one alcove in which `tried` measures what it is told to."""

    def holding(*rules: Rule, measured: Measured, on: Facts = facts) -> tuple[Finding, ...]:
        measures = MappingProxyType({**MEASURES, "tried": lambda _: [measured]})
        monkeypatch.setattr("gaugerod.core.checks.check.MEASURES", measures)
        return check(
            job=on.job,
            walls=on.walls,
            layout=on.layout,
            pieces=on.pieces,
            cuts=on.cuts,
            order=on.order,
            days=on.days,
            system=on.system,
            rules=Rules(format=1, unit="mm", rule=rules),
        )

    return holding


def in_region(facts: Facts, region: str) -> Facts:
    return replace(facts, job=facts.job.model_copy(update={"site": Site(region=region)}))


@pytest.mark.parametrize(
    ("holds", "fits", "breaks"),
    [
        ("at least", 10.0, 9.999),
        ("at least", 10.0 - 1e-9, 9.0),  # rounding noise breaks nothing
        ("at most", 10.0, 10.001),
        ("at most", 10.0 + 1e-9, 11.0),
        ("below", 9.999, 10.0),
        ("below", 0.0, 10.0 - 1e-9),
    ],
)
def test_how_a_value_stands_to_its_limit(
    hold: Holding, holds: str, fits: float, breaks: float
) -> None:
    limited = rule(holds=holds, limit=10)
    assert hold(limited, measured=Measured(value=fits)) == ()
    assert len(hold(limited, measured=Measured(value=breaks))) == 1


def test_a_finding_says_what_where_by_how_much_and_who_says_so(hold: Holding) -> None:
    limited = rule(holds="at least", limit=10)
    assert hold(limited, measured=Measured(where="B1-1", value=7.0)) == (
        Finding(
            rule="tried",
            severity="warn",
            where="B1-1",
            statement="What the rule says.",
            advice="What to do.",
            source="common practice",
            edition="2024",
            sure="common practice, no source",
            length=True,
            value=7.0,
            limit=10.0,
        ),
    )


def test_a_plain_number_is_no_length(hold: Holding) -> None:
    (found,) = hold(rule(holds="at least", number=1978), measured=Measured(value=1962.0))
    assert (found.length, found.value, found.limit) == (False, 1962.0, 1978.0)


def test_a_number_is_a_share_of_what_is_measured_against(hold: Holding) -> None:
    share = rule(holds="at least", number=0.5)
    (found,) = hold(share, measured=Measured(value=200.0, against=600.0))
    assert (found.length, found.value, found.limit) == (True, 200.0, 300.0)
    assert hold(share, measured=Measured(value=301.0, against=600.0)) == ()


def test_a_limit_of_its_own_beats_what_is_measured_against(hold: Holding) -> None:
    (found,) = hold(rule(holds="at most", limit=5), measured=Measured(value=6.0, against=600.0))
    assert (found.length, found.limit) == (True, 5.0)


def test_a_caution_has_no_value(hold: Holding) -> None:
    (found,) = hold(
        rule(severity="caution", short="Mind it."), measured=Measured(where="L valve", value=3.0)
    )
    assert (found.where, found.length, found.value, found.limit) == ("L valve", False, None, None)


@pytest.mark.parametrize(("side", "findings"), [(381.0, 0), (381.1, 1)])
def test_a_rule_for_large_modules(hold: Holding, side: float, findings: int) -> None:
    large = rule(side_over=381)
    assert len(hold(large, measured=Measured(side=side))) == findings


@pytest.mark.parametrize(("kind", "findings"), [("any", 1), ("keyed", 1), ("grouted", 0)])
def test_a_rule_for_one_kind_of_material(hold: Holding, kind: str, findings: int) -> None:
    assert len(hold(rule(kind=kind), measured=Measured())) == findings


@pytest.mark.parametrize(
    ("region", "findings"), [("US", 1), ("us-il", 1), ("US-IL", 1), ("GB", 0), ("", 1)]
)
def test_a_rule_of_one_place(facts: Facts, hold: Holding, region: str, findings: int) -> None:
    # Where the place is not known the rule applies: better one caution too many.
    american = rule(regions=("US",))
    assert len(hold(american, measured=Measured(), on=in_region(facts, region))) == findings


def test_a_rule_of_a_state_is_not_for_its_neighbour(facts: Facts, hold: Holding) -> None:
    local = rule(regions=("US-IL", "US-WI"))
    assert len(hold(local, measured=Measured(), on=in_region(facts, "US-WI"))) == 1
    assert hold(local, measured=Measured(), on=in_region(facts, "US-CA")) == ()


def test_what_forbids_comes_first(hold: Holding) -> None:
    severities = ("tick", "caution", "warn", "ask", "forbid", "warn")
    rows = [
        rule(id=name, severity=severity, gate="cut", short="Mind it.")
        for name, severity in zip("abcdef", severities, strict=True)
    ]
    found = hold(*rows, measured=Measured())
    assert [finding.rule for finding in found] == ["e", "c", "f", "d", "b", "a"]


def test_an_unknown_measure_is_named(hold: Holding) -> None:
    with pytest.raises(JobError) as caught:
        hold(rule(id="odd", measure="phase-of-the-moon"), measured=Measured())
    assert caught.value.message.key == "checks.unknown-measure"
    assert dict(caught.value.message.values) == {"rule": "odd", "measure": "phase-of-the-moon"}


def test_an_unknown_measure_is_named_though_the_rule_is_of_another_place(
    facts: Facts, hold: Holding
) -> None:
    odd = rule(measure="phase-of-the-moon", regions=("GB",))
    with pytest.raises(JobError):
        hold(odd, measured=Measured(), on=in_region(facts, "US"))


@pytest.mark.parametrize("field", ["source", "advice", "statement"])
@pytest.mark.parametrize("text", ["", "  ", " x "])
def test_a_rule_without_source_advice_or_statement_does_not_load(field: str, text: str) -> None:
    with pytest.raises(ValidationError, match=rf"{field}\s+String should have at least 3"):
        rule(**{field: text})


@pytest.mark.parametrize("field", ["source", "advice", "statement", "sure"])
def test_nor_does_one_that_leaves_it_out(field: str) -> None:
    row = {name: value for name, value in ROW.items() if name != field}
    with pytest.raises(ValidationError, match=rf"{field}\s+Field required"):
        Rule.model_validate(row)


@pytest.mark.parametrize(
    "fields",
    [
        {"holds": "at least"},
        {"limit": 3},
        {"number": 3},
        {"holds": "at least", "limit": 3, "number": 3},
        {"holds": "one of", "words": ["yes"], "number": 3},
    ],
)
def test_a_rule_has_one_limit_or_none(fields: dict[str, object]) -> None:
    with pytest.raises(ValidationError, match=re.escape("checks.one-limit")):
        rule(**fields)


@pytest.mark.parametrize(
    ("key", "fields"),
    [
        ("checks.words", {"holds": "one of"}),
        ("checks.words", {"words": ["yes"]}),
        ("checks.words", {"holds": "at most", "number": 3, "words": ["yes"]}),
        ("checks.no-gate", {"severity": "tick"}),
        ("checks.no-gate", {"severity": "ask"}),
        ("checks.no-gate", {"ask": "How high is it?"}),
        ("checks.not-short", {"severity": "caution"}),
        ("checks.no-code", {"since": 2018}),
        ("checks.no-code", {"until": 2018}),
    ],
)
def test_a_rule_is_whole(key: str, fields: dict[str, object]) -> None:
    with pytest.raises(ValidationError, match=re.escape(key)):
        rule(**fields)


@pytest.mark.parametrize(
    ("holds", "word", "findings"),
    [("one of", "yes", 0), ("one of", "no", 1), ("none of", "yes", 1), ("none of", "no", 0)],
)
def test_an_answer_in_words(hold: Holding, holds: str, word: str, findings: int) -> None:
    found = hold(rule(holds=holds, words=["yes"]), measured=Measured(word=word))
    assert [one.word for one in found] == [word] * findings


def test_a_rule_without_limit_is_met_by_any_word(hold: Holding) -> None:
    (found,) = hold(rule(), measured=Measured(word="tub"))
    assert (found.word, found.value) == ("tub", None)


def test_what_nobody_answered_is_asked(hold: Holding) -> None:
    asking = rule(holds="at least", limit=10, ask="How wide is it?", gate="close")
    (found,) = hold(asking, measured=Measured(where="R", value=None))
    assert (found.severity, found.statement) == ("ask", "How wide is it?")
    assert (found.where, found.gate, found.value, found.length) == ("R", "close", None, False)
    assert hold(rule(holds="at least", limit=10), measured=Measured(value=None)) == ()


def test_what_two_rules_ask_is_asked_once(hold: Holding) -> None:
    one, two = (
        rule(id=name, holds="at least", limit=limit, ask="How wide is it?", gate="close")
        for name, limit in (("low", 10), ("high", 20))
    )
    assert [found.rule for found in hold(one, two, measured=Measured(value=None))] == ["low"]
    assert [found.rule for found in hold(one, two, measured=Measured(value=1.0))] == ["low", "high"]


def test_a_line_that_is_ticked_is_not_on_the_list(facts: Facts, hold: Holding) -> None:
    answers = facts.job.facts.model_copy(update={"ticked": ("tried",)})
    done = replace(facts, job=facts.job.model_copy(update={"facts": answers}))
    line = rule(severity="tick", gate="cut")
    assert len(hold(line, measured=Measured())) == 1
    assert hold(line, measured=Measured(), on=done) == ()
    # Nothing else can be ticked away.
    assert len(hold(rule(severity="forbid"), measured=Measured(), on=done)) == 1


@pytest.mark.parametrize(
    ("years", "edition", "findings"),
    [
        ({"since": 2015}, None, 1),
        ({"since": 2015}, 2012, 0),
        ({"since": 2015}, 2015, 1),
        ({"until": 2012}, None, 0),  # superseded
        ({"until": 2012}, 2012, 1),
        ({"until": 2012}, 2015, 0),
        ({}, 2015, 1),
    ],
)
def test_a_rule_of_some_editions(
    facts: Facts, hold: Holding, years: dict[str, int], edition: int | None, findings: int
) -> None:
    site = Site(editions={"IBC": edition} if edition else {})
    there = replace(facts, job=facts.job.model_copy(update={"site": site}))
    assert len(hold(rule(code="IBC", **years), measured=Measured(), on=there)) == findings


def test_a_rule_of_a_city_is_for_no_other_place(facts: Facts, hold: Holding) -> None:
    city = rule(regions=("US-IL-CHICAGO",))
    for region, findings in (("US-IL-CHICAGO", 1), ("US-IL", 0), ("US-IL-CHICAGOLAND", 0)):
        assert len(hold(city, measured=Measured(), on=in_region(facts, region))) == findings


@pytest.mark.parametrize(
    ("fields", "size", "area", "findings"),
    [
        ({"size_from": 6}, 6.0, 1.0, 1),
        ({"size_from": 6}, 5.9, 1.0, 0),
        ({"size_below": 6}, 5.9, 1.0, 1),
        ({"size_below": 6}, 6.0, 1.0, 0),
        ({"area_below": 0.8}, 6.0, 0.79, 1),
        ({"area_below": 0.8}, 6.0, 0.8, 0),
    ],
)
def test_a_rule_for_some_sizes(
    hold: Holding, fields: dict[str, float], size: float, area: float, findings: int
) -> None:
    assert len(hold(rule(**fields), measured=Measured(size=size, area=area))) == findings


def test_a_number_that_is_no_length_has_its_unit(hold: Holding) -> None:
    (found,) = hold(rule(holds="at most", number=23), measured=Measured(value=28.8, unit="kg"))
    assert (found.value, found.unit, found.length) == (28.8, "kg", False)


def test_a_line_to_tick_of_a_place_needs_the_place(facts: Facts, hold: Holding) -> None:
    line = rule(severity="tick", gate="cut", regions=("AU",))
    assert hold(line, measured=Measured()) == ()
    assert len(hold(line, measured=Measured(), on=in_region(facts, "AU"))) == 1
