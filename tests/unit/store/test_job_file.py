import tomllib
from copy import deepcopy
from datetime import date, time
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from gaugerod.core.base.errors import JobError
from gaugerod.core.base.lengths import METRIC
from gaugerod.core.base.messages import Message
from gaugerod.core.job.consistent import consistent
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError
from gaugerod.store.job_file import JobFile
from gaugerod.store.shelf import Library
from gaugerod.store.toml_file import TomlFile, document

TEXT = Library().template()
TABLES = tomllib.loads(TEXT)
MATERIALS = Library().materials()
WORDS = Library().words(METRIC, currency="USD")


def accept(job: Job) -> None:
    assert job.wall


def refusal(text: str) -> Message:
    with pytest.raises(JobError) as caught:
        JobFile(name="job", source=text.encode()).read(accept)
    return caught.value.message


def test_a_job_is_read_with_the_unit_of_its_file() -> None:
    job = JobFile(name="job", source=TEXT.encode()).read(accept)
    assert job.unit == "in"
    assert job.wall[0].readings[0].reads == pytest.approx(32 * 25.4)


def test_the_first_thing_wrong_is_told_with_its_line() -> None:
    text = TEXT.replace('reads = "60"', "reads = true")
    line = text[: text.index("reads = true")].count("\n") + 1
    message = refusal(text)
    assert (message.key, message.values["others"]) == ("read.and-more", 2)
    first = message.values["first"]
    assert isinstance(first, Message)
    assert (first.values["file"], first.values["line"]) == ("job", line)


def test_without_a_unit_other_faults_are_not_counted() -> None:
    assert refusal(TEXT.replace('unit = "in"', 'unit = "inch"')).key == "read.in-line"
    assert refusal(TEXT.replace('unit = "in"', "unit = 3")).key == "read.in-line"


def test_a_fault_found_later_is_told_with_its_line_too() -> None:
    def check(job: Job) -> None:
        raise InconsistentError(
            Message("job.unknown-timezone", read=job.timezone), at=("timezone",)
        )

    with pytest.raises(JobError) as caught:
        JobFile(name="job", source=TEXT.encode()).read(check)
    line = TEXT[: TEXT.index("timezone")].count("\n") + 1
    wrong = Message("job.unknown-timezone", read="UTC")
    assert caught.value.message == Message("read.in-line", file="job", line=line, wrong=wrong)


def places(
    data: dict[str, Any] | list[Any], at: tuple[str | int, ...] = ()
) -> list[tuple[str | int, ...]]:
    """Every place of a document of tables and lists."""
    found: list[tuple[str | int, ...]] = []
    for key, value in data.items() if isinstance(data, dict) else enumerate(data):
        found.append((*at, key))
        if isinstance(value, dict | list):
            found += places(value, (*at, key))
    return found


def verdict(tables: dict[str, Any]) -> str:
    """What is told of a job's tables: nothing when they are well."""
    file = TomlFile(name="job", tables=tables, lines={})
    try:
        consistent(document(file, Job, error=JobError), MATERIALS)
    except JobError as error:
        return WORDS.say(error.message)
    return ""


ODD = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(),
    st.floats(),
    st.text(max_size=50),
    st.sampled_from([[], [1], {}, {"a": 1}, [[]], ["L"], date(2026, 3, 2), time(8)]),
)


def test_the_tables_they_are_made_from_are_well() -> None:
    assert verdict(TABLES) == ""


@given(st.lists(st.tuples(st.sampled_from(places(TABLES)), ODD), min_size=1, max_size=3))
def test_whatever_stands_in_a_job_it_is_read_or_refused_in_words(
    changes: list[tuple[tuple[str | int, ...], object]],
) -> None:
    tables: Any = deepcopy(TABLES)
    for (*outer, last), value in changes:
        inside = tables
        try:
            for key in outer:
                inside = inside[key]
            inside[last] = value
        except (TypeError, LookupError):  # an earlier change took its place away
            continue
    told = verdict(tables)
    assert len(told) < 1000
    assert verdict(tables) == told
