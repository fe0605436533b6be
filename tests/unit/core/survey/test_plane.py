import numpy as np
import pytest
from tests.flat_by_hand import spots

from gaugerod.core.base.errors import SurveyError
from gaugerod.core.job.readings import Depth
from gaugerod.core.survey.plane import fit_plane, lean_sigma
from gaugerod.core.survey.spots import spans_a_plane, spots_of

CORNERS = [(0.0, 0.0), (600.0, 0.0), (0.0, 600.0), (600.0, 600.0)]


def depth(at: float, height: float, reads: float, sigma: float | None = None) -> Depth:
    return Depth(kind="depth", at=at, height=height, reads=reads, sigma=sigma)


def test_a_place_stands_back_where_its_depth_is_greater() -> None:
    found = spots_of([depth(300, 0, 52), depth(0, 600, 50), depth(0, 0, 51)], "rough")
    assert [(spot.x, spot.y, spot.z) for spot in found] == [
        (0, 0, -51),
        (0, 600, -50),
        (300, 0, -52),
    ]
    assert {spot.sigma for spot in found} == {1.5}


def test_repeats_are_weighed_and_their_spread_is_kept() -> None:
    (spot,) = spots_of([depth(0, 0, 50, 0.5), depth(0, 0, 53, 1.0)], "good")
    # Weights 4 and 1: (4 * 50 + 53) / 5; sigma 1 / sqrt(5); spread 3 / sqrt(1.25)
    assert spot.z == pytest.approx(-50.6)
    assert spot.sigma == pytest.approx(0.2**0.5)
    assert spot.spread == pytest.approx(3 / 1.25**0.5)


def test_a_plane_needs_three_spots_off_one_line() -> None:
    slanted = spots({(0.0, 0.0): 0.0, (100.0, 100.0): 1.0, (200.0, 200.0): 2.0})
    assert not spans_a_plane(slanted)
    assert not spans_a_plane(slanted[:2])
    assert spans_a_plane([*slanted, *spots({(0.0, 100.0): 0.0})])
    with pytest.raises(SurveyError) as caught:
        fit_plane(slanted)
    assert caught.value.message.key == "flatness.no-plane"


def test_three_spots_give_their_plane_and_leave_nothing_over() -> None:
    plane = fit_plane(spots({(0.0, 0.0): 2.0, (100.0, 0.0): 3.0, (0.0, 100.0): 1.0}))
    assert (plane.offset, plane.across, plane.up) == pytest.approx((2.0, 0.01, -0.01))
    assert plane.residuals == pytest.approx((0.0, 0.0, 0.0))
    assert (plane.sigma0, plane.dof) == (0.0, 0)


def test_a_twisted_square_by_hand() -> None:
    # One corner of four 4 mm proud: the mean is 1, both slopes 4 / 2 / 600, and each corner
    # is left with a quarter of the twist, by turns plus and minus.
    plane = fit_plane(spots(dict(zip(CORNERS, [0.0, 0.0, 0.0, 4.0], strict=True)), sigma=1.0))
    assert (plane.across, plane.up) == pytest.approx((1 / 300, 1 / 300))
    assert plane.residuals == pytest.approx((1.0, -1.0, -1.0, 1.0))
    assert plane.sigma0 == pytest.approx(2.0)
    assert plane.dof == 1
    # var(up) = sigma2 / sum (y - mean)2 = 1 / (4 * 300**2)
    assert plane.covariance[2, 2] == pytest.approx(1 / 360_000)
    assert not plane.covariance.flags.writeable


def test_a_wavy_wall_leaves_its_lean_less_sure() -> None:
    flat = fit_plane(spots(dict.fromkeys(CORNERS, 0.0), sigma=1.0))
    twisted = fit_plane(spots(dict(zip(CORNERS, [0.0, 0.0, 0.0, 4.0], strict=True)), sigma=1.0))
    assert lean_sigma(flat, over=600.0) == pytest.approx(1.0)
    assert lean_sigma(twisted, over=600.0) == pytest.approx(2.0)


def test_the_surest_spot_weighs_most() -> None:
    read = [*spots({(0.0, 0.0): 0.0, (600.0, 0.0): 0.0, (0.0, 600.0): 0.0}, sigma=1e3)]
    read += spots({(600.0, 600.0): 4.0}, sigma=1e-3)
    assert abs(fit_plane(read).residuals[3]) < 1e-6
    assert np.abs(fit_plane(read).residuals[:3]) == pytest.approx([4 / 3] * 3, rel=1e-3)
