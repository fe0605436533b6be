from collections.abc import Callable, Mapping
from typing import Any

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Job
from gaugerod.core.job.faults import Place
from gaugerod.core.job.sample import sample_system
from gaugerod.core.job.sizes import module_sizes, sizes

Edited = Callable[[Callable[[dict[str, Any]], object]], Job]


def found(job: Job) -> list[tuple[Place, Message]]:
    return [(fault.at, fault.wrong) for fault in sizes(job)]


def with_reading(edited: Edited, reading: Mapping[str, object], unit: str = "mm") -> Job:
    """The sample job (whose lengths are in mm already) with one more reading on wall B."""

    def change(job: dict[str, Any]) -> None:
        job["wall"][1]["readings"] += (reading,)
        job["unit"] = unit

    return edited(change)


def test_a_width_in_inches_in_a_file_of_millimetres(edited: Edited) -> None:
    reading = {"kind": "width", "at": 0, "reads": 60}
    at = ("wall", 1, "readings", 9, "reads")
    wrong = Message(
        "job.size-of-another-unit", read="60 mm", least="150 mm", most="6000 mm", meant="60 in"
    )
    assert found(with_reading(edited, reading)) == [(at, wrong)]


@pytest.mark.parametrize(
    ("unit", "mm", "read", "meant"),
    [
        ("in", 60, "2.36 in", "60 in"),  # written "60 mm" among inches
        ("in", 7620, "300 in", "300 mm"),  # 300 mm written among inches
        ("cm", 15240, "1524 cm", "1524 mm"),
        ("mm", 15, "15 mm", "15 in"),
        ("mm", 140, "140 mm", "140 in"),
        ("mm", 5, "5 mm", None),  # 5 in and 5 cm are no walls either
        ("mm", 20000, "20000 mm", None),
    ],
)
def test_a_width_that_no_wall_has(
    edited: Edited, unit: str, mm: float, read: str, meant: str | None
) -> None:
    (one,) = found(with_reading(edited, {"kind": "width", "at": 0, "reads": mm}, unit))
    assert (one[1].values["read"], one[1].values.get("meant")) == (read, meant)
    assert one[1].key == ("job.size-of-another-unit" if meant else "job.size")


@pytest.mark.parametrize(
    ("reading", "name"),
    [
        ({"kind": "height", "at": 0, "reads": 100}, "reads"),
        ({"kind": "corner to corner", "left_at": 0, "right_at": 0, "reads": 9000}, "reads"),
        ({"kind": "corner to corner", "left_at": 0, "right_at": 7000, "reads": 900}, "right_at"),
        ({"kind": "deck", "at": 0, "reads": 4000}, "reads"),
        ({"kind": "deck", "at": 7000, "reads": 400}, "at"),
        ({"kind": "floor", "at": 0, "reads": 4000}, "reads"),
        ({"kind": "drain", "reads": 4000}, "reads"),
        ({"kind": "ceiling", "at": 0, "reads": 7000}, "reads"),
        ({"kind": "lean", "edge": "left", "over": 1800, "reads": -400}, "reads"),
        ({"kind": "lean", "edge": "left", "over": 18, "reads": 4}, "over"),
        ({"kind": "depth", "at": 0, "height": 0, "reads": 1100}, "reads"),
        ({"kind": "lip", "what": "height", "reads": 400}, "reads"),
        ({"kind": "width", "at": 0, "reads": 1500, "sigma": 200}, "sigma"),
        (
            {
                "kind": "gap",
                "at": 0,
                "height": 0,
                "straightedge": 1800,
                "held": "level",
                "reads": 120,
            },
            "reads",
        ),
        (
            {"kind": "opening", "of": "w", "edge": "width", "from": "itself", "reads": -60},
            "reads",
        ),
    ],
)
def test_every_kind_of_reading_has_its_limits(
    edited: Edited, reading: Mapping[str, object], name: str
) -> None:
    (one,) = found(with_reading(edited, reading))
    assert one[0] == ("wall", 1, "readings", 9, name)


@pytest.mark.parametrize(
    ("change", "at"),
    [
        (lambda job: job["wall"][0]["hole"][0].update(diameter=3), ("hole", 0, "diameter")),
        (lambda job: job["wall"][0]["hole"][0].update(diameter=401), ("hole", 0, "diameter")),
        (lambda job: job["wall"][0]["hole"][0].update(plate=700), ("hole", 0, "plate")),
        (
            lambda job: job["wall"][0].update(
                fixture=[{"name": "s", "kind": "shelf", "size": (300, 4)}]
            ),
            ("fixture", 0, "size", 1),
        ),
    ],
)
def test_holes_and_fixtures_have_theirs(
    edited: Edited, change: Callable[[dict[str, Any]], object], at: Place
) -> None:
    (one,) = found(edited(change))
    assert one[0] == ("wall", 0, *at)


def test_choices_have_theirs(edited: Edited) -> None:
    job = edited(lambda job: job["choices"].update(finish=72, least_finish=72, first_height=4))
    names = ("finish", "least_finish", "first_height")
    assert [at for at, _ in found(job)] == [("choices", name) for name in names]


@pytest.mark.parametrize(
    ("changes", "at"),
    [
        ({"face": (24.0, 300.0)}, ("face", 0)),
        ({"joint": (0.0, 60.0)}, ("joint", 1)),
        ({"thickness": 0.5}, ("thickness",)),
        ({"bed": 51.0}, ("bed",)),
        ({"key_depth": 60.0}, ("key_depth",)),
    ],
)
def test_a_module_has_theirs(changes: Mapping[str, object], at: Place) -> None:
    system = sample_system().model_copy(update=dict(changes))
    (fault,) = module_sizes(system)
    assert fault.at == at
