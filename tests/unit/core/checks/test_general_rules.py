"""The rules that come with the program, held against the alcove planned by hand."""

import re
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from typing import get_args

import pytest

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.measures import MEASURES
from gaugerod.core.job.document import Job, Site
from gaugerod.core.job.rules import Gate
from gaugerod.core.survey.walls import Suspect
from gaugerod.store.shelf import Library

RULES = Library().rules()

Broken = Callable[[Facts], dict[str, Finding]]


@pytest.fixture
def broken() -> Broken:
    def by_rule(facts: Facts) -> dict[str, Finding]:
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

    return by_rule


def forbidding(found: dict[str, Finding]) -> set[str]:
    return {name for name, finding in found.items() if finding.severity == "forbid"}


def test_every_rule_names_a_measure_and_every_measure_has_a_rule() -> None:
    assert {rule.measure for rule in RULES.rule} == set(MEASURES)


def test_every_rule_has_a_name_of_its_own() -> None:
    names = [rule.id for rule in RULES.rule]
    assert sorted(names) == sorted(set(names))


def test_only_these_forbid_cutting() -> None:
    assert [rule.id for rule in RULES.rule if rule.severity == "forbid"] == [
        "suspect-reading",
        "survey-for-price",
        "least-piece",
        "plate-cover",
        "valve-too-deep",
        "valve-too-proud",
    ]


def test_a_sound_plan_may_be_cut(facts: Facts, tiled: Facts, broken: Broken) -> None:
    assert forbidding(broken(facts)) == forbidding(broken(tiled)) == set()


def test_the_cautions_of_a_keyed_alcove_of_unknown_age(facts: Facts, broken: Broken) -> None:
    cautions = {n for n, finding in broken(facts).items() if finding.severity == "caution"}
    assert cautions == {
        "electricity",
        "water",
        "eyes",
        "noise",
        "plastic-dust",
        "vapour",
        "tub-rim",
        "ladder",  # the lining ends 1870 over the floor
        "hidden-damage",
    }


def test_the_cautions_that_tile_adds(facts: Facts, tiled: Facts, broken: Broken) -> None:
    found = broken(tiled)
    added = {n for n in found.keys() - broken(facts).keys() if found[n].severity == "caution"}
    # A box of 28.8 kg is heavy.
    assert added == {"silica", "silica-drilling", "wet-cement", "soft-joints", "lifting"}


def test_a_caution_is_a_dozen_words() -> None:
    shorts = {rule.id: rule.short for rule in RULES.rule if rule.short}
    assert {name: text for name, text in shorts.items() if len(text.split()) > 14} == {}


def test_a_line_to_tick_or_to_answer_stands_before_something() -> None:
    listed = [rule for rule in RULES.rule if rule.ask or rule.severity in {"ask", "tick"}]
    assert {rule.gate for rule in listed} == set(get_args(Gate))


def test_suspects_and_a_survey_for_price_forbid(facts: Facts, broken: Broken) -> None:
    suspect = Suspect(readings=("B width 2",), w=9.1, guess=None)
    walls = replace(facts.walls, suspects=(suspect,), fit_for="price")
    found = broken(replace(facts, walls=walls))
    assert forbidding(found) == {"suspect-reading", "survey-for-price"}
    assert found["suspect-reading"].where == "B width 2"


def test_a_hole_that_its_plate_cannot_hide_forbids(facts: Facts, broken: Broken) -> None:
    left, back, right = facts.walls.walls
    # A plate of 88 covers 6 all round, which is less than 1/4 in.
    hole = replace(left.holes[0], plate=88.0)
    walls = replace(facts.walls, walls=(replace(left, holes=(hole,)), back, right))
    found = broken(replace(facts, walls=walls))
    assert forbidding(found) == {"plate-cover"}
    assert (found["plate-cover"].where, found["plate-cover"].value) == ("L valve", 6.0)
    assert found["plate-cover"].limit == pytest.approx(6.35)


@pytest.mark.parametrize(
    ("limits", "forbidden"),
    [  # the valve stands 80 - 11.1125 = 68.8875 proud
        ((69.0, 90.0), {"valve-too-deep"}),
        ((40.0, 68.0), {"valve-too-proud"}),
        ((68.8875, 68.8875), set()),
    ],
)
def test_a_valve_out_of_its_depth_forbids(
    facts: Facts, broken: Broken, limits: tuple[float, float], forbidden: set[str]
) -> None:
    left, back, right = facts.walls.walls
    hole = replace(left.holes[0], rough_in_limits=limits)
    walls = replace(facts.walls, walls=(replace(left, holes=(hole,)), back, right))
    assert forbidding(broken(replace(facts, walls=walls))) == forbidden


def test_a_piece_under_the_makers_least_forbids(facts: Facts, broken: Broken) -> None:
    cutting = facts.system.cutting.model_copy(update={"least": 201.0})
    system = facts.system.model_copy(update={"cutting": cutting})
    found = broken(replace(facts, system=system))
    assert forbidding(found) == {"least-piece"}
    assert (found["least-piece"].where, found["least-piece"].limit) == ("L2-2", 201.0)


@pytest.mark.parametrize(
    ("region", "built", "cautions"),
    [
        ("US-IL", 1977, {"lead-paint", "asbestos"}),
        ("US-IL", 1978, {"asbestos"}),
        ("US-IL", 1981, set()),
        ("GB", 1996, {"asbestos-gb", "old-paint"}),
        ("GB", 1999, {"asbestos-gb"}),
        ("GB", 2000, set()),
        ("NZ", 1996, {"old-paint", "old-building"}),
        ("AU", 2004, {"old-building"}),
        ("AU", 2005, set()),
        ("", 1962, {"lead-paint", "asbestos", "asbestos-gb"}),
    ],
)
def test_old_houses(
    facts: Facts, broken: Broken, region: str, built: int, cautions: set[str]
) -> None:
    site = Site(region=region, built=built)
    job: Job = facts.job.model_copy(update={"site": site})
    found = broken(replace(facts, job=job)).keys()
    old = {"lead-paint", "asbestos", "asbestos-gb", "year-unknown", "old-paint", "old-building"}
    assert found & old == cautions


def test_the_documentation_explains_every_measure() -> None:
    text = (Path(__file__).parents[4] / "docs" / "theory" / "checks.md").read_text("utf-8")
    _, _, measures = text.partition("\n## Measures\n")
    table = [line.split("|")[1] for line in measures.splitlines() if line.startswith("| `")]
    assert set(re.findall(r"`([a-z-]+)`", " ".join(table))) == set(MEASURES)
