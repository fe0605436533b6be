import pytest
from tests.priced_by_hand import priced, rates

from gaugerod.core.job.sample import sample_job
from gaugerod.core.pricing.conditions import rates_for

FACTORS = [
    {"id": "floor", "name": "A floor without a lift", "times": 1.05},
    {"id": "occupied", "name": "Occupied", "times": 1.1},
]
TABLE = rates(
    {
        "id": "set",
        "per": "alcove",
        "low": 5,
        "hours": 10,
        "high": 20,
        "also": [{"per": "hole", "hours": 2}],
    },
    factor=FACTORS,
    place={"US-CA": {"permit": 300}},
)


@pytest.mark.parametrize(
    ("named", "times"),
    [((), 1.0), (("floor",), 1.05), (("floor", "occupied", "floor"), 1.05 * 1.1 * 1.05)],
)
def test_all_hours_of_a_job_take_its_factors(named: tuple[str, ...], times: float) -> None:
    made = rates_for(TABLE, sample_job().model_copy(update={"factors": named}))
    # 10 h and three holes of 2 h each; low 5 and 6, high 20 and 6.
    (task,) = priced(made).tasks
    assert task.likely == pytest.approx(960 * times, abs=0.5)
    assert task.low == pytest.approx(660 * times, abs=0.5)
    assert task.high == pytest.approx(1560 * times, abs=0.5)


def test_the_figures_are_those_of_the_place() -> None:
    job = sample_job()
    there = job.model_copy(update={"site": job.site.model_copy(update={"region": "US-CA"})})
    assert rates_for(TABLE, there).permit == 30_000
    assert rates_for(TABLE, job).permit == 0
