from datetime import date

from gaugerod.core.job.contract import Change, Contract
from gaugerod.core.pricing.changes import account_of

CONTRACT = Contract.model_validate({"sum": "6928.43", "signed": "2026-02-20"})


def change(price: str, signed: str | None = None, **more: object) -> Change:
    raw = {"what": "Work", "why": "Found", "price": price, "signed": signed, **more}
    return Change.model_validate(raw)


def test_the_sum_runs_through_what_is_signed() -> None:
    made = account_of(
        CONTRACT,
        (
            change("240.00", "2026-03-05", days=1, by="Owner"),
            change("-60.50", "2026-03-09", days=-1),
            change("310", "2026-03-09", days=2),
        ),
    )
    assert [(one.before, one.after) for one in made.orders] == [
        (692_843, 716_843),
        (716_843, 710_793),
        (710_793, 741_793),
    ]
    assert (made.first, made.total, made.days) == (692_843, 741_793, 2)
    assert made.orders[0].by == "Owner"
    assert made.orders[0].signed == date(2026, 3, 5)


def test_what_waits_for_a_signature_adds_nothing() -> None:
    made = account_of(CONTRACT, (change("100"), change("40", "2026-03-05"), change("5")))
    assert [(one.number, one.before, one.after) for one in made.orders] == [
        (2, 692_843, 696_843),
        (1, 696_843, 706_843),
        (3, 696_843, 697_343),
    ]
    assert (made.total, made.days) == (696_843, 0)


def test_a_contract_without_changes_is_its_sum() -> None:
    made = account_of(CONTRACT, ())
    assert (made.orders, made.total, made.signed) == ((), 692_843, date(2026, 2, 20))
