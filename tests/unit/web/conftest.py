from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from tests.web_pages import Browser, browser


@pytest.fixture
def at(tmp_path: Path) -> Iterator[Browser]:
    """A browser at pages of a new book."""
    here = browser(tmp_path)
    with closing(here.desk.book), here.client:
        yield here
