import pytest
from tests.unit.core.cutting.outlines import U_BELOW, piece_of

from gaugerod.core.cutting.steps import Work, steps_of, tool_for
from gaugerod.core.job.sample import sample_system

CUTTING = sample_system().cutting


@pytest.mark.parametrize(
    ("tool", "work", "wanted"),
    [
        ("saw", "length", "saw"),
        ("saw", "notch", "jigsaw"),
        ("saw", "hole", "hole saw"),
        ("score and snap", "rip", "score and snap"),
        ("score and snap", "u-cut", "grinder"),
        ("score and snap", "hole", "wet hole saw"),
        ("wet saw", "scribe", "wet saw"),
        ("wet saw", "hole", "wet hole saw"),
    ],
)
def test_each_work_has_its_tool(tool: str, work: Work, wanted: str) -> None:
    assert tool_for(work, CUTTING.model_copy(update={"tool": tool})) == wanted


def test_straight_cuts_come_before_what_is_taken_out() -> None:
    ring = tuple((x, y or 40.0) for x, y in U_BELOW)
    assert [step.work for step in steps_of(piece_of(ring), CUTTING)] == ["rip", "u-cut"]
