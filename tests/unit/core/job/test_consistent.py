from collections.abc import Callable, Mapping
from typing import Any

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.consistent import consistent
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import InconsistentError, Place
from gaugerod.core.job.materials import Materials
from gaugerod.core.job.sample import sample_system

Edited = Callable[[Callable[[dict[str, Any]], object]], Job]

LYING_ONLY = sample_system().model_copy(update={"turns": ("lying",)})
MATERIALS = Materials(systems={"sample": LYING_ONLY, "other": LYING_ONLY})


def refused(job: Job, materials: Materials = MATERIALS) -> tuple[Place, str, Message]:
    """The place, its words, and what is wrong there."""
    with pytest.raises(InconsistentError) as caught:
        consistent(job, materials)
    values = caught.value.message.values
    where, wrong = values["where"], values["wrong"]
    assert caught.value.message.key == "job.at"
    assert isinstance(wrong, Message)
    return caught.value.at, str(where), wrong


def test_the_sample_job_is_consistent(edited: Edited) -> None:
    consistent(edited(lambda job: job["choices"].update(wall_order=("B", "L", "R"))), MATERIALS)
    consistent(edited(lambda job: job["choices"].update(centre={"B": "joint"})), MATERIALS)
    consistent(edited(lambda job: job.update(timezone="Europe/London")), MATERIALS)
    consistent(edited(lambda job: job["calendar"].update(closes="00:00")), MATERIALS)
    consistent(edited(lambda job: job["calendar"].update(holidays_of="none")), MATERIALS)
    consistent(edited(lambda job: job["calendar"].update(holidays_of="US-IL")), MATERIALS)
    held = [{"item": "trim-edge", "count": 1}, {"item": "sealant", "count": 0.5}]
    consistent(edited(lambda job: job.update(on_hand=held)), MATERIALS)
    done = {"task": "a", "started": "2026-03-02T08:00:00", "finished": "2026-03-02T09:00:00"}
    consistent(edited(lambda job: job["calendar"].update(progress=[done])), MATERIALS)


CHANGE = {"what": "Work", "why": "Found", "price": 100, "signed": "2026-02-19"}
CONTRACT = {"sum": 5000, "signed": "2026-02-20"}


def test_changes_go_with_the_contract_before_them(edited: Edited) -> None:
    later = CHANGE | {"signed": "2026-02-20"}
    waits = {key: value for key, value in CHANGE.items() if key != "signed"}
    consistent(edited(lambda job: job.update(contract=CONTRACT, change=[later, waits])), MATERIALS)


CASES: list[tuple[Callable[[dict[str, Any]], object], Place, str, Mapping[str, str]]] = [
    (
        lambda job: job.update(change=[CHANGE]),
        ("change", 0),
        "job.change-without-contract",
        {},
    ),
    (
        lambda job: job.update(contract=CONTRACT, change=[CHANGE]),
        ("change", 0, "signed"),
        "job.change-too-early",
        {"signed": "2026-02-20"},
    ),
    (
        lambda job: job["wall"][2].update(name="L"),
        ("wall", 2, "name"),
        "job.name-twice",
        {"name": "L"},
    ),
    (
        lambda job: job["wall"][1].update(readings=[]),
        ("wall", 1, "readings"),
        "job.no-readings",
        {},
    ),
    (
        lambda job: job["wall"][2].update(corner="outside"),
        ("wall", 2, "corner"),
        "job.no-next-wall",
        {"wall": "R"},
    ),
    (
        lambda job: job["choices"].update(material="none"),
        ("choices", "material"),
        "job.unknown-material",
        {"read": "none", "known": "other, sample"},
    ),
    (
        lambda job: job.update(on_hand=[{"item": "mortar", "count": 1}]),
        ("on_hand", 0, "item"),
        "job.unknown-item",
        {"read": "mortar", "known": "modules, trim-edge, trim-top, adhesive, sealant"},
    ),
    (
        lambda job: job.update(on_hand=[{"item": "trim-edge", "count": 0.6}]),
        ("on_hand", 0, "count"),
        "job.trim-in-part",
        {"read": "0.6"},
    ),
    (
        lambda job: job.update(on_hand=[{"item": "sealant", "count": 1}] * 2),
        ("on_hand", 1, "item"),
        "job.name-twice",
        {"name": "sealant"},
    ),
    (
        lambda job: job["choices"].update(turn="standing"),
        ("choices", "turn"),
        "job.turn-refused",
        {"read": "standing", "known": "lying"},
    ),
    (
        lambda job: job["choices"].update(wall_order=("L", "B")),
        ("choices", "wall_order"),
        "job.wall-order",
        {"read": "L, B", "known": "L, B, R"},
    ),
    (
        lambda job: job["choices"].update(wall_order=("L", "B", "B")),
        ("choices", "wall_order"),
        "job.wall-order",
        {"read": "L, B, B", "known": "L, B, R"},
    ),
    (
        lambda job: job["choices"].update(phase={"B": 100, "Q": 100}),
        ("choices", "phase", "Q"),
        "job.unknown-wall",
        {"read": "Q", "known": "L, B, R"},
    ),
    (
        lambda job: job["choices"].update(centre={"Q": "joint"}),
        ("choices", "centre", "Q"),
        "job.unknown-wall",
        {"read": "Q", "known": "L, B, R"},
    ),
    (
        lambda job: job["choices"].update(centre={"B": "opening"}),
        ("choices", "centre", "B"),
        "job.nothing-to-centre",
        {"wall": "B"},
    ),
    (
        lambda job: job.update(timezone="Mars/Olympus"),
        ("timezone",),
        "job.unknown-timezone",
        {"read": "Mars/Olympus"},
    ),
    (
        lambda job: job.update(timezone="../UTC"),
        ("timezone",),
        "job.unknown-timezone",
        {"read": "../UTC"},
    ),
    (
        lambda job: job["calendar"].update(days=()),
        ("calendar", "days"),
        "job.no-working-days",
        {},
    ),
    (
        lambda job: job["calendar"].update(opens="16:30"),
        ("calendar", "closes"),
        "job.closed",
        {"opens": "16:30", "closes": "16:30"},
    ),
    (
        lambda job: job["calendar"].update(holidays_of="Illinois"),
        ("calendar", "holidays_of"),
        "job.unknown-place",
        {"read": "Illinois"},
    ),
    (
        lambda job: job["calendar"].update(progress=[{"task": "a"}, {"task": "a"}]),
        ("calendar", "progress", 1, "task"),
        "job.name-twice",
        {"name": "a"},
    ),
    (
        lambda job: job["calendar"].update(
            progress=[
                {"task": "a", "finished": "2026-03-02T09:00:00"},
                {
                    "task": "b",
                    "started": "2026-03-02T09:00:00",
                    "finished": "2026-03-02T08:59:00",
                },
            ]
        ),
        ("calendar", "progress", 1, "finished"),
        "job.done-before-begun",
        {},
    ),
]


@pytest.mark.parametrize(("change", "at", "key", "values"), CASES)
def test_parts_that_do_not_go_together_are_refused(
    edited: Edited,
    change: Callable[[dict[str, Any]], object],
    at: Place,
    key: str,
    values: Mapping[str, str],
) -> None:
    place, _, wrong = refused(edited(change))
    assert (place, wrong.key, dict(wrong.values)) == (at, key, values)


def test_a_name_of_a_reading_is_given_once(edited: Edited) -> None:
    def change(job: dict[str, Any]) -> None:
        job["wall"][0]["readings"][0]["id"] = "first"
        job["wall"][1]["readings"][2]["id"] = "first"

    at, where, wrong = refused(edited(change))
    assert at == ("wall", 1, "readings", 2, "id")
    assert where == "wall B, readings 3 (width), id"
    assert wrong == Message("job.name-twice", name="first")


def test_readings_with_names_of_their_own_are_well(edited: Edited) -> None:
    def change(job: dict[str, Any]) -> None:
        job["wall"][0]["readings"][0]["id"] = "first"
        job["wall"][1]["readings"][2]["id"] = "second"

    consistent(edited(change), MATERIALS)


def test_what_pierces_a_wall_and_sizes_are_looked_at_too(edited: Edited) -> None:
    _, _, wrong = refused(edited(lambda job: job["wall"][0].update(hole=[])))
    assert wrong.key == "job.of-none"
    _, _, wrong = refused(edited(lambda job: job["wall"][0]["readings"][0].update(reads=60)))
    assert wrong.key == "job.size-of-another-unit"


def held(name: str, size: list[str], *keeps: str) -> dict[str, Any]:
    return {"name": name, "size": size, "keeps": list(keeps)}


@pytest.mark.parametrize(
    ("offcuts", "place", "key"),
    [
        ([held("a", ["600 mm", "301 mm"])], ("offcut", 0, "size"), "job.offcut-too-large"),
        (
            [held("a", ["599 mm", "300 mm"], "left", "right")],
            ("offcut", 0, "keeps"),
            "job.offcut-keeps-both",
        ),
        (
            [held("a", ["600 mm", "100 mm"], "left", "right")] * 2,
            ("offcut", 1, "name"),
            "job.name-twice",
        ),
    ],
)
def test_offcuts_that_no_module_gave_are_refused(
    edited: Edited, offcuts: list[dict[str, Any]], place: Place, key: str
) -> None:
    at, _, wrong = refused(edited(lambda job: job.update(offcut=offcuts)))
    assert (at, wrong.key) == (place, key)


# --- several products ---------------------------------------------------------------------------

TWO = Materials(
    systems={"sample": LYING_ONLY, "other": LYING_ONLY.model_copy(update={"id": "other"})}
)
ROW = {"material": "other", "walls": ["B"]}


def test_another_product_that_cannot_stand_there_is_refused(edited: Edited) -> None:
    consistent(edited(lambda job: job["choices"].update(accent=[ROW])), TWO)
    row = {"material": "other", "walls": ["Q"]}
    at, where, wrong = refused(edited(lambda job: job["choices"].update(accent=[ROW, row])), TWO)
    assert (at, where) == (("choices", "accent", 1, "walls", 0), "choices, accent 2, walls 1")
    assert wrong == Message("job.unknown-wall", read="Q", known="L, B, R")


def test_an_offcut_is_of_a_product_of_the_job(edited: Edited) -> None:
    other = [held("a", ["400 mm", "300 mm"]) | {"material": "other"}]
    at, _, wrong = refused(edited(lambda job: job.update(offcut=other)), TWO)
    assert at == ("offcut", 0, "material")
    assert wrong == Message("job.offcut-of-none", read="other", known="sample")

    def with_row(job: dict[str, Any]) -> None:
        job["choices"] |= {"accent": [ROW]}
        job["offcut"] = other

    consistent(edited(with_row), TWO)


def test_what_is_on_hand_may_be_of_another_product(edited: Edited) -> None:
    def change(job: dict[str, Any], rows: list[dict[str, Any]]) -> None:
        job["choices"] |= {"accent": rows}
        job["on_hand"] = [{"item": "modules-other", "count": 3}]

    consistent(edited(lambda job: change(job, [ROW])), TWO)
    at, _, wrong = refused(edited(lambda job: change(job, [])), TWO)
    assert (at, wrong.key) == (("on_hand", 0, "item"), "job.unknown-item")


@pytest.mark.parametrize(
    ("pricing", "at", "key"),
    [
        ({"item": [{"item": "bricks", "price": 1}]}, ("item", 0, "item"), "job.unpriced-item"),
        (
            {"item": [{"item": "modules", "price": 1}, {"item": "modules", "price": 2}]},
            ("item", 1, "item"),
            "job.name-twice",
        ),
        (
            {"task": [{"task": "set", "hours": 1}, {"task": "set", "hours": 2}]},
            ("task", 1, "task"),
            "job.name-twice",
        ),
    ],
)
def test_figures_of_the_jobs_own_name_what_there_is_and_each_once(
    edited: Edited, pricing: dict[str, Any], at: Place, key: str
) -> None:
    found, _, wrong = refused(edited(lambda job: job.update(pricing=pricing)))
    assert (found, wrong.key) == (("pricing", *at), key)


VALVE = {"id": "valve", "name": "Valve trim", "price": 129}


@pytest.mark.parametrize(
    ("tables", "at", "key"),
    [
        ({"extra": [VALVE | {"id": "modules"}]}, ("extra", 0, "id"), "job.name-twice"),
        ({"extra": [VALVE, VALVE]}, ("extra", 1, "id"), "job.name-twice"),
        ({"bought": [{"item": "valve", "count": 1}]}, ("bought", 0, "item"), "job.bought-unknown"),
    ],
)
def test_what_is_ordered_has_a_name_of_its_own_that_is_known(
    edited: Edited, tables: dict[str, Any], at: Place, key: str
) -> None:
    found, _, wrong = refused(edited(lambda job: job.update(tables)))
    assert (found, wrong.key) == (at, key)


def test_what_is_ordered_beside_may_be_bought(edited: Edited) -> None:
    tables = {"extra": [VALVE], "bought": [{"item": "valve", "count": 1}]}
    consistent(edited(lambda job: job.update(tables)), MATERIALS)
