"""What the customer reads of money: choices, payments, the law, change orders."""

from dataclasses import replace

from tests.unit.packet.test_customer import said

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Money
from gaugerod.core.job.contract import Change, Contract
from gaugerod.core.job.places import DepositCap, Place
from gaugerod.core.pipeline import Plan
from gaugerod.core.pricing.changes import Account, account_of
from gaugerod.core.pricing.terms import payments_of
from gaugerod.packet.changes import changes_paper
from gaugerod.packet.customer import customer_paper
from gaugerod.packet.paper import Form, Table

CONTRACT = Contract.model_validate({"sum": 6000, "signed": "2026-02-20"})


def account(*signed: str | None) -> Account:
    raw = {"what": "New sill plate", "why": "Rot, photo 12", "price": "-60.50", "days": 1}
    return account_of(
        CONTRACT,
        [Change.model_validate(raw | {"signed": day, "by": "Owner"}) for day in signed],
    )


def agreed(plan: Plan, made: Account) -> Plan:
    return replace(plan, agreement=replace(plan.agreement, account=made))


def tables(plan: Plan, words: Catalogue) -> list[Table]:
    return [one for one in customer_paper(plan, words).sections if isinstance(one, Table)]


def test_the_price_of_the_chosen_set_out_is_the_price(keyed: Plan, tiled: Plan) -> None:
    for plan in (keyed, tiled):
        assert plan.chosen.price == plan.price.price


def test_a_single_pick_is_no_choice(keyed: Plan, inches: Catalogue) -> None:
    every = replace(keyed.chosen, picks=("looks first", "saw least", "buy least"))
    alone = replace(keyed, options=replace(keyed.options, options=(every,)), chosen=every)
    texts = said(customer_paper(alone, inches).sections)
    assert "Set-outs to choose from" not in texts
    assert "Set-outs to choose from" in said(customer_paper(keyed, inches).sections)


def test_payments_add_up_on_paper(keyed: Plan, inches: Catalogue) -> None:
    (payments,) = [one for one in tables(keyed, inches) if one.header[:1] == ("Payment",)]
    assert [row[0] for row in payments.rows] == [
        "Deposit",
        "Strip-out done, material on site",
        "Walls set",
        "Punch list closed",
    ]
    assert payments.rows[-1][2] == inches.show(Money(keyed.price.price))


def test_a_shop_without_terms_or_known_law_prints_none(keyed: Plan, inches: Catalogue) -> None:
    bare = replace(keyed, agreement=replace(keyed.agreement, payments=None, place=None))
    texts = said(customer_paper(bare, inches).sections)
    assert "Deposit" not in texts
    assert not any("cancel within" in text for text in texts)


def test_the_law_of_the_place_is_on_the_paper(keyed: Plan, inches: Catalogue) -> None:
    texts = said(customer_paper(keyed, inches).sections)
    assert any("You may cancel within 3 business days after signing" in text for text in texts)
    law = DepositCap(share=0.05, source="A law", sure="from memory")
    place = Place(id="US-XX", name="Somewhere", currency="USD", deposit=law)
    assert keyed.rates.terms
    payments = payments_of(600_000, keyed.rates.terms, place)
    there = replace(keyed, agreement=replace(keyed.agreement, place=place, payments=payments))
    texts = said(customer_paper(there, inches).sections)
    assert "The law of the place holds a deposit to $300.00 (A law)." in texts
    assert "$300.00" in texts


def test_an_allowance_is_told_with_what_comes_beyond(keyed: Plan, inches: Catalogue) -> None:
    texts = said(customer_paper(keyed, inches).sections)
    assert (
        "Repair of rotted framing: up to 8 sq ft is in the price; beyond that $30.00 for each "
        "sq ft more."
    ) in texts


def test_a_signed_contract_is_the_price_and_leaves_no_choice(
    keyed: Plan, inches: Catalogue
) -> None:
    texts = said(customer_paper(agreed(keyed, account("2026-03-01")), inches).sections)
    assert "$6,000.00 as agreed on 2026-02-20; $5,939.50 with the changes signed since." in texts
    assert "Set-outs to choose from" not in texts


def test_change_orders_show_the_sum_before_and_after(keyed: Plan, inches: Catalogue) -> None:
    paper = changes_paper(keyed.job, account("2026-03-01", None), inches)
    _, table = [one for one in paper.sections if isinstance(one, Table)]
    signed, waiting = table.rows
    assert signed == (
        "1",
        "New sill plate",
        "Rot, photo 12",
        "−$60.50",
        "1",
        "2026-03-01 Owner",
        "$6,000.00",
        "$5,939.50",
    )
    assert waiting[5:] == ("not signed: not done", "$5,939.50", "$5,879.00")
    assert table.boxed == (1,)
    assert sum(isinstance(one, Form) for one in paper.sections) == 1
    text = " ".join(said(paper.sections)).lower()
    assert "would go from $5,939.50 to $5,879.00" in text
    assert not any(word in text for word in ("cost", "mark-up", "margin", "labour"))
