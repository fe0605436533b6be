import pytest

from gaugerod.core.cutting.covering import Covering
from gaugerod.core.cutting.fewest import fewest
from gaugerod.core.cutting.rooms import BOTTOM, LEFT, Kind, Room


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
