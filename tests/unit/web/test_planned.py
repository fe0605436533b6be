"""Set out, price and order: what the pages show is what the plan says."""

import csv
import io
from decimal import Decimal

import pytest
from tests.unit.web.test_jobs import begun
from tests.web_pages import Browser, Element

PAGES = ("set-out", "price", "order")


def opened(at: Browser, which: int = 0) -> str:
    """Open one of the invented jobs; return its id."""
    page = at.open("/")
    form = [f for f in page.all("form", action="/import") if f.all("button", name="demo")][which]
    at.send(form, press=form.one("button"))
    (heading,) = at.desk.book.contents("job")
    return heading.id


def money(text: str) -> Decimal:
    return Decimal(text.strip("$£").replace(",", ""))


def chosen(page: Element) -> str:
    return page.one("article", class_="chosen").attributes["id"]


@pytest.mark.parametrize("page", PAGES)
def test_a_job_without_readings_says_what_comes_first(at: Browser, page: str) -> None:
    found = at.open(f"/jobs/{begun(at)}/{page}")
    assert "There is no reading" in found.one("p", class_="wrong").text
    assert found.one("a", class_="plain").text == "History"


def test_the_lines_add_up_to_the_price(at: Browser) -> None:
    page = at.open(f"/jobs/{opened(at)}/price")
    *lines, total = (
        money(row.one("td").text) for row in page.one("table", class_="lines").all("tr")
    )
    assert sum(lines) == total == money(page.one("p", class_="figure").text)
    stops = {stop.attributes["class"] for stop in page.one("ol", class_="strip").all("li")}
    assert {"start", "hold", "water", "finish"} <= stops


def test_the_order_is_the_one_that_the_paper_has(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/order")
    bought = [
        (row.one("b").text, money(row.one("td").text))
        for row in page.one("table", class_="lines").one("tbody").all("tr")
        if row.all("b", class_="count")
    ]
    paper = at.client.get(f"/jobs/{job}/papers/order.csv").content.decode("utf-8-sig")
    lines = [line for line in csv.reader(io.StringIO(paper)) if line]
    for count, pay in bought:
        assert any({count, str(pay)} <= {*line} for line in lines)
    assert sum(pay for _, pay in bought) == money(page.one("tfoot").one("b").text)


def test_papers_are_given_and_no_others(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/price")
    (link,) = page.one("section", class_="papers").all("a")
    paper = at.client.get(link.attributes["href"])
    assert paper.content.startswith(b"%PDF-")
    assert paper.headers["content-type"] == "application/pdf"
    assert paper.headers["content-disposition"].startswith("inline")
    model = at.client.get(f"/jobs/{job}/papers/alcove.glb")
    assert model.headers["content-disposition"].startswith("attachment")
    at.open(f"/jobs/{job}/papers/none.pdf", status=404)


def test_an_option_with_a_name_is_picked(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/set-out")
    articles = page.all("article")
    assert len(articles) > 1
    first = chosen(page)
    (other,) = (a for a in articles if "saw least" in a.one("h2").text)
    assert other.attributes["id"] != first
    price = other.one("span", class_="price").text
    page = at.send(other.one("form"), press=other.one("button"))
    assert page.one("article", class_="chosen").one("span", class_="price").text == price
    assert at.desk.book.head("job", job).document["choices"]["pick"] == "saw least"
    assert at.open(f"/jobs/{job}/price").one("p", class_="figure").text == price


def test_an_option_without_a_name_is_held_and_let_go(at: Browser) -> None:
    job = opened(at)
    page = at.open(f"/jobs/{job}/set-out")
    other = next(a for a in page.all("article") if "(" not in a.one("h2").text)
    price = other.one("span", class_="price").text
    page = at.send(other.one("form"), press=other.one("button"))
    assert page.one("article", class_="chosen").one("span", class_="price").text == price
    choices = at.desk.book.head("job", job).document["choices"]
    assert set(choices["phase"]) == {"L", "B", "R"}
    free = next(f for f in page.all("form") if f.all("button", value="free"))
    page = at.send(free, press=free.one("button"))
    assert "phase" not in at.desk.book.head("job", job).document["choices"]
    at.post(f"/jobs/{job}/set-out", {"seen": "3", "key": "k", "option": "ZZ"}, status=422)
