"""What holds for every page: it fits a phone, can be tapped, read, printed, and needs no script."""

from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, expect
from pypdf import PdfReader
from tests.browsing import watched
from tests.served import Served, serving

NARROW = {"width": 390, "height": 844}
FINGERTIP = 48
"""Least height of what is tapped. [px]"""
FAULTS = Path(__file__).with_name("faults.js").read_text(encoding="utf-8")
OF_A_JOB = {
    "about": "/about",
    "a list of the job": "/about/money",
    "measure": "/measure",
    "walls": "/walls",
    "a wall": "/walls/B",
    "a reading": "/walls/B/readings/0",
    "a reading to come": "/walls/B/readings/new?kind=corner+to+corner&left_at=-30&right_at=40",
    "an opening": "/walls/B/opening/0",
    "a fixture to come": "/walls/B/fixture/new",
    "set out": "/set-out",
    "price": "/price",
    "order": "/order",
    "ready": "/ready",
    "cut and set": "/cut",
    "a card": "/cut/B1-1",
    "a whole module": "/cut/B2-2",
    "a surprise": "/found",
    "hand over": "/hand-over",
    "history": "/history",
}
WAYS = "nav, button, .button, a.back"
OF_THE_BOOK = {
    "jobs": "/",
    "new job": "/new",
    "own materials": "/materials",
    "own rates": "/rates",
    "no such page": "/nowhere",
}
PAGES = (*OF_THE_BOOK, "not measured yet", *OF_A_JOB)


@pytest.fixture(scope="module")
def shop(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[dict[str, str]]:
    """The address of every page, of an invented job and of one that was only begun."""
    with serving(tmp_path_factory.mktemp("shop") / "book") as pages:
        with watched(browser, base_url=pages.url) as page:
            page.goto("/")
            page.get_by_role("button", name="Open alcove-1962").click()
            page.wait_for_url("**/measure")
            job = page.url.removesuffix("/measure")
            for planned in ("Set out", "Price"):
                page.get_by_role("link", name=planned, exact=True).click()
                expect(page.get_by_role("heading", level=1)).to_have_text(planned)
            page.goto("/new")
            page.get_by_label("What is the job called?").fill("Begun")
            page.get_by_role("button", name="Make the job").click()
            page.wait_for_url("**/measure")
            begun = page.url.removesuffix("/measure")
        yield {
            **{name: f"{pages.url}{path}" for name, path in OF_THE_BOOK.items()},
            "not measured yet": f"{begun}/price",
            **{name: f"{job}{path}" for name, path in OF_A_JOB.items()},
        }


@pytest.fixture
def narrow(browser: Browser, playwright: Playwright) -> Iterator[Page]:
    """A page on a phone that is 390 px wide."""
    device = {**playwright.devices["Pixel 7"], "viewport": NARROW}
    with watched(browser, **device) as page:
        yield page


@pytest.mark.parametrize("name", PAGES)
def test_it_fits_can_be_tapped_and_read_by_day_and_in_the_dark_and_prints(
    narrow: Page, shop: dict[str, str], name: str
) -> None:
    narrow.goto(shop[name])
    assert narrow.evaluate(FAULTS, FINGERTIP) == []
    narrow.emulate_media(color_scheme="dark")
    assert narrow.evaluate(FAULTS, FINGERTIP) == []
    narrow.emulate_media(media="print", color_scheme="light")
    assert narrow.locator(WAYS).locator("visible=true").all_inner_texts() == []
    printed = PdfReader(BytesIO(narrow.pdf(format="Letter")))
    assert "a plan is a help and no permit" in printed.pages[-1].extract_text()


@pytest.mark.parametrize("name", PAGES)
def test_it_needs_no_script(browser: Browser, shop: dict[str, str], name: str) -> None:
    with watched(browser, viewport=NARROW, java_script_enabled=False) as page:
        page.goto(shop[name])
        expect(page.get_by_role("heading", level=1)).to_be_visible()
        # A form that only a script could send would have no button.
        assert page.locator("form:not(:has(button))").count() == 0


def test_a_reading_is_saved_without_a_script(browser: Browser, served: Served) -> None:
    with watched(browser, base_url=served.url, java_script_enabled=False) as page:
        page.goto("/new")
        page.get_by_label("What is the job called?").fill("No script")
        page.get_by_role("button", name="Make the job").click()
        page.get_by_role("link", name="Next: wall L").click()
        page.get_by_label("Whole inches").fill("51")
        page.get_by_role("button", name="Save", exact=True).first.click()
        expect(page.locator("#wall-L .taken .reads")).to_have_text(["51"])


def test_on_a_desk_a_job_is_begun_in_millimetres(wide: Page) -> None:
    wide.goto("/new")
    wide.get_by_label("What is the job called?").fill("By mouse")
    wide.get_by_role("radio", name="mm", exact=True).check()
    wide.get_by_role("button", name="Make the job").click()
    wide.get_by_role("link", name="Next: wall L").click()
    wide.get_by_label("It reads").fill("1300")
    wide.keyboard.press("Enter")
    expect(wide.get_by_role("status")).to_contain_text("width entered")
    wide.get_by_role("link", name="Back to wall L").click()
    expect(wide.locator("#wall-L .taken .reads")).to_have_text(["1300"])
    heights = wide.locator("nav a").evaluate_all("all => all.map(one => one.offsetTop)")
    assert len(heights) == 8
    assert len({*heights}) == 1
    assert wide.evaluate(FAULTS, FINGERTIP) == []


def test_both_versions_of_a_conflict_fit_a_phone(narrow: Page, shop: dict[str, str]) -> None:
    about = shop["not measured yet"].replace("/price", "/about")
    other = narrow.context.new_page()
    for page, street in ((narrow, "1 Made-up Lane"), (other, "2 Made-up Lane")):
        page.goto(about)
        page.get_by_label("Address").fill(street)
    for page in (other, narrow):
        page.get_by_role("button", name="Save").tap()
        page.get_by_text("revision 2").first.wait_for()
    expect(narrow.get_by_role("heading", level=1)).to_have_text("Two wrote at once")
    expect(narrow.locator("td.mine").last).to_contain_text("1 Made-up Lane")
    expect(narrow.locator("td.now").last).to_contain_text("2 Made-up Lane")
    assert narrow.evaluate(FAULTS, FINGERTIP) == []
    narrow.get_by_role("button", name="Put mine on top").tap()
    expect(narrow.get_by_label("Address")).to_have_value("1 Made-up Lane")


BAD = """<!doctype html><body style="background: white"><p style="color: #999">Too pale</p>
<a href="/" style="color: black">Too low</a>
<div style="width: 600px; height: 60px">Too wide</div>
<svg width="90" height="60"><rect width="90" height="60" fill="#777"/>
<text y="30">Dark</text><text y="30" fill="#eee">Dim</text></svg>
"""


def test_what_is_wrong_with_a_page_is_seen(narrow: Page) -> None:
    narrow.set_content(f"<meta name=viewport content='width=device-width'>{BAD}")
    found = "\n".join(narrow.evaluate(FAULTS, FINGERTIP))
    # By hand, by the formula of WCAG 2.2: #999 has a luminance of 0.319, so 1.05 / 0.369 = 2.85;
    # #777 has 0.184: 0.234 / 0.05 = 4.69 under black, and 0.905 / 0.234 = 3.86 under #eee (0.855).
    assert "contrast 2.85: p" in found
    assert "contrast 3.86: text" in found
    assert "Dark" not in found
    assert "px high: a" in found
    assert "Too wide" in found
