"""Every rule that comes with the program is kept by one alcove and broken by another."""

import pytest
from tests.rule_cases import CASES

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.job.rules import Rule, Rules
from gaugerod.store.shelf import Library

RULES = {rule.id: rule for rule in Library().rules().rule}


def found_by(rule: Rule, facts: Facts) -> tuple[Finding, ...]:
    return check(
        job=facts.job,
        walls=facts.walls,
        layout=facts.layout,
        pieces=facts.pieces,
        cuts=facts.cuts,
        order=facts.order,
        days=facts.days,
        system=facts.system,
        insides=facts.insides,
        rules=Rules(format=1, unit="mm", rule=(rule,)),
    )


def test_every_rule_has_its_pair_and_every_pair_its_rule() -> None:
    assert sorted(RULES.keys() ^ CASES.keys()) == []


@pytest.mark.parametrize("name", CASES)
def test_a_rule_is_kept(name: str) -> None:
    assert found_by(RULES[name], CASES[name].keeps) == ()


@pytest.mark.parametrize("name", CASES)
def test_a_rule_is_broken(name: str) -> None:
    found = found_by(RULES[name], CASES[name].breaks)
    assert found
    assert {one.severity for one in found} == {RULES[name].severity}


@pytest.mark.parametrize("name", [name for name, rule in RULES.items() if rule.ask])
def test_a_rule_asks_while_nobody_has_answered(name: str) -> None:
    asks = CASES[name].asks
    assert asks is not None
    (asked,) = found_by(RULES[name], asks)
    assert (asked.severity, asked.statement) == ("ask", RULES[name].ask)
    assert asked.gate == RULES[name].gate is not None
