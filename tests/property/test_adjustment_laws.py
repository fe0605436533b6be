"""Laws of least squares, on designs drawn by lot: small whole numbers, never near to singular."""

from dataclasses import dataclass, replace
from random import Random

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.survey.adjust import Adjustment, Array, adjust, correlations

NEAR = 1e-8
"""Numbers here are below a thousand and conditions below a thousand: far over the noise. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Readings with more rows than unknowns, and the unknowns they would be exact for."""

    design: Array
    true: Array
    observed: Array
    sigma: Array

    def solved(self) -> Adjustment:
        return adjust(self.design, self.observed, self.sigma)


@st.composite
def problems(draw: st.DrawFn) -> Problem:
    columns, spare = draw(st.integers(1, 6)), draw(st.integers(1, 34))
    rows = columns + spare
    whole = st.integers(-9, 9).map(float)
    # Each unknown is read once nearly by itself: no design is near to singular.
    alone = 20 * np.eye(columns) + draw(
        arrays(np.float64, (columns, columns), elements=st.sampled_from([-1.0, 0.0, 1.0]))
    )
    design = np.vstack((alone, draw(arrays(np.float64, (spare, columns), elements=whole))))
    sigma = draw(arrays(np.float64, rows, elements=st.sampled_from([0.5, 1.0, 2.0, 3.0])))
    true = draw(arrays(np.float64, columns, elements=whole))
    errors = draw(arrays(np.float64, rows, elements=st.integers(-20, 20).map(lambda e: e / 10)))
    return Problem(design=design, true=true, observed=design @ true + errors, sigma=sigma)


@st.composite
def drawn_rows(draw: st.DrawFn) -> tuple[Problem, int]:
    """A problem and one of its readings."""
    problem = draw(problems())
    return problem, draw(st.integers(0, len(problem.sigma) - 1))


def near(expected: Array) -> object:
    return pytest.approx(expected, rel=NEAR, abs=NEAR)


@given(problems())
def test_exact_readings_give_the_truth_and_leave_nothing(problem: Problem) -> None:
    fit = replace(problem, observed=problem.design @ problem.true).solved()
    assert fit.x == near(problem.true)
    assert fit.residuals == near(np.zeros(len(problem.sigma)))
    assert fit.sigma0 == pytest.approx(0.0, abs=NEAR)


@given(problems())
def test_what_is_left_over_can_be_explained_no_further(problem: Problem) -> None:
    # The normal equations: weighted residuals are square to every column.
    fit = problem.solved()
    weighted = fit.residuals / problem.sigma**2
    assert problem.design.T @ weighted == pytest.approx(np.zeros(len(fit.x)), abs=1e-6)


@given(problems())
def test_redundancy_is_shared_out_among_the_readings(problem: Problem) -> None:
    fit = problem.solved()
    assert fit.dof == len(problem.sigma) - len(problem.true)
    assert fit.redundancy.sum() == pytest.approx(fit.dof, abs=NEAR)
    assert (fit.redundancy > -NEAR).all()
    assert (fit.redundancy < 1 + NEAR).all()


@given(problems(), st.sampled_from([0.1, 0.5, 3.0, 25.4]))
def test_all_sigmas_larger_widen_what_is_said_and_move_nothing(
    problem: Problem, times: float
) -> None:
    old, new = problem.solved(), replace(problem, sigma=times * problem.sigma).solved()
    assert new.x == near(old.x)
    assert new.residuals == near(old.residuals)
    assert new.redundancy == near(old.redundancy)
    assert new.covariance == near(times**2 * old.covariance)
    assert new.sigma0 == pytest.approx(old.sigma0 / times, rel=NEAR, abs=NEAR)
    assert new.w == near(old.w / times)
    assert new.detectable == near(times * old.detectable)


@given(problems(), st.randoms(use_true_random=False))
def test_the_order_of_readings_does_not_matter(problem: Problem, lot: Random) -> None:
    order = list(range(len(problem.sigma)))
    lot.shuffle(order)
    mixed = Problem(
        design=problem.design[order],
        true=problem.true,
        observed=problem.observed[order],
        sigma=problem.sigma[order],
    )
    old, new = problem.solved(), mixed.solved()
    assert new.x == near(old.x)
    assert new.covariance == near(old.covariance)
    assert new.residuals == near(old.residuals[order])
    assert new.w == near(old.w[order])


@given(problems(), st.lists(st.integers(-12, 12), min_size=6, max_size=6))
def test_the_units_of_the_unknowns_do_not_matter(problem: Problem, tens: list[int]) -> None:
    units = 10.0 ** np.array(tens[: len(problem.true)])
    old, new = problem.solved(), replace(problem, design=problem.design * units).solved()
    assert new.x * units == near(old.x)
    assert new.residuals == near(old.residuals)
    assert new.w == near(old.w)


@given(problems(), st.lists(st.integers(-12, 12), min_size=6, max_size=6), st.integers(1, 9))
def test_an_unknown_too_many_is_refused_in_any_unit(
    problem: Problem, tens: list[int], share: int
) -> None:
    # The last column is made of the first: nothing tells the two unknowns apart.
    design = np.column_stack((problem.design, share * problem.design[:, 0]))
    units = 10.0 ** np.array([*tens[: len(problem.true)], tens[-1]])
    with pytest.raises(SurveyError):
        replace(problem, design=design * units).solved()


@given(problems(), arrays(np.float64, 6, elements=st.integers(-9, 9).map(float)))
def test_another_datum_moves_the_unknowns_and_nothing_else(problem: Problem, by: Array) -> None:
    move = by[: len(problem.true)]
    moved = replace(problem, observed=problem.observed + problem.design @ move)
    old, new = problem.solved(), moved.solved()
    assert new.x == near(old.x + move)
    assert new.residuals == near(old.residuals)


@given(drawn_rows(), st.sampled_from([0.5, 1.0, 3.0]))
def test_a_reading_more_makes_no_unknown_less_sure(
    drawn: tuple[Problem, int], sigma: float
) -> None:
    problem, row = drawn
    more = Problem(
        design=np.vstack((problem.design, problem.design[row][::-1])),
        true=problem.true,
        observed=np.append(problem.observed, 0.0),
        sigma=np.append(problem.sigma, sigma),
    )
    old, new = problem.solved(), more.solved()
    assert new.dof == old.dof + 1
    assert (np.diag(new.covariance) <= np.diag(old.covariance) * (1 + NEAR)).all()


@given(problems(), st.integers(2, 30))
def test_readings_repeated_many_times_say_the_same_more_surely(
    problem: Problem, times: int
) -> None:
    # Up to 1,200 rows: tall designs are factorised in pieces, these all in the same numbers.
    often = Problem(
        design=np.tile(problem.design, (times, 1)),
        true=problem.true,
        observed=np.tile(problem.observed, times),
        sigma=np.tile(problem.sigma, times),
    )
    old, new = problem.solved(), often.solved()
    assert new.x == near(old.x)
    assert new.residuals == near(np.tile(old.residuals, times))
    assert new.covariance == near(old.covariance / times)
    assert new.redundancy == near(np.tile(1 - (1 - old.redundancy) / times, times))
    assert new.basis.T @ new.basis == near(np.eye(len(new.x)))


@given(drawn_rows(), st.integers(-50, 50))
def test_a_blunder_shows_in_its_own_test_and_in_those_that_are_like_it(
    drawn: tuple[Problem, int], blunder: int
) -> None:
    # Residuals are R times the errors: the test moves by the root of the redundancy, the
    # others by as much times their correlation with it.
    problem, row = drawn
    old = problem.solved()
    assume(old.redundancy[row] > 1e-3)
    wrong = problem.observed.copy()
    wrong[row] += blunder
    new = replace(problem, observed=wrong).solved()
    shift = np.sqrt(old.redundancy[row]) * blunder / problem.sigma[row]
    assert new.w - old.w == pytest.approx(shift * correlations(old, row), abs=1e-5)
