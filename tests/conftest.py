"""How much each run tries: `make test` a fixed, short count, `make test-long` many more."""

import os
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings
from tests.books import NewBook
from tests.postgres import Server, server

from gaugerod.store.book.book import Book
from gaugerod.store.book.opening import open_book

# A program of its own: what it loads and what the planner loads do not go into one process.
collect_ignore = ["checkers/placing.py"]

# The short run is the same on every machine and every day.
settings.register_profile("short", derandomize=True, deadline=None, max_examples=50)
settings.register_profile(
    "long",
    deadline=None,
    max_examples=500,
    print_blob=True,
    suppress_health_check=[HealthCheck.too_slow],
)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--long",
        action="store_true",
        default=os.environ.get("GAUGEROD_LONG") == "1",
        help="many more examples; also GAUGEROD_LONG=1",
    )


def pytest_configure(config: pytest.Config) -> None:
    settings.load_profile("long" if config.getoption("--long") else "short")


@pytest.fixture(scope="session")
def count(pytestconfig: pytest.Config) -> Callable[[int, int], int]:
    """`count(20, 2000)`: how many cases to try in a short and in a long run."""
    long = bool(pytestconfig.getoption("--long"))

    def choose(in_short: int, in_long: int) -> int:
        return in_long if long else in_short

    return choose


@pytest.fixture(scope="session")
def postgres() -> Iterator[Server]:
    """A database server of our own, started when the first test asks for it."""
    with server() as running:
        yield running


@pytest.fixture(params=["sqlite", "postgresql"])
def new_book(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[NewBook]:
    """Books in a folder, then the same test with books on a server."""
    with ExitStack() as open_ones:

        def opened() -> Book:
            folder = tmp_path / f"book-{len(list(tmp_path.glob('book-*')))}"
            folder.mkdir()
            if request.param == "sqlite":
                book = open_book(folder)
            else:
                url = request.getfixturevalue("postgres").new_place()
                book = open_book(url, photos=folder / "photos")
            open_ones.callback(book.close)
            return book

        yield opened


@pytest.fixture
def book(new_book: NewBook) -> Book:
    """One new, empty book, in a folder and then on a server."""
    return new_book()
