from collections.abc import Callable
from typing import Any

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.at_hand import at_hand
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError, Place
from gaugerod.core.job.rates import RateTable
from gaugerod.core.job.rules import Rules
from gaugerod.core.job.sample import sample_rates

Edited = Callable[[Callable[[dict[str, Any]], object]], Job]

FACTOR = {"id": "occupied", "name": "People live there", "times": 1.1}
TABLES = {
    "sample": RateTable.model_validate(sample_rates().model_dump() | {"factor": [FACTOR]}),
    "bare": sample_rates(),
}
ROW = {
    "statement": "Something is so.",
    "measure": "always",
    "gate": "cut",
    "advice": "Look again.",
    "source": "common practice",
    "sure": "common practice, no source",
}
RULES = Rules.model_validate(
    {
        "format": 1,
        "unit": "mm",
        "rule": [
            ROW | {"id": "one-lot", "severity": "tick"},
            ROW | {"id": "half-module", "severity": "warn"},
        ],
    }
)


@pytest.mark.parametrize("region", ["", "US", "GB-ENG", "US-IL-CHICAGO", "NZ"])
def test_what_is_at_hand_is_taken(edited: Edited, region: str) -> None:
    def change(job: dict[str, Any]) -> None:
        job.update(rates="sample", factors=["occupied"])
        job["site"].update(region=region)
        job["facts"].update(ticked=["one-lot"])
        job.update(pricing={"task": [{"task": "set", "hours": 1}]})

    at_hand(edited(change), TABLES, RULES)


CASES: list[tuple[Callable[[dict[str, Any]], object], Place, str, Message]] = [
    (
        lambda job: job.update(rates="none"),
        ("rates",),
        "rates",
        Message("job.unknown-rates", read="none", known="bare, sample"),
    ),
    (
        lambda job: job.update(rates="sample", factors=["occupied", "haste"]),
        ("factors", 1),
        "factors",
        Message("job.unknown-factor", read="haste", known="occupied"),
    ),
    (
        lambda job: job.update(pricing={"task": [{"task": "sit", "hours": 1}]}),
        ("pricing", "task", 0, "task"),
        "pricing, task, task",
        Message("job.unknown-task", read="sit", known="set"),
    ),
    *(
        (
            lambda job, region=region: job["site"].update(region=region),
            ("site", "region"),
            "site, region",
            Message("job.unknown-region", read=region),
        )
        # The second is what many write for GB; the last is no country.
        for region in ("Illinois", "UK", "us-il", "US-", "ZZ")
    ),
    (
        lambda job: job["facts"].update(ticked=["one-lots"]),
        ("facts", "ticked", 0),
        "facts, ticked",
        Message("job.unknown-tick-near", read="one-lots", near="one-lot"),
    ),
    (
        # A rule that warns is no line to tick.
        lambda job: job["facts"].update(ticked=["one-lot", "half-module"]),
        ("facts", "ticked", 1),
        "facts, ticked",
        Message("job.unknown-tick", read="half-module"),
    ),
]


@pytest.mark.parametrize(("change", "at", "where", "wrong"), CASES)
def test_what_is_not_at_hand_is_refused(
    edited: Edited,
    change: Callable[[dict[str, Any]], object],
    at: Place,
    where: str,
    wrong: Message,
) -> None:
    def changed(job: dict[str, Any]) -> None:
        job.update(rates="sample")
        change(job)

    with pytest.raises(InconsistentError) as caught:
        at_hand(edited(changed), TABLES, RULES)
    assert caught.value.at == at
    assert caught.value.message == Message("job.at", where=where, wrong=wrong)
