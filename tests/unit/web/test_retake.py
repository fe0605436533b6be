"""A reading taken again on the day: what hangs stays, what is left is cut to what it reads now.

Inches by hand: 59 15/16 is 1522.4125 mm, 60 1/16 is 1525.5875 mm.
"""

import pytest
from tests.unit.web.test_jobs import begun
from tests.unit.web.test_measure import square
from tests.unit.web.test_planned import opened
from tests.unit.web.test_site import tick
from tests.web_pages import Browser, Element

from gaugerod.core.pipeline import Plan
from gaugerod.web.desk import planned, replanned

LOW, NEAR_DATUM = "B width 1", "B width 2"
PLACE = 1


def retake(at: Browser, job: str, place: int = PLACE) -> Element:
    return at.open(f"/jobs/{job}/found/B/{place}").one("form")


def plan_now(at: Browser, job: str) -> Plan:
    return replanned(at.desk, at.desk.book.head("job", job)).plan


def test_what_hangs_stays_and_the_rest_follows_the_reading(at: Browser) -> None:
    job = opened(at)
    for tag in ("B1-1", "B1-2"):
        tick(at, at.open(f"/jobs/{job}/cut/{tag}"), "set")
    before = plan_now(at, job)
    survey = at.desk.book.head("job", job).document
    page = at.open(f"/jobs/{job}/found")
    (link,) = (a for a in page.one("section", id="again").all("a") if LOW in a.text)
    page = at.open(link.attributes["href"])
    assert page.one("h1").text == f"{LOW}, taken again"
    assert "Planned on 60 3/16." in page.text
    page = at.send(page.one("form"), {"reads.part": "1"})
    assert page.one("section", id="told").all("p")
    revision = at.desk.book.head("job", job)
    reading = {"kind": "width", "at": "-28", "reads": "60 1/16"}
    assert revision.day["day"][0]["reading"] == [
        {"wall": "B", "reading": reading, "instead_of": LOW}
    ]
    assert revision.document == survey
    after = plan_now(at, job)
    (read,) = (one for one in after.walls.readings if one.id == LOW)
    assert read.value == pytest.approx(1525.5875)
    hang = {"B1-1", "B1-2"}
    assert after.done == hang
    assert [p for p in after.pieces if p.tag in hang] == [p for p in before.pieces if p.tag in hang]
    changed = {new.tag for new, old in zip(after.pieces, before.pieces, strict=True) if new != old}
    assert {"B1-3", "B2-3"} <= changed
    assert all(tag in page.one("section", id="told").text for tag in changed)
    (row,) = (a for a in page.one("section", id="again").all("a") if LOW in a.text)
    assert (row.one("b").text, row.one("small").text) == ("60 1/16", "planned on 60 3/16")
    assert planned(at.desk, revision).walls == before.walls


def test_a_reading_taken_twice_again_counts_once(at: Browser) -> None:
    job = opened(at)
    at.send(retake(at, job), {"reads.whole": "59", "reads.part": "14"})
    form = retake(at, job)
    assert form.one("input", name="reads.whole").attributes["value"] == "59"
    at.send(form, {"reads.whole": "59", "reads.part": "15"})
    found = [one for one in plan_now(at, job).walls.readings if one.id == NEAR_DATUM]
    assert [one.value for one in found] == pytest.approx([1522.4125])


def test_a_reading_that_the_others_gainsay_is_named_and_nothing_is_cut(at: Browser) -> None:
    """A wall is straight between its corners: one width of three can't lose a quarter alone."""
    job = opened(at)
    page = at.send(retake(at, job), {"reads.whole": "59", "reads.part": "12"})
    (wrong,) = page.one("section", id="told").all("p", class_="suspect")
    assert NEAR_DATUM in wrong.text
    assert plan_now(at, job).walls.fit_for == "price"
    assert "may not be cut from" in at.open(f"/jobs/{job}/cut").one("p", class_="wrong").text


def test_beside_it_both_readings_count(at: Browser) -> None:
    job = opened(at)
    ids = [one.id for one in plan_now(at, job).walls.readings]
    at.send(retake(at, job), {"reads.whole": "59", "reads.part": "15", "how": "beside"})
    day = at.desk.book.head("job", job).day["day"]
    assert "instead_of" not in day[0]["reading"][0]
    assert len(plan_now(at, job).walls.readings) == len(ids) + 1
    tick(at, at.open(f"/jobs/{job}/cut/B1-1"), "set")
    assert [sorted(one) for one in at.desk.book.head("job", job).day["day"]] == [
        ["on", "reading"],
        ["on", "set"],
    ]


@pytest.mark.parametrize(
    ("fill", "field"),
    [
        ({"reads": "59 13/17"}, "reads"),
        ({"reads": "-60"}, "reads"),
        ({"reads.whole": "60", "at": "x"}, "at"),
        ({"reads.whole": "60", "name": "B width 99"}, "reads"),
    ],
)
def test_what_is_no_reading_is_told_beside_its_field(
    at: Browser, fill: dict[str, str], field: str
) -> None:
    job = opened(at)
    page = at.send(retake(at, job), fill, status=422)
    assert page.one("p", class_="wrong").attributes["id"] == f"wrong-{field}"
    assert at.desk.book.head("job", job).n == 1


def test_two_who_find_something_at_once_lose_neither(at: Browser) -> None:
    job = opened(at)
    late, twice = retake(at, job), retake(at, job)
    at.send(twice, {"reads.whole": "59", "reads.part": "15"})
    at.send(twice, {"reads.whole": "59", "reads.part": "15"})
    assert at.desk.book.head("job", job).n == 2
    tick(at, at.open(f"/jobs/{job}/cut/L1-1"), "marked")
    page = at.send(late, {"reads.whole": "59", "reads.part": "14"}, status=409)
    at.send(page.one("form"))
    found = [one for one in plan_now(at, job).walls.readings if one.id == NEAR_DATUM]
    assert [one.value for one in found] == pytest.approx([59.875 * 25.4])


def test_once_pieces_hang_measuring_leads_to_the_day(at: Browser) -> None:
    job = opened(at)
    entry = f"/jobs/{job}/walls/B/readings/{PLACE}"
    again = f"/jobs/{job}/found/B/{PLACE}"
    assert at.open(entry).all("a", href=again) == []
    assert at.open(again).all("a", href=entry)[0].text == "Measure"
    tick(at, at.open(f"/jobs/{job}/cut/L1-1"), "set")
    assert at.open(entry).one("a", href=again).text == "A reading taken again"
    assert at.open(again).all("a", href=entry) == []
    new = at.open(f"/jobs/{job}/walls/B/readings/new?kind=width")
    assert new.one("a", href=f"/jobs/{job}/found#again").text == "A reading taken again"
    assert at.open(f"/jobs/{job}/walls/L/hole/0").all("p", class_="wrong") == []


def test_a_reading_that_is_not_there_is_not_taken_again(at: Browser) -> None:
    job = opened(at)
    for where in ("B/99", "Z/0", "B/x"):
        at.open(f"/jobs/{job}/found/{where}", status=404)
        at.post(f"/jobs/{job}/found/{where}", {"seen": "1", "key": "k"}, status=404)


def test_a_job_that_cannot_be_read_yet_says_so(at: Browser) -> None:
    job = begun(at)
    square(at, job, "L")
    page = at.open(f"/jobs/{job}/found/L/0")
    assert "There is no reading" in page.one("p", class_="wrong").text
