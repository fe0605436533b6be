import csv
import io
from dataclasses import replace

import pytest
from tests.fixtures_plan import INCHES, keyed_plan, words_in

from gaugerod.core.base.messages import Message
from gaugerod.core.takeoff.order import Order
from gaugerod.writers.csv_order import order_csv


def records(order: Order) -> list[list[str]]:
    text = order_csv(order, words_in(INCHES))
    assert text.endswith("\r\n")
    return list(csv.reader(io.StringIO(text, newline="")))


def order(**changes: object) -> Order:
    """The demo order with one line, changed."""
    whole = keyed_plan().order
    line = replace(whole.lines[0], arithmetic=Message("takeoff.invented"))
    return replace(whole, lines=(replace(line, **changes),))  # type: ignore[arg-type]  # fields by name


def test_there_is_a_header_and_a_record_for_each_line() -> None:
    plan = keyed_plan()
    header, *lines = records(plan.order)
    assert header == ["Id", "Item", "Pack", "Count", "Unit price", "Total", "Arithmetic"]
    assert [line[0] for line in lines] == [line.id for line in plan.order.lines if line.count]
    assert all(len(line) == len(header) for line in lines)


def test_what_is_on_hand_is_not_asked_of_the_supplier() -> None:
    on_hand = [line.id for line in keyed_plan().order.lines if not line.count]
    assert on_hand == ["hole-saw"]
    assert "hole-saw" not in {record[0] for record in records(keyed_plan().order)}


@pytest.mark.parametrize(("count", "pack"), [(1, "box"), (2, "boxes")])
def test_a_pack_is_named_as_one_or_many(count: int, pack: str) -> None:
    (_, line) = records(order(count=count))
    assert line[2] == pack


def test_money_is_a_plain_number() -> None:
    """3 boxes at 1,212.05 are 3,636.15."""
    (_, line) = records(order(count=3, unit_price=121205))
    assert line[3:6] == ["3", "1212.05", "3636.15"]


@pytest.mark.parametrize("name", ["Trim, 3/4 leg", 'The "best"', "two\r\nlines", "señor", ""])
def test_any_text_is_read_back(name: str) -> None:
    (_, line) = records(order(name=name))
    assert line[1] == name


@pytest.mark.parametrize("sign", ["=", "+", "-", "@", "\t", "\r"])
def test_no_cell_is_a_formula(sign: str) -> None:
    (_, line) = records(order(name=f"{sign}cmd|' /C calc'!A0"))
    assert line[1] == f"'{sign}cmd|' /C calc'!A0"
