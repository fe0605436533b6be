import pytest
from pydantic import ValidationError

from gaugerod.core.job.answers import Answers


@pytest.mark.parametrize(
    ("text", "celsius"),
    [
        ("120 F", 48.8889),
        ("120 °F", 48.8889),
        ("49C", 49.0),
        ("-2.5 C", -2.5),
        ("32 F", 0.0),
        ("212F", 100.0),
    ],
)
def test_a_temperature_is_read_with_its_scale(text: str, celsius: float) -> None:
    assert Answers(hot_limit=text).hot_limit == pytest.approx(celsius, abs=1e-4)  # type: ignore[arg-type]  # text, as in a file


@pytest.mark.parametrize("read", ["120", 68, "warm", "120 K", "213 F", "-101 C", True, "120 FC"])
def test_a_temperature_without_its_scale_or_out_of_reach_is_refused(read: object) -> None:
    with pytest.raises(ValidationError, match=r"field\.not-a-temperature"):
        Answers.model_validate({"room": read})


def test_a_distance_may_be_none() -> None:
    read = Answers.model_validate({"receptacle": "none", "hanging_light": "4'"})
    assert read.receptacle == "none"
    assert read.hanging_light == pytest.approx(4 * 304.8)


def test_what_nobody_answered_is_not_answered() -> None:
    blank = Answers()
    assert {name: value for name, value in blank.model_dump().items() if value is not None} == {
        "ticked": ()
    }
