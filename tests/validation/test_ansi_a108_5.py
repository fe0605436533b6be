"""Bed and contact of wall tile in mortar.

ANSI A108.5, 2.2.2 and 2.2.3, quoted by tile-magazine.com/articles/91948-why-95-mortar-coverage-is-
necessary-on-shower-walls (found, quoted; the standard itself was not opened): at least 3/32 in
(2 mm) of mortar between tile and backing once the tile is embedded; contact of 80 % in general, of
95 % in showers and tubs. Natural stone is commonly asked to have all of it (found:
tileletter.s3-website-us-east-1.amazonaws.com/201701/inc/html/78.html).
"""

import pytest
from tests.fixtures_plan import MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.takeoff.beds import mean_bed
from gaugerod.packet.closing import gates
from gaugerod.packet.paper import Checklist, Columns
from gaugerod.store.shelf import Library

INCH = 25.4
LEAST = 2.0
"""The metric figure; 3/32 in is 2.38 mm."""


def test_every_packaged_mortar_leaves_the_least_bed() -> None:
    mortars = [one.mortar for one in Library().materials().systems.values() if one.mortar]
    assert mortars
    for mortar in mortars:
        bed = mean_bed(depth=mortar.notch_depth, width=mortar.notch_width, gap=mortar.notch_gap)
        assert bed >= 3 / 32 * INCH


@pytest.mark.parametrize(
    ("depth", "width", "enough"),
    [(3 / 16, 1 / 4, False), (1 / 4, 1 / 4, True), (3 / 8, 1 / 4, True), (1 / 2, 1 / 2, True)],
)
def test_which_notches_leave_it(depth: float, width: float, enough: bool) -> None:
    # By hand: half the depth times sin 45 deg: 1.68, 2.25, 3.37, 4.49 mm.
    bed = mean_bed(depth=depth * INCH, width=width * INCH, gap=width * INCH)
    assert (bed >= LEAST) == enough


def asked(tiled: bool) -> list[str]:
    plan = tiled_plan() if tiled else keyed_plan()
    columns = [block for block in gates(plan, words_in(MILLIMETRES)) if isinstance(block, Columns)]
    lists = [one for block in columns for one in block.blocks if isinstance(one, Checklist)]
    return [item for one in lists for item in one.items]


def test_the_crew_lifts_a_tile_and_looks_for_its_contact() -> None:
    (line,) = [item for item in asked(tiled=True) if "95 %" in item]
    assert "stone" in line
    assert not any("95 %" in item for item in asked(tiled=False))
