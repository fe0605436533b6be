"""Somebody who opens no terminal: from nothing to a job that is handed over, by forms alone."""

from contextlib import closing
from pathlib import Path

from tests.web_pages import Browser, Element, browser

WIDTHS = {"L": "32", "B": "60", "R": "32"}


def tap(at: Browser, job: str, wall: str, name: str, fill: dict[str, str]) -> Element:
    """Tap a place of a wall, fill its form in and save."""
    section = at.open(f"/jobs/{job}/measure").one("section", id=f"wall-{wall}")
    (spot,) = (a for a in section.all("a", class_="spot") if a.one("title").text == name)
    return at.send(at.open(spot.attributes["href"]).all("form")[0], fill)


def measured(at: Browser, job: str) -> None:
    """Measure three square walls; the diagonals of the back one are 100 in (a 3-4-5 triangle)."""
    for wall, width in WIDTHS.items():
        for height in ("up high", "near the datum", "low down"):
            tap(at, job, wall, f"width {height}", {"reads.whole": width})
        for side in ("left", "right"):
            tap(at, job, wall, f"down to the deck at the {side}", {"reads.whole": "30"})
            tap(at, job, wall, f"up to the ceiling at the {side}", {"reads.whole": "50"})
            plumb = {"over": "72", "reads.whole": "0"}
            tap(at, job, wall, f"lean of the {side} edge", plumb)
    for way, (left, right) in {"up": ("-30", "50"), "down": ("50", "-30")}.items():
        ends = {"left_at": left, "right_at": right, "reads.whole": "100"}
        tap(at, job, "B", f"corner to corner, {way} to the right", ends)


def test_a_newcomer_goes_the_whole_way(tmp_path: Path) -> None:
    at = browser(tmp_path)
    with closing(at.desk.book), at.client:
        at.send(at.open("/new").one("form"), {"name": "Hall bath"})
        (heading,) = at.desk.book.contents("job")
        job = heading.id
        measured(at, job)
        said = at.open(f"/jobs/{job}/measure").one("section", id="said")
        assert said.all("p", class_="wrong") == []
        assert said.one("p", class_="chip").text == "May be cut from"
        page = at.open(f"/jobs/{job}/set-out")
        other = next(a for a in page.all("article") if a.all("form"))
        page = at.send(other.one("form"), press=other.one("button"))
        price = page.one("article", class_="chosen").one("span", class_="price").text
        assert at.open(f"/jobs/{job}/price").one("p", class_="figure").text == price
        assert at.open(f"/jobs/{job}/order").one("table", class_="lines").all("tr")
        at.send(at.open(f"/jobs/{job}/ready").one("form"), {"lot.modules": "L-77"})
        page = at.open(f"/jobs/{job}/cut")
        while page.all("a", class_="hand"):
            card = at.open(page.one("a", class_="hand").attributes["href"])
            form = card.one("form", class_="ticks")
            at.send(form, press=form.one("button", value="set"))
            page = at.open(f"/jobs/{job}/cut")
        assert {row.attributes["class"] for row in page.one("ol", class_="pieces").all("li")} == {
            "set"
        }
        page = at.open(f"/jobs/{job}/hand-over")
        assert page.all("p", class_="wrong") == []
        assert page.one("section", id="lots").one("td").text == "L-77"
        packet = at.client.get(f"/jobs/{job}/papers/packet.pdf")
        assert packet.content.startswith(b"%PDF-")
