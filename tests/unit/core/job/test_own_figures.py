import pytest
from pydantic import ValidationError

from gaugerod.core.job.own_figures import Pricing


@pytest.mark.parametrize(
    ("own", "key"),
    [
        ({"markup": 0.5, "margin": 0.3}, "rates.markup-or-margin"),
        ({"task": [{"task": "set", "hours": 3, "low": 4}]}, "rates.out-of-order"),
    ],
)
def test_what_contradicts_itself_is_refused(own: dict[str, object], key: str) -> None:
    with pytest.raises(ValidationError) as caught:
        Pricing.model_validate(own)
    (error,) = caught.value.errors()
    assert error["ctx"]["message"].key == key


def test_nothing_is_said_as_a_rule() -> None:
    own = Pricing()
    assert not any(own.model_dump().values())
