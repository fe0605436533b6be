from datetime import UTC, datetime

import pytest

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.checks.finding import Finding
from gaugerod.core.pipeline import Plan
from gaugerod.packet.phrases import (
    facts,
    found_value,
    length,
    moment,
    paper,
    rule_name,
    wall_name,
)


@pytest.mark.parametrize(
    ("hour", "minute", "said"),
    [
        (16, 10, "Thu 5 Mar, 4:10 pm"),
        (0, 5, "Thu 5 Mar, 12:05 am"),
        (11, 59, "Thu 5 Mar, 11:59 am"),
        (12, 0, "Thu 5 Mar, 12:00 pm"),
    ],
)
def test_a_moment_in_inches_country(hour: int, minute: int, said: str, inches: Catalogue) -> None:
    assert moment(datetime(2026, 3, 5, hour, minute, tzinfo=UTC), inches) == said


def test_a_moment_elsewhere(millimetres: Catalogue) -> None:
    when = datetime(2026, 12, 27, 8, 5, tzinfo=UTC)
    assert moment(when, millimetres) == "Sun 27 Dec, 08:05"


def test_walls_are_named_as_a_setter_names_them(inches: Catalogue) -> None:
    assert wall_name("L", inches) == "L, the left end wall"
    assert wall_name("N", inches) == "Wall N"


def test_what_was_not_read_is_a_dash(inches: Catalogue) -> None:
    assert length(None, inches) == "–"
    assert length(38.1, inches) == '1 1/2"'


def test_facts_stand_two_to_a_row_and_empty_ones_are_left_out() -> None:
    table = facts([("a", "1"), ("b", ""), ("c", "3"), ("d", "4")])
    assert table.rows == (("a", "1", "d", "4"), ("c", "3", "", ""))


def test_the_sheet_follows_the_units_unless_another_is_asked_for(
    keyed: Plan, inches: Catalogue, millimetres: Catalogue
) -> None:
    assert paper("t", keyed.job, (), inches, revision=3, size=None).size == "us-letter"
    assert paper("t", keyed.job, (), millimetres, revision=3, size=None).size == "a4"
    made = paper("t", keyed.job, (), inches, revision=3, size="a4")
    assert (made.size, made.revision, made.job) == ("a4", "Revision 3", keyed.job.name)


@pytest.mark.parametrize(
    ("rule", "name"),
    [("lead-paint", "lead paint"), ("receptacle-gb", "receptacle"), ("gb-old", "gb old")],
)
def test_a_rule_is_named_by_its_id_without_its_place(rule: str, name: str) -> None:
    assert rule_name(rule) == name


@pytest.mark.parametrize(
    ("value", "length_of", "unit", "shown"),
    [
        (203.2, True, "", '8"'),
        (1962.0, False, "", "1962"),
        (10.0, False, "celsius", "10 °C, 50 °F"),
        (28.8, False, "kg", "28.8 kg, 63.5 lb"),
        (25.9, False, "kg-m2", "25.9 kg/m²"),
        (0.62, False, "m2", "0.62 m², 6.7 sq ft"),
        (23.0, False, "hours", "23 h"),
        (9.0, False, "days", "9 days"),
        (None, False, "", "plywood"),
    ],
)
def test_what_was_found_has_its_unit(
    value: float | None, length_of: bool, unit: str, shown: str, inches: Catalogue
) -> None:
    finding = Finding(
        rule="r",
        severity="warn",
        where="",
        statement="It is so.",
        advice="Mend it.",
        source="common practice",
        edition="",
        sure="common practice, no source",
        length=length_of,
        value=value,
        limit=None,
        unit=unit,
        word="" if value else "plywood",
    )
    assert found_value(finding, inches) == shown
