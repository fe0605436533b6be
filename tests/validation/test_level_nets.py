"""Nets of levels with published heights, standard deviations and tests, by the adjustment.

A survey of a deck round the walls is such a net. Sources stand beside each.
"""

from math import sqrt

import numpy as np
import pytest

from gaugerod.core.survey.adjust import Adjustment, adjust, correlations

Leg = tuple[str, str, float, float]
"""From, to, rise [m], sigma [m]."""


def levelled(points: str, known: dict[str, float], legs: list[Leg]) -> Adjustment:
    design = np.zeros((len(legs), len(points)))
    rises = np.empty(len(legs))
    for row, (start, end, rise, _) in enumerate(legs):
        rises[row] = rise - known.get(end, 0.0) + known.get(start, 0.0)
        for point, sign in ((start, -1.0), (end, 1.0)):
            if point not in known:
                design[row, points.index(point)] = sign
    return adjust(design, rises, np.array([sigma for *_, sigma in legs]))


def deviations(fit: Adjustment) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Standard deviations of the unknowns by the stated sigmas, in mm."""
    return 1000.0 * np.sqrt(np.diag(fit.covariance))


# --- a loop of four points, there and back -----------------------------------------------------
# Worked output of an open-source network-adjustment library, found at
# http://www.vrmapper.com/gama/1doutput.html: 8 rises of equal weight, 5 mm each, one height fixed.

LOOP: list[Leg] = [
    ("1", "4", -1.225, 0.005),
    ("4", "3", -0.848, 0.005),
    ("3", "2", 1.342, 0.005),
    ("2", "1", 0.720, 0.005),
    ("1", "2", -0.724, 0.005),
    ("2", "3", -1.335, 0.005),
    ("3", "4", 0.842, 0.005),
    ("4", "1", 1.231, 0.005),
]


@pytest.fixture(scope="module")
def loop() -> Adjustment:
    return levelled("432", {"1": 1000.0}, LOOP)


def test_a_loop_there_and_back(loop: Adjustment) -> None:
    assert loop.x == pytest.approx([998.77513, 997.93325, 999.27487], abs=6e-6)
    assert deviations(loop) == pytest.approx([3.1, 3.5, 3.1], abs=0.05)
    assert loop.dof == 5
    assert loop.residuals @ loop.residuals * 1e6 == pytest.approx(146.625, abs=5e-4)  # [mm2]
    assert 5.0 * loop.sigma0 == pytest.approx(5.42, abs=0.005)


def test_the_largest_test_value_of_the_loop(loop: Adjustment) -> None:
    # Published: "maximal normalized residual 1.68 ... for observation #6".
    assert int(np.argmax(np.abs(loop.w))) == 5
    assert abs(loop.w[5]) == pytest.approx(1.68, abs=0.005)


def test_every_leg_of_the_loop_is_checked_alike(loop: Adjustment) -> None:
    # By symmetry: 5 degrees of freedom over 8 legs.
    assert loop.redundancy == pytest.approx([5 / 8] * 8)


# --- a weighted net of a standard text ---------------------------------------------------------
# C. D. Ghilani, Adjustment Computations, Example 12.1. Rises and sigmas: found at
# https://slidetodoc.com/adjustment-of-level-nets-introduction-in-this-chapter; the height of A
# there and at https://www.geolabsolutions.com/s/TheoryCourseResourceszip.001. Solution: calc, the
# normal equations in exact fractions.


def test_a_net_weighted_by_sigmas() -> None:
    net = levelled(
        "BCD",
        {"A": 437.596},
        [
            ("A", "B", 10.509, 0.006),
            ("B", "C", 5.360, 0.004),
            ("C", "D", -8.523, 0.005),
            ("D", "A", -7.348, 0.003),
            ("B", "D", -3.167, 0.004),
            ("A", "C", 15.881, 0.012),
        ],
    )
    assert net.x == pytest.approx([448.108712, 453.468468, 444.943605], abs=1e-6)
    assert net.dof == 3
    assert net.sigma0 == pytest.approx(0.651184, abs=1e-6)
    assert net.sigma0 * deviations(net) == pytest.approx([2.295, 2.636, 1.761], abs=1e-3)
    assert net.redundancy.sum() == pytest.approx(3.0)


# --- four points, all six legs, with tests and redundancy numbers ------------------------------
# Z. Siki, "Level network adjustment and data snooping", a lesson with its results, found in
# https://github.com/OSGeoLabBp/tutorials, english/data_processing/level_net.rst: sigma 0.7 mm
# times the length in km, point 4 fixed. Signs of corrections are those of fitted less observed.


@pytest.fixture(scope="module")
def square() -> Adjustment:
    legs = [
        ("1", "2", -0.749, 1.1),
        ("1", "3", -1.274, 1.8),
        ("1", "4", -2.890, 1.4),
        ("2", "3", -0.530, 1.5),
        ("2", "4", -2.141, 1.9),
        ("3", "4", -1.614, 0.9),
    ]
    sized = [(start, end, rise, 0.0007 * km) for start, end, rise, km in legs]
    return levelled("123", {"4": 101.345}, sized)


def test_heights_and_deviations_of_four_points(square: Adjustment) -> None:
    assert square.x == pytest.approx([104.2350, 103.4868, 102.9588], abs=5e-5)
    assert square.sigma0 == pytest.approx(1.65, abs=0.005)
    assert square.sigma0**2 * square.dof == pytest.approx(8.217, abs=5e-4)
    assert square.sigma0 * deviations(square) == pytest.approx([1.13, 1.19, 0.91], abs=0.005)


def test_corrections_tests_and_redundancy_of_six_legs(square: Adjustment) -> None:
    corrections = -1000.0 * square.residuals
    assert corrections == pytest.approx([0.81, -2.18, 0.00, 2.01, -0.81, 0.18], abs=0.005)
    assert np.abs(square.w) == pytest.approx([1.9, 2.1, 0.0, 2.6, 0.7, 0.6], abs=0.05)
    assert square.redundancy == pytest.approx([0.3, 0.7, 0.5, 0.5, 0.7, 0.2], abs=0.05)
    assert square.redundancy.sum() == pytest.approx(3.0)


# --- three known points, two new ones ----------------------------------------------------------
# G. Strang, K. Borre, Linear Algebra, Geodesy, and GPS: a net of five legs. Data, sum of squares
# and the factor of the errors (its root over the degrees of freedom): found in two threads, at
# 6 mm for the root of a km: https://rplstoday.com/community/surveying-geomatics/
# how-would-you-adjust-this-leveling-data/ and https://rpls.com/forums/strictly-surveying/
# how-would-you-adjust-this-leveling-data.


def test_two_points_between_three_known_ones() -> None:
    legs = [
        ("A", "E", 0.732, 970),
        ("A", "F", 1.978, 1002),
        ("B", "E", 0.420, 1070),
        ("C", "F", 0.988, 1110),
        ("E", "F", 1.258, 890),
    ]
    sized = [(start, end, rise, 0.006 * sqrt(m / 1000)) for start, end, rise, m in legs]
    net = levelled("EF", {"A": 10.021, "B": 10.321, "C": 11.002}, sized)
    assert net.sigma0**2 * 3 == pytest.approx(4.636, abs=5e-4)
    assert net.sigma0 == pytest.approx(1.243, abs=5e-4)
    assert net.redundancy.sum() == pytest.approx(3.0)


# --- a blunder, by hand ------------------------------------------------------------------------
# Four points and all six legs, of equal weight. The fit leaves a leg with redundancy 1/2; of two
# legs that meet in a point each sees a quarter of the other, of two that don't nothing. A blunder
# of ten sigmas thus leaves a residual of five in its own leg and two and a half in four others.


def test_a_blunder_in_one_of_six_legs() -> None:
    heights = {"a": 0.0, "b": 1.2, "c": -0.4, "d": 0.7}
    pairs = ["ab", "ac", "ad", "bc", "bd", "cd"]
    legs: list[Leg] = [
        (pair[0], pair[1], heights[pair[1]] - heights[pair[0]] + 0.010 * (pair == "bc"), 0.001)
        for pair in pairs
    ]
    net = levelled("bcd", {"a": 0.0}, legs)
    assert net.redundancy == pytest.approx([0.5] * 6)
    # ab, ac, bd and cd meet bc; ad does not.
    assert 1000.0 * np.abs(net.residuals) == pytest.approx([2.5, 2.5, 0.0, 5.0, 2.5, 2.5])
    in_sigmas = np.array([2.5, 2.5, 0.0, 5.0, 2.5, 2.5])
    assert np.abs(net.w) == pytest.approx(in_sigmas * sqrt(2))
    assert np.abs(correlations(net, 3)) == pytest.approx([0.5, 0.5, 0.0, 1.0, 0.5, 0.5])
    # 3.2905 + 0.8416 from tables of the normal distribution, times sigma over the root of 1/2.
    assert 1000.0 * net.detectable == pytest.approx([4.1321 * sqrt(2)] * 6, rel=1e-4)
