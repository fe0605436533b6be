"""Modules that are parted for several pieces: what lies where, and the turn of each cut."""

from collections.abc import Iterator, Sequence
from types import MappingProxyType

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.cutting.pieces import SawCut, Stock
from gaugerod.core.sheet.accents import Signs, signed
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Line, Text, Turn
from gaugerod.core.sheet.lettering import region_of, text_width

ACROSS = 6
"""So many modules stand side by side."""
_FINENESS = 14  # the longer side of the module in capitals


def draw_modules(stocks: Sequence[Stock], signs: Signs = MappingProxyType({})) -> Drawing:
    """Draw the modules that are parted.

    Parameters
    ----------
    stocks
        At least one module or offcut, with its cuts right through. [mm]
    signs
        Where there are several products: the sign of each.

    Returns
    -------
    Drawing
        Each module face up, arrow up, under its name: pieces with their tags, offcuts on the
        layer ``waste``, cuts on ``cut`` with their turn.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> box = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)
    >>> cut = SawCut(part=box, start="left", at=200.0, near=("B1-1",), far=(), stands=True)
    >>> stock = Stock(id="M-1", source="module", product="m", size=(600.0, 300.0), keeps=(),
    ...     lot="", pieces=(), offcuts=(), sequence=(cut,))
    >>> [item.text for item in draw_modules((stock,)).items if isinstance(item, Text)]
    ['M-1', '1']
    """
    wide, high = (max(stock.size[axis] for stock in stocks) for axis in (0, 1))
    height = max(wide, high) / _FINENESS
    across, up = wide + 2 * height, high + 4 * height
    items = tuple(
        item
        for place, stock in enumerate(stocks)
        for item in _module(
            stock, signed(stock, signs), (place % ACROSS * across, -(place // ACROSS) * up), height
        )
    )
    rows = (len(stocks) - 1) // ACROSS
    bounds = Box(
        left=-height,
        bottom=-rows * up - height,
        right=(ACROSS - 1) * across + wide + height,
        top=high + 3 * height,
    )
    return Drawing(name="modules", title="modules", bounds=bounds, items=items)


def _module(stock: Stock, named: str, at: Point, height: float) -> Iterator[Item]:
    x, y = at
    wide, high = stock.size
    whole = Box(left=x, bottom=y, right=x + wide, top=y + high)
    yield Area(layer="waste", region=region_of(whole))
    for piece in stock.pieces:
        left, bottom = x + piece.at[0], y + piece.at[1]
        box = Box(left=left, bottom=bottom, right=left + piece.size[0], top=bottom + piece.size[1])
        yield Area(layer="piece", region=region_of(box))
        yield _tag(piece.tag, box, height)
    name = (x, y + high + 1.2 * height)
    yield Text(layer="tag", at=name, text=named, height=height, anchor="start", turn=0)
    for number, cut in enumerate(stock.sequence, start=1):
        yield from _cut(cut, number, stock, (x, y), height)


def _tag(tag: str, box: Box, height: float) -> Text:
    """Write a tag in the middle of its piece, upright where it is narrow, small where it must."""
    turned = box.height > box.width
    room = 0.9 * max(box.width, box.height)
    tall = min(height, height * room / text_width(tag, height=height), 0.8 * box.height)
    middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
    turn: Turn = 90 if turned else 0
    return Text(layer="tag", at=middle, text=tag, height=tall, anchor="middle", turn=turn)


def _cut(
    cut: SawCut, number: int, stock: Stock, at: tuple[float, float], height: float
) -> Iterator[Item]:
    """Draw a cut at the saw's near side, its turn beside its end."""
    (x, y), (wide, high) = at, stock.size
    reach = {"left": cut.at, "right": wide - cut.at, "bottom": cut.at, "top": high - cut.at}
    along = reach[cut.start]
    part = cut.part
    if cut.start in {"left", "right"}:
        start, end = (x + along, y + part.bottom), (x + along, y + part.top)
        beside = (end[0], end[1] + 0.7 * height)
    else:
        start, end = (x + part.left, y + along), (x + part.right, y + along)
        beside = (end[0] + 0.5 * height, end[1])
    yield Line(layer="cut", start=start, end=end)
    yield Text(
        layer="dimension",
        at=beside,
        text=str(number),
        height=0.8 * height,
        anchor="middle",
        turn=0,
    )
