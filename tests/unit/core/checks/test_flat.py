"""Each limit for flat walls is kept by one wall and broken by another, in a plan too."""

from dataclasses import replace

import pytest
from tests.rule_cases import KEYED, SHEET, TILE, at, of

from gaugerod.core.checks.check import check
from gaugerod.core.checks.facts import Facts
from gaugerod.core.checks.finding import Finding
from gaugerod.core.checks.flat import flat_findings
from gaugerod.core.job.readings import Depth, Gap, Reading, Surface
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.tolerances import Tolerances
from gaugerod.store.shelf import Library

LIMITS = Library().tolerances()
SMALL = of(TILE, face=(300.0, 200.0))
THICK = of(TILE, bed=8.0)


def read(facts: Facts, *readings: Reading) -> Facts:
    """The alcove with more readings on its back wall."""
    left, back, right = facts.job.wall
    back = back.model_copy(update={"readings": (*back.readings, *readings)})
    return replace(facts, job=facts.job.model_copy(update={"wall": (left, back, right)}))


def gap(reads: float, *, under: float, surface: Surface = "backer") -> Gap:
    return Gap(
        kind="gap",
        at=700,
        height=0,
        straightedge=under,
        held="level",
        reads=reads,
        surface=surface,
    )


def found(facts: Facts) -> dict[str, Finding]:
    return {finding.rule: finding for finding in flat_findings(facts, LIMITS)}


# Limit, alcove at its place, straightedge, a gap that keeps it and one that does not. [mm]
CASES = [
    ("ansi-large-10ft", at(TILE, region="US-IL"), 1500.0, 3.1, 3.2),  # 1/8 in is 3.175
    ("ansi-large-2ft", at(TILE, region="US"), 600.0, 1.5, 1.6),  # 1/16 in is 1.5875
    ("ansi-small-10ft", at(SMALL, region="US"), 1500.0, 6.3, 6.4),
    ("ansi-small-1ft", at(SMALL, region="US"), 300.0, 1.5, 1.6),
    ("nhbc-thin-bed", at(TILE, region="GB-ENG"), 2000.0, 3.0, 3.1),
    ("nhbc-thick-bed", at(THICK, region="GB"), 2000.0, 6.0, 6.1),
    # Row 5 at 1 m: 10; row 6: 5.
    ("din-unfinished", at(THICK, region="DE"), 1000.0, 10.0, 10.1),
    ("din-under-thin-bed", at(TILE, region="DE"), 1000.0, 5.0, 5.1),
    ("bead-bridges", at(KEYED, region="US"), 1800.0, 4.7, 4.8),  # 3/16 in is 4.7625
    ("bead-bridges", at(SHEET, region="GB"), 1800.0, 4.7, 4.8),
]
FINISHED = [
    ("ansi-finish", "US", 1500.0, 6.3, 6.4),
    ("bs-finish", "GB", 2000.0, 3.0, 3.1),
    ("din-finished", "DE", 1000.0, 5.0, 5.1),
]


def test_every_limit_for_flat_walls_has_its_pair() -> None:
    flat = {row.id for row in LIMITS.tolerance if row.about == "flat"}
    assert flat == {case[0] for case in (*CASES, *FINISHED)}


@pytest.mark.parametrize(("name", "there", "under", "keeps", "breaks"), CASES)
def test_behind_a_lining(
    name: str, there: Facts, under: float, keeps: float, breaks: float
) -> None:
    assert name not in found(read(there, gap(keeps, under=under)))
    finding = found(read(there, gap(breaks, under=under)))[name]
    assert (finding.severity, finding.gate, finding.where) == ("warn", "set-out", "B")
    assert finding.value == breaks
    assert finding.limit is not None
    assert keeps <= finding.limit < breaks


@pytest.mark.parametrize(("name", "region", "under", "keeps", "breaks"), FINISHED)
def test_of_finished_tile(
    name: str, region: str, under: float, keeps: float, breaks: float
) -> None:
    there = at(TILE, region=region)
    assert name not in found(read(there, gap(keeps, under=under, surface="new face")))
    assert name in found(read(there, gap(breaks, under=under, surface="new face")))


def test_depths_on_a_grid_count_as_gaps_do() -> None:
    # A hollow of 5 halfway over 1200: over 1/8 in in 10 ft, and no gap was read anywhere.
    hollow = [
        Depth(kind="depth", at=x, height=y, reads=55.0 if (x, y) == (800.0, -200.0) else 50.0)
        for x in (200.0, 800.0, 1400.0)
        for y in (-500.0, -200.0, 100.0)
    ]
    there = at(TILE, region="US")
    finding = found(read(there, *hollow))["ansi-large-10ft"]
    assert finding.where == "B"
    assert finding.value == pytest.approx(5.0)
    flat = [depth.model_copy(update={"reads": 50.0}) for depth in hollow]
    assert found(read(there, *flat)) == {}


def test_the_worst_place_is_told_once() -> None:
    there = read(at(KEYED, region="US"), *(gap(x, under=1800.0) for x in (5.0, 7.0, 6.0)))
    (finding,) = flat_findings(there, LIMITS)
    assert finding.value == 7.0


def test_a_place_without_a_limit_has_those_of_all_places() -> None:
    there = read(at(TILE, region="NZ"), gap(3.2, under=1500.0))
    assert {"ansi-large-10ft", "nhbc-thin-bed"} <= found(there).keys()


def test_a_wall_that_nobody_read_says_nothing() -> None:
    assert found(at(TILE, region="US")) == {}


def test_a_check_holds_limits_among_its_rules() -> None:
    facts = read(at(KEYED, region="US"), gap(4.8, under=1800.0))
    parts = {name: getattr(facts, name) for name in facts.__slots__}
    rules = Rules(format=1, unit="mm", tolerance=LIMITS.tolerance)
    assert [finding.rule for finding in check(**parts, rules=rules)] == ["bead-bridges"]
    assert check(**parts, rules=Rules(format=1, unit="mm")) == ()
    assert flat_findings(facts, Tolerances(format=1, unit="mm", tolerance=())) == ()
