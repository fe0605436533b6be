import numpy as np
import pytest
from tests.flat_by_hand import limits, tolerance

from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.limits import Departure, allowed, judge, limits_for

TWO_ROWS = [{"over": 1000, "at_most": 4}, {"over": 3000, "at_most": 10}]


def applies(
    row: Tolerance, *, longest_edge: float = 600.0, region: str = "GB", surface: str = "backer"
) -> bool:
    found = limits_for(
        limits(row),
        longest_edge=longest_edge,
        fixing="thin bed",
        surface="backer" if surface == "backer" else "stud",
        region=region,
    )
    return bool(found)


def test_a_limit_without_conditions_applies_everywhere() -> None:
    assert applies(tolerance(), surface="stud", region="")


def test_a_limit_for_some_surfaces() -> None:
    row = tolerance(surfaces=["backer", "old tile"])
    assert applies(row)
    assert not applies(row, surface="stud")


@pytest.mark.parametrize(("fixing", "does"), [("thin bed", True), ("bead", False)])
def test_a_limit_for_some_ways_of_fixing(fixing: str, does: bool) -> None:
    assert applies(tolerance(fixings=[fixing])) is does


@pytest.mark.parametrize(
    ("region", "does"), [("US", True), ("us-il", True), ("GB", False), ("", True)]
)
def test_a_limit_for_some_regions_applies_where_none_is_given_too(region: str, does: bool) -> None:
    assert applies(tolerance(regions=["US"]), region=region) is does


@pytest.mark.parametrize(("edge", "does"), [(380.9, False), (381.0, True), (600.0, True)])
def test_a_limit_from_some_edge(edge: float, does: bool) -> None:
    assert applies(tolerance(edge_from=381), longest_edge=edge) is does
    assert applies(tolerance(edge_below=381), longest_edge=edge) is not does


@pytest.mark.parametrize(
    ("scales", "expected"),
    [
        # at 500, 1000, 2000, 3000 and 3001 mm
        ("as stated", [4, 4, 10, 10, np.inf]),
        ("straight line", [4, 4, 7, 10, np.inf]),
        ("in proportion", [2, 4, 7, 10, np.inf]),
    ],
)
def test_what_is_allowed_over_other_lengths(scales: str, expected: list[float]) -> None:
    row = tolerance(allows=TWO_ROWS, scales=scales)
    found = allowed(row, np.array([500.0, 1000.0, 2000.0, 3000.0, 3001.0]))
    assert found.tolist() == pytest.approx(expected)


def test_what_is_allowed_is_rounded_where_the_source_does() -> None:
    row = tolerance(allows=TWO_ROWS, scales="straight line", rounded_to=1)
    # 4 + 6 * 0.2 = 5.2; 4 + 6 * 0.25 = 5.5, and a half goes up
    assert allowed(row, np.array([1400.0, 1500.0])).tolist() == [5.0, 6.0]


@pytest.mark.parametrize(
    ("span", "by", "over", "verdict"),
    [
        (2000.0, -3.0, 0.0, "within"),
        (2000.0, -3.5, 0.5, "out"),
        (1000.0, 3.5, 0.5, "out"),  # what is out under a short one is out under the long one
        (2400.0, -2.5, -0.5, "within"),  # and within under the long one is within under a short
        (2400.0, -3.5, 0.5, "open"),  # but out under the long one says nothing of a short one
    ],
)
def test_verdicts(span: float, by: float, over: float, verdict: str) -> None:
    departure = Departure(
        way="gap",
        held="level",
        start=(0.0, 0.0),
        end=(span, 0.0),
        at=(span / 2, 0.0),
        span=span,
        by=by,
        sigma=0.4,
    )
    judged = judge(departure, tolerance())
    assert judged.limit == 3.0
    assert judged.over == pytest.approx(over)
    assert judged.verdict == verdict
