import numpy as np
import pytest
from tests.priced_by_hand import bought, priced, rates, taken

from gaugerod.core.pricing.spread import drawn_minutes, spread_of

SHAKY: dict[str, object] = {"id": "a", "per": "alcove", "low": 10, "hours": 20, "high": 60}
STEADY: dict[str, object] = {"id": "b", "per": "alcove", "hours": 10}


def test_the_same_seed_gives_the_same_bytes_and_another_does_not() -> None:
    tasks = (taken("a", 30, 60, 150), taken("b", 10, 20, 60))
    first = drawn_minutes(tasks, together=0.3, seed=5)
    assert first.tobytes() == drawn_minutes(tasks, together=0.3, seed=5).tobytes()
    assert first.tobytes() != drawn_minutes(tasks, together=0.3, seed=6).tobytes()


def test_the_order_of_the_tasks_changes_nothing() -> None:
    tasks = (taken("a", 30, 60, 150), taken("b", 10, 20, 60), taken("c", 0, 5, 6))
    drawn = drawn_minutes(tasks, together=0.3)
    assert drawn.tobytes() == drawn_minutes(tasks[::-1], together=0.3).tobytes()


def test_tasks_that_run_late_together_spread_more() -> None:
    tasks = tuple(taken(f"t{n}", 30, 60, 150) for n in range(9))
    apart, somewhat, wholly = (
        float(np.std(drawn_minutes(tasks, together=together))) for together in (0.0, 0.3, 1.0)
    )
    # Nine alike: the sigmas of those apart are a third of those that go all together.
    assert wholly / apart == pytest.approx(3.0, rel=0.05)
    assert apart < somewhat < wholly


def test_people_who_work_together_are_all_paid() -> None:
    one = drawn_minutes((taken("a", 30, 60, 150),), together=0.0)
    two = drawn_minutes((taken("a", 30, 60, 150, people=2),), together=0.0)
    assert np.allclose(two, 2 * one)


def test_a_spread_is_what_its_hours_are_priced_at() -> None:
    table = rates(SHAKY, STEADY, contingency=0.05, markup=0.5, tax=0.0725, subs=650, freight=40)
    price = priced(table, bought("modules", count=5, cents=21_200))
    spread = spread_of(price, table)
    # The same job with the low hours as its only ones, priced from the beginning.
    for minutes, cents in (
        (spread.low_minutes, spread.low),
        (spread.likely_minutes, spread.likely),
        (spread.high_minutes, spread.high),
    ):
        flat: dict[str, object] = {"id": "flat", "per": "alcove", "hours": minutes / 60}
        same = table.model_copy(update={"task": rates(flat).task})
        again = priced(same, bought("modules", count=5, cents=21_200))
        assert (again.minutes, again.price) == (minutes, cents)


def test_a_job_that_may_go_ill_but_not_well_is_seldom_longer_than_priced() -> None:
    # The mean of a distribution with a long tail lies above its half.
    table = rates(SHAKY)
    assert 0.35 < spread_of(priced(table), table).over < 0.5


def test_nothing_to_do_does_not_spread() -> None:
    table = rates()
    spread = spread_of(priced(table), table)
    assert (spread.low, spread.high, spread.over) == (0, 0, 0.0)
