from math import exp, log

import pytest
from tests.priced_by_hand import rates

from gaugerod.core.job.past import PastJobs
from gaugerod.core.pricing.learning import learn, with_lesson

TABLE = rates(
    {
        "id": "set",
        "per": "piece",
        "low": 0.1,
        "hours": 0.2,
        "high": 0.5,
        "also": [{"per": "hole", "hours": 0.4}],
    },
    {"id": "clean", "per": "alcove", "hours": 2},
)


def past(*records: tuple[str, float, float]) -> PastJobs:
    jobs = [
        {"name": f"Job {n}", "task": [{"id": id_, "estimated": estimated, "actual": actual}]}
        for n, (id_, estimated, actual) in enumerate(records)
    ]
    return PastJobs.model_validate({"format": 1, "job": jobs})


def test_one_record_by_hand() -> None:
    # y = log 1.5 = 0.405465; w = 0.0625 / (0.0625 + 0.09) = 0.409836; exp(0.166174) = 1.18078;
    # sigma = sqrt(0.409836 x 0.09) = 0.192055, times 1.645 = 0.315930.
    (found,) = learn(past(("set", 8, 12)), TABLE).tasks
    assert (found.id, found.records) == ("set", 1)
    assert found.raw == pytest.approx(1.5)
    assert found.weight == pytest.approx(0.409836, abs=1e-6)
    assert found.factor == pytest.approx(1.18078, abs=1e-5)
    assert log(found.most / found.factor) == pytest.approx(0.31593, abs=1e-5)
    assert log(found.factor / found.least) == pytest.approx(0.31593, abs=1e-5)


def test_the_scatter_is_pooled_over_the_tasks() -> None:
    # Logs of set 0.1 and 0.3, of clean 0 and 0.4: squares within 0.02 and 0.08, two to spare;
    # s2 = (4 x 0.09 + 0.10) / (4 + 2) = 0.0766667; w = 0.0625 / (0.0625 + s2 / 2) = 0.619835.
    lesson = learn(
        past(("set", 1, exp(0.1)), ("set", 1, exp(0.3)), ("clean", 1, 1.0), ("clean", 1, exp(0.4))),
        TABLE,
    )
    assert lesson.scatter**2 == pytest.approx(0.0766667, abs=1e-6)
    clean, laid = lesson.tasks
    assert (clean.id, laid.id) == ("clean", "set")
    assert clean.weight == laid.weight == pytest.approx(0.619835, abs=1e-6)
    assert log(laid.factor) == pytest.approx(0.619835 * 0.2, abs=1e-6)


def test_a_task_that_the_table_has_not_is_named_and_not_used() -> None:
    lesson = learn(past(("sett", 8, 12), ("clean", 2, 2)), TABLE)
    assert lesson.unknown == ("sett",)
    assert [task.id for task in lesson.tasks] == ["clean"]


def test_all_hours_of_a_task_are_corrected_and_those_of_others_not() -> None:
    lesson = learn(past(("set", 8, 12)), TABLE)
    factor = lesson.tasks[0].factor
    laid, clean = with_lesson(TABLE, lesson).task
    assert laid.range == pytest.approx((0.1 * factor, 0.5 * factor))
    assert laid.hours == pytest.approx(0.2 * factor)
    assert laid.also[0].hours == pytest.approx(0.4 * factor)
    assert clean.hours == 2
    assert clean.range == (2, 2)


def test_the_table_itself_is_left_alone() -> None:
    before = TABLE.model_dump()
    with_lesson(TABLE, learn(past(("set", 8, 12)), TABLE))
    assert TABLE.model_dump() == before
