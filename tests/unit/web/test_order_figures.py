"""What a job says of its own order: what is there, what was ordered and came, one more line."""

from decimal import Decimal

from tests.unit.web.small_job import small
from tests.unit.web.test_planned import money
from tests.unit.web.test_price_figures import back, now, of, otherwise
from tests.web_pages import Browser, Element, filled

from gaugerod.store.kept import KeptJob


def kept(at: Browser, job: str, table: str) -> object:
    document = at.desk.book.head("job", job).document
    assert KeptJob(name=job, tables=document).read(lambda _: None).name
    return document.get(table)


def row(page: Element, name: str) -> tuple[Element, Element]:
    """The two rows of a line of the order."""
    found = page.one("table", class_="lines").one("tbody").all("tr")
    first = next(
        number
        for number, part in enumerate(found)
        if "first" in part.attributes.get("class", "") and name in part.one("th").text
    )
    return found[first], found[first + 1]


def total(page: Element) -> Decimal:
    return money(page.one("tfoot").one("b").text)


def far(page: Element, name: str) -> str:
    return row(page, name)[1].one("p", class_="far").text


def test_what_is_there_is_taken_off_and_bought_again_when_it_is_not(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    first = total(page)
    assert row(page, "adhesive")[0].one("b").text == "1"
    assert now(page, "on_hand", "adhesive") == "nothing"
    page = at.send(otherwise(page, "on_hand", "adhesive"), {"count": "1.5"})
    assert kept(at, job, "on_hand") == [{"item": "adhesive", "count": 1.5}]
    assert row(page, "adhesive")[0].one("td").text == "on hand"
    assert now(page, "on_hand", "adhesive") == "1.5"
    assert total(page) == first - Decimal("11.80")
    form, button = back(page, "on_hand", "adhesive")
    assert total(at.send(form, press=button)) == first
    assert kept(at, job, "on_hand") is None


def test_modules_of_another_lot_are_not_taken_off(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    page = at.send(otherwise(page, "on_hand", "modules"), {"count": "12"})
    assert row(page, "Keyed wall module")[0].all("b", class_="count")
    form = otherwise(page, "on_hand", "modules")
    page = at.send(form, {"same_lot": "yes"})
    assert row(page, "Keyed wall module")[0].one("td").text == "on hand"
    said = [{"item": "modules", "count": 12, "same_lot": True}]
    assert kept(at, job, "on_hand") == said


def test_what_was_ordered_and_came_with_its_lot_and_price(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    first = total(page)
    new = otherwise(page, "bought", "")
    page = at.send(new, {"item": "modules", "count": "1", "ordered": "2026-03-02"})
    assert far(page, "Keyed wall module") == "Ordered 1, here 0."
    assert "ordered on 2026-03-02" in now(page, "bought", "1")
    came = {"arrived": "2026-03-09", "lot": "A7", "price": "217.50", "supplier": "Mill Street"}
    page = at.send(otherwise(page, "bought", "1"), came)
    # 217.50 where 212.00 is reckoned with.
    assert far(page, "Keyed wall module") == (
        "Ordered 1, here 1. Lot: A7. Bought $5.50 dearer than reckoned."
    )
    assert kept(at, job, "bought") == [
        {
            "item": "modules",
            "count": 1,
            "ordered": "2026-03-02",
            "arrived": "2026-03-09",
            "lot": "A7",
            "price": 217.5,
            "supplier": "Mill Street",
        }
    ]
    assert total(page) == first
    page = at.send(otherwise(page, "bought", ""), {"item": "modules", "count": "2"})
    assert "That is 2 more than the plan asks for." in far(page, "Keyed wall module")
    form, button = back(page, "bought", "1")
    page = at.send(form, press=button)
    assert kept(at, job, "bought") == [{"item": "modules", "count": 2}]


def test_one_more_line_is_bought_priced_and_taken_out(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    first = total(page)
    line = {"name": "Valve trim, brushed", "count": "2", "price": "129.00"}
    page = at.send(otherwise(page, "extra", ""), line)
    assert total(page) == first + 258
    (made,) = at.desk.book.head("job", job).document["extra"]
    paper = at.client.get(f"/jobs/{job}/papers/order.csv").content.decode("utf-8-sig")
    assert '"Valve trim, brushed",pieces,2,129.00,258.00' in paper
    bought = {"item": made["id"], "count": "1"}
    page = at.send(otherwise(page, "bought", ""), bought)
    assert far(page, "Valve trim") == "Ordered 1, here 0. Still to order: 1."
    form, button = back(page, "extra", made["id"])
    # What was bought of it would be of nothing then.
    page = at.send(form, press=button, status=422)
    assert (
        "is on no order of this job" in of(page, "extra", made["id"]).one("p", class_="wrong").text
    )
    form, button = back(page, "bought", "1")
    page = at.send(form, press=button)
    form, button = back(page, "extra", made["id"])
    assert total(at.send(form, press=button)) == first


def test_an_offcut_from_another_room_is_added_and_a_wrong_one_is_not(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    offcut = {"name": "bath-2-O-7a", "size.0": "13", "size.1": "12", "lot": "A113"}
    sides = {"keeps.left": "yes", "keeps.top": "yes", "keeps.bottom": "yes"}
    page = at.send(otherwise(page, "offcut", ""), offcut | sides)
    said = {"name": "bath-2-O-7a", "size": ["13", "12"], "lot": "A113"}
    assert kept(at, job, "offcut") == [said | {"keeps": ["left", "bottom", "top"]}]
    assert now(page, "offcut", "bath-2-O-7a") == '13" × 12"'
    large = otherwise(page, "offcut", "bath-2-O-7a")
    refused = at.send(large, {"size.0": "31"}, status=422)
    assert "does not come from a module" in of(refused, "offcut", "bath-2-O-7a").text
    page = at.send(large, {"name": "O-7a", "size.0": "13 1/4"})
    assert [one["name"] for one in at.desk.book.head("job", job).document["offcut"]] == ["O-7a"]
    form, button = back(page, "offcut", "O-7a")
    at.send(form, press=button)
    assert kept(at, job, "offcut") is None


def test_the_day_of_delivery_moves_the_days(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    finish = page.one("li", class_="finish").text
    page = at.send(otherwise(page, "delivered", ""), {"delivered": "2026-05-04"})
    assert at.desk.book.head("job", job).document["calendar"]["delivered"] == "2026-05-04"
    assert page.one("li", class_="finish").text != finish
    form, button = back(page, "delivered", "")
    assert at.send(form, press=button).one("li", class_="finish").text == finish


def test_what_will_not_do_is_said_beside_it(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    for table, entry, fill, name, said in (
        ("on_hand", "adhesive", {"count": "0"}, ".count", "More than 0"),
        ("on_hand", "trim-edge", {"count": "0.5"}, "", "a part of one is not planned with"),
        ("bought", "", {"item": "modules", "count": "1.5"}, ".count", "whole number"),
        ("bought", "", {"item": "modules", "count": ""}, ".count", "This is needed."),
        (
            "bought",
            "",
            {"count": "1", "ordered": "2026-03-02", "arrived": "2026-03-01"},
            ".item",
            "came before that",
        ),
        ("extra", "", {"name": "Trim", "price": "dear"}, ".price", "“dear” is no number"),
        ("offcut", "", {"name": "A", "size.0": "5"}, ".size", "This is needed."),
        ("delivered", "", {"delivered": "soon"}, ".delivered", "soon"),
    ):
        refused = at.send(otherwise(page, table, entry), fill, status=422)
        wrong = of(refused, table, entry).one("p", class_="wrong")
        assert said in wrong.text
        assert wrong.attributes["id"] == f"wrong-{table}.{entry}{name}"
    assert at.desk.book.head("job", job).n == 1
    at.post(f"/jobs/{job}/order", {"seen": "1", "key": "k", "table": "task"}, status=404)


def test_an_order_counts_once_and_is_not_put_over_what_another_wrote(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/order")
    new, other = (otherwise(one, "bought", "") for one in (page, at.open(f"/jobs/{job}/order")))
    values = filled(new, {"item": "modules", "count": "1"})
    at.post(f"/jobs/{job}/order", values)
    at.post(f"/jobs/{job}/order", values)
    assert at.desk.book.head("job", job).n == 2
    late = at.send(other, {"item": "sealant", "count": "1"}, status=409)
    at.send(late.one("form"))
    bought = at.desk.book.head("job", job).document["bought"]
    assert [one["item"] for one in bought] == ["modules", "sealant"]
