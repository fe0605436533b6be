"""What every full-size page has: the square to check its size by, and words set in lines."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.base.messages import Length
from gaugerod.core.sheet.drawing import Item, Layer, Line, Text
from gaugerod.core.sheet.lettering import text_width

SIDE = {"imperial": 101.6, "metric": 100.0}
"""Side of the check square: 4 in, or 100 mm. [mm]"""
PLAIN = 2.6
"""Capitals of running words: a little over 10 points. [mm]"""
LARGE = 3.7
"""Capitals of figures: 14 points. [mm]"""
BIG = 4.6
"""Capitals of what nobody may miss: 18 points. [mm]"""
HUGE = 7.0
"""Capitals of what a page is told from others by. [mm]"""
GAP = 3.0
"""Room between the parts of a page. [mm]"""

EDGE = 1.0
"""Room round a page for the half of a line that lies outside it. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Said:
    """A text to set in lines, with the height of its capitals. [mm]."""

    text: str
    height: float = PLAIN
    bold: bool = False


def set_lines(
    parts: tuple[Said, ...], *, left: float, top: float, width: float
) -> tuple[Text, ...]:
    """Set texts below each other, broken between words where a line is full.

    Parameters
    ----------
    parts
        The texts; an empty one takes no line.
    left
        Where lines begin. [mm]
    top
        Top of the capitals of the first line. [mm]
    width
        Room for a line, > 0. [mm]

    Returns
    -------
    tuple of Text
        The lines. A word that is too long for a line is cut off with an ellipsis. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> lines = set_lines((Said(text="one two three"),), left=0.0, top=50.0, width=20.0)
    >>> [(line.text, round(line.at[1], 2)) for line in lines]
    [('one two', 48.7), ('three', 44.15)]
    """
    return tuple(_lines(parts, left, top, width))


def _lines(parts: tuple[Said, ...], left: float, top: float, width: float) -> Iterator[Text]:
    for part in parts:
        layer: Layer = "tag" if part.bold else "dimension"
        for line in _broken(part, width):
            yield Text(
                layer=layer,
                at=(left, top - part.height / 2),
                text=line,
                height=part.height,
                anchor="start",
                turn=0,
            )
            top -= 1.75 * part.height
        top -= part.height / 2


# A mixed number never breaks between its whole and its fraction, nor a length before its unit.
_WORDS = re.compile(r"\d+ (?:\d+/\d+|mm)\S*|\S+")


def _broken(part: Said, width: float) -> Iterator[str]:
    line = ""
    for word in _WORDS.findall(part.text):
        longer = f"{line} {word}".strip()
        if line and text_width(longer, height=part.height) > width:
            yield line
            longer = word
        line = shortened(longer, height=part.height, width=width)
    if line:
        yield line


def shortened(text: str, *, height: float, width: float) -> str:
    """Return a text, its end replaced by an ellipsis where there is no room for it.

    Parameters
    ----------
    text
        One line of text.
    height
        Height of its capitals, > 0. [mm]
    width
        The room. [mm]

    Returns
    -------
    str
        What fits, the ellipsis reckoned in.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> shortened("shower arm", height=2.0, width=15.0)
    'shower…'
    """
    if text_width(text, height=height) <= width:
        return text
    while text and text_width(f"{text}…", height=height) > width:
        text = text[:-1]
    return f"{text.rstrip()}…"


def fitted(texts: tuple[Text, ...], *, bottom: float) -> tuple[Text, ...]:
    """Return the lines that stand above a height; an ellipsis ends them where some do not.

    Parameters
    ----------
    texts
        Lines as set by `set_lines`. [mm]
    bottom
        The height. [mm]

    Returns
    -------
    tuple of Text
        The lines that fit. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> lines = set_lines((Said(text="one two three"),), left=0.0, top=50.0, width=9.0)
    >>> [line.text for line in fitted(lines, bottom=42.0)]
    ['one', '…']
    """
    kept = tuple(text for text in texts if text.at[1] - text.height / 2 >= bottom)
    if kept and len(kept) < len(texts):
        return (*kept[:-1], replace(kept[-1], text="…"))
    return kept


def check_square(
    words: Catalogue, *, left: float, bottom: float, more: tuple[Said, ...] = ()
) -> tuple[Item, ...]:
    """Draw the square that tells whether a page was printed at full size.

    Parameters
    ----------
    words
        Sentences, and how lengths are shown.
    left, bottom
        Its lower left corner on the page. [mm]
    more
        What else is said inside it.

    Returns
    -------
    tuple of Item
        Four lines on the layer ``hole``, and inside them how to check. [mm]

    Notes
    -----
    Source: own design; 4 in = 101.6 mm.

    Examples
    --------
    >>> from collections import defaultdict
    >>> from gaugerod.core.base.lengths import IMPERIAL
    >>> words = Catalogue(display=IMPERIAL, sentences=defaultdict(lambda: "check"))
    >>> items = check_square(words, left=0.0, bottom=0.0)
    >>> items[0].start, items[0].end
    ((0.0, 0.0), (101.6, 0.0))
    """
    side = SIDE[words.display.system]
    box = Box(left=left, bottom=bottom, right=left + side, top=bottom + side)
    shown = Length(side)
    parts = (
        Said(text=words.text("full-size.square", side=shown), height=BIG, bold=True),
        Said(text=words.text("full-size.check", side=shown), height=LARGE, bold=True),
        Said(text=words.text("full-size.again")),
        *more,
    )
    inset = 2 * GAP
    return (
        *frame(box, layer="hole"),
        *set_lines(parts, left=left + inset, top=box.top - inset, width=side - 2 * inset),
    )


def on_page(page: Point) -> Box:
    """Return the bounds of a drawing that fills a page, with room for half of its lines.

    Parameters
    ----------
    page
        Width and height of what is drawn. [mm]

    Returns
    -------
    Box
        A millimetre more on each side. [mm]

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> on_page((180.0, 245.0))
    Box(left=-1.0, bottom=-1.0, right=181.0, top=246.0)
    """
    return Box(left=-EDGE, bottom=-EDGE, right=page[0] + EDGE, top=page[1] + EDGE)


def frame(box: Box, *, layer: Layer) -> tuple[Line, ...]:
    """Return the four sides of a box as lines, from the lower left round.

    Parameters
    ----------
    box
        The box. [mm]
    layer
        Their layer.

    Returns
    -------
    tuple of Line
        Bottom, right, top, left. [mm]

    Notes
    -----
    Source: none needed; a change of representation.

    Examples
    --------
    >>> [line.end for line in frame(Box(left=0, bottom=0, right=2, top=1), layer="piece")]
    [(2, 0), (2, 1), (0, 1), (0, 0)]
    """
    around = (
        (box.left, box.bottom),
        (box.right, box.bottom),
        (box.right, box.top),
        (box.left, box.top),
    )
    return tuple(
        Line(layer=layer, start=start, end=end)
        for start, end in zip(around, (*around[1:], around[0]), strict=True)
    )
