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
    (found,) = hold(rule(severity="caution"), measured=Measured(where="L valve", value=3.0))
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
    rows = [
        rule(id=name, severity=severity)
        for name, severity in (("a", "caution"), ("b", "warn"), ("c", "forbid"), ("d", "warn"))
    ]
    found = hold(*rows, measured=Measured())
    assert [finding.rule for finding in found] == ["c", "b", "d", "a"]


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
    ],
)
def test_a_rule_has_one_limit_or_none(fields: dict[str, object]) -> None:
    with pytest.raises(ValidationError, match=re.escape("checks.one-limit")):
        rule(**fields)
