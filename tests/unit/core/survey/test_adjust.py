import numpy as np
import pytest

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.job.readings import Deck, Width
from gaugerod.core.survey.adjust import adjust, correlations, global_test
from gaugerod.core.survey.sigmas import sigma_of


def test_weights_pull_towards_the_better_reading() -> None:
    # Readings 10 (sigma 1) and 13 (sigma 2): the mean by hand is (10 + 13 / 4) / (1 + 1 / 4).
    fit = adjust(np.ones((2, 1)), np.array([10.0, 13.0]), np.array([1.0, 2.0]))
    assert fit.x[0] == pytest.approx(10.6)
    assert fit.covariance[0, 0] == pytest.approx(0.8)
    assert fit.redundancy == pytest.approx([0.2, 0.8])
    assert fit.dof == 1
    assert fit.sigma0 == pytest.approx(3 / np.sqrt(5))
    # Either reading alone tells the same: the difference over its own sigma.
    assert np.abs(fit.w) == pytest.approx([3 / np.sqrt(5)] * 2)


def test_without_redundancy_nothing_is_tested() -> None:
    fit = adjust(np.eye(2), np.array([1.0, 2.0]), np.ones(2))
    assert fit.dof == 0
    assert fit.sigma0 == 0.0
    assert list(fit.w) == [0.0, 0.0]


@pytest.mark.parametrize("design", [np.ones((1, 2)), np.ones((3, 2))])
def test_what_the_readings_do_not_fix_is_refused(design: np.ndarray) -> None:
    with pytest.raises(SurveyError) as caught:
        adjust(design, np.ones(len(design)), np.ones(len(design)))
    assert caught.value.message.key == "survey.undetermined"


def test_results_cannot_be_changed() -> None:
    fit = adjust(np.ones((2, 1)), np.array([1.0, 2.0]), np.ones(2))
    with pytest.raises(ValueError, match="read-only"):
        fit.x[0] = 5.0


def test_a_sigma_is_the_readings_own_or_by_kind_and_practice() -> None:
    width = Width(kind="width", at=0.0, reads=1500.0)
    assert sigma_of(width, "good") == 1.0
    assert sigma_of(width, "rough") == 3.0
    assert sigma_of(Deck(kind="deck", at=0.0, reads=700.0), "good") == 0.7
    assert sigma_of(Width(kind="width", at=0.0, reads=1500.0, sigma=0.4), "rough") == 0.4


def test_a_blunder_that_the_test_finds_four_times_in_five() -> None:
    # Two readings, sigma 1: each has a redundancy of one half. The limit is 3.2905 and the
    # power point 0.8416 (tables of the normal distribution): 4.1321 over the root of a half.
    fit = adjust(np.ones((2, 1)), np.array([10.0, 11.0]), np.ones(2))
    assert fit.detectable == pytest.approx([4.1321 * np.sqrt(2)] * 2, rel=1e-4)
    alone = adjust(np.eye(2), np.array([1.0, 2.0]), np.ones(2))
    assert list(alone.detectable) == [np.inf, np.inf]


def test_tests_of_three_readings_of_one_thing_are_half_alike() -> None:
    # R has 2/3 on its diagonal and -1/3 off it.
    fit = adjust(np.ones((3, 1)), np.array([10.0, 11.0, 12.0]), np.ones(3))
    assert correlations(fit, 1) == pytest.approx([-0.5, 1.0, -0.5])


def test_a_reading_that_nothing_checks_is_like_no_other() -> None:
    design = np.array([[1.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
    fit = adjust(design, np.array([1.0, 2.0, 3.0]), np.ones(3))
    assert correlations(fit, 0)[2] == 0.0


def test_the_global_test_by_the_tables() -> None:
    # Chi-square at 5 %: 3.841 for one degree of freedom, 18.307 for ten (any table).
    assert global_test(3.841, 1) == pytest.approx(0.05, abs=1e-4)
    assert global_test(18.307, 10) == pytest.approx(0.05, abs=1e-4)
