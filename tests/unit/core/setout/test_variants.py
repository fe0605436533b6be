import pytest

from gaugerod.core.job.document import Choices
from gaugerod.core.job.sample import sample_system
from gaugerod.core.setout.variants import variants

SYSTEM = sample_system().model_copy(update={"turns": ("lying", "standing")})


def shares(**update: object) -> list[float]:
    choices = Choices.model_validate({"material": "sample", "turn": "lying", **update})
    return [variant.share for variant in variants(choices, SYSTEM)]


@pytest.mark.parametrize(
    ("update", "expected"),
    [
        ({"bond": "stack"}, [0.0]),
        ({"bond": "half"}, [0.5]),
        ({"bond": "third"}, [1 / 3, -1 / 3]),
        ({"bond": "third", "step": "right"}, [1 / 3]),
        ({"bond": "third", "step": "left"}, [-1 / 3]),
        # A stack and a half bond have no side.
        ({"bond": "half", "step": "left"}, [0.5]),
        ({"bond": "stack", "step": "left"}, [0.0]),
        ({"bond": 0.25}, [0.25, -0.25]),
        ({"bond": 0.5}, [0.5]),
        ({"bond": "any", "step": "right"}, [0.0, 0.5, 1 / 3]),
        ({}, [0.0, 0.5, 1 / 3, -1 / 3]),
    ],
)
def test_each_pattern_once(update: dict[str, object], expected: list[float]) -> None:
    assert shares(**update) == pytest.approx(expected)


def test_turns_and_finishes_multiply() -> None:
    choices = Choices.model_validate({"material": "sample", "bond": 0.25, "finish": "any"})
    found = variants(choices, SYSTEM)
    assert len(found) == len(set(found)) == 2 * 2 * 2
    assert {one.bond for one in found} == {"0.25"}
    assert {(one.turn, one.finish) for one in found} == {
        (turn, finish) for turn in ("lying", "standing") for finish in ("line", "ceiling")
    }
