import pytest
from tests.flat_by_hand import fitted, tolerance

from gaugerod.core.base.messages import Length
from gaugerod.core.job.readings import Gap
from gaugerod.core.survey.gaps import gap_departure, short_straightedges

LEVEL = Gap(kind="gap", at=750, height=300, straightedge=1200, held="level", reads=4)
HUMP = Gap(
    kind="gap", at=750, height=300, straightedge=600, held="plumb", fault="hump", reads=2, sigma=1
)


def test_a_hollow_under_a_level_straightedge() -> None:
    found = gap_departure(LEVEL, "rough")
    assert (found.start, found.end, found.at) == ((150.0, 300.0), (1350.0, 300.0), (750.0, 300.0))
    assert (found.way, found.held, found.span, found.by) == ("gap", "level", 1200.0, -4.0)
    assert found.sigma == 1.5


def test_a_hump_under_a_plumb_straightedge() -> None:
    found = gap_departure(HUMP, "good")
    assert (found.start, found.end) == ((750.0, 0.0), (750.0, 600.0))
    assert (found.held, found.by, found.sigma) == ("plumb", 2.0, 1.0)


@pytest.mark.parametrize(
    ("over", "wanted"),
    [
        (600.0, {}),
        (1400.0, {"level": 1400.0, "plumb": 1400.0}),
        (4000.0, {"level": 1500.0, "plumb": 2000.0}),  # no longer than the wall
    ],
)
def test_straightedges_shorter_than_limit_and_wall(over: float, wanted: dict[str, float]) -> None:
    row = tolerance(allows=[{"over": over, "at_most": 3}])
    notes = short_straightedges([LEVEL, HUMP], fitted(), [row])
    found = {str(note.values["held"]): note.values["wanted"] for note in notes}
    assert found == {held: Length(length) for held, length in wanted.items()}


def test_the_longest_straightedge_counts() -> None:
    row = tolerance(allows=[{"over": 1200, "at_most": 3}])
    short = LEVEL.model_copy(update={"straightedge": 600.0})
    assert list(short_straightedges([LEVEL, short], fitted(), [row])) == []
    assert list(short_straightedges([short], fitted(), [])) == []
