"""Units and the rounding of fractions.

Sources, each with how sure it is:

- 1 in = 25.4 mm exactly, 1 sq ft = 0.09290304 m2, 1 US gal = 231 in3 = 3.785411784 l:
  NIST SP 811. From memory.
- Nearest sixteenths of 2.6667, 5.3333 and 5.5625 in: hand arithmetic (2.6667 x 16 = 42.667,
  5.3333 x 16 = 85.333, 5.5625 x 16 = 89). Calculated.
- Cut lengths rounded down where a joint covers, the raw value kept for sums: common practice,
  no source.
"""

from fractions import Fraction

import pytest

from gaugerod.core.base.lengths import IMPERIAL, MM_PER_INCH, parse_length, show_length


def test_an_inch() -> None:
    assert str(MM_PER_INCH) == "127/5"  # 25.4 = 254/10
    assert parse_length("1 in", unit="mm") == Fraction("25.4")
    assert parse_length("1 ft", unit="mm") == Fraction("304.8")


def test_a_square_foot() -> None:
    metres = parse_length("1'", unit="mm") / parse_length("1 m", unit="mm")
    assert metres**2 == Fraction("0.09290304")


def test_a_gallon() -> None:
    decimetres = MM_PER_INCH / 100
    assert 231 * decimetres**3 == Fraction("3.785411784")


@pytest.mark.parametrize(
    ("inches", "shown"), [("2.6667", '2 11/16"'), ("5.3333", '5 5/16"'), ("5.5625", '5 9/16"')]
)
def test_nearest_sixteenth(inches: str, shown: str) -> None:
    assert show_length(parse_length(inches, unit="in"), IMPERIAL) == shown
    assert show_length(float(inches) * 25.4, IMPERIAL) == shown


@pytest.mark.parametrize(
    ("inches", "shown"),
    [
        ("2.6667", '2 5/8"'),  # 42.667 sixteenths: 42 = 2 10/16
        ("5.3333", '5 5/16"'),  # 85.333: 85
        ("5.5625", '5 9/16"'),  # 89 exactly: no step is lost
    ],
)
def test_a_cut_that_a_joint_covers_rounds_down(inches: str, shown: str) -> None:
    assert show_length(float(inches) * 25.4, IMPERIAL, rounding="down") == shown


def test_the_raw_value_is_kept_for_sums() -> None:
    # Three cuts of 2.6667 in are 8.0001 in together; rounded down first they would be 7 7/8.
    cut = parse_length("2.6667", unit="in")
    assert show_length(3 * cut, IMPERIAL) == '8"'
    assert show_length(3 * parse_length("2 5/8", unit="in"), IMPERIAL) == '7 7/8"'
