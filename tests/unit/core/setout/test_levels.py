from dataclasses import replace

import numpy as np
import pytest

from gaugerod.core.base.geometry import Point
from gaugerod.core.setout.levels import feet, levels_of, slopes_of, tall_sides
from gaugerod.core.setout.sample import sample_batch
from gaugerod.core.setout.strips import Batch, batch_of


def under(*ceiling: Point, phase: float = 450.0, top: float = 2000.0) -> Batch:
    """The sample's back wall, field from 14.2875 to 1497, under a ceiling, the gap taken off."""
    plain = sample_batch(phase)
    raised = tuple((x, y + plain.case.system.gaps.ceiling) for x, y in ceiling)
    wall = replace(plain.case.wall, ceiling=raised)
    return batch_of(replace(plain.case, wall=wall, top=top), plain.lattice, np.array([phase]))


@pytest.mark.parametrize("rises", [True, False])
def test_a_course_ends_where_a_slope_crosses_its_foot(*, rises: bool) -> None:
    # From 400 to 700 over 1500, a fifth. Course 4 stands from 130 to 430, course 5 from 430.
    ends = (400.0, 700.0) if rises else (700.0, 400.0)
    batch = under((0.0, ends[0]), (1500.0, ends[1]))
    four, five = feet(batch)
    assert (four.course, five.course) == (4, 5)
    # Course 4 goes on to the rim, where the ceiling is 270 and a fifth of its distance over it.
    rim = 14.2875 if rises else 1497.0
    assert four.x == pytest.approx(rim, abs=0.01)
    assert four.low == pytest.approx(270 + (rim if rises else 1500 - rim) / 5, abs=0.01)
    # Course 5 ends in a point 30 higher than the low end, 150 from it.
    assert five.x == pytest.approx(150.0 if rises else 1350.0, abs=0.01)
    assert five.low == pytest.approx(0.0, abs=0.01)


@pytest.mark.parametrize(("rises", "tall"), [(True, 60.0), (False, 60.0)])
def test_a_pointed_piece_counts_by_its_tall_side(*, rises: bool, tall: float) -> None:
    # Modules begin at 450 and at 1050: the point at 150 is 300 from the one, that at 1350
    # 300 from the other; a fifth of either.
    ends = (400.0, 700.0) if rises else (700.0, 400.0)
    batch = under((0.0, ends[0]), (1500.0, ends[1]))
    _, five = slopes_of(batch)
    assert five.size.tolist() == pytest.approx([tall], abs=0.01)
    assert five.lost.tolist() == pytest.approx([300 - tall], abs=0.01)
    assert tall_sides(batch, batch.case.wall)[1] == pytest.approx(tall, abs=0.01)
    # The first course alone is level: nothing else is under the slope from end to end.
    assert [strip.where for strip in levels_of(batch)] == ["bottom"]


def test_a_finish_line_under_the_high_end_of_a_slope_is_level_there() -> None:
    batch = under((0.0, 700.0), (1500.0, 400.0), top=600.0)
    _, last = levels_of(batch)
    # Course 5 begins at 430 and stops at 600.
    assert (last.where, last.size.tolist()) == ("top", pytest.approx([170.0]))


def test_the_level_part_of_a_ceiling_has_its_own_last_course() -> None:
    # Level at 700 up to 900, then down by a half to 400.
    batch = under((0.0, 700.0), (900.0, 700.0), (1500.0, 400.0))
    _, last = levels_of(batch)
    assert last.size.tolist() == pytest.approx([270.0])


def test_a_ledge_over_the_finish_line_has_no_course() -> None:
    plain = sample_batch(450.0)
    deck = ((0.0, -760.0), (1000.0, -760.0), (1000.0, 200.0), (1500.0, 200.0))
    wall = replace(plain.case.wall, deck=deck, parts=("rim", "ledge"))
    batch = batch_of(replace(plain.case, wall=wall, top=130.0), plain.lattice, np.array([450.0]))
    assert [strip.where for strip in levels_of(batch)] == ["bottom", "top"]
