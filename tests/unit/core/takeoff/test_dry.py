from dataclasses import replace

import pytest
from tests.laid_by_hand import keyed
from tests.takeoff_words import said

from gaugerod.core.takeoff.dry import dry_needs
from gaugerod.core.takeoff.needs import bought
from gaugerod.core.takeoff.order import Boards, OrderLine, Quantities
from gaugerod.core.takeoff.sample import sample_order

QUANTITIES = replace(
    sample_order().quantities,
    pieces=36,
    inside_pieces=4,
    area=6e6,
    inside_area=0.5e6,
    cut_length=24_000.0,
    hole_sizes=((32.0, 5), (76.0, 1)),
    boards=Boards(count=6, pieces=7, seams=4_500.0, corners=3_600.0),
)
BOARD = {"name": "Board", "size": (1500, 900), "price": 14}


def lines(
    *supplies: dict[str, object], quantities: Quantities = QUANTITIES, **changes: object
) -> list[OrderLine]:
    wanted = [
        {"id": f"s{n}", "name": "Supply", "pack": "packet", "price": 5, **supply}
        for n, supply in enumerate(supplies)
    ]
    return list(bought(dry_needs(quantities, keyed(supply=wanted, **changes))))


@pytest.mark.parametrize(
    ("per", "lasts", "count", "sum_in_words"),
    [
        ("alcove", 0.5, 2, "1 alcove / 0.5 a packet = 2 → 2"),
        ("piece", 30, 2, "40 pieces / 30 a packet = 1.33 → 2"),
        ("hole", 4, 2, "6 holes / 4 a packet = 1.5 → 2"),
        ("board", 6, 1, "6 boards / 6 a packet = 1 → 1"),
        ("square metre", 2.5, 3, "6.5 m² of wall / 2.5 m² a packet = 2.6 → 3"),
        ("metre of cut", 60, 1, "24 m of cut / 60 m a packet = 0.4 → 1"),
        ("metre of tape", 8, 2, "8.1 m of board seams and corners / 8 m a packet = 1.01 → 2"),
    ],
)
def test_a_supply_is_counted_by_what_uses_it_up(
    per: str, lasts: float, count: int, sum_in_words: str
) -> None:
    (line,) = lines({"per": per, "lasts": lasts})
    assert (line.pack, line.count, line.unit_price) == ("packet", count, 500)
    assert said(line) == sum_in_words


def test_every_diameter_takes_a_hole_saw_of_its_own() -> None:
    # Five holes of 32 wear out two saws of four holes each.
    (line,) = lines({"per": "hole size", "lasts": 4, "pack": "single"})
    assert line.count == 3
    assert said(line) == (
        "32 mm: 5 to drill, 2 to buy + 76 mm: 1 to drill, 1 to buy; one saw lasts 4 holes → 3"
    )


def test_where_nothing_is_drilled_no_saw_is_bought() -> None:
    none = replace(QUANTITIES, hole_sizes=())
    assert lines({"per": "hole size", "lasts": 4}, quantities=none) == []


def test_boards_are_those_laid_out() -> None:
    (line,) = lines(backer=BOARD)
    assert (line.id, line.pack, line.count, line.unit_price) == ("backer", "board", 6, 1400)
    assert said(line) == ("7 pieces of board laid out, cut from boards of 1500 mm × 900 mm → 6")


def test_without_boards_there_is_nothing_to_tape() -> None:
    bare = replace(QUANTITIES, boards=None)
    assert lines({"per": "metre of tape", "lasts": 8}, quantities=bare, backer=BOARD) == []
