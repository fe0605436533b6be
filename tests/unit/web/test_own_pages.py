"""Own materials and rates beside others: copied, carried as files, written by two, put aside."""

import tomllib

from tests.unit.web.test_jobs import begun
from tests.unit.web.test_measure import square
from tests.unit.web.test_own_material import (
    HERE,
    entered,
    form_of,
    from_nothing,
    material,
    wrong_at,
)
from tests.web_pages import HERE as SITE
from tests.web_pages import Browser, Element, filled, read_page

from gaugerod.app.job_book import Kind
from gaugerod.web.desk import planned

TOML = b"""format = 1
id = "slate"
name = "Slate grey 24 x 12"
like = "keyed-24x12"
price = 230.00
"""


def copied(at: Browser, like: str = "keyed-24x12", name: str = "My copy") -> Element:
    return at.send(form_of(at.open(f"/materials/new?like={like}")), {"name": name})


def own_rates(at: Browser) -> Element:
    form = form_of(at.open("/rates/new?like=shop"))
    return at.send(form, {"called": "My shop", "labour": "96.00"})


def take_in(
    at: Browser, source: bytes, *, to: str = "materials", key: str = "k1", name: str = "mine.toml"
) -> tuple[int, Element]:
    answer = at.client.post(
        f"/{to}/file",
        data={"key": key, "seen": "0"},
        files={"file": (name, source)},
        headers={"Origin": SITE},
    )
    return answer.status_code, read_page(answer.text)


def options(at: Browser, address: str) -> set[str]:
    return {one.attributes["value"] for one in at.open(address).one("form").all("option")}


def ids(at: Browser, kind: Kind = "material") -> list[str]:
    return [heading.id for heading in at.desk.book.contents(kind)]


def test_a_copy_says_what_the_first_says_but_for_its_name(at: Browser) -> None:
    copied(at)
    packaged = at.desk.shelf.files("materials")["keyed-24x12"].tables
    made = dict(at.desk.book.head("material", "my-copy").document)
    own = {"id": "my-copy", "name": "My copy"}
    assert made == dict(packaged) | own
    for like in ("tile-600x300", "sheet-96x48"):
        copied(at, like, f"My {like}")
        made = dict(at.desk.book.head("material", f"my-{like}").document)
        other = dict(at.desk.shelf.files("materials")[like].tables)
        # Which ways it may hang is a set.
        turns = other.pop("turns")
        assert isinstance(turns, list)
        assert sorted(made.pop("turns")) == sorted(str(one) for one in turns)
        assert made == other | {"id": f"my-{like}", "name": f"My {like}"}


def test_a_copy_of_the_packaged_rates_says_the_same(at: Browser) -> None:
    for like in ("shop", "shop-gb"):
        at.send(form_of(at.open(f"/rates/new?like={like}")), {"called": f"Own {like}"})
        made = dict(at.desk.book.head("rates", f"own-{like}").document)
        assert made == dict(at.desk.shelf.files("rates")[like].tables) | {"id": f"own-{like}"}


def test_a_name_that_is_taken_gets_another_id(at: Browser) -> None:
    copied(at, name="Keyed 24x12")
    copied(at, name="keyed-24x12")
    copied(at, name="New")
    copied(at, name="Плитка")
    found = ids(at)
    assert "keyed-24x12" not in found
    assert [one for one in found if one.startswith("keyed-24x12-")]
    assert "new" not in found
    assert [one for one in found if one.startswith("material-")]


def test_a_form_that_is_sent_twice_counts_once(at: Browser) -> None:
    form = form_of(at.open("/materials/new?like=keyed-24x12"))
    at.send(form, {"name": "My copy"})
    page = at.send(form, {"name": "My copy"})
    assert ids(at) == ["my-copy"]
    form = form_of(page)
    at.send(form, {"price": "240"})
    at.send(form, {"price": "240"})
    assert at.desk.book.head("material", "my-copy").n == 2


def test_asking_for_more_rows_saves_nothing_and_loses_nothing(at: Browser) -> None:
    form = from_nothing(at)
    page = at.send(form, {"name": "Half way"}, press=form.one("button", value="supply"))
    form = form_of(page)
    assert form.one("input", name="name").attributes["value"] == "Half way"
    assert [i for i in form.all("input") if i.attributes.get("name") == "supply.1.name"]
    assert ids(at) == []
    page = at.send(form, press=form.one("button", value="supply"))
    assert page.all("input", name="supply.3.name")


def test_a_row_is_taken_out(at: Browser) -> None:
    form = form_of(entered(at))
    at.send(form, {"trim.0.out": "yes"})
    assert "trim" not in material(at)


def test_two_who_write_at_once_keep_both_changes(at: Browser) -> None:
    form = form_of(entered(at))
    at.send(form, {"price": "200.00"})
    second = {**filled(form, {"per_box": "12"}), "key": "other"}
    page = at.post(HERE, second, status=409)
    places = [row.one("code").text for row in page.one("tbody").all("tr")]
    assert places == ["/document/per_box", "/document/price"]
    assert page.one("a", class_="plain").attributes["href"] == HERE
    at.send(page.one("form"))
    assert (material(at)["price"], material(at)["per_box"]) == (200.0, 12)
    assert at.desk.book.head("material", "my-module-20-x-10").n == 3


def test_history_goes_back(at: Browser) -> None:
    at.send(form_of(entered(at)), {"price": "200.00"})
    page = at.open(f"{HERE}/history")
    assert [row.one("b").text for row in page.one("ol").all("li")] == ["revision 2", "revision 1"]
    at.send(page.one("form"), press=page.one("form").one("button"))
    assert material(at)["price"] == 180.0
    assert at.address == f"{HERE}/history"
    at.post(f"{HERE}/undo", {"seen": "3", "key": "k", "to": "x"}, status=422)
    at.post(HERE, {"seen": "3", "key": "k", "onto": "x"}, status=422)
    at.open("/materials/none", status=404)


def test_a_plan_follows_its_material_and_its_rates(at: Browser) -> None:
    """A box dearer by 100.00: so is the order. An hour at 96.00 is twice the 48.00 of `shop`."""
    entered(at)
    own_rates(at)
    job = begun(at)
    about = f"/jobs/{job}/about"
    at.send(at.open(about).one("form"), {"choices.material": "my-module-20-x-10"})
    square(at, job)
    first = planned(at.desk, at.desk.book.head("job", job))
    (boxes,) = (line.count for line in first.order.lines if line.id == "modules")
    page = at.open(HERE)
    assert page.one("section", id="used").one("a").text == "Hall bath"
    at.send(form_of(page), {"price": "280.00"})
    at.send(at.open(about).one("form"), {"job.rates": "my-shop"})
    assert at.desk.book.head("job", job).document["rates"] == "my-shop"
    after = planned(at.desk, at.desk.book.head("job", job))
    assert after.price.material - first.price.material == boxes * 10_000
    assert after.price.labour == 2 * first.price.labour
    assert at.open("/rates/my-shop").one("section", id="used").one("a").text == "Hall bath"


def test_what_is_put_aside_is_not_offered_and_still_planned_with(at: Browser) -> None:
    entered(at)
    own_rates(at)
    job = begun(at)
    about = f"/jobs/{job}/about"
    at.send(at.open(about).one("form"), {"choices.material": "my-module-20-x-10"})
    page = at.open(HERE)
    form = page.one("form", action=f"{HERE}/aside")
    page = at.send(form, press=form.one("button"))
    assert page.one("p", class_="chip").text.startswith("put aside")
    assert "my-module-20-x-10" not in options(at, "/new")
    assert "my-module-20-x-10" in options(at, about)
    other = begun(at, "Other bath")
    there = [
        o.attributes["value"] for o in at.open(f"/jobs/{other}/about").one("form").all("option")
    ]
    assert "my-module-20-x-10" not in there
    form = at.open("/new").one("form")
    at.send(form, {"name": "Third", "material": "my-module-20-x-10"}, status=422)
    # Mended, it stays aside; offered again, it is offered.
    page = at.send(form_of(page), {"price": "190"})
    form = page.one("form", action=f"{HERE}/aside")
    at.send(form, press=form.one("button"))
    assert {"my-module-20-x-10", "my-shop"} <= options(at, "/new")
    notes = [one.note for one in at.desk.book.history("material", "my-module-20-x-10")]
    assert notes == ["Entered.", "Put aside.", "Mended.", "Offered again."]


def test_a_file_goes_out_and_comes_in_again(at: Browser) -> None:
    entered(at)
    answer = at.client.get(f"{HERE}/file")
    disposition = 'attachment; filename="my-module-20-x-10.toml"'
    assert answer.headers["content-disposition"] == disposition
    assert tomllib.loads(answer.text) == material(at)
    other = answer.text.replace("my-module-20-x-10", "second").encode()
    status, page = take_in(at, other)
    assert status == 200
    assert page.one("h1").text == "My module 20 x 10"
    assert dict(at.desk.book.head("material", "second").document) == material(at) | {"id": "second"}
    own_rates(at)
    rates = at.client.get("/rates/my-shop/file").text
    assert tomllib.loads(rates) == at.desk.book.head("rates", "my-shop").document


def test_a_file_that_is_like_another_is_taken_in_whole(at: Browser) -> None:
    status, _ = take_in(at, TOML)
    assert status == 200
    made = at.desk.book.head("material", "slate")
    assert (made.document["price"], made.document["per_box"]) == (230.0, 8)
    assert "like" not in made.document
    assert made.note == "Taken in from a file."
    take_in(at, TOML)
    assert at.desk.book.head("material", "slate").n == 1


def test_a_file_of_what_is_there_shows_what_it_changes_first(at: Browser) -> None:
    take_in(at, TOML)
    job = begun(at)
    at.send(at.open(f"/jobs/{job}/about").one("form"), {"choices.material": "slate"})
    status, page = take_in(at, TOML.replace(b"230.00", b"250.00"), key="k2")
    assert status == 200
    assert at.desk.book.head("material", "slate").n == 1
    (row,) = page.one("tbody").all("tr")
    assert row.one("code").text == "/price"
    assert [cell.text for cell in row.all("td")] == ["250.0", "230.0"]
    assert "Hall bath" in page.one("main").text
    at.send(page.one("form"))
    assert at.desk.book.head("material", "slate").document["price"] == 250.0
    assert at.address == "/materials/slate"


def test_a_file_that_will_not_do_is_told_in_one_line(at: Browser) -> None:
    cases = {
        b"": "No file was chosen",
        b"format = = 1": "mine.toml:1: At column 10",
        TOML.replace(b"230.00", b'"dear"'): "“dear” is no amount of money",
        TOML.replace(b"keyed-24x12", b"gold"): "There is no whole material “gold”",
        TOML + b"face = [240, 12]\n": "mine.toml:6: 240 in",
        TOML.replace(b'"slate"', b'"new"'): "“new” is the name of a page",
        TOML.replace(b'"slate"', b'"my slate"'): "“my slate” is no id",
        TOML.replace(b'"slate"', b'"my_slate"'): "“my_slate” is no id",
    }
    for source, said in cases.items():
        status, page = take_in(at, source)
        assert status == 422, source
        assert said in page.one("p", class_="wrong").text
    assert ids(at) == []
    status, page = take_in(at, b"format = 1", to="rates")
    assert status == 422


def test_the_list_says_who_uses_what(at: Browser) -> None:
    page = at.open("/materials")
    assert "None of your own yet." in page.text
    entered(at)
    at.send(
        at.open(f"/jobs/{begun(at)}/about").one("form"), {"choices.material": "my-module-20-x-10"}
    )
    # A job that says nothing yet uses nothing.
    bare = {"file": ("bare.toml", b'name = "Bare"')}
    at.client.post("/import", data={"key": "k", "seen": "0"}, files=bare, headers={"Origin": SITE})
    (row,) = at.open("/materials").one("ul", class_="rows").all("li")
    assert row.one("b").text == "My module 20 x 10"
    assert "Jobs that use it: 1." in row.text
    assert "Jobs that use it: Hall bath." in at.open(f"{HERE}/history").one("main").text


def test_rates_begin_from_nothing(at: Browser) -> None:
    form = form_of(at.open("/rates/new?like="))
    least = {
        "called": "From scratch",
        "currency": "EUR",
        "crew.wage": "20",
        "crew.burden": "40",
        "crew.billable": "80 %",
        "margin": "25",
        "contingency": "5",
        "tax": "0",
        "looks.sliver": "25",
        "looks.unequal": "10",
        "looks.front_cut": "60",
        "looks.off_jamb": "30",
        "looks.near_hole": "30",
        "task.0.name": "Set modules",
        "task.0.per": "square metre",
        "task.0.hours": "1.5",
        "task.0.hold.hours": "24",
        "task.0.kind.keyed": "yes",
        "task.0.who": "lead setter, helper",
        "task.0.also.0.per": "piece",
        "task.0.also.0.hours": "0.1",
        "place.0.key": "US-CA",
        "place.0.tax": "7.75",
    }
    at.send(form, least)
    made = at.desk.book.head("rates", "from-scratch").document
    assert made["crew"] == {"wage": 20, "burden": 0.4, "billable": 0.8}
    assert made["task"] == [
        {
            "id": "set-modules",
            "name": "Set modules",
            "per": "square metre",
            "hours": 1.5,
            "hold": 24,
            "kind": "keyed",
            "who": ["lead setter", "helper"],
            "also": [{"per": "piece", "hours": 0.1}],
        }
    ]
    assert made["place"] == {"US-CA": {"tax": 0.0775}}
    page = at.send(form, least | {"place.0.key": ""}, status=422)
    assert wrong_at(page).keys() == {"place.0.key"}
