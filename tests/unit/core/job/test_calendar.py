from collections.abc import Mapping
from datetime import datetime

import pytest
from pydantic import ValidationError

from gaugerod.core.base.messages import Message
from gaugerod.core.job.calendar import HoldTable, Progress, Room


@pytest.mark.parametrize(
    ("read", "celsius"),
    [
        ("20 C", 20.0),
        ("-2.5 C", -2.5),
        ("68 F", 20.0),
        ("50 °F", 10.0),
        ("32F", 0.0),
    ],
)
def test_a_temperature_says_its_unit(read: str, celsius: float) -> None:
    assert Room.model_validate({"temperature": read}).temperature == pytest.approx(
        celsius, abs=1e-12
    )


def key_of(error: ValidationError) -> str:
    (found,) = error.errors()
    message = found["ctx"]["message"]
    assert isinstance(message, Message)
    return message.key


@pytest.mark.parametrize("read", [19, 68.0, "20", "warm", "20 K", "C", True, None])
def test_what_is_no_temperature(read: object) -> None:
    with pytest.raises(ValidationError) as caught:
        Room.model_validate({"temperature": read})
    assert key_of(caught.value) == "field.not-a-temperature"


@pytest.mark.parametrize("humidity", [-1.0, 101.0])
def test_humidity_is_in_per_cent(humidity: float) -> None:
    with pytest.raises(ValidationError):
        Room(humidity=humidity)


def test_a_moment_is_in_the_time_of_the_place() -> None:
    read = Progress.model_validate({"task": "a", "started": "2026-03-05T09:00:00"})
    assert read.started == datetime(2026, 3, 5, 9, 0)  # noqa: DTZ001 - as it is written


@pytest.mark.parametrize("read", ["2026-03-05T09:00:00Z", "soon", 1700000000, "2026-13-01", True])
def test_what_is_no_moment(read: object) -> None:
    with pytest.raises(ValidationError) as caught:
        Progress.model_validate({"task": "a", "started": read})
    assert key_of(caught.value) == "field.not-a-moment"


@pytest.mark.parametrize(
    ("table", "key"),
    [
        ({"temperature": ["10 C", "20 C"], "hours": [[48]]}, "material.hold-rows"),
        ({"temperature": ["10 C"], "hours": [[48, 24]]}, "material.hold-rows"),
        (
            {"temperature": ["10 C"], "humidity": [30.0, 50.0], "hours": [[48]]},
            "material.hold-rows",
        ),
        ({"temperature": ["20 C", "10 C"], "hours": [[24], [48]]}, "material.hold-order"),
        ({"temperature": ["10 C", "50 F"], "hours": [[24], [48]]}, "material.hold-order"),
        (
            {"temperature": ["10 C"], "humidity": [50.0, 30.0], "hours": [[48, 24]]},
            "material.hold-order",
        ),
    ],
)
def test_a_table_of_holds_that_is_not_whole(table: Mapping[str, object], key: str) -> None:
    with pytest.raises(ValidationError) as caught:
        HoldTable.model_validate(table)
    assert key_of(caught.value) == key
