"""What a job says of its own price: written, shown with what it stands for, taken back.

The figures that are replaced come from the packaged rates: a mark-up, no margin.
"""

from decimal import Decimal

from tests.unit.web.small_job import small
from tests.unit.web.test_planned import money
from tests.web_pages import Browser, Element, filled

from gaugerod.store.kept import KeptJob


def of(page: Element, table: str, entry: str) -> Element:
    """The part of the page where one thing may be said otherwise."""
    return next(
        part
        for part in page.all("li", class_="our")
        if any(
            form.one("input", name="table").attributes["value"] == table
            and form.one("input", name="entry").attributes["value"] == entry
            for form in part.all("form")
        )
    )


def otherwise(page: Element, table: str, entry: str) -> Element:
    return of(page, table, entry).one("details").one("form")


def back(page: Element, table: str, entry: str) -> tuple[Element, Element]:
    form = of(page, table, entry).one("form", class_="takes")
    return form, form.one("button")


def now(page: Element, table: str, entry: str) -> str:
    return of(page, table, entry).one("span", class_="now").text


def total(page: Element) -> Decimal:
    return money(page.one("p", class_="figure").text)


def lines(page: Element) -> dict[str, Decimal]:
    rows = page.one("table", class_="lines").one("tbody").all("tr")
    return {str(row.one("th").inside[0]): money(row.one("td").text) for row in rows}


def pricing(at: Browser, job: str) -> object:
    document = at.desk.book.head("job", job).document
    assert KeptJob(name=job, tables=document).read(lambda _: None).name
    return document.get("pricing")


def test_hours_of_a_task_are_said_and_taken_back(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    first, was = lines(page), now(page, "task", "set-modules")
    said = {"hours": "20", "low": "18.5", "why": "Two in a narrow room"}
    page = at.send(otherwise(page, "task", "set-modules"), said)
    task = {"task": "set-modules", "hours": 20, "low": 18.5, "why": "Two in a narrow room"}
    assert pricing(at, job) == {"task": [task]}
    # (18.5 + 4 * 20 + 20) / 6 = 19.75 h.
    assert now(page, "task", "set-modules").endswith("19.75 h (18.5–20)")
    mine = of(page, "task", "set-modules").one("form", class_="takes").text
    assert f"Instead of {was}." in mine
    assert lines(page)["Labour"] > first["Labour"]
    form, button = back(page, "task", "set-modules")
    page = at.send(form, press=button)
    assert pricing(at, job) is None
    assert lines(page) == first


def test_a_price_from_the_supplier_is_in_price_and_order(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    was = now(page, "item", "modules")
    page = at.send(
        otherwise(page, "item", "modules"), {"price": "71.35", "why": "Quote of 3 March"}
    )
    assert pricing(at, job) == {
        "item": [{"item": "modules", "price": 71.35, "why": "Quote of 3 March"}]
    }
    assert now(page, "item", "modules") == "$71.35"
    assert f"Instead of {was}." in of(page, "item", "modules").one("form", class_="takes").text
    order = at.open(f"/jobs/{job}/order").one("table", class_="lines").all("tr")[0]
    count = int(order.one("b", class_="count").text)
    assert money(order.one("td").text) == count * Decimal("71.35")


def test_a_share_is_said_in_percent_and_margin_takes_the_place_of_mark_up(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    assert now(page, "figure", "margin") == "not reckoned so"
    markup = now(page, "figure", "markup")
    page = at.send(otherwise(page, "figure", "contingency"), {"contingency": "0"})
    assert "Contingency" not in lines(page)
    page = at.send(otherwise(page, "figure", "margin"), {"margin": "37.5"})
    assert pricing(at, job) == {"contingency": 0, "margin": 0.375}
    assert now(page, "figure", "markup") == "not reckoned so"
    said = of(page, "figure", "margin").one("form", class_="takes").text
    assert f"Instead of {markup} Mark-up on cost." in said
    cost = sum(lines(page).values()) - lines(page)["Margin of the price"]
    assert total(page) == (cost / Decimal("0.625")).quantize(Decimal("0.01"), "ROUND_HALF_UP")
    page = at.send(otherwise(page, "figure", "markup"), {"markup": "25"})
    assert pricing(at, job) == {"contingency": 0, "markup": 0.25}
    for name in ("contingency", "markup"):
        form, button = back(page, "figure", name)
        page = at.send(form, press=button)
    assert pricing(at, job) is None


def test_a_discount_and_an_allowance_are_added_changed_and_taken_out(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    first = total(page)
    page = at.send(otherwise(page, "charge", ""), {"what": "Both baths", "price": "-150"})
    page = at.send(otherwise(page, "charge", ""), {"what": "Parking", "price": "45"})
    assert total(page) == first - 105
    page = at.send(otherwise(page, "charge", "1"), {"price": "-100.5"})
    assert pricing(at, job) == {
        "charge": [{"what": "Both baths", "price": -100.5}, {"what": "Parking", "price": 45}]
    }
    form, button = back(page, "charge", "1")
    late = filled(form, {}) | {"back": "yes"}
    page = at.send(form, press=button)
    assert total(page) == first + 45
    # The same form again, from a page that is not so any more: no other charge goes with it.
    at.post(
        f"/jobs/{job}/price",
        late | {"seen": str(at.desk.book.head("job", job).n), "key": "k2"},
        status=404,
    )
    tiles = {
        "name": "Old tile behind",
        "unit": "sq ft",
        "included": "6",
        "cost": "4",
        "beyond": "9",
    }
    page = at.send(otherwise(page, "allowance", ""), tiles)
    (made,) = at.desk.book.head("job", job).document["pricing"]["allowance"]
    assert lines(page)["Old tile behind"] == 24
    page = at.send(otherwise(page, "allowance", made["id"]), {"included": "10"})
    assert lines(page)["Old tile behind"] == 40
    form, button = back(page, "allowance", made["id"])
    assert "Old tile behind" not in lines(at.send(form, press=button))


WRONG = [
    ("task", "set-modules", "hours", {"hours": "many"}, "“many” is no number"),
    ("task", "set-modules", "hours", {"hours": ""}, "This is needed."),
    ("task", "set-modules", "hours", {"hours": "4", "low": "5"}, "low through likely to high"),
    ("item", "modules", "price", {"price": "-3"}, "-3"),
    ("figure", "tax", "tax", {"tax": "101"}, "Give it in percent, 100 at most."),
    ("figure", "labour", "labour", {"labour": "1e999"}, "1e999"),
    ("charge", "", "", {"what": "All", "price": "-90000"}, "would be left"),
]


def test_what_will_not_do_is_said_beside_it_and_not_written(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    for table, entry, name, fill, said in WRONG:
        refused = at.send(otherwise(page, table, entry), fill, status=422)
        part = of(refused, table, entry)
        wrong = part.one("p", class_="wrong")
        assert said in wrong.text
        assert wrong.attributes["id"] == f"wrong-{table}.{entry}" + (f".{name}" if name else "")
        for key, text in fill.items():
            assert part.one("input", name=key).attributes["value"] == text
    assert at.desk.book.head("job", job).n == 1


def test_a_form_counts_once_and_is_not_put_over_what_another_wrote(at: Browser) -> None:
    job = small(at)
    page = at.open(f"/jobs/{job}/price")
    tax, subs = otherwise(page, "figure", "tax"), otherwise(page, "figure", "subs")
    values = filled(tax, {"tax": "6"})
    at.post(f"/jobs/{job}/price", values)
    at.post(f"/jobs/{job}/price", values)
    assert at.desk.book.head("job", job).n == 2
    page = at.send(subs, {"subs": "500"}, status=409)
    assert pricing(at, job) == {"tax": 0.06}
    page = at.send(page.one("form"))
    assert pricing(at, job) == {"tax": 0.06, "subs": 500}


def test_there_is_no_other_table(at: Browser) -> None:
    job = small(at)
    at.post(f"/jobs/{job}/price", {"seen": "1", "key": "k", "table": "walls"}, status=404)
