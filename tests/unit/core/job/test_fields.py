from datetime import UTC, date, datetime, time
from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from gaugerod.core.base.messages import Message
from gaugerod.core.job.fields import (
    Cents,
    Day,
    LengthField,
    NonNegativeLength,
    PositiveLength,
    Share,
    TimeOfDay,
    WallName,
)

LENGTH: TypeAdapter[float] = TypeAdapter(LengthField)
CENTS: TypeAdapter[int] = TypeAdapter(Cents)
DAY: TypeAdapter[date] = TypeAdapter(Day)
TIME: TypeAdapter[time] = TypeAdapter(TimeOfDay)


def refusal(adapter: TypeAdapter[Any], value: object, unit: str = "mm") -> Message:
    with pytest.raises(ValidationError) as caught:
        adapter.validate_python(value, context={"unit": unit})
    (details,) = caught.value.errors()
    message = details["ctx"]["message"]
    assert isinstance(message, Message)
    return message


# 1 in = 25.4 mm exactly: NIST SP 811, from memory.
@pytest.mark.parametrize(
    ("written", "unit", "mm"),
    [
        (60, "in", 1524.0),
        (1524, "mm", 1524.0),
        (152.4, "cm", 1524.0),
        ("60.0", "in", 1524.0),
        ("59 13/16", "in", 59.8125 * 25.4),
        ("1520 mm", "in", 1520.0),
        (-2.5, "in", -63.5),
        (0.1, "cm", 1.0),
    ],
)
def test_a_length_is_read_in_the_units_of_its_file(
    written: float | str, unit: str, mm: float
) -> None:
    assert LENGTH.validate_python(written, context={"unit": unit}) == mm


def test_without_a_unit_plain_numbers_are_mm() -> None:
    assert LENGTH.validate_python(3) == 3.0


@pytest.mark.parametrize("value", [True, None, [1], {}])
def test_what_is_no_number_and_no_text_is_no_length(value: object) -> None:
    assert refusal(LENGTH, value).key == "field.not-a-length"


def test_a_yes_is_repeated_as_the_file_has_it() -> None:
    assert refusal(LENGTH, True).values["read"] == "true"


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_a_number_that_is_none_is_no_length(value: float) -> None:
    assert refusal(LENGTH, value) == Message("field.not-a-length", read=str(value))


def test_text_that_cannot_be_read_says_why() -> None:
    message = refusal(LENGTH, "63 9/8", "in")
    assert (message.key, message.values["found"]) == ("length.improper", "9/8")


@pytest.mark.parametrize("value", [30_000.1, -31_000, 10**400, 1e300, "99999"])
def test_no_length_is_longer_than_any_room(value: float | str) -> None:
    assert refusal(LENGTH, value).key == "field.too-long"


def test_too_long_names_the_unit_that_may_be_wrong() -> None:
    assert refusal(LENGTH, 1524, "in") == Message("field.too-long", read="1524", unit="in")


def test_the_longest_length_is_read() -> None:
    assert LENGTH.validate_python(30_000) == 30_000.0


def test_signs_are_held() -> None:
    positive: TypeAdapter[float] = TypeAdapter(PositiveLength)
    not_negative: TypeAdapter[float] = TypeAdapter(NonNegativeLength)
    assert refusal(positive, 0).key == "field.not-positive"
    assert refusal(not_negative, -0.1).key == "field.negative"
    assert (positive.validate_python(0.1), not_negative.validate_python(0)) == (0.1, 0.0)


@pytest.mark.parametrize(
    ("written", "cents"),
    [(212, 21200), (18.5, 1850), ("0.125", 13), ("0.135", 14), (0, 0), (10_000_000, 1_000_000_000)],
)
def test_money_is_rounded_half_up_to_whole_cents(written: float | str, cents: int) -> None:
    assert CENTS.validate_python(written) == cents


@pytest.mark.parametrize("value", [True, None, "ten", "NaN", "inf", -1, 10_000_001, float("nan")])
def test_what_is_no_amount_is_refused(value: object) -> None:
    assert refusal(CENTS, value).key == "field.not-money"


def test_a_day_is_a_date_or_text_that_is_one() -> None:
    assert DAY.validate_python(date(2026, 3, 2)) == date(2026, 3, 2)
    assert DAY.validate_python("2026-03-02") == date(2026, 3, 2)


@pytest.mark.parametrize(
    "value",
    [20260302, True, 1.5, "Monday", "8:00", datetime(2026, 3, 2, tzinfo=UTC), time(8), None],
)
def test_what_is_no_day_is_refused(value: object) -> None:
    assert refusal(DAY, value).key == "field.not-a-day"


def test_a_time_is_a_time_or_text_that_is_one() -> None:
    assert TIME.validate_python(time(8, 30)) == time(8, 30)
    assert TIME.validate_python("08:30") == time(8, 30)


@pytest.mark.parametrize("value", [8, True, "eight", "08:00+01:00", date(2026, 3, 2), None])
def test_what_is_no_time_is_refused(value: object) -> None:
    assert refusal(TIME, value).key == "field.not-a-time"


@pytest.mark.parametrize("name", ["", "b", "ABC", "L1"])
def test_a_wall_goes_by_one_or_two_capitals(name: str) -> None:
    with pytest.raises(ValidationError, match="string_pattern_mismatch"):
        TypeAdapter(WallName).validate_python(name)


@pytest.mark.parametrize("share", [True, "0.5", 1.1, -0.1])
def test_a_share_is_a_number_from_nought_to_one(share: object) -> None:
    with pytest.raises(ValidationError):
        TypeAdapter(Share).validate_python(share)


def test_a_whole_number_is_a_share() -> None:
    assert TypeAdapter(Share).validate_python(1) == 1.0
