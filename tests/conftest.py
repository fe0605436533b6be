"""How much each run tries: `make test` a fixed, short count, `make test-long` many more."""

import os
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, settings

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
