"""Pages as a thumb meets them: the command serves them, a browser of the system shows them."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Playwright, sync_playwright
from tests.browsing import launched, watched
from tests.served import Served, serving

PHONE = "Pixel 7"


# While it is open, Playwright's loop counts as the running one of this thread, and no test could
# run another: so a process has one browser for each file of tests, not for the whole run.
@pytest.fixture(scope="module")
def playwright() -> Iterator[Playwright]:
    """What speaks to a browser."""
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="module")
def browser(playwright: Playwright) -> Iterator[Browser]:
    """The browser of this system."""
    with launched(playwright) as started:
        yield started


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    """Pages of a new book, served by a process of their own."""
    with serving(tmp_path / "book") as pages:
        yield pages


@pytest.fixture
def phone(browser: Browser, playwright: Playwright, served: Served) -> Iterator[Page]:
    """A page on a phone with touch; what goes wrong in it fails the test."""
    device = playwright.devices[PHONE]
    with watched(browser, base_url=served.url, **device) as page:
        yield page


@pytest.fixture
def wide(browser: Browser, served: Served) -> Iterator[Page]:
    """The same on a desk: 1280 by 800, with a mouse."""
    size = {"width": 1280, "height": 800}
    with watched(browser, base_url=served.url, viewport=size) as page:
        yield page
