"""What will not do in a material or in rates: said at its place, and what was typed still there."""

from tests.unit.web.test_own_material import MODULE, entered, form_of, from_nothing, wrong_at
from tests.web_pages import Browser

Case = tuple[str, str, str]
"""A place of the form, what is typed there, and a part of what is said."""
MATERIAL: list[Case] = [
    ("name", "x" * 81, "too long"),
    ("face.0", "24 9/8", "9/8 at character 4 is a whole inch or more"),
    ("face.0.whole", "240", "240 in"),
    ("face.1", "3 miles", "miles"),
    ("thickness", "0", "More than nought"),
    ("bed", "-1/16", "Nought or more"),
    ("weight", "heavy", "“heavy” is no number"),
    ("weight", "900", "At most 200"),
    ("weight", "0900", "At most 200"),
    ("wall_order", "LEFT", "no name of a wall"),
    ("key_depth", "4 in", "4 in"),
    ("per_box", "8.5", "whole number"),
    ("per_box", "0", "At least 1"),
    ("price", "$180", "“$180” is no amount of money"),
    ("breakage", "70", "70 % is too large. At most 50 % is wanted."),
    ("breakage", "some", "“some” is no number"),
    ("lead_days", "1000", "At most 730"),
    ("cutting.kerf", "wide", "wide"),
    ("cutting.most_shift", "60 %", "60 % is too large. At most 50 % is wanted."),
    ("gaps.hole_clear", "1 1 1", "1 1 1"),
    ("trim.0.stock", "eight feet", "eight feet"),
    ("trim.0.price", "free", "“free” is no amount"),
    ("adhesive.open_minutes", "soon", "“soon” is no number"),
    ("adhesive.usable", "0", "More than 0 "),
    ("adhesive.hold.temperature", "50", "no temperature"),
    ("adhesive.hold.hours", "a day", "“a” is no number"),
    ("sealant.cartridge", "-1", "More than 0"),
    ("membrane.film", "thin", "thin"),
    ("backer.size.0", "60 yd", "One of the two is missing"),
    ("supply.0.lasts", "0", "More than 0"),
]
RATES: list[Case] = [
    ("called", "", "Nothing stands here"),
    ("labour", "a lot", "“a lot” is no amount"),
    ("labour", "", "one of the two"),
    ("margin", "20", "one of the two"),
    ("markup", "600", "600 % is too large. At most 500 % is wanted."),
    ("contingency", "lots", "“lots” is no number"),
    ("tax", "101", "101 % is too large. At most 100 % is wanted."),
    ("freight", "-5", "no amount"),
    ("task.0.hours", "", "Nothing stands here"),
    ("task.0.hours", "0.1", "0.75, 0.1, 2"),
    ("task.0.people", "0", "At least 1"),
    ("task.0.name", "", "Nothing stands here"),
    ("task.1.after", "protect, tea", "waits for “tea”, which is no task"),
    ("task.0.after", "demo", "wait for one another"),
    ("task.1.id", "protect", "two tasks have the id “protect”"),
    ("task.0.hold.hours", "-1", "At least 0"),
    ("task.2.inspection.hours", "", "Nothing stands here"),
    ("factor.0.times", "0", "More than 0"),
    ("allowance.0.beyond", "", "Nothing stands here"),
    ("terms.deposit", "20", "110"),
    ("place.0.tax", "5", "Name each place once"),
    ("looks.sliver", "", "Nothing stands here"),
]


def test_a_material_is_refused_at_its_place(at: Browser) -> None:
    form = from_nothing(at)
    for name, text, said in MATERIAL:
        page = at.send(form, MODULE | {name: text}, status=422)
        places = wrong_at(page)
        told = [where for where in places if name == where or name.startswith(f"{where}.")]
        assert any(said in places[where] for where in told), (name, text, places)
        assert page.one("input", name=name).attributes["value"] == text
        assert page.one("input", name="edges.left", value="groove").attributes["checked"] == ""
    assert at.desk.book.contents("material") == ()


def test_rates_are_refused_at_their_place(at: Browser) -> None:
    form = form_of(at.open("/rates/new?like=shop"))
    for name, text, said in RATES:
        page = at.send(form, {"called": "My shop", name: text}, status=422)
        places = wrong_at(page)
        assert any(said in told for told in places.values()), (name, text, places)
        assert page.one("input", name=name).attributes["value"] == text
        assert page.one("input", name="task.3.name").attributes["value"] == "Board and tape"
    assert at.desk.book.contents("rates") == ()


def test_what_is_wrong_in_a_row_is_told_in_that_row(at: Browser) -> None:
    """The row before it is empty, so that the document counts one row fewer than the form."""
    form = form_of(entered(at))
    form = form_of(at.send(form, press=form.one("button", name="more", value="trim")))
    second = {f"trim.0.{key}": "" for key in ("name", "use", "stock.whole", "leg", "price")}
    third = {"name": "Top trim", "use": "top", "stock.whole": "96", "price": "16"}
    third = {f"trim.2.{key}": text for key, text in third.items()} | {"trim.2.leg": "-1"}
    page = at.send(form, second | third, status=422)
    assert wrong_at(page).keys() == {"trim.2.leg"}
