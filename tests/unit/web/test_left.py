"""What is handed over beside the wall: what is left, lots and days."""

import tomllib
from dataclasses import replace

from tests.unit.web.small_job import small
from tests.unit.web.test_price_figures import otherwise
from tests.web_pages import Browser

from gaugerod.core.job.document import Accent, OffcutAtHand
from gaugerod.core.job.products import Accented
from gaugerod.web.desk import ready_of, replanned
from gaugerod.web.left import offcuts_left


def test_whole_modules_and_offcuts_are_listed_with_their_edges_and_lot(at: Browser) -> None:
    job = small(at)
    order = at.open(f"/jobs/{job}/order")
    came = {"item": "modules", "count": "1", "ordered": "2026-03-02", "arrived": "2026-03-09"}
    at.send(otherwise(order, "bought", ""), came | {"lot": 'A"7', "supplier": "Mill Street"})
    page = at.open(f"/jobs/{job}/hand-over")
    made = replanned(at.desk, at.desk.book.head("job", job)).plan
    over = page.one("section", id="over")
    # One box of eight; the plan says how many of them are cut or hung.
    left = 8 - sum(stock.source == "module" for stock in made.cuts.stock)
    row = over.one("table", class_="modules").one("tr")
    assert (row.one("td").text, row.one("small").text) == (str(left), 'lot A"7')
    # No piece is narrower or lower than 2 in, so nothing less is worth keeping.
    every = [one for stock in made.cuts.stock for one in stock.offcuts]
    offcuts = {one.id: one for one in every if min(one.size) >= 50.8}
    rows = over.one("table", class_="offcuts").all("tr")
    assert {one.one("th").text for one in rows} == {*offcuts}
    for one in rows:
        told, offcut = one.one("td").text, offcuts[one.one("th").text]
        assert 'lot A"7' in told
        assert all(side in told for side in offcut.keeps)
        assert told.count('"') >= 2
    file = tomllib.loads("".join(map(str, over.one("pre").inside)))
    held = [OffcutAtHand.model_validate(one) for one in file["offcut"]]
    assert {one.name: (one.keeps, one.lot) for one in held} == {
        one.id: (one.keeps, "A 7") for one in offcuts.values()
    }
    for again in held:
        both = zip(again.size, offcuts[again.name].size, strict=True)
        assert all(abs(written - planned) < 0.06 for written, planned in both)
    lots = page.one("section", id="lots").one("tr")
    assert lots.one("td").text == 'A"7 ordered on 2026-03-02 came on 2026-03-09'
    assert "Mill Street" in lots.one("th").text


def test_what_broke_is_not_left(at: Browser) -> None:
    job = small(at)

    def left() -> int:
        over = at.open(f"/jobs/{job}/hand-over").one("section", id="over")
        return int(over.one("table", class_="modules").one("td").text)

    before = left()
    found = at.open(f"/jobs/{job}/found")
    form = next(f for f in found.all("form") if f.all("input", name="broken"))
    at.send(form, {"broken": "2"})
    assert left() == before - 2


def test_a_lot_of_the_gates_stands_beside_those_that_were_bought(at: Browser) -> None:
    job = small(at)
    at.send(at.open(f"/jobs/{job}/ready").one("form"), {"lot.modules": "A7", "lot.sealant": "S1"})
    order = at.open(f"/jobs/{job}/order")
    at.send(otherwise(order, "bought", ""), {"item": "modules", "count": "1", "lot": "A7"})
    page = at.open(f"/jobs/{job}/hand-over")
    rows = page.one("section", id="lots").all("tr")
    assert [row.one("td").text for row in rows] == ["A7", "S1"]


def test_an_offcut_of_another_product_names_it_in_the_file(at: Browser) -> None:
    job = small(at)
    revision = at.desk.book.head("job", job)
    ready, made = ready_of(at.desk, revision), replanned(at.desk, revision).plan
    other = made.system.model_copy(update={"id": "slate", "name": "Slate"})
    stands = Accented(where=Accent(material="slate", walls=("B",)), system=other)
    products = replace(made.products, accented=(stands,))
    held = OffcutAtHand(name="O-1", size=(200, 100), material="slate")
    job_now = ready.job.model_copy(update={"offcut": (held,)})
    rows = offcuts_left(revision, replace(ready, job=job_now), replace(made, products=products))
    (row,) = (one for one in rows if one.tag == "O-1")
    assert (row.product, row.lot) == ("Slate", "unknown")
    assert 'material = "slate"' in row.as_file
