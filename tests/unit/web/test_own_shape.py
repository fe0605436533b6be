"""The forms have a place for every key of the published schemas, and every page of them opens."""

from typing import Any

import pytest
from tests.unit.web.test_own_material import MODULE, form_of, from_nothing
from tests.web_pages import Browser

from gaugerod.store.schemas import material_schema, rates_schema
from gaugerod.web.own.family import MATERIALS, RATES, Family
from gaugerod.web.own.slots import slots_of

KINDS = ("keyed", "grouted", "sheet")


def keys(schema: dict[str, Any], of: dict[str, Any], table: str = "") -> set[str]:
    """Every key of a schema by the table that it is in."""
    found: set[str] = set()
    for name, inside in of.get("properties", {}).items():
        found.add(f"{table}.{name}")
        for below in references(inside):
            found |= keys(schema, schema["$defs"][below], name)
    return found


def references(inside: Any) -> set[str]:  # noqa: ANN401  (any part of a schema)
    if isinstance(inside, list):
        return {one for part in inside for one in references(part)}
    if not isinstance(inside, dict):
        return set()
    own = {inside["$ref"].rpartition("/")[2]} if "$ref" in inside else set()
    return own | {one for part in inside.values() for one in references(part)}


def asked(at: Browser, addresses: tuple[str, ...]) -> set[str]:
    """Every place that the forms at some addresses have, by its table."""
    found: set[str] = set()
    for address in addresses:
        form = form_of(at.open(address))
        names = [one.attributes["id"] for one in form.all("div", class_="own-item")]
        for name in names:
            parts = [part for part in name.removeprefix("at-").split(".") if not part.isdecimal()]
            found.add(".".join(["", *parts][-2:]))
    return found


def test_every_key_of_a_material_has_its_place(at: Browser) -> None:
    schema = material_schema()
    fixed = {f".{name}" for name in MATERIALS.fixed}
    pages = tuple(f"/materials/new?kind={kind}&unit=in" for kind in KINDS)
    assert asked(at, pages) == keys(schema, schema) - fixed


def test_every_key_of_rates_has_its_place(at: Browser) -> None:
    schema = rates_schema()
    fixed = {f".{name}" for name in RATES.fixed}
    assert asked(at, ("/rates/new?like=",)) == keys(schema, schema) - fixed


@pytest.mark.parametrize("family", [MATERIALS, RATES], ids=lambda family: family.name)
def test_every_group_asks_for_what_no_other_does(family: Family) -> None:
    grouped = [name for _, names in family.groups for name in names]
    assert sorted([*grouped, *family.fixed]) == sorted(s.name for s in slots_of(family.model))


def test_in_millimetres_a_length_has_one_input(at: Browser) -> None:
    form = form_of(at.open("/materials/new?kind=grouted&unit=mm"))
    assert form.one("input", name="joint.0").attributes["inputmode"] == "decimal"
    assert form.all("input", name="joint.0.whole") == []
    assert form.all("input", name="key_depth") == []
    page = at.open("/materials/new?kind=gold")
    assert [i.attributes["value"] for i in page.all("input", name="kind")] == [*KINDS]


def test_what_a_form_cannot_say_is_refused_too(at: Browser) -> None:
    """A browser sends what it was given; something else may not."""
    form = from_nothing(at)
    page = at.send(form, MODULE | {"kind": "gold"}, status=422)
    assert "“gold” is none of: keyed, grouted, sheet" in page.one("div", class_="wrong").text
    page = at.send(form, MODULE | {"unit": "ell"}, status=422)
    assert "“ell” is none of" in page.one("div", class_="wrong").text
    assert at.desk.book.contents("material") == ()
