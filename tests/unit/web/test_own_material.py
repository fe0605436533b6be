"""A user's own material: entered by a form, looked at, mended, planned with.

The module is invented: a face of 20 in by 10 in, a price of 180.00 for a box of ten.
"""

from tests.unit.web.test_measure import square
from tests.web_pages import Browser, Element

from gaugerod.web.desk import planned

MODULE = {
    "name": "My module 20 x 10",
    "face.0.whole": "20",
    "face.1.whole": "10",
    "thickness.part": "6",
    "bed.part": "1",
    "weight": "1.4",
    "turns.lying": "yes",
    "key_depth.part": "6",
    "edges.left": "groove",
    "edges.right": "tongue",
    "edges.bottom": "groove",
    "edges.top": "tongue",
    "per_box": "10",
    "price": "180.00",
    "breakage": "2",
    "spares": "1",
    "cutting.kerf.part": "2",
    "cutting.least.whole": "2",
    "cutting.groove_off.part": "8",
    "cutting.tool": "saw",
    "cutting.material": "plastic",
    "gaps.deck.part": "2",
    "gaps.corner.part": "2",
    "gaps.butt.part": "2",
    "gaps.opening.whole": "0",
    "gaps.ceiling.part": "6",
    "gaps.hole_clear.whole": "1",
    "gaps.hides_key.front": "yes",
    "gaps.hides_key.top": "yes",
    "trim.0.name": "Edge trim",
    "trim.0.use": "edge",
    "trim.0.stock.whole": "96",
    "trim.0.leg": "19 mm",
    "trim.0.price": "17.50",
    "adhesive.name": "Panel adhesive",
    "adhesive.cartridge": "0.828",
    "adhesive.bead": "1/4",
    "adhesive.inset.whole": "1",
    "adhesive.infill.whole": "6",
    "adhesive.usable": "85",
    "adhesive.price": "11.80",
    "adhesive.open_minutes": "12",
    "adhesive.hold_hours": "24",
    "sealant.name": "Sanitary sealant",
    "sealant.cartridge": "0.2987",
    "sealant.key_bead": "3/16",
    "sealant.fillet.part": "4",
    "sealant.usable": "80",
    "sealant.price": "9.40",
    "sealant.hold_hours": "24",
}
HERE = "/materials/my-module-20-x-10"


def from_nothing(at: Browser) -> Element:
    """The empty form of a keyed module in inches, reached by the links of the pages."""
    page = at.open(at.open("/").one("a", href="/materials").attributes["href"])
    page = at.open(page.one("a", href="/materials/new").attributes["href"])
    assert page.one("form").attributes["method"] == "get"
    return at.open("/materials/new?kind=keyed&unit=in").one("form", class_="own")


def entered(at: Browser) -> Element:
    return at.send(from_nothing(at), MODULE)


def form_of(page: Element) -> Element:
    return page.one("form", class_="own")


def wrong_at(page: Element) -> dict[str, str]:
    """What is said, by the place that it is said at."""
    said = [p for p in page.all("p", class_="wrong") if "id" in p.attributes]
    return {p.attributes["id"].removeprefix("wrong-"): p.text for p in said}


def material(at: Browser) -> dict[str, object]:
    return dict(at.desk.book.head("material", "my-module-20-x-10").document)


def test_a_newcomer_enters_his_module_and_plans_a_job_with_it(at: Browser) -> None:
    at.post("/name", {"by": "Setter"})
    entered(at)
    assert at.address == HERE
    kept = at.desk.book.head("material", "my-module-20-x-10")
    assert (kept.n, kept.by, kept.title) == (1, "Setter", "My module 20 x 10")
    document = kept.document
    assert document["face"] == [20, 10]
    assert document["thickness"] == "3/8"
    assert document["joint"] == [0, 0]
    assert document["breakage"] == 0.02
    assert document["turns"] == ["lying"]
    assert document["gaps"]["hides_key"] == ["front", "top"]
    assert document["trim"] == [
        {
            "id": "edge-trim",
            "name": "Edge trim",
            "use": "edge",
            "stock": 96,
            "leg": "19 mm",
            "price": 17.5,
        }
    ]
    form = at.open("/new").one("form")
    assert "my-module-20-x-10" in [o.attributes["value"] for o in form.all("option")]
    at.send(form, {"name": "Hall bath", "material": "my-module-20-x-10"})
    (job,) = at.desk.book.contents("job")
    square(at, job.id)
    plan = planned(at.desk, at.desk.book.head("job", job.id))
    assert {piece.product for piece in plan.pieces} == {"my-module-20-x-10"}
    assert plan.layout.pitch == (508.0, 254.0)  # 20 x 25.4, 10 x 25.4


def test_what_was_entered_stands_in_the_form_again(at: Browser) -> None:
    form = form_of(entered(at))
    assert form.one("input", name="face.0.whole").attributes["value"] == "20"
    part = form.one("select", name="key_depth.part")
    assert [o.text for o in part.all("option") if "selected" in o.attributes] == ["3/8"]
    assert form.one("input", name="breakage").attributes["value"] == "2"
    assert form.one("input", name="price").attributes["value"] == "180.00"
    assert form.one("input", name="trim.0.leg").attributes["value"] == "19 mm"
    before = material(at)
    at.send(form)
    assert material(at) == before
    assert at.desk.book.head("material", "my-module-20-x-10").changed == ()


def test_every_needed_place_that_is_empty_is_told_at_once(at: Browser) -> None:
    page = at.send(from_nothing(at), {"name": "My module", "per_box": "8"}, status=422)
    said = wrong_at(page)
    needed = {
        *("face", "thickness", "bed", "weight", "key_depth", "edges.left", "price", "breakage"),
        *("spares", "cutting.kerf", "cutting.least", "cutting.tool", "cutting.material"),
        *("gaps.deck", "gaps.ceiling", "adhesive.name", "adhesive.bead", "sealant.fillet"),
    }
    assert needed <= said.keys()
    assert not {"name", "per_box", "trim", "backer", "membrane", "lead_days", "turns"} & said.keys()
    assert page.one("input", name="per_box").attributes["value"] == "8"
    links = page.one("div", class_="wrong").all("a")
    assert {a.attributes["href"] for a in links} >= {f"#at-{name}" for name in needed}
    assert at.desk.book.contents("material") == ()


def test_edges_that_carry_nothing_are_no_key(at: Browser) -> None:
    plain = {f"edges.{side}": "plain" for side in ("left", "right", "bottom", "top")}
    page = at.send(from_nothing(at), MODULE | plain, status=422)
    assert wrong_at(page)["edges"].startswith("A keyed module has a tongue")
