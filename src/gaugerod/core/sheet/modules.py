"""A module that is parted for several pieces: what lies where, and the turn of each cut."""

from collections.abc import Iterator, Sequence
from types import MappingProxyType

from gaugerod.core.base.geometry import SNAP, Box
from gaugerod.core.cutting.pieces import SawCut, Stock
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.accents import Signs, signed
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Line, Text, Turn
from gaugerod.core.sheet.lettering import extent, region_of, spread, text_width

_ROOM = 1.2
"""From line to line of a text, in capitals. [1]"""


_OFF = 0.9
"""From the module to the middle of what stands beside it, in capitals. [1]"""


def draw_module(
    stock: Stock, *, height: float, least: float, wide: float, signs: Signs = MappingProxyType({})
) -> Drawing:
    """Draw a module that is parted.

    Parameters
    ----------
    stock
        A module or an offcut, with its cuts right through. [mm]
    height
        Height of capitals, > 0. [mm]
    least
        What is narrower or lower is waste, not an offcut to keep, >= 0. [mm]
    wide
        Width of the widest module that is drawn at the same scale, > 0. [mm]
    signs
        Where there are several products: the sign of each.

    Returns
    -------
    Drawing
        The module under its name, face up, arrow up: pieces with their tags, offcuts to keep
        with theirs, waste on the layer ``waste``, factory edges that are kept on ``keep``, cuts
        on ``saw``, each with its turn at its end. A tag that finds no room stands below, on a
        leader.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> box = Box(left=0.0, bottom=0.0, right=600.0, top=300.0)
    >>> cut = SawCut(part=box, start="left", at=200.0, near=("B1-1",), far=(), stands=True)
    >>> stock = Stock(id="M-1", source="module", product="m", size=(600.0, 300.0), keeps=(),
    ...     lot="", pieces=(), offcuts=(), sequence=(cut,))
    >>> drawing = draw_module(stock, height=30.0, least=50.0, wide=600.0)
    >>> [item.text for item in drawing.items if isinstance(item, Text)]
    ['1', 'M-1']
    """
    whole = Box(left=0.0, bottom=0.0, right=stock.size[0], top=stock.size[1])
    named = [(placed.tag, _box(placed.at, placed.size)) for placed in stock.pieces]
    kept = [one for one in stock.offcuts if min(one.size) >= least]
    waste = [_box(one.at, one.size) for one in stock.offcuts if min(one.size) < least]
    named += [(one.id, _box(one.at, one.size)) for one in kept]
    tags = [(box, tag, _inside(tag, box, height)) for tag, box in named]
    outside = [(box, tag) for box, tag, inside in tags if not inside]
    cuts = tuple(_cuts(stock, height))
    items: tuple[Item, ...] = (
        *(Area(layer="waste", region=region_of(box)) for box in waste),
        Area(layer="outline", region=region_of(whole)),
        *(Area(layer="piece", region=region_of(box)) for _, box in named),
        *(edge for _, box in named for edge in _kept_edges(box, whole, stock.keeps)),
        *cuts,
        _name(signed(stock, signs), stock, cuts, height),
        *(text for _, _, inside in tags for text in inside),
        *_leaders(outside, height, wide),
    )
    box = extent(items, margin=height / 4)
    bounds = Box(
        left=min(box.left, -_margin(height)),
        bottom=box.bottom,
        right=max(box.right, wide + _margin(height)),
        top=box.top,
    )
    return Drawing(name=f"module-{stock.id}", title=stock.id, bounds=bounds, items=items)


def _name(named: str, stock: Stock, cuts: Sequence[Item], height: float) -> Text:
    """Write the name of a module above its left corner, clear of the turns there."""
    wide, level = text_width(named, height=height), stock.size[1] + _OFF * height
    turns = [item.at for item in cuts if isinstance(item, Text)]
    met = any(x < wide + height and abs(y - level) < height for x, y in turns)
    at = (0.0, level + 2 * _ROOM * height * met)
    return Text(layer="tag", at=at, text=named, height=height, anchor="start", turn=0)


def _margin(height: float) -> float:
    """Return the room that a number takes beside a module. [mm]."""
    return 2 * height


def _box(at: tuple[float, float], size: tuple[float, float]) -> Box:
    return Box(left=at[0], bottom=at[1], right=at[0] + size[0], top=at[1] + size[1])


def _inside(tag: str, box: Box, height: float) -> tuple[Text, ...]:
    """Return a tag in the middle of its part: level, turned, or in two lines; else nothing."""
    head, dash, tail = tag.rpartition("-")
    in_two = (head + dash, tail)
    turns: tuple[Turn, ...] = (0, 90)
    x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    for lines in ((tag,), in_two):
        for turn in turns:
            along, across = (box.width, box.height)[:: 1 if turn == 0 else -1]
            deep = _ROOM * height * len(lines)
            longest = max(text_width(line, height=height) for line in lines)
            if longest > along or deep > across:
                continue
            offs = [_ROOM * height * ((len(lines) - 1) / 2 - n) for n in range(len(lines))]
            return tuple(
                _tag(line, (x, y + off) if turn == 0 else (x - off, y), height, turn)
                for line, off in zip(lines, offs, strict=True)
            )
    return ()


def _tag(line: str, at: tuple[float, float], height: float, turn: Turn) -> Text:
    return Text(layer="tag", at=at, text=line, height=height, anchor="middle", turn=turn)


def _leaders(outside: Sequence[tuple[Box, str]], height: float, wide: float) -> Iterator[Item]:
    """Write each tag below the module, the right-most first, so that no leader meets a tag."""
    ordered = sorted(outside, key=lambda one: -(one[0].left + one[0].right))
    for row, (box, tag) in enumerate(ordered):
        x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        below = -(2.5 + 1.5 * row) * height
        start = min(x + height / 3, wide - text_width(tag, height=height))
        yield Line(layer="dimension", start=(x, y), end=(x, below))
        yield Text(layer="tag", at=(start, below), text=tag, height=height, anchor="start", turn=0)


def _kept_edges(box: Box, whole: Box, keeps: Sequence[Side]) -> Iterator[Line]:
    """Yield the sides of a part that are factory edges of its module."""
    corners = {
        "left": ((box.left, box.bottom), (box.left, box.top), box.left - whole.left),
        "right": ((box.right, box.bottom), (box.right, box.top), whole.right - box.right),
        "bottom": ((box.left, box.bottom), (box.right, box.bottom), box.bottom - whole.bottom),
        "top": ((box.left, box.top), (box.right, box.top), whole.top - box.top),
    }
    for side in keeps:
        start, end, off = corners[side]
        if abs(off) < SNAP:
            yield Line(layer="keep", start=start, end=end)


def _cuts(stock: Stock, height: float) -> Iterator[Item]:
    """Draw each cut at the saw's near side, and its turn where it comes out of the module.

    Turns beside each other on one side are moved apart; that of a cut within stands on it.
    """
    ends: dict[Side, list[tuple[float, int]]] = {}
    for number, cut in enumerate(stock.sequence, start=1):
        line = _line(cut, stock)
        yield line
        side, at = _comes_out(line, stock)
        if side is None:
            (x0, y0), (x1, y1) = line.start, line.end
            yield _number((x0 + x1) / 2, (y0 + y1) / 2, number, height)
        else:
            ends.setdefault(side, []).append((at, number))
    off = _OFF * height
    level = {"top": stock.size[1] + off, "bottom": -off, "right": stock.size[0] + off, "left": -off}
    for side, found in ends.items():
        found.sort()
        places = spread([at for at, _ in found], lengths=[height] * len(found), gap=height / 4)
        for place, (_, number) in zip(places, found, strict=True):
            upright = side in {"top", "bottom"}
            x, y = (place, level[side]) if upright else (level[side], place)
            yield _number(x, y, number, height)


def _comes_out(line: Line, stock: Stock) -> tuple[Side | None, float]:
    """Return the side of the module where a cut comes out, and where along it. [mm]."""
    (wide, high), (x0, y0), (x1, y1) = stock.size, line.start, line.end
    upright = x0 == x1
    far, near = (high - y1, y0) if upright else (wide - x1, x0)
    sides: tuple[Side, Side] = ("top", "bottom") if upright else ("right", "left")
    out = next((side for side, off in zip(sides, (far, near), strict=True) if off < SNAP), None)
    return out, x0 if upright else y0


def _line(cut: SawCut, stock: Stock) -> Line:
    wide, high = stock.size
    reach = {"left": cut.at, "right": wide - cut.at, "bottom": cut.at, "top": high - cut.at}
    along, part = reach[cut.start], cut.part
    if cut.start in {"left", "right"}:
        return Line(layer="saw", start=(along, part.bottom), end=(along, part.top))
    return Line(layer="saw", start=(part.left, along), end=(part.right, along))


def _number(x: float, y: float, number: int, height: float) -> Text:
    return Text(layer="saw", at=(x, y), text=str(number), height=height, anchor="middle", turn=0)
