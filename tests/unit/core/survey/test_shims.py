import pytest
from tests.flat_by_hand import spots

from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.survey.shims import shim_schedule

# Three studs 400 mm apart, read at foot and head; the first is the proudest, at its head.
STUDS = spots(
    {
        (0.0, 0.0): -51.0,
        (0.0, 1800.0): -50.0,
        (400.0, 0.0): -56.4,
        (400.0, 1800.0): -55.5,
        (800.0, 0.0): -54.0,
        (800.0, 1800.0): -54.0,
    }
)


def test_shims_bring_studs_out_to_the_proudest() -> None:
    made = shim_schedule(STUDS, display=METRIC)
    assert [shim.exact for shim in made.shims] == pytest.approx([1, 0, 6.4, 5.5, 4, 4])
    assert [shim.thickness for shim in made.shims] == [1, 0, 6, 6, 4, 4]  # a half goes up
    assert made.thickest == 6
    assert made.shims[2].at == (400.0, 0.0)
    assert (made.target.offset, made.target.up) == (-50.0, 0.0)


def test_shims_of_a_sixteenth() -> None:
    made = shim_schedule(STUDS, display=IMPERIAL)
    # 1 mm is 0.63 of 1/16 in; 6.4 is 4.03; 5.5 is 3.46; 4 is 2.52
    sixteenths = [shim.thickness / (25.4 / 16) for shim in made.shims]
    assert sixteenths == pytest.approx([1, 0, 4, 3, 3, 3])


def test_a_plumb_plane_may_turn_to_take_less_shim() -> None:
    # Studs on a plumb plane that the reference was not parallel to.
    turned = spots({(0.0, 0.0): 0.0, (400.0, 0.0): -4.0, (800.0, 0.0): -8.0})
    assert shim_schedule(turned, display=METRIC).thickest == 8
    free = shim_schedule(turned, display=METRIC, goal="plumb")
    assert [shim.thickness for shim in free.shims] == [0, 0, 0]
    assert free.target.across == pytest.approx(-0.01)
