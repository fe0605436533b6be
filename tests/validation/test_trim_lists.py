"""Lists of trims from 96 in lengths, made by a generator of our own, with their fewest bars.

The fewest were found, and met by a lower bound, by a solver written apart from this program
(calc): 12 to 400 pieces in 1/16 in, kerf 1/8 or 3/16.
"""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from tests.checkers.bars import faults

from gaugerod.core.cutting.bars import fewest_bars

LISTS = json.loads((Path(__file__).parents[1] / "data" / "trim_lists.json").read_text("utf-8"))


@pytest.mark.parametrize("one", LISTS["lists"], ids=lambda one: str(one["name"]))
def test_every_list_is_cut_from_the_fewest_and_proven(one: dict[str, Any]) -> None:
    lengths = [length for length, count in one["lengths"] for _ in range(count)]
    stock, kerf = one["stock"], one["kerf"]
    plan = fewest_bars(lengths, stock=stock, kerf=kerf, step=Fraction(1))
    assert faults(plan, lengths, stock=stock, kerf=kerf) == []
    assert (len(plan.bars), plan.proven) == (one["fewest"], True)


def test_all_lists_are_there() -> None:
    assert len(LISTS["lists"]) == 24
