from dataclasses import replace
from typing import Literal

import pytest

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.opening_measures import OPENING_MEASURES
from gaugerod.store.shelf import Library

RULES = Library().rules()


def changed(
    facts: Facts,
    *,
    kind: Literal["window", "niche"] = "window",
    depth: float | None = None,
    lined: bool = False,
    fall: float | None = None,
) -> Facts:
    """The same alcove with its window on wall B made otherwise."""
    left, back, right = facts.walls.walls
    opening = replace(back.openings[0], kind=kind, depth=depth, lined=lined, fall=fall)
    back = replace(back, openings=(opening,))
    return replace(facts, walls=replace(facts.walls, walls=(left, back, right)))


def measured(name: str, facts: Facts) -> list[Measured]:
    return list(OPENING_MEASURES[name](facts))


def findings(facts: Facts) -> dict[str, Finding]:
    found = check(
        job=facts.job,
        walls=facts.walls,
        layout=facts.layout,
        pieces=facts.pieces,
        cuts=facts.cuts,
        order=facts.order,
        days=facts.days,
        system=facts.system,
        rules=RULES,
    )
    return {finding.rule: finding for finding in found}


def test_the_fall_of_a_sill_against_its_depth(facts: Facts) -> None:
    known = changed(facts, depth=96.0, fall=1.5)
    assert measured("sill-fall", known) == [Measured(where="B window", value=1.5, against=96.0)]
    assert measured("sill-fall", changed(facts, depth=96.0)) == []
    assert measured("sill-fall", changed(facts, fall=1.5)) == []


@pytest.mark.parametrize(("fall", "flat"), [(2.0, False), (1.9, True), (0.0, True)])
def test_a_quarter_inch_in_a_foot_is_asked_for(facts: Facts, fall: float, *, flat: bool) -> None:
    # 96 / 48 is 2.
    found = findings(changed(facts, depth=96.0, fall=fall))
    assert ("sill-pitch" in found) == flat
    if flat:
        assert found["sill-pitch"].limit == pytest.approx(2.0, abs=1e-3)
        assert found["sill-pitch"].where == "B window"


def test_only_niches_have_a_depth_to_hold_things(facts: Facts) -> None:
    assert measured("niche-depth", changed(facts, depth=70.0)) == []
    niche = changed(facts, kind="niche", depth=70.0)
    assert measured("niche-depth", niche) == [Measured(where="B window", value=70.0)]
    assert "niche-depth" in findings(niche)
    assert "niche-depth" not in findings(changed(facts, kind="niche", depth=76.2))
    assert measured("niche-depth", changed(facts, kind="niche")) == []


def test_what_is_to_be_lined_and_was_not_read(facts: Facts) -> None:
    assert measured("depth-unread", changed(facts, lined=True)) == [Measured(where="B window")]
    assert measured("depth-unread", changed(facts, lined=True, depth=90.0)) == []
    assert measured("depth-unread", facts) == []
