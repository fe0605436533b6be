import pytest
from tests.priced_by_hand import ALL_IN, rates

from gaugerod.core.job.places import at_place, nearest

KNOWN = {"US": 1, "US-CA": 2, "US-CA-SF": 3}


@pytest.mark.parametrize(
    ("region", "found"),
    [
        ("US-CA-SF", 3),
        ("US-CA-LA", 2),
        ("US-CA", 2),
        ("US-CAL", 1),  # a part is a whole word
        ("US", 1),
        ("GB", None),
        ("", None),
    ],
)
def test_the_nearest_place_that_is_known(region: str, found: int | None) -> None:
    assert nearest(region, KNOWN) == found


def test_rates_at_a_place_are_its_own_where_it_has_any() -> None:
    table = rates(
        ALL_IN,
        tax=0.07,
        freight=60,
        place={"US-CA": {"tax": 0.0, "permit": 250, "freight_taxed": True}},
    )
    there = at_place(table, "US-CA")
    assert (there.tax, there.permit, there.freight_taxed) == (0.0, 25_000, True)
    assert there.freight == 6_000
    assert at_place(table, "US-IL") == table
    assert at_place(there, "US-CA") == there
