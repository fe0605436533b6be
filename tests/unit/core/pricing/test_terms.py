import pytest
from tests.priced_by_hand import ALL_IN, priced, rates

from gaugerod.core.base.messages import Message
from gaugerod.core.job.contract import Contract
from gaugerod.core.job.places import DepositCap, Place
from gaugerod.core.job.sample import sample_job
from gaugerod.core.job.terms import Terms
from gaugerod.core.pricing.agreement import agree
from gaugerod.core.pricing.terms import deposit_cap, payments_of

DRAWS = [
    {"name": "Material on site", "share": 0.4},
    {"name": "Walls set", "share": 0.35},
    {"name": "Done", "share": 0.15},
]
TERMS = Terms.model_validate({"deposit": 0.1, "draw": DRAWS})


def law(**figures: object) -> DepositCap:
    return DepositCap.model_validate({"source": "A law", "sure": "from memory", **figures})


def place(**figures: object) -> Place:
    return Place(id="US-XX", name="Somewhere", currency="USD", deposit=law(**figures))


def test_payments_are_what_each_share_adds() -> None:
    # 692.843 -> 692.84; 50 % 3,464.215 -> 3,464.22; 85 % 5,889.1655 -> 5,889.17.
    made = payments_of(692_843, TERMS, None)
    assert [one.paid for one in made.payments] == [69_284, 346_422, 588_917, 692_843]
    assert [one.due for one in made.payments] == [69_284, 277_138, 242_495, 103_926]
    assert made.payments[0].name == Message("pricing.deposit")
    assert (made.total, made.cap, made.capped) == (692_843, None, False)


def test_what_a_cap_takes_off_is_due_with_the_first_draw() -> None:
    made = payments_of(2_000_000, TERMS, place(share=0.1, most=1000))
    assert (made.cap, made.capped) == (100_000, True)
    assert [one.due for one in made.payments] == [100_000, 900_000, 700_000, 300_000]


def test_a_deposit_under_the_cap_stays() -> None:
    made = payments_of(692_843, TERMS, place(share=0.3333))
    assert (made.cap, made.capped, made.payments[0].due) == (230_924, False, 69_284)


def test_a_place_without_a_law_of_deposits_caps_nothing() -> None:
    bare = Place(id="US-XX", name="Somewhere", currency="USD")
    assert payments_of(692_843, TERMS, bare).cap is None


@pytest.mark.parametrize(
    ("total", "figures", "cap"),
    [
        (10_005, {"share": 0.1}, 1_000),  # 10.005: not 10.01
        (10_005, {"most": 5}, 500),
        (10_005, {"most": 500}, 10_005),  # never more than the sum
        (50_000, {"share": 0.1, "over": 500}, None),  # of 500.00 and less it says nothing
        (50_001, {"share": 0.1, "over": 500}, 5_000),
    ],
)
def test_a_cap_is_rounded_down(total: int, figures: dict[str, object], cap: int | None) -> None:
    assert deposit_cap(total, law(**figures)) == cap


def test_what_is_agreed_follows_the_site_and_the_contract() -> None:
    table = rates(ALL_IN, terms={"deposit": 0.1, "draw": DRAWS})
    price, job = priced(table), sample_job()
    there = place(share=0.05)
    proposed = agree(price, job, table, (there,))
    assert (proposed.place, proposed.account) == (None, None)
    assert proposed.payments
    assert proposed.payments.total == price.price
    signed = job.model_copy(
        update={
            "site": job.site.model_copy(update={"region": "US-XX-YY"}),
            "contract": Contract.model_validate({"sum": 5000, "signed": "2026-02-20"}),
        }
    )
    made = agree(price, signed, table, (there,))
    assert made.place == there
    assert made.account
    assert made.payments
    assert (made.account.total, made.payments.total) == (500_000, 500_000)
    assert made.payments.payments[0].due == 25_000
    assert agree(price, signed, rates(ALL_IN), (there,)).payments is None
