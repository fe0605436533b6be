from collections.abc import Callable
from datetime import date
from typing import Protocol

import pytest

from gaugerod.app.new_job import new_job
from gaugerod.app.ports import Clock, Library


class Remembering(Protocol):
    content: bytes

    def create(self, content: bytes) -> None: ...


# 2026-03-02 is a Monday (Gregorian calendar).
@pytest.mark.parametrize(
    ("today", "start"),
    [
        (date(2026, 3, 1), "2026-03-02"),  # Sunday
        (date(2026, 3, 2), "2026-03-09"),  # Monday: not today, the tape is still in the van
        (date(2026, 3, 7), "2026-03-09"),
        (date(2026, 12, 31), "2027-01-04"),
    ],
)
def test_a_new_job_starts_on_the_next_monday(
    library: Library,
    new_file: Remembering,
    clock: Callable[[date], Clock],
    today: date,
    start: str,
) -> None:
    new_job(library, new_file, clock(today))
    assert new_file.content.decode() == f"name = 1\nstart = {start}  # note\n"
