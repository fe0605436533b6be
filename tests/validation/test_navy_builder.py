"""Setting out wall tile by the Navy's training manual for builders.

Sources, each with how sure it is:

- Half-tile rule and start line at a tub: US Navy, *Builder* training manual, NAVEDTRA 14044,
  chapter 7, p. 7-23 (public domain),
  https://constructionmanuals.tpub.com/14044/css/Figure-7-26-Layout-for-installing-ceramic-wall-tile-233.htm.
  Found.
- Measuring stick: the same, p. 7-23/24,
  https://constructionmanuals.tpub.com/14044/css/Recommended-Reading-List-234.htm. Found.
- The numbers, and the rule with joints and edge gaps: hand arithmetic from the rule. Calculated.
- Two traps, calculated: where whole tiles just fit, the rule as printed cuts two half tiles;
  and with joints there is a band in which no centring gives a cut of half a tile.
"""

import pytest

from gaugerod.core.setout.balance import Balance, balance, end_cut, half_tile_rule
from gaugerod.core.setout.datum import course_height, level_line

TILE = 4.25
EIGHTH = 0.125


@pytest.mark.parametrize(
    ("length", "full", "end"),
    [
        (60.0, 13, 2.375),  # 14 tiles are 59-1/2: (1/2 + 4-1/4) / 2
        (92.0, 20, 3.5),  # 21 tiles are 89-1/4: (2-3/4 + 4-1/4) / 2
    ],
)
def test_half_tile_rule(length: float, full: int, end: float) -> None:
    found = half_tile_rule(length=length, tile=TILE)
    assert found == Balance(full=full, end=end)
    assert found.full * TILE + 2 * found.end == length


def test_where_whole_tiles_just_fit_nothing_is_cut() -> None:
    assert half_tile_rule(length=96.0, tile=6.0) == Balance(full=16, end=0.0)
    # What the rule as printed would give: 15 whole tiles and two halves.
    assert end_cut(length=96.0, tile=6.0, joint=0.0, gap=0.0, full=15) == 3.0


def test_a_stick_marked_in_tiles_shows_the_same_parts_at_both_ends() -> None:
    end = half_tile_rule(length=92.0, tile=TILE).end
    marks = [end + number * TILE for number in range(21)]
    assert marks[0] == 92.0 - marks[-1] == 3.5


@pytest.mark.parametrize(
    ("tile", "full", "end"),
    [
        (12.0, 4, 5.5625),  # 5-9/16: 60 - 1/4 - 48 - 5/8 = 11-1/8
        (12.0, 3, 11.625),
        (24.0, 2, 5.6875),  # 5-11/16: 60 - 1/4 - 48 - 3/8 = 11-3/8
        (24.0, 1, 17.75),
    ],
)
def test_with_joints_and_gaps(tile: float, full: int, end: float) -> None:
    assert end_cut(length=60.0, tile=tile, joint=EIGHTH, gap=EIGHTH, full=full) == end


@pytest.mark.parametrize(("tile", "full", "end"), [(12.0, 3, 11.625), (24.0, 1, 17.75)])
def test_the_larger_cut_is_taken(tile: float, full: int, end: float) -> None:
    found = balance(length=60.0, tile=tile, joint=EIGHTH, gap=EIGHTH)
    assert found == Balance(full=full, end=end)


def test_whole_tiles_just_fit_with_joints() -> None:
    # 5 x 12 + 4 x 1/8 + 2 x 1/8
    assert balance(length=60.75, tile=12.0, joint=EIGHTH, gap=EIGHTH) == Balance(full=5, end=0.0)


def test_the_dead_band() -> None:
    # With 8 whole tiles the cuts are under half, with 7 they would be longer than a tile.
    course = {"length": 56.125, "tile": 6.0, "joint": 0.25, "gap": 0.0}
    assert end_cut(**course, full=8) == 2.9375
    assert end_cut(**course, full=7) == 6.0625
    found = balance(**course)
    assert found == Balance(full=8, end=2.9375)
    assert 3.0 - 0.25 / 2 < found.end < 3.0  # short of half by less than half a joint


def test_the_start_line_is_one_tile_above_the_low_point() -> None:
    # A rim 3/8 higher at its far end, 60 away, and no gap: a whole tile at the low point only.
    line = level_line(deck_low=-30.0, height=TILE, gap=0.0)
    assert line == -25.75
    rim = {0.0: -30.0, 40.0: -29.75, 60.0: -29.625}
    heights = [course_height(line=line, deck=deck, gap=0.0) for deck in rim.values()]
    assert heights == [4.25, 4.0, 3.875]


def test_the_gap_at_the_rim_raises_the_line_and_costs_no_tile() -> None:
    line = level_line(deck_low=-30.0, height=TILE, gap=EIGHTH)
    assert line == -25.625
    assert course_height(line=line, deck=-30.0, gap=EIGHTH) == TILE
    # tile - (rim - lowest rim)
    assert course_height(line=line, deck=-29.625, gap=EIGHTH) == TILE - 0.375
