"""A browser of the system at pages that are served, and what it finds wrong with them."""

import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from http import HTTPStatus
from typing import Any

from playwright.sync_api import Browser, ConsoleMessage, Page, Playwright, Response, expect

COMMANDS = ("chromium", "chromium-browser", "google-chrome")
_ALONE = (
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-gpu",
    "--disable-quic",
    "--disable-sync",
)
_PATIENCE = 30_000
"""How long a page may take while it plans. [ms]"""
expect.set_options(timeout=_PATIENCE)
_SAID = "Failed to load resource: the server responded with a status of "
_REFUSED = (f"{_SAID}4", f"{_SAID}503")
"""The browser complains of what is judged by its status below."""


def installed() -> str:
    """Return the browser of this system: the first that answers."""
    for name in COMMANDS:
        found = shutil.which(name)
        # A command may be there that only says what else to install.
        if found and not subprocess.call([found, "--version"], stdout=subprocess.DEVNULL):
            return found
    message = f"None of these runs: {', '.join(COMMANDS)}. Install Debian's chromium."
    raise FileNotFoundError(message)


@contextmanager
def launched(playwright: Playwright) -> Iterator[Browser]:
    """Start the browser of this system: it goes nowhere by itself, and shows no window."""
    browser = playwright.chromium.launch(executable_path=installed(), args=[*_ALONE])
    try:
        yield browser
    finally:
        browser.close()


@contextmanager
def watched(browser: Browser, **settings: Any) -> Iterator[Page]:  # noqa: ANN401  (Playwright's)
    """Open a page; when it closes, nothing may have gone wrong in it."""
    wrong: list[str] = []

    def heard(message: ConsoleMessage) -> None:
        if message.type == "error" and not message.text.startswith(_REFUSED):
            wrong.append(f"console: {message.text}")

    def answered(response: Response) -> None:
        request = response.request
        page = request.resource_type == "document"
        # A page may refuse what it was sent, or ask to be sent it again once the plan is made.
        later = (
            page and request.method == "POST" and response.status == HTTPStatus.SERVICE_UNAVAILABLE
        )
        if response.status > (499 if page else 399) and not later:
            wrong.append(f"{response.status}: {response.url}")

    context = browser.new_context(**settings)
    try:
        page = context.new_page()
        page.set_default_timeout(_PATIENCE)
        page.on("console", heard)
        page.on("pageerror", lambda error: wrong.append(f"script: {error}"))
        page.on("response", answered)
        yield page
    finally:
        context.close()
    assert wrong == []
