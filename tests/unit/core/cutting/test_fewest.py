import json
from pathlib import Path

import pytest

from gaugerod.core.cutting import covering, near_patterns
from gaugerod.core.cutting.covering import Covering
from gaugerod.core.cutting.fewest import fewest
from gaugerod.core.cutting.rooms import BOTTOM, LEFT, RIGHT, TOP, Kind, Room


def test_a_plan_that_wants_of_pieces_is_none(monkeypatch: pytest.MonkeyPatch) -> None:
    # A module has one lower left corner, so three pieces that keep it take three. By area one
    # would do, so there is a search; the solver stops with nothing in hand.
    def stopped(self: Covering, *, least: int) -> list[int]:
        assert least == 3
        return [0] * len(self.fractions())

    monkeypatch.setattr(Covering, "whole", stopped)
    corner = Kind(10, 10, LEFT | BOTTOM)
    found = fewest(Room(width=100, height=50, kerf=2, kinds=(corner,), demand=(3,)))
    assert found.kinds == ((0,),) * 3
    assert found.bound == 3


def test_a_groove_is_not_shed_by_a_cut_that_takes_nothing_off() -> None:
    # Four pieces of 6 x 4 come clear by 2 of the left, bottom and top edge: one row to a module
    # of 8, since 4 + 2 leaves 2, and two to a row, 2 + 6 + 6 = 14. The fifth finds no room.
    sheds = Kind(6, 4, 0, LEFT | BOTTOM | TOP, (2, 2))
    room = Room(width=14, height=8, kerf=0, kinds=(sheds, Kind(3, 4, RIGHT)), demand=(4, 1))
    found = fewest(room)
    assert len(found.trees) == 3
    assert found.bound == 3


def test_without_rounds_the_bound_is_that_of_area() -> None:
    corner = Kind(10, 10, LEFT | BOTTOM)
    found = fewest(Room(width=100, height=50, kerf=2, kinds=(corner,), demand=(3,)), rounds=0)
    assert (len(found.trees), found.bound) == (3, 1)


def test_a_gap_that_takes_too_much_work_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    # The linear bound of this room is 27, and 28 is the fewest: shown by going through patterns.
    text = (Path(__file__).parents[3] / "data" / "alcove_rooms.json").read_text("utf-8")
    (raw,) = (one for one in json.loads(text)["rooms"] if one["name"].endswith("rot180_d28"))
    bits = {"L": LEFT, "R": RIGHT, "B": BOTTOM, "T": TOP}
    room = Room(
        width=raw["module"][0],
        height=raw["module"][1],
        kerf=raw["kerf"],
        kinds=tuple(Kind(w, h, sum(bits[e] for e in edges)) for w, h, edges, _ in raw["pieces"]),
        demand=tuple(count for *_, count in raw["pieces"]),
        half_turn=True,
    )
    monkeypatch.setattr(near_patterns, "WORK", 0)
    found = fewest(room)
    assert (len(found.trees), found.bound) == (28, 27)


def test_over_many_patterns_no_fewer_cuts_are_looked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    corner = Kind(10, 10, LEFT | BOTTOM)
    monkeypatch.setattr(covering, "MANY", 0)
    found = fewest(Room(width=100, height=50, kerf=2, kinds=(corner,), demand=(3,)))
    assert (len(found.trees), found.bound) == (3, 3)
