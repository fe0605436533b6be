"""An order as CSV for the supplier, safe to open in a spreadsheet."""

import csv
from io import StringIO

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.takeoff.order import Order, OrderLine
from gaugerod.packet.phrases import packed

_HEADER = (
    "sheet.csv-id",
    "sheet.csv-name",
    "sheet.csv-pack",
    "sheet.csv-count",
    "sheet.csv-unit-price",
    "sheet.csv-total",
    "sheet.csv-arithmetic",
)
_FORMULA = ("=", "+", "-", "@", "\t", "\r")


def order_csv(order: Order, words: Catalogue) -> str:
    """Write an order as CSV after RFC 4180: a header, then a record for each line.

    Parameters
    ----------
    order
        The order.
    words
        Sentences of the catalogue.

    Returns
    -------
    str
        Records that end in CR LF, fields quoted where they must be. Money has two decimals
        and no sign, so that a spreadsheet can add it up. A text that a spreadsheet would take
        for a formula begins with an apostrophe.
    """
    out = StringIO(newline="")
    writer = csv.writer(out)
    writer.writerow([_safe(words.text(key)) for key in _HEADER])
    for line in filter(_is_bought, order.lines):
        writer.writerow(_record(line, words))
    return out.getvalue()


def _is_bought(line: OrderLine) -> bool:
    """Leave out what is on hand already: it is no business of the supplier."""
    return line.count > 0


def _record(line: OrderLine, words: Catalogue) -> tuple[str, ...]:
    return (
        _safe(line.id),
        _safe(line.name),
        _safe(packed(line, words)),
        str(line.count),
        _money(line.unit_price),
        _money(line.count * line.unit_price),
        _safe(words.say(line.arithmetic)),
    )


def _safe(text: str) -> str:
    return f"'{text}" if text.startswith(_FORMULA) else text


def _money(cents: int) -> str:
    return f"{cents // 100}.{cents % 100:02d}"
