"""The workbook, as another program reads it: LibreOffice opens it and gives it back as CSV."""

import csv
import io
import re
import subprocess
import zipfile
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from pathlib import Path

import pytest
from tests.fixtures_plan import INCHES, MILLIMETRES, keyed_plan, tiled_plan, words_in

from gaugerod.core.base.lengths import Display
from gaugerod.core.base.messages import Message
from gaugerod.core.pipeline import Plan
from gaugerod.core.takeoff.order import Order
from gaugerod.writers.xlsx_order import order_xlsx

DAY = date(2026, 3, 2)
SHEET = "xl/worksheets/sheet1.xml"
FIRST = 5
"""Rows above the first line of the order."""


def workbook(order: Order, display: Display = INCHES) -> bytes:
    return order_xlsx(order, words_in(display), "Alder Row", DAY)


def part(book: bytes, name: str) -> str:
    with zipfile.ZipFile(io.BytesIO(book)) as parts:
        return parts.read(name).decode()


def without_results(book: bytes) -> bytes:
    """The same workbook with no result beside any formula, so that it must be worked out."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(book)) as old, zipfile.ZipFile(out, "w") as new:
        for info in old.infolist():
            held = old.read(info)
            if info.filename == SHEET:
                held = re.sub(rb"(</f>)<v>[^<]*</v>", rb"\1", held)
            new.writestr(info, held)
    return out.getvalue()


def read_back(book: bytes, folder: Path) -> list[list[str]]:
    """The sheet as LibreOffice has it, with its own results for the formulas."""
    source = folder / "order.xlsx"
    source.write_bytes(without_results(book))
    # A profile of its own, since a second run on one profile waits for the first.
    command = [
        "soffice",
        f"-env:UserInstallation={(folder / 'profile').as_uri()}",
        "--headless",
        "--convert-to",
        "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,true,false",
        "--outdir",
        str(folder),
        str(source),
    ]
    subprocess.run(command, check=True, capture_output=True, timeout=240)
    text = (folder / "order.csv").read_text(encoding="utf-8")
    return list(csv.reader(io.StringIO(text)))


@pytest.mark.parametrize(("planned", "display"), [(keyed_plan, INCHES), (tiled_plan, MILLIMETRES)])
def test_another_program_works_the_totals_out(
    planned: Callable[[], Plan], display: Display, tmp_path: Path
) -> None:
    plan = planned()
    rows = read_back(workbook(plan.order, display), tmp_path)
    lines = [line for line in plan.order.lines if line.count]
    table = rows[FIRST : FIRST + len(lines)]
    assert [(row[0], row[1], int(row[3])) for row in table] == [
        (line.id, line.name, line.count) for line in lines
    ]
    assert [cents(row[5]) for row in table] == [line.count * line.unit_price for line in lines]
    total = rows[FIRST + len(lines)]
    assert cents(total[5]) == sum(line.count * line.unit_price for line in lines)


def cents(number: str) -> int:
    return int(Decimal(number) * 100)


def test_the_totals_are_formulas_with_their_results_beside_them() -> None:
    whole = keyed_plan().order
    boxes = replace(whole.lines[0], count=3, unit_price=121205)
    tubes = replace(whole.lines[1], count=2, unit_price=910)
    sheet = part(workbook(replace(whole, lines=(boxes, tubes))), SHEET)
    found = re.findall(r'<c r="(F\d+)"[^>]*><f>([^<]*)</f><v>([^<]*)</v>', sheet)
    assert found == [
        ("F6", "D6*E6", "3636.15"),
        ("F7", "D7*E7", "18.2"),
        ("F8", "SUM(F6:F7)", "3654.35"),
    ]


def test_counts_and_prices_are_numbers() -> None:
    whole = keyed_plan().order
    boxes = replace(whole.lines[0], count=3, unit_price=121205)
    sheet = part(workbook(replace(whole, lines=(boxes,))), SHEET)
    assert re.findall(r'<c r="([DE]6)"[^>]*?><v>([^<]*)</v>', sheet) == [
        ("D6", "3"),
        ("E6", "1212.05"),
    ]


def test_no_text_becomes_a_formula_or_a_link() -> None:
    whole = keyed_plan().order
    line = replace(whole.lines[0], name="=1+1", arithmetic=Message("takeoff.invented"))
    book = workbook(replace(whole, lines=(line,)))
    assert "<f>1+1</f>" not in part(book, SHEET)
    assert "=1+1" in part(book, "xl/sharedStrings.xml")


def test_no_labour_and_no_mark_up_are_told() -> None:
    plan = keyed_plan()
    book = workbook(plan.order)
    texts, sheet = part(book, "xl/sharedStrings.xml"), part(book, SHEET)
    for cents in (plan.price.labour, plan.price.price, plan.price.cost):
        assert f"{cents / 100:g}" not in texts + sheet
    assert not re.search(r"labour|mark-?up|margin|hours|conting", texts, re.IGNORECASE)


def test_every_column_is_wide_enough() -> None:
    plan = keyed_plan()
    book = workbook(plan.order)
    found = re.findall(r'<col min="(\d)" max="(\d)" width="([\d.]+)"', part(book, SHEET))
    widths = {
        column: float(width)
        for first, last, width in found
        for column in range(int(first), int(last) + 1)
    }
    bought = [line for line in plan.order.lines if line.count]
    assert widths[1] >= max(len(line.id) for line in bought)
    assert widths[2] >= max(len(line.name) for line in bought)
    assert min(widths[5], widths[6]) >= len("$1,234,567.00")
    assert widths[7] >= 70  # and longer texts are wrapped
    assert 'wrapText="1"' in part(book, "xl/styles.xml")


def test_the_same_order_gives_the_same_bytes_and_bears_its_day() -> None:
    order = keyed_plan().order
    book = workbook(order)
    assert book == workbook(order)
    assert "2026-03-02T00:00:00Z" in part(book, "docProps/core.xml")
    assert "On site before 2026-03-02" in part(book, "xl/sharedStrings.xml")


def test_an_empty_order_has_no_sum() -> None:
    sheet = part(workbook(replace(keyed_plan().order, lines=())), SHEET)
    assert "<f>" not in sheet
