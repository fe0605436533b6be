from datetime import date

import pytest

from gaugerod.core.job.public_holidays import is_place, public_holidays


@pytest.mark.parametrize(
    ("place", "known"),
    [
        ("US", True),
        ("US-IL", True),
        ("GB-SCT", True),
        ("DE-BY", True),
        ("", False),
        ("us", False),
        ("US-XX", False),
        ("Illinois", False),
        ("XX", False),
    ],
)
def test_which_places_are_known(place: str, known: bool) -> None:
    assert is_place(place) is known


# Laws of the places, from memory: 5 U.S.C. 6103; UK Banking and Financial Dealings Act 1971.
@pytest.mark.parametrize(
    ("place", "day"),
    [
        ("US", date(2026, 1, 19)),  # third Monday of January
        ("US", date(2026, 5, 25)),  # last Monday of May
        ("US", date(2026, 7, 3)),  # the fourth is a Saturday
        ("US", date(2026, 11, 26)),  # fourth Thursday of November
        ("GB-ENG", date(2026, 4, 6)),  # Easter Monday; Easter is on 5 April 2026
        ("GB-ENG", date(2026, 5, 4)),  # first Monday of May
        ("GB-ENG", date(2026, 12, 28)),  # Boxing Day is a Saturday
        ("GB-SCT", date(2026, 1, 2)),
    ],
)
def test_days_that_a_place_keeps(place: str, day: date) -> None:
    assert day in public_holidays(place, day.year)


def test_days_that_it_does_not() -> None:
    assert date(2026, 1, 2) not in public_holidays("GB-ENG", 2026)
    assert date(2026, 4, 6) not in public_holidays("GB-SCT", 2026)  # no Easter Monday there
    assert date(2026, 7, 6) not in public_holidays("US", 2026)


def test_no_place_keeps_none() -> None:
    assert public_holidays("", 2026) == frozenset()
