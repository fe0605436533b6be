"""Take pictures of every page: `python docs/pictures/pages.py [FOLDER]`, and two for the README.

A book of invented jobs is served for the time of it. Each page is taken on a phone and on a desk,
by day and in the dark, and as it prints.
"""

import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory

from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, sync_playwright

HERE = Path(__file__).parent
OUT = HERE.parents[1] / "out" / "pages"
NARROW: ViewportSize = {"width": 390, "height": 844}
WIDE: ViewportSize = {"width": 1280, "height": 800}
DEMO, BEGUN = "alcove-1962", "Half measured"
PAGES = {
    "jobs": "/",
    "new": "/new",
    "nowhere": "/nowhere",
    "materials": "/materials",
    "rates": "/rates",
    "begun-measure": "{begun}/measure",
    "begun-price": "{begun}/price",
    "about": "{job}/about",
    "about-money": "{job}/about/money",
    "measure": "{job}/measure",
    "walls": "{job}/walls",
    "wall": "{job}/walls/B",
    "reading": "{job}/walls/B/readings/0",
    "reading-new": "{job}/walls/B/readings/new?kind=corner+to+corner",
    "opening": "{job}/walls/B/opening/0",
    "fixture": "{job}/walls/B/fixture/new",
    "set-out": "{job}/set-out",
    "price": "{job}/price",
    "order": "{job}/order",
    "ready": "{job}/ready",
    "cut": "{job}/cut",
    "card": "{job}/cut/B1-1",
    "card-set": "{job}/cut/L1-1",
    "card-whole": "{job}/cut/B2-2",
    "found": "{job}/found",
    "hand-over": "{job}/hand-over",
    "history": "{job}/history",
}
README = {
    "phone-measure.png": ("{job}/measure", "#wall-B"),
    "phone-cut.png": ("{job}/cut/B1-1", "h1"),
}
"""Pictures of the README: a page, and what stands at the top of the picture."""


@contextmanager
def served(book: Path) -> Iterator[str]:
    """Serve a book; give its address."""
    command = [sys.executable, "-u", "-m", "gaugerod", "serve", "--port", "0", "--book", str(book)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, encoding="utf-8") as process:
        try:
            said = process.stdout.readline() if process.stdout else ""
            yield re.findall(r"http://[\d.:]+", said)[0]
        finally:
            process.terminate()


def stock(page: Page) -> dict[str, str]:
    """Fill the book: a job that is being set, and one that was begun."""
    page.goto("/new")
    page.get_by_label("What is the job called?").fill(BEGUN)
    page.get_by_role("button", name="Make the job").click()
    page.wait_for_url("**/measure")
    begun = page.url.removesuffix("/measure")
    page.locator("#said a.hand").click()
    page.get_by_label("Whole inches").fill("51")
    page.get_by_role("button", name="Save", exact=True).first.click()
    page.wait_for_url("**/measure*")
    page.goto("/")
    page.get_by_role("button", name=f"Open {DEMO}").click()
    page.wait_for_url("**/measure")
    job = page.url.removesuffix("/measure")
    for planned in ("Set out", "Cut and set"):
        page.get_by_role("link", name=planned, exact=True).click()
        page.locator("h1", has_text=planned).wait_for(timeout=120_000)
    page.goto(f"{job}/cut/L1-1")
    for _ in range(3):
        with page.expect_navigation():
            page.get_by_role("button", name="Set", exact=True).click()
    page.get_by_role("button", name="marked").click()
    page.goto(f"{job}/ready")
    for box in page.locator("fieldset.gate").first.get_by_role("checkbox").all():
        box.check()
    page.get_by_role("button", name="Save").click()
    page.locator("fieldset.gate.whole").wait_for()
    return {"job": job, "begun": begun}


def conflict(context: BrowserContext, job: str) -> Page:
    """Let two write at once."""
    mine, other = context.new_page(), context.new_page()
    for page, address in ((mine, "1 Made-up Lane"), (other, "2 Made-up Lane")):
        page.goto(f"{job}/about")
        page.get_by_label("Address").fill(address)
    for page in (other, mine):
        page.get_by_role("button", name="Save").click()
        page.wait_for_load_state()
    other.close()
    return mine


def take(browser: Browser, url: str, places: dict[str, str], out: Path) -> None:
    """Take every page in every way."""
    for size, kind in ((NARROW, "phone"), (WIDE, "desk")):
        for scheme in ("light", "dark"):
            context = browser.new_context(
                base_url=url, viewport=size, color_scheme=scheme, is_mobile=size is NARROW
            )
            for name, path in PAGES.items():
                page = context.new_page()
                page.goto(path.format(**places))
                page.screenshot(path=out / f"{kind}-{scheme}-{name}.png", full_page=True)
                if (kind, scheme) == ("desk", "light"):
                    page.pdf(path=out / f"print-{name}.pdf", format="Letter")
                page.close()
            page = conflict(context, places["job"])
            page.screenshot(path=out / f"{kind}-{scheme}-conflict.png", full_page=True)
            context.close()


def for_readme(browser: Browser, url: str, places: dict[str, str]) -> None:
    """Take the pictures of the README."""
    context = browser.new_context(base_url=url, viewport=NARROW, is_mobile=True)
    for name, (path, top) in README.items():
        page = context.new_page()
        page.goto(path.format(**places))
        page.locator(top).first.evaluate("part => part.scrollIntoView()")
        page.screenshot(path=HERE / name)
    context.close()


def main() -> None:
    """Serve, look, and leave the pictures."""
    out = Path(sys.argv[1]) if len(sys.argv) > 1 else OUT
    out.mkdir(parents=True, exist_ok=True)
    chromium = next(filter(None, map(shutil.which, ("chromium", "google-chrome"))))
    with (
        TemporaryDirectory() as folder,
        served(Path(folder) / "book") as url,
        sync_playwright() as playwright,
    ):
        browser = playwright.chromium.launch(executable_path=chromium, args=["--disable-gpu"])
        page = browser.new_page(base_url=url)
        places = stock(page)
        take(browser, url, places, out)
        for_readme(browser, url, places)
        browser.close()


main()
