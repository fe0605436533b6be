"""Jobs with one thing wrong, made from the sample job."""

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from gaugerod.core.job.document import Job
from gaugerod.core.job.sample import sample_job

Edit = Callable[[dict[str, Any]], object]
"""Changes the tables of the sample job; what it returns is not used."""


@pytest.fixture(scope="session")
def edited() -> Callable[[Edit], Job]:
    """`edited(change)`: the sample job, changed."""
    tables = sample_job().model_dump(by_alias=True)

    def make(change: Edit) -> Job:
        copy = deepcopy(tables)
        change(copy)
        return Job.model_validate(copy)

    return make
