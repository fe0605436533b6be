import pytest

from gaugerod.core.base.errors import JobError
from gaugerod.core.job.calendar import HoldTable, Room
from gaugerod.core.works.holds import hold_minutes

BY_WARMTH = HoldTable.model_validate({"temperature": ["10 C", "20 C"], "hours": [[48], [24]]})
BY_BOTH = HoldTable.model_validate(
    {
        "temperature": ["5 C", "20 C"],
        "humidity": [30.0, 50.0, 90.0],
        "hours": [[72, 48, 48], [36, 24, 24]],
    }
)


def hours(table: HoldTable | None, temperature: str, humidity: float = 50.0) -> float:
    room = Room.model_validate({"temperature": temperature, "humidity": humidity})
    return hold_minutes(24, table, room, of="glue") / 60


@pytest.mark.parametrize("table", [None, BY_WARMTH, BY_BOTH])
def test_of_a_room_that_nobody_tells_of_the_hold_is_as_written(table: HoldTable | None) -> None:
    assert hold_minutes(24, table, None, of="glue") == 24 * 60


def test_up_to_a_whole_minute() -> None:
    assert hold_minutes(0.01, None, None, of="glue") == 1
    # 10.1 h are 606 minutes, and in floats a little less or more.
    assert hold_minutes(10.1, None, None, of="glue") == 606


@pytest.mark.parametrize(
    ("temperature", "expected"),
    [
        ("10 C", 48),
        ("12.5 C", 42),  # a quarter of the way: 48 - 24 / 4
        ("15 C", 36),
        ("59 F", 36),  # 59 F is 15 C
        ("20 C", 24),
        ("35 C", 24),  # warmer than the last row gains nothing
    ],
)
def test_straight_between_two_temperatures(temperature: str, expected: float) -> None:
    assert hours(BY_WARMTH, temperature) == expected


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [
        ("5 C", 30, 72),
        ("20 C", 40, 30),  # half-way between 36 and 24
        ("5 C", 40, 60),  # half-way between 72 and 48
        ("12.5 C", 40, 45),  # half-way between these two
        ("20 C", 90, 24),
    ],
)
def test_straight_between_two_humidities_too(
    temperature: str, humidity: float, expected: float
) -> None:
    assert hours(BY_BOTH, temperature, humidity) == expected


@pytest.mark.parametrize(
    ("temperature", "humidity", "expected"),
    [("16 C", 50, 24), ("15.9 C", 50, 48), ("20 C", 80, 24), ("20 C", 81, 48), ("5 C", 95, 48)],
)
def test_without_a_table_cold_or_damp_double_it(
    temperature: str, humidity: float, expected: float
) -> None:
    assert hours(None, temperature, humidity) == expected


def test_colder_than_the_table_nobody_knows() -> None:
    with pytest.raises(JobError) as caught:
        hours(BY_WARMTH, "9 C")
    assert caught.value.message.key == "works.too-cold"
    values = dict(caught.value.message.values)
    assert (values["of"], values["read"], values["least"]) == ("glue", 9.0, 10.0)
    assert (values["read_f"], values["least_f"]) == (48.2, 50.0)  # 9 * 9 / 5 + 32


@pytest.mark.parametrize("humidity", [29.0, 91.0])
def test_nor_drier_nor_damper_than_the_table(humidity: float) -> None:
    with pytest.raises(JobError) as caught:
        hours(BY_BOTH, "20 C", humidity)
    assert caught.value.message.key == "works.humidity"
    assert caught.value.message.values["read"] == humidity
    assert (caught.value.message.values["least"], caught.value.message.values["most"]) == (30, 90)
