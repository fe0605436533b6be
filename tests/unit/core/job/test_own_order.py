import pytest
from pydantic import ValidationError

from gaugerod.core.job.own_order import Bought


@pytest.mark.parametrize(
    ("ordered", "arrived"),
    [("2026-03-02", "2026-03-02"), (None, "2026-03-02"), ("2026-03-02", None)],
)
def test_it_comes_on_the_day_that_it_is_ordered_or_later(
    ordered: str | None, arrived: str | None
) -> None:
    Bought.model_validate({"item": "modules", "count": 1, "ordered": ordered, "arrived": arrived})


def test_it_does_not_come_before() -> None:
    early = {"item": "modules", "count": 1, "ordered": "2026-03-02", "arrived": "2026-03-01"}
    with pytest.raises(ValidationError) as caught:
        Bought.model_validate(early)
    (error,) = caught.value.errors()
    assert error["ctx"]["message"].key == "job.came-too-early"
