"""Flatness and plumb of walls by the German standard for tolerances in building.

Sources, each with how sure it is. The standard itself is sold; it was read where others quote it.

- DIN 18202 table 3, rows 5 and 6, with the interpolated columns:
  https://deploy.doczz.net/doc/5839552/tabelle-3--ebenheitstoleranzen--aus-din-18202-erweiterte-...
  Found; every interpolated figure recomputed. The nodes of the standard are 0.1, 1, 4, 10 and
  15 m, the rest is a straight line rounded to whole millimetres.
- Row 5 again, and the rounding in words:
  http://www.klb-klimaleichtblock.de/mauerwerk/mauerwerk-in-der-praxis/konstruktion/toleranzen-bei-der-mauerwerkserst/ebenheitstoleranzen-fuer-waende-im-rohbauzustand.html
  Found.
- Row 6 again (5 mm at 1 m, 10 at 4 m, 20 at 10 m, 25 at 15 m), and that the gap is taken from
  the line that joins two high points, by a straightedge that is laid on them and not levelled:
  http://www.stefan-freiberger.de/unebenheiten-messen-din-18202.htm (DIN 18202:2019-07) and
  http://www.bts-betontechnik.eu/din-18202. Found.
- The grid: a height less the mean of its two neighbours; on a 1 m grid the span is 2 m; the two
  methods may give different figures on one surface. The second page above, and
  https://beaplan.de/technische-beurteilung/pruefung-von-ebenheit-und-winkeltoleranz/. Found.
- Table 2, angles, by nominal length: the last page above. Found. Its last row, for more than
  30 m, is no wall of one room and is left out.
"""

import numpy as np
import pytest
from tests.flat_by_hand import BY_ID, grid, spots, surface

from gaugerod.core.job.tolerances import Tolerance
from gaugerod.core.survey.grid import grid_departures
from gaugerod.core.survey.limits import Judged, allowed, judge
from gaugerod.core.survey.straightedge import straightedge

SPACINGS = [0.1, 0.6, 1, 1.5, 2, 2.5, 3, 3.5, 4, 6, 8, 10, 15]
ROW_5 = [5, 8, 10, 11, 12, 13, 13, 14, 15, 18, 22, 25, 30]
ROW_6 = [3, 4, 5, 6, 7, 8, 8, 9, 10, 13, 17, 20, 25]
UNFINISHED, FINISHED = BY_ID["din-unfinished"], BY_ID["din-finished"]


def limit(row: Tolerance, metres: float) -> float:
    return float(allowed(row, np.array(metres * 1000)))


@pytest.mark.parametrize(("metres", "mm"), list(zip(SPACINGS, ROW_5, strict=True)))
def test_table_3_row_5_unfinished_walls(metres: float, mm: float) -> None:
    assert limit(UNFINISHED, metres) == mm


@pytest.mark.parametrize("name", ["din-finished", "din-under-thin-bed"])
@pytest.mark.parametrize(("metres", "mm"), list(zip(SPACINGS, ROW_6, strict=True)))
def test_table_3_row_6_finished_walls(name: str, metres: float, mm: float) -> None:
    assert limit(BY_ID[name], metres) == mm


def test_table_3_ends_at_15_m() -> None:
    assert limit(FINISHED, 15.001) == np.inf


@pytest.mark.parametrize(
    ("metres", "mm"),
    [
        (0.2, 3),
        (0.5, 3),
        (0.51, 6),
        (1, 6),
        (1.01, 8),
        (3, 8),
        (3.01, 12),
        (6, 12),
        (6.01, 16),
        (15, 16),
        (15.01, 20),
        (30, 20),
    ],
)
def test_table_2_angles(metres: float, mm: float) -> None:
    assert limit(BY_ID["din-plumb"], metres) == mm


def laid(heights: dict[float, float], *, lean: float = 0.0) -> Judged:
    """The worst gap of a strip of wall, by row 6; `lean` is a slope that it has besides."""
    read = {(x, y): z + lean * x for x, z in heights.items() for y in (0.0, 500.0)}
    mesh, over = surface(spots(read))
    (found,) = straightedge(mesh, over, [FINISHED], sigma=0.0, held="level")
    return found


@pytest.mark.parametrize("lean", [0.0, 0.01, -0.05])
@pytest.mark.parametrize(("hollow", "verdict"), [(5.0, "within"), (5.1, "out")])
def test_5_mm_between_high_points_1_m_apart(lean: float, hollow: float, verdict: str) -> None:
    found = laid({0.0: 0.0, 500.0: -hollow, 1000.0: 0.0}, lean=lean)
    assert found.departure.by == pytest.approx(-hollow)
    assert found.departure.span == pytest.approx(1000.0)
    assert found.limit == 5.0
    assert found.verdict == verdict


@pytest.mark.parametrize(("hollow", "verdict"), [(10.0, "within"), (10.1, "out")])
def test_10_mm_between_high_points_4_m_apart(hollow: float, verdict: str) -> None:
    # A shallow trough, so that shorter distances are well within.
    depth = {0.0: 0.0, 1000.0: -0.8, 2000.0: -1.0, 3000.0: -0.8, 4000.0: 0.0}
    found = laid({x: share * hollow for x, share in depth.items()})
    assert found.departure.span == pytest.approx(4000.0)
    assert found.verdict == verdict


def test_the_high_points_set_the_distance_not_the_straightedge() -> None:
    # A short dip in a long flat wall: 6 mm would do over 1.5 m, and do not over 0.6 m.
    found = laid({0.0: 0.0, 600.0: 0.0, 900.0: -6.0, 1200.0: 0.0, 2400.0: 0.0})
    assert found.departure.span == pytest.approx(600.0)
    assert (found.limit, found.verdict) == (4.0, "out")


def test_the_grid_method_on_a_1_m_grid() -> None:
    # Heights along a line: 3, 12, 7. The mean of the neighbours is 5, the deviation 7, which
    # is what a span of 2 m allows.
    (found,) = grid_departures(grid([3.0, 12.0, 7.0], step=1000.0))
    judged = judge(found, FINISHED)
    assert (found.by, found.span) == (7.0, 2000.0)
    assert (judged.limit, judged.verdict) == (7.0, "within")


def test_the_two_methods_differ_over_a_hump() -> None:
    hump = {0.0: 0.0, 1000.0: 9.0, 2000.0: 0.0}
    assert laid(hump).departure.by == 0.0
    (found,) = grid_departures(spots({(x, 0.0): z for x, z in hump.items()}))
    assert found.by == 9.0
    assert judge(found, FINISHED).verdict == "out"
