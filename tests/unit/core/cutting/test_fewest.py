import pytest

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
