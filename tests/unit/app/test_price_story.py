from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, keyed_plan, words_in

from gaugerod.app.price_story import tell_lesson, tell_price
from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.job.contract import Change, Contract
from gaugerod.core.job.places import DepositCap, Place
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.changes import account_of
from gaugerod.core.pricing.learning import Learned, Lesson
from gaugerod.core.pricing.terms import payments_of


@pytest.fixture
def words() -> Catalogue:
    return words_in(INCHES)


def told(made: Plan, words: Catalogue) -> list[str]:
    return [words.say(line) for line in tell_price(made)]


def at(made: Plan, law: DepositCap | None) -> Plan:
    place = Place(id="US-XX", name="Somewhere", currency="USD", deposit=law)
    assert made.rates.terms
    payments = payments_of(made.price.price, made.rates.terms, place)
    return replace(made, agreement=replace(made.agreement, place=place, payments=payments))


def test_the_price_its_spread_and_its_payments_are_told(words: Catalogue) -> None:
    made = keyed_plan()
    price, spread, payments = told(made, words)[:3]
    assert price.startswith(f"Price {words.show(Money(made.price.price))}, for ")
    assert words.show(Money(made.spread.low)) in spread
    assert words.show(Money(made.spread.high)) in spread
    assert made.agreement.payments
    dues = [words.show(Money(one.due)) for one in made.agreement.payments.payments]
    assert payments == f"To be paid: {dues[0]} as deposit, then {', '.join(dues[1:])}."


def test_hours_that_do_not_spread_are_not_said_to(words: Catalogue) -> None:
    made = keyed_plan()
    sure = replace(made.spread, low=5, high=5)
    lines = told(replace(made, spread=sure), words)
    assert not any("eight jobs in ten" in line for line in lines)


def test_a_shop_without_terms_tells_no_payments(words: Catalogue) -> None:
    made = keyed_plan()
    bare = replace(made, agreement=replace(made.agreement, payments=None))
    assert len(told(bare, words)) == 2


@pytest.mark.parametrize(
    ("law", "said"),
    [
        (None, "Nothing is on file of the law of deposits in “US-IL”"),
        (
            DepositCap(share=0.05, source="A law", sure="from memory"),
            "so less than yours is asked for (A law; from memory). Read it: it wins.",
        ),
        (DepositCap(share=0.5, source="A law", sure="found"), "The deposit is within the $"),
    ],
)
def test_what_the_law_says_of_the_deposit_is_told(
    words: Catalogue, law: DepositCap | None, said: str
) -> None:
    assert said in told(at(keyed_plan(), law), words)[3]


def test_without_a_region_no_law_was_looked_for(words: Catalogue) -> None:
    made = keyed_plan()
    job = made.job.model_copy(update={"site": made.job.site.model_copy(update={"region": ""})})
    assert told(at(replace(made, job=job), None), words)[3].startswith(
        "The job names no region, so no law of deposits was looked for."
    )


def test_a_law_that_does_not_bind_is_not_told(words: Catalogue) -> None:
    law = DepositCap(share=0.1, over=10_000_00, source="A law", sure="found")
    high = law.model_copy(update={"over": 10**9})
    assert len(told(at(keyed_plan(), high), words)) == 3


def test_a_contract_is_told_with_what_was_signed_since(words: Catalogue) -> None:
    contract = Contract.model_validate({"sum": 6000, "signed": "2026-02-20"})
    changes = [
        Change.model_validate({"what": "A", "why": "B", "price": 100, "signed": signed})
        for signed in ("2026-03-01", None)
    ]
    made = keyed_plan()
    account = account_of(contract, changes)
    signed = replace(made, agreement=replace(made.agreement, account=account))
    assert told(signed, words)[-1] == (
        "Contract of 2026-02-20: $6,000.00; with what was signed since: $6,100.00. "
        "Changes that wait for a signature: 1."
    )


def test_what_was_learned_is_told_with_its_uncertainty(words: Catalogue) -> None:
    found = Learned(id="set", records=3, raw=1.5, weight=0.6, factor=1.27, least=1.0, most=1.6125)
    lines = tell_lesson(Lesson(tasks=(found,), scatter=0.3, unknown=("sett",)), words)
    head, learned, unlearned = lines
    assert head.startswith("Tasks whose hours your past jobs correct: 1. One record")
    assert learned.startswith("  set: hours × 1.27, in nine cases of ten between 1 and 1.61;")
    assert learned.endswith("3 on record, which alone would say × 1.5.")
    assert unlearned == "On record, but no task of these rates: sett."
    assert len(tell_lesson(Lesson(tasks=(found,), scatter=0.3, unknown=()), words)) == 2
