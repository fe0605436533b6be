import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.lengths import FINE_IMPERIAL, IMPERIAL, Display, show_length
from gaugerod.core.sheet.mixed_numbers import SLASH, runs, set_fractions


@pytest.mark.parametrize(
    "said",
    [
        "1/2/2026",
        "2026/1/2 in stock",
        "and/or",
        "3/16",
        "screws 1 5/8, 185",
        "60 x 36 x 1/2",
        '7/7"',
        '1/3"',
        '115/16"',
        'no. 4-7.1/8"',
        'A1/8"',
        '1/8/16"',
        "1/8 inside",
        "",
    ],
)
def test_what_is_no_length_stays_as_it_is(said: str) -> None:
    assert set_fractions(said) == said
    assert "".join(run.text for run in runs(said)) == said
    assert not any(run.fraction for run in runs(said))


@pytest.mark.parametrize(
    ("said", "fractions"),
    [
        ('23 15/16"', ["15⁄16"]),
        ('-1/32"', ["1⁄32"]),
        ('±1/16", (27/64") × 3/4"', ["1⁄16", "27⁄64", "3⁄4"]),
        ("a bed of 3/32 in (2 mm)", ["3⁄32"]),
    ],
)
def test_every_fraction_of_an_inch_is_found(said: str, fractions: list[str]) -> None:
    found = list(runs(said))
    assert [run.text for run in found if run.fraction] == fractions
    assert "".join(run.text for run in found) == set_fractions(said)
    assert set_fractions(said).replace(SLASH, "/") == said


@given(st.floats(-5000, 5000), st.sampled_from([IMPERIAL, FINE_IMPERIAL]))
def test_a_shown_length_is_a_whole_then_its_fraction_then_its_sign(
    mm: float, display: Display
) -> None:
    shown = show_length(mm, display)
    *whole, sign = runs(shown)
    if "/" not in shown:
        assert (whole, sign.text) == ([], shown)
        return
    assert (whole[-1].fraction, sign.text) == (True, '"')
    # The whole stands apart from its fraction: a space, or nothing but the sign of less.
    assert all(run.text == "-" or run.text.endswith(" ") for run in whole[:-1])
