"""What the law of some places allows as a deposit, as the packaged places have it.

- California Business and Professions Code 7159: "the down payment may not exceed ... one thousand
  dollars ($1000) or 10 percent of the contract price for other home improvements ... whichever is
  less"; contracts over $500; "a contractor on a remodeling project can receive a $500 deposit on a
  $5,000 project, or a $1,000 deposit on a $500,000 project" (found:
  california.construction.com/news/law/archive/0403.asp, 2004; 2011 likewise at ashleybaron.com).
- Massachusetts General Laws 142A section 2: a deposit "shall not exceed the greater of one-third of
  the total contract price or the actual cost of any materials or equipment of a special order"
  (found, quoted at hilltopfarmshoa.com). Special orders are left out: a third is never too much.
- Maryland Business Regulation 8-617: no "deposit of more than one-third of the home improvement
  contract price" (found: law.justia.com/codes/maryland/2005/gbr/8-617.html).
- Pennsylvania HICPA: over $5,000 no more than a third, special orders on top (found:
  legalclarity.org/how-much-can-a-contractor-ask-for-up-front-in-pa).
- Cancelling: three business days, 16 CFR 429 and California (found: dca.ca.gov legal guide K-10);
  fourteen days in the United Kingdom (found: a county's trading standards).
"""

import pytest

from gaugerod.core.job.places import Place, nearest
from gaugerod.core.pricing.terms import deposit_cap
from gaugerod.store.shelf import Library

PLACES = {place.id: place for place in Library().rules().place}


def there(region: str) -> Place:
    found = nearest(region, PLACES)
    assert found
    return found


def cap(region: str, total: int) -> int | None:
    law = there(region).deposit
    assert law
    return deposit_cap(total, law)


@pytest.mark.parametrize(
    ("total", "most"),
    [(500_000, 50_000), (50_000_000, 100_000), (1_000_000, 100_000), (692_843, 69_284)],
)
def test_california(total: int, most: int) -> None:
    assert cap("US-CA", total) == most


@pytest.mark.parametrize("region", ["US-MA", "US-MD", "US-PA"])
@pytest.mark.parametrize("total", [600_000, 692_843, 1_000_001])
def test_never_more_than_a_third(region: str, total: int) -> None:
    most = cap(region, total)
    assert most
    assert 0.999 * total / 3 < most <= total / 3


def test_pennsylvania_binds_larger_contracts_only() -> None:
    assert cap("US-PA", 500_000) is None
    assert cap("US-PA", 500_100) is not None


@pytest.mark.parametrize(
    ("region", "days", "counted"),
    [("US-IL", 3, "business days"), ("US-CA", 3, "business days"), ("GB", 14, "calendar days")],
)
def test_cancelling(region: str, days: int, counted: str) -> None:
    cancel = there(region).cancel
    assert cancel
    assert (cancel.days, cancel.counted) == (days, counted)


def test_a_place_that_was_not_looked_up_says_nothing() -> None:
    assert nearest("NZ", PLACES) is None
    assert there("US-IL").deposit is None


def test_every_law_names_its_source() -> None:
    laws = [law for place in PLACES.values() for law in (place.deposit, place.cancel) if law]
    assert len(laws) >= 10
    assert all(law.source and law.sure in {"found", "from memory"} for law in laws)
