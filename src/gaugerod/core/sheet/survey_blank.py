"""A blank survey sheet for one wall: an outline, and a line for each reading where it is taken."""

from collections.abc import Iterator

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.base.messages import Length
from gaugerod.core.sheet.drawing import Area, Drawing, Item, Line, Text
from gaugerod.core.sheet.lettering import region_of, text_width

_CAPITALS = 2.7
"""Capitals of 10.5 points, on paper. [mm]"""
_WIDE, _TALL = 180.0, 214.0
_WALL = Box(left=48.0, bottom=-124.0, right=132.0, top=-29.0)
_DATUM = -78.0
_ROW = 8.5
"""From line to line: room for a pencil in a wet hand. [mm]"""
_OVER = {"imperial": 1828.8, "metric": 1800.0}


def blank_survey(name: str, words: Catalogue) -> Drawing:
    """Draw a blank sheet for one wall, in millimetres of paper.

    Parameters
    ----------
    name
        Name of the wall, for the drawing's own name.
    words
        Sentences, and how lengths are shown.

    Returns
    -------
    Drawing
        Outline, datum, and lines to write on. [mm]

    Notes
    -----
    Source: own design, after the sketches that setters make.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import METRIC
    >>> words = Catalogue(display=METRIC, sentences=defaultdict(lambda: "width"))
    >>> blank_survey("B", words).bounds.width
    180.0
    """
    items: tuple[Item, ...] = (
        Area(layer="outline", region=region_of(_WALL)),
        Line(layer="datum", start=(_WALL.left - 4, _DATUM), end=(_WALL.right + 4, _DATUM)),
        *_head(words),
        *_inside(words),
        *_round(words),
        *_beside(words, left=0.0, edge="left"),
        *_beside(words, left=_WALL.right + 3, edge="right"),
        *_grid(words, "hole", ("left", "right", "up-down", "proud", "plate"), top=-146.0, rows=4),
        *_grid(words, "opening", ("left", "across", "right", "sill", "head"), top=-190.0, rows=2),
    )
    return Drawing(
        name=f"blank-{name}",
        title=words.text("blank-sheet.title"),
        bounds=Box(left=0.0, bottom=-_TALL, right=_WIDE, top=0.0),
        items=items,
    )


def _text(said: str, x: float, y: float) -> Text:
    return Text(layer="outline", at=(x, y), text=said, height=_CAPITALS, anchor="start", turn=0)


def _blank(said: str, x: float, y: float, *, to: float) -> tuple[Item, ...]:
    """Return a word and the line after it, to where it ends."""
    start = x + text_width(said, height=_CAPITALS) + 1.0
    under = y - 0.8 * _CAPITALS
    return (
        _text(said, x, y),
        Line(layer="dimension", start=(start, under), end=(to, under)),
    )


def _head(words: Catalogue) -> Iterator[Item]:
    first, second = -4.0, -4.0 - _ROW
    yield from _blank(words.text("blank-sheet.job"), 0.0, first, to=88.0)
    yield from _blank(words.text("blank-sheet.date"), 92.0, first, to=130.0)
    yield from _blank(words.text("blank-sheet.by"), 134.0, first, to=_WIDE)
    yield _text(words.text("blank-sheet.surface"), 0.0, second)
    for column, surface in enumerate(words.text("blank-sheet.surfaces").split(" / ")):
        yield _text(surface, 66.0 + 29.0 * column, second)


def _inside(words: Catalogue) -> Iterator[Item]:
    left, right = _WALL.left + 4, _WALL.right - 4
    for y in (_WALL.top - 9, _DATUM + 7, _WALL.bottom + 7):
        yield from _blank(words.text("blank-sheet.width"), left, y, to=right - 30)
        yield from _blank(words.text("blank-sheet.at"), right - 28, y, to=right)
    for key, y in (("rising", _DATUM - 12), ("falling", _DATUM - 12 - _ROW)):
        yield from _blank(words.text(f"blank-sheet.{key}"), left, y, to=right)
    yield _text(words.text("sheet.datum"), left, _DATUM - 4)


def _round(words: Catalogue) -> Iterator[Item]:
    for x in (_WALL.left, _WALL.left + 29, _WALL.right - 26):
        yield from _blank(words.text("blank-sheet.up"), x, _WALL.top + 4, to=x + 26)
        yield from _blank(words.text("blank-sheet.down"), x, _WALL.bottom - 5, to=x + 26)
    last = _WALL.bottom - 5 - _ROW
    yield from _blank(words.text("blank-sheet.floor"), 0.0, last, to=56.0)
    yield from _blank(words.text("blank-sheet.drain"), 60.0, last, to=116.0)
    yield from _blank(words.text("blank-sheet.lip"), 120.0, last, to=_WIDE)


def _beside(words: Catalogue, *, left: float, edge: str) -> Iterator[Item]:
    to, top = left + 45.0, _WALL.top - 6
    over = Length(_OVER[words.display.system])
    yield _text(words.text(f"blank-sheet.lean-{edge}"), left, top)
    yield _text(words.text("blank-sheet.in-out"), left, top - _ROW)
    yield from _blank(words.text("blank-sheet.leans"), left, top - 2 * _ROW, to=to)
    yield _text(words.text("blank-sheet.over", over=over), left, top - 3 * _ROW)
    held = {"left": "gap-plumb", "right": "gap-level"}[edge]
    low = _DATUM - 8
    yield _text(words.text(f"blank-sheet.{held}"), left, low)
    yield _text(words.text("blank-sheet.hump-hollow"), left, low - _ROW)
    yield from _blank(words.text("blank-sheet.gap"), left, low - 2 * _ROW, to=to)
    yield from _blank(words.text("blank-sheet.place"), left, low - 3 * _ROW, to=to)


def _grid(
    words: Catalogue, first: str, others: tuple[str, ...], *, top: float, rows: int
) -> Iterator[Item]:
    wide = _WIDE / (len(others) + 1)
    for column, key in enumerate((first, *others)):
        yield _text(words.text(f"blank-sheet.{key}"), column * wide + 1, top)
    bottom = top - 4 - rows * _ROW
    for row in range(rows + 1):
        y = top - 4 - row * _ROW
        yield Line(layer="dimension", start=(0.0, y), end=(_WIDE, y))
    for column in range(1, len(others) + 1):
        x = column * wide
        yield Line(layer="dimension", start=(x, top - 4), end=(x, bottom))
