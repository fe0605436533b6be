from collections.abc import Mapping, Sequence

import pytest

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import Wall
from gaugerod.core.job.faults import Place
from gaugerod.core.job.pierced import pierced

Tables = Sequence[Mapping[str, object]]

VALVE = {"name": "valve", "diameter": 76}
ARM = {"name": "arm", "diameter": 38}
WINDOW = {"name": "window", "kind": "window"}
SHELF = {"name": "shelf", "kind": "shelf", "size": (300, 100)}


def of(kind: str, name: str, start: str, **more: object) -> dict[str, object]:
    return {"kind": kind, "of": name, "from": start, "reads": 400, **more}


def edge(edge: str, start: str, name: str = "window") -> dict[str, object]:
    return of("opening", name, start, edge=edge)


def faults(**tables: Tables) -> list[tuple[Place, Message]]:
    wall = Wall.model_validate({"name": "B", "readings": (), **tables})
    return [(fault.at, fault.wrong) for fault in pierced(wall, ("wall", 1))]


@pytest.mark.parametrize("kind", ["hole", "fixture"])
def test_a_centre_needs_its_place_across_and_its_height(kind: str) -> None:
    thing = VALVE if kind == "hole" else SHELF
    name = str(thing["name"])
    at = ("wall", 1, kind, 0)
    across, up = of(kind, name, "right"), of(kind, name, "datum")
    without_x = (at, Message("job.without-x", kind=kind, name=name))
    without_y = (at, Message("job.without-y", kind=kind, name=name))
    assert faults(**{kind: [thing]}) == [without_x, without_y]
    assert faults(**{kind: [thing]}, readings=[across]) == [without_y]
    assert faults(**{kind: [thing]}, readings=[up]) == [without_x]
    assert faults(**{kind: [thing]}, readings=[across, up]) == []


@pytest.mark.parametrize(
    ("edges", "missing"),
    [
        ([], ["left, right, width", "sill, head, height"]),
        ([("left", "left"), ("sill", "datum")], ["left, right, width", "sill, head, height"]),
        ([("left", "left"), ("left", "right"), ("sill", "datum"), ("head", "datum")], ["left"]),
        ([("left", "left"), ("right", "left"), ("sill", "datum"), ("height", "itself")], []),
        ([("width", "itself"), ("right", "right"), ("head", "datum"), ("height", "itself")], []),
    ],
)
def test_an_opening_needs_two_of_three_each_way(
    edges: Sequence[tuple[str, str]], missing: Sequence[str]
) -> None:
    found = faults(opening=[WINDOW], readings=[edge(name, start) for name, start in edges])
    assert [at for at, _ in found] == [("wall", 1, "opening", 0)] * len(missing)
    for (_, wrong), needed in zip(found, missing, strict=True):
        assert wrong.key == "job.opening-open"
        assert str(wrong.values["needed"]).startswith(needed)


@pytest.mark.parametrize(
    ("name", "start", "known"),
    [
        ("left", "datum", "left, right"),
        ("right", "itself", "left, right"),
        ("sill", "left", "datum"),
        ("head", "itself", "datum"),
        ("width", "left", "itself"),
        ("height", "datum", "itself"),
        ("jamb depth", "left", "itself"),
    ],
)
def test_an_edge_is_read_from_what_it_is_measured_from(name: str, start: str, known: str) -> None:
    (_, first), *_ = faults(opening=[WINDOW], readings=[edge(name, start)])
    assert first == Message("job.edge-from", edge=name, read=start, known=known)


@pytest.mark.parametrize(
    ("reading", "key"),
    [
        (of("hole", "vavle", "left"), "hole"),
        ({"kind": "rough-in", "of": "vavle", "reads": 40}, "hole"),
        (edge("left", "left", "vavle"), "opening"),
        (of("fixture", "vavle", "left"), "fixture"),
    ],
)
def test_a_reading_of_what_is_not_there_is_refused(reading: Mapping[str, object], key: str) -> None:
    (found,) = faults(readings=[reading])
    at = ("wall", 1, "readings", 0, "of")
    assert found == (at, Message("job.of-none", key=key, read="vavle"))


def test_what_is_there_is_named() -> None:
    found = faults(hole=[VALVE, ARM], readings=[of("hole", "vavle", "left")])
    wrong = Message("job.of-unknown", key="hole", read="vavle", known="valve, arm")
    assert found[0] == (("wall", 1, "readings", 0, "of"), wrong)


def test_a_name_is_given_once_on_a_wall() -> None:
    placed = [of("hole", "valve", "left"), of("hole", "valve", "datum")]
    found = faults(hole=[VALVE, VALVE], readings=placed)
    assert found == [(("wall", 1, "hole", 1, "name"), Message("job.name-twice", name="valve"))]


def test_the_limits_of_a_valve_stand_the_right_way_round() -> None:
    placed = [of("hole", "valve", "left"), of("hole", "valve", "datum")]
    swapped = VALVE | {"rough_in": (60, 30)}
    assert faults(hole=[VALVE | {"rough_in": (30, 60)}], readings=placed) == []
    assert faults(hole=[swapped], readings=placed) == [
        (("wall", 1, "hole", 0, "rough_in"), Message("job.rough-in-swapped"))
    ]
