from collections.abc import Callable
from dataclasses import replace
from datetime import timedelta

import pytest

from gaugerod.core.checks.facts import Facts, Measured
from gaugerod.core.checks.survey_measures import SURVEY_MEASURES
from gaugerod.core.survey.walls import Suspect

Measuring = Callable[[str, Facts], list[Measured]]


@pytest.fixture
def measure() -> Measuring:
    return lambda name, facts: list(SURVEY_MEASURES[name](facts))


def test_each_suspect_is_named(facts: Facts, measure: Measuring) -> None:
    first = Suspect(readings=("B width 2",), w=9.1, guess=None)
    pair = Suspect(readings=("L deck 1", "L floor 1"), w=-4.0, guess=None)
    walls = replace(facts.walls, suspects=(first, pair))
    assert measure("suspects", replace(facts, walls=walls)) == [
        Measured(where="B width 2"),
        Measured(where="L deck 1, L floor 1"),
    ]
    assert measure("suspects", facts) == []


def test_a_survey_for_price(facts: Facts, measure: Measuring) -> None:
    assert measure("price-only", facts) == []
    walls = replace(facts.walls, fit_for="price")
    assert measure("price-only", replace(facts, walls=walls)) == [Measured()]


@pytest.mark.parametrize("level", ["floor", "drain"])
def test_a_level_not_read(facts: Facts, measure: Measuring, level: str) -> None:
    assert measure(f"{level}-unread", facts) == []
    unread = {"floor": replace(facts.walls, floor=None), "drain": replace(facts.walls, drain=None)}
    assert measure(f"{level}-unread", replace(facts, walls=unread[level])) == [Measured()]


def test_dust_by_material(facts: Facts, tiled: Facts, measure: Measuring) -> None:
    assert measure("plastic-dust", facts) == measure("silica-dust", tiled) == [Measured()]
    assert measure("silica-dust", facts) == measure("plastic-dust", tiled) == []


def test_no_dust_where_nothing_is_cut_or_drilled(facts: Facts, measure: Measuring) -> None:
    counted = replace(facts.order.quantities, holes=0)
    order = replace(facts.order, quantities=counted)
    uncut = replace(facts, cuts=replace(facts.cuts, cuts=0))
    assert measure("plastic-dust", replace(uncut, order=order)) == []
    assert measure("plastic-dust", uncut) == [Measured()]  # one hole is drilled


def test_hours_dry_count_from_the_last_work_that_leaves_a_hold(
    facts: Facts, measure: Measuring
) -> None:
    # Sealed until 16:00, water from 16:00 next day; the trim at 18:00 leaves no hold.
    assert measure("dry-hours", facts) == [Measured(value=24.0, unit="hours")]
    early = replace(facts.days, no_water_until=facts.days.no_water_until - timedelta(hours=6))
    assert measure("dry-hours", replace(facts, days=early)) == [Measured(value=18.0, unit="hours")]


def test_hours_dry_without_any_hold_count_from_the_finish(facts: Facts, measure: Measuring) -> None:
    days = replace(facts.days, tasks=(), no_water_until=facts.days.finish)
    assert measure("dry-hours", replace(facts, days=days)) == [Measured(value=0.0, unit="hours")]


def test_what_always_applies(facts: Facts, measure: Measuring) -> None:
    assert measure("always", facts) == [Measured()]
