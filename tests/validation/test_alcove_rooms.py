"""Rooms of cut modules, made by a generator of our own, with their fewest modules.

The fewest were found, and met by a lower bound, by a solver written apart from this program
(calc): 12 to 5,000 pieces in 1/16 in with the factory edges that each keeps, modules of 24 by 12
and 48 by 24 in, kerf 0 to 3/16, some with half turns. The large rooms are in the long run.
"""

import json
from pathlib import Path
from typing import Any

import pytest
from tests.checkers.boxes import Boxes, listed, planned

ROOMS = json.loads((Path(__file__).parents[1] / "data" / "alcove_rooms.json").read_text("utf-8"))
SHORT = 200
"""Most pieces of a room in the short run."""


def size_of(room: dict[str, Any]) -> int:
    return sum(count for *_, count in room["pieces"])


def pytest_generate_tests(metafunc: pytest.Metafunc) -> None:
    if "room" in metafunc.fixturenames:
        long = bool(metafunc.config.getoption("--long"))
        rooms = [room for room in ROOMS["rooms"] if long or size_of(room) <= SHORT]
        metafunc.parametrize("room", rooms, ids=lambda room: str(room["name"]))


def test_every_room_takes_the_fewest_modules_and_is_proven(room: dict[str, Any]) -> None:
    width, height = room["module"]
    boxes = Boxes(
        size=(width, height),
        kerf=room["kerf"],
        wants=listed(room["pieces"]),
        half_turn=room["half_turn"],
    )
    plan = planned(boxes)
    assert (plan.modules, plan.lower_bound, plan.proven) == (room["fewest"], room["fewest"], True)


def test_all_rooms_are_there() -> None:
    assert len(ROOMS["rooms"]) == 34
    assert sum(size_of(room) <= SHORT for room in ROOMS["rooms"]) == 28
