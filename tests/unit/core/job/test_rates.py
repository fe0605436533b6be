import pytest

from gaugerod.core.job.materials import Kind
from gaugerod.core.job.rates import Task

TASK = {"id": "set", "name": "Set", "per": "piece", "hours": 1}


@pytest.mark.parametrize(
    ("asked", "kinds"),
    [
        ({}, {"keyed", "grouted", "sheet"}),
        ({"kind": "any"}, {"keyed", "grouted", "sheet"}),
        ({"kind": "sheet"}, {"sheet"}),
        ({"kind": ("keyed", "sheet")}, {"keyed", "sheet"}),
    ],
)
def test_a_task_is_asked_for_by_any_kind_or_by_those_named(
    asked: dict[str, object], kinds: set[Kind]
) -> None:
    task = Task.model_validate(TASK | asked)
    every: tuple[Kind, ...] = ("keyed", "grouted", "sheet")
    assert {kind for kind in every if task.suits(kind)} == kinds
