import pytest
from pydantic import ValidationError
from tests.priced_by_hand import ALL_IN, rates

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


def refusal(**changes: object) -> tuple[str, dict[str, object]]:
    with pytest.raises(ValidationError) as caught:
        rates(ALL_IN, **changes)
    (error,) = caught.value.errors()
    message = error["ctx"]["message"]
    return message.key, dict(message.values)


CREW = {"wage": 28, "burden": 0.35, "billable": 0.8}


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"crew": CREW}, "rates.labour-or-crew"),
        ({"labour": None}, "rates.labour-or-crew"),
        ({"margin": 0.3}, "rates.markup-or-margin"),
        ({"markup": None}, "rates.markup-or-margin"),
    ],
)
def test_one_of_two_ways_is_given_and_not_both(changes: dict[str, object], key: str) -> None:
    assert refusal(**changes) == (key, {})


def test_a_rate_or_its_parts_and_a_markup_or_a_margin_will_do() -> None:
    assert rates(ALL_IN, labour=None, crew=CREW).labour is None
    assert rates(ALL_IN, markup=None, margin=0.3).markup is None


def test_deposit_and_draws_are_the_whole_price() -> None:
    draws = [{"name": "Walls set", "share": 0.7}, {"name": "Done", "share": 0.2}]
    assert rates(ALL_IN, terms={"deposit": 0.1, "draw": draws}).terms
    key, values = refusal(terms={"deposit": 0.15, "draw": draws})
    assert (key, values) == ("rates.not-the-whole", {"percent": "105.00"})


@pytest.mark.parametrize(("low", "high"), [(1.5, 2), (0.5, 0.9), (2, 0.5)])
def test_hours_that_are_out_of_order_are_refused(low: float, high: float) -> None:
    with pytest.raises(ValidationError) as caught:
        Task.model_validate(TASK | {"low": low, "high": high})
    message = caught.value.errors()[0]["ctx"]["message"]
    assert message.key == "rates.out-of-order"
    assert dict(message.values) == {"low": low, "likely": 1, "high": high}


def test_hours_that_are_not_given_are_the_likely_ones() -> None:
    assert Task.model_validate(TASK).range == (1, 1)
    assert Task.model_validate(TASK | {"low": 0.5}).range == (0.5, 1)
    assert Task.model_validate(TASK | {"high": 3}).range == (1, 3)
