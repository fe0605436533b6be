"""Where the pattern comes out of a corner, worked by hand."""

from dataclasses import replace

import pytest

from gaugerod.core.base.geometry import SNAP
from gaugerod.core.setout.layout import Meeting
from gaugerod.core.setout.sample import sample_batch
from gaugerod.core.setout.strips import Batch, batch_of
from gaugerod.core.setout.wrap import after_corner, offsets


@pytest.mark.parametrize(
    ("last", "first"),
    [
        (300.0, 285.0),  # 600 - 300 - (3 + 12)
        (584.0, 1.0),  # the least that is still of the same module
        (585.0, 600.0),  # the corner takes all that is left: a whole one follows
        (590.0, 595.0),  # and 5 of the next
        (600.0, 585.0),  # a whole one ends at the corner
    ],
)
def test_the_corner_takes_its_joint_and_its_lap(last: float, first: float) -> None:
    assert after_corner(pitch=600.0, last=last, joint=3.0, lap=12.0) == pytest.approx(first)


def test_noise_is_no_piece() -> None:
    found = after_corner(pitch=600.0, last=585.0 - SNAP / 2, joint=3.0, lap=12.0)
    assert found == pytest.approx(600.0, abs=SNAP)


def test_nothing_is_lost_where_nothing_laps() -> None:
    assert after_corner(pitch=600.0, last=450.0, joint=0.0, lap=0.0) == pytest.approx(150.0)


def wall(left: Meeting, right: Meeting, *, inside: float | None = None) -> Batch:
    """A plumb wall of 1500 in modules of 600; lining 9.525, bed 1.5875, joint 3.175, gap 3."""
    batch = sample_batch(0.0)
    plumb = replace(
        batch.case.wall,
        left=replace(batch.case.wall.left, offset=0.0, slope=0.0),
        right=replace(batch.case.wall.right, offset=1500.0, slope=0.0),
    )
    gaps = batch.case.system.gaps.model_copy(update={"inside": inside})
    system = batch.case.system.model_copy(update={"gaps": gaps})
    case = replace(batch.case, wall=plumb, met=(left, right), system=system)
    return batch_of(case, batch.lattice, batch.phases)


def test_a_wall_that_runs_behind_shows_up_to_the_next_ones_face() -> None:
    # 1500 - 11.1125 = 1488.8875 show, 288.8875 of the last; the corner swallows 14.2875 and
    # leaves 600 - 303.175 = 296.825, after 11.1125 + 3.175 that the other loses to lap and joint.
    found = offsets([wall("open", "runs behind"), wall("butts", "open")])
    assert list(found) == pytest.approx([0.0, 14.2875 + 296.825])


def test_one_that_butts_shows_to_its_own_rim() -> None:
    # 1500 - 14.2875 = 1485.7125: 285.7125 show, 600 - 300 = 300 follow from the face at 11.1125.
    found = offsets([wall("open", "butts"), wall("runs behind", "open")])
    assert list(found) == pytest.approx([0.0, 11.1125 + 300.0])


def test_a_channel_swallows_both_deducts() -> None:
    # 1496 of 1500 are lined, 296 of the last module; 600 - 296 - 8 = 296 follow from 4.
    found = offsets([wall("open", "trim", inside=4.0), wall("trim", "open", inside=4.0)])
    assert list(found) == pytest.approx([0.0, 4.0 + 296.0])


def test_an_outside_corner_swallows_nothing() -> None:
    # 1500 are lined, 300 of the last module. The other laps by 11.1125: its rim is at that less.
    found = offsets([wall("open", "stops"), wall("laps", "open")])
    assert list(found) == pytest.approx([0.0, 300.0 - 11.1125])
