"""An order as a workbook for the supplier: real numbers, and totals that are formulas."""

from collections.abc import Sequence
from datetime import date, datetime, time
from io import BytesIO

from xlsxwriter import Workbook
from xlsxwriter.format import Format
from xlsxwriter.worksheet import Worksheet

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.takeoff.order import Order, OrderLine
from gaugerod.packet.phrases import packed

_COLUMNS = ("id", "name", "pack", "count", "unit-price", "total", "arithmetic")
_COUNT, _PRICE, _TOTAL = 3, 4, 5
_HEADER = 4
"""Rows above it are the title and what the order is for."""
_WIDEST = 70
"""A longer text is wrapped. [characters]"""
_MONEY_WIDTH = 14
_SIGNS = {"USD": '"$"#,##0.00', "GBP": '"£"#,##0.00', "EUR": '"€"#,##0.00'}
_PLAIN = {"strings_to_formulas": False, "strings_to_urls": False, "in_memory": True}


def order_xlsx(order: Order, words: Catalogue, job: str, wanted: date) -> bytes:
    """Write an order as a workbook of one sheet.

    Parameters
    ----------
    order
        The order.
    words
        Sentences of the catalogue.
    job
        Name of the job.
    wanted
        The day by which it must be on site; the workbook bears it as the day it was made, so
        that the same order gives the same bytes.

    Returns
    -------
    bytes
        The workbook. It holds what is bought and what that costs, nothing else of the price.
    """
    out = BytesIO()
    with Workbook(out, _PLAIN) as book:
        title = words.text("order-sheet.title")
        book.set_properties({"title": title, "created": datetime.combine(wanted, time())})
        sheet = book.add_worksheet(title)
        bold = book.add_format({"bold": True})
        sheet.write_string(0, 0, title, book.add_format({"bold": True, "font_size": 14}))
        sheet.write_string(1, 0, words.text("order-sheet.job", job=job))
        sheet.write_string(2, 0, words.text("order-sheet.wanted", day=wanted.isoformat()))
        lines = [line for line in order.lines if line.count]
        _table(book, sheet, lines, words)
        _total(sheet, lines, words, bold, _money(book, words, bold=True))
        _page(sheet)
    return out.getvalue()


def _money(book: Workbook, words: Catalogue, *, bold: bool = False) -> Format:
    return book.add_format({"num_format": _SIGNS[words.currency], "bold": bold, "valign": "top"})


def _table(book: Workbook, sheet: Worksheet, lines: Sequence[OrderLine], words: Catalogue) -> None:
    head = book.add_format({"bold": True, "bottom": 1, "text_wrap": True})
    text = book.add_format({"text_wrap": True, "valign": "top"})
    whole = book.add_format({"num_format": "0", "valign": "top"})
    money = _money(book, words)
    header = [words.text(f"order-sheet.{name}") for name in _COLUMNS]
    for column, said in enumerate(header):
        sheet.write_string(_HEADER, column, said, head)
    rows = [_texts(line, words) for line in lines]
    for row, (line, texts) in enumerate(zip(lines, rows, strict=True), start=_HEADER + 1):
        for column, said in texts.items():
            sheet.write_string(row, column, said, text)
        sheet.write_number(row, _COUNT, line.count, whole)
        sheet.write_number(row, _PRICE, line.unit_price / 100, money)
        product = line.count * line.unit_price / 100
        sheet.write_formula(row, _TOTAL, f"=D{row + 1}*E{row + 1}", money, product)
    for column, said in enumerate(header):
        longest = max(len(one) for one in [said, *(texts.get(column, "") for texts in rows)])
        wide = _MONEY_WIDTH if column in {_PRICE, _TOTAL} else min(longest + 2, _WIDEST)
        sheet.set_column(column, column, wide)


def _texts(line: OrderLine, words: Catalogue) -> dict[int, str]:
    return {0: line.id, 1: line.name, 2: packed(line, words), 6: words.say(line.arithmetic)}


def _total(
    sheet: Worksheet, lines: Sequence[OrderLine], words: Catalogue, bold: Format, money: Format
) -> None:
    # Formulas count rows from one, cells from nought: the sum stands right under the last line.
    first, last = _HEADER + 2, _HEADER + 1 + len(lines)
    row = last
    total = sum(line.count * line.unit_price for line in lines) / 100
    sheet.write_string(row, 1, words.text("order-sheet.sum"), bold)
    if lines:
        sheet.write_formula(row, _TOTAL, f"=SUM(F{first}:F{last})", money, total)
    sheet.write_string(row + 1, 1, words.text("order-sheet.before-tax"))


def _page(sheet: Worksheet) -> None:
    sheet.freeze_panes(_HEADER + 1, 0)
    sheet.repeat_rows(_HEADER)
    sheet.set_landscape()
    sheet.fit_to_pages(1, 0)
