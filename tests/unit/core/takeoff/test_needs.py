from dataclasses import replace
from fractions import Fraction

import pytest
from tests.takeoff_words import said

from gaugerod.core.base.messages import Message
from gaugerod.core.job.document import OnHand
from gaugerod.core.takeoff.needs import Need, bought
from gaugerod.core.takeoff.order import OrderLine

GLUE = Need(
    id="adhesive",
    name="Adhesive",
    pack="cartridge",
    packages=Fraction("3.35"),
    unit_price=1180,
    sum=Message("takeoff.invented"),
)
TRIM = replace(GLUE, id="trim-edge", pack="length", packages=Fraction(3), undivided=True)
BOXES = replace(GLUE, id="modules", pack="box", packages=Fraction(38, 8), per_pack=8, one_lot=True)


def line(need: Need, count: float | None = None, *, same_lot: bool = False) -> OrderLine:
    held = [] if count is None else [OnHand(item=need.id, count=count, same_lot=same_lot)]
    (found,) = bought([need], held)
    return found


def test_what_is_needed_is_bought_in_whole_packages() -> None:
    found = line(GLUE)
    assert (found.id, found.pack, found.count, found.unit_price) == (
        "adhesive",
        "cartridge",
        4,
        1180,
    )
    assert said(found) == "Invented. = 3.35 → 4"


@pytest.mark.parametrize(("count", "to_buy"), [(0.3, 4), (0.35, 3), (0.4, 3), (3.35, 0), (9.0, 0)])
def test_a_part_used_package_is_taken_off_before_it_is_rounded(count: float, to_buy: int) -> None:
    assert line(GLUE, count).count == to_buy


def test_the_sum_says_what_is_on_hand() -> None:
    assert said(line(GLUE, 0.6)) == "Invented. = 3.35 − 0.6 on hand → 3"


def test_trims_are_on_hand_in_whole_lengths() -> None:
    found = line(TRIM, 1.9)
    assert found.count == 2
    assert said(found) == "Invented. → 3 − 1 on hand → 2"
    assert said(line(TRIM)) == "Invented. → 3"


def test_modules_on_hand_are_counted_one_by_one_and_of_one_lot() -> None:
    # 38 less 6 are 32, just four boxes of 8; less 5 are 33, and take five.
    assert line(BOXES, 6, same_lot=True).count == 4
    assert line(BOXES, 5, same_lot=True).count == 5
    other = line(BOXES, 6)
    assert other.count == 5
    assert said(other) == "Invented. = 4.75; what is on hand is of another lot → 5"


def test_what_is_not_needed_has_no_line() -> None:
    assert bought([replace(GLUE, packages=Fraction(0))], [OnHand(item="adhesive", count=1)]) == ()


def test_others_are_left_alone() -> None:
    held = [OnHand(item="sealant", count=1)]
    assert bought([GLUE], held) == bought([GLUE])
