import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import IMPERIAL, METRIC
from gaugerod.core.base.messages import Length, Message, Money, Value

WORDS = Catalogue(
    sentences={"wall": "Wall {name}", "lean": "{where} leans {by}", "bare": "Nothing."},
    display=IMPERIAL,
)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (Length(1524.0), '60"'),
        (Money(692843), "$6,928.43"),
        (Money(5), "$0.05"),
        (Money(-6050), "−$60.50"),
        (3, "3"),
        (3.14159, "3.14"),
        (2400.0, "2400"),
        (37 / 8, "4.63"),  # 4.625
        (41 / 40, "1.03"),  # 1.025, a shade less in a float
        (-0.125, "-0.13"),
        (4.6249, "4.62"),
        (0.0, "0"),
        ("B", "B"),
        (Message("wall", name="B"), "Wall B"),
    ],
)
def test_a_value_is_shown_for_its_reader(value: Value, text: str) -> None:
    assert WORDS.show(value) == text


def test_a_message_may_hold_a_message() -> None:
    message = Message("lean", where=Message("wall", name="R"), by=Length(12.7))
    assert WORDS.say(message) == 'Wall R leans 1/2"'


def test_the_same_message_reads_in_either_unit() -> None:
    metric = Catalogue(sentences=WORDS.sentences, display=METRIC, currency="GBP")
    assert metric.text("lean", where="R", by=Length(12.7)) == "R leans 13 mm"
    assert metric.show(Money(123456)) == "£1,234.56"


def test_a_missing_sentence_or_value_is_a_fault() -> None:
    with pytest.raises(KeyError, match="nobody"):
        WORDS.text("nobody")
    with pytest.raises(KeyError, match="name"):
        WORDS.text("wall")
