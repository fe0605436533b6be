"""Where the letters of a drawing truly stand: as its writer sets them, by the font's own widths.

Read from the SVG and from the font file, with nothing of the code that estimates and places.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from itertools import combinations
from struct import unpack_from
from xml.etree import ElementTree as ET

from gaugerod.core.sheet.drawing import Drawing
from gaugerod.writers.svg import svg

_TEXT = "{http://www.w3.org/2000/svg}text"
_WEIGHTS = {"700": "Inter-Bold.otf"}
_BELOW = {"gjpqy": 0.30, ",;": 0.245, "()[]": 0.218, "/": 0.151, "Q": 0.094}
"""How far letters reach under their line, in capitals: read off the two fonts' outlines. [1]"""
_FOOT, _HEAD = 0.023, 1.058
"""How far all others reach under it, and the highest over it, likewise. [1]"""
_SLASH = "\N{FRACTION SLASH}"
_OVER, _UNDER = 0xE0DC, 0xE0B4
"""Where the fonts keep the digits that stand before and after that slash, nought first.

Source: the lookups of their features ``frac``, which every shaper applies about such a slash.
"""
_FRACTION = 0.012, 1.008
"""How far those reach under the line and over it, in capitals of their own size, likewise. [1]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettered:
    """A text on the sheet and the box of its letters, y down as on the page. [mm]."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


@cache
def advances(font: str) -> tuple[dict[int, float], float]:
    """Return the width of each letter of a font, and the height of its capitals. [em]."""
    data = (files("gaugerod") / "data" / "paper" / "fonts" / font).read_bytes()
    (count,) = unpack_from(">H", data, 4)
    tables = {
        data[at : at + 4]: unpack_from(">L", data, at + 8)[0]
        for at in range(12, 12 + 16 * count, 16)
    }
    (em,) = unpack_from(">H", data, tables[b"head"] + 18)
    (capitals,) = unpack_from(">h", data, tables[b"OS/2"] + 88)
    (many,) = unpack_from(">H", data, tables[b"hhea"] + 34)
    widths = {
        letter: unpack_from(">H", data, tables[b"hmtx"] + 4 * min(glyph, many - 1))[0] / em
        for letter, glyph in _glyphs(data, tables[b"cmap"]).items()
    }
    return widths, capitals / em


def _glyphs(data: bytes, at: int) -> dict[int, int]:
    """Read the character map of format 12: runs of letters with the glyph of the first."""
    (count,) = unpack_from(">H", data, at + 2)
    for place in range(count):
        (offset,) = unpack_from(">L", data, at + 8 + 8 * place)
        if unpack_from(">H", data, at + offset) == (12,):
            (runs,) = unpack_from(">L", data, at + offset + 12)
            found = (unpack_from(">LLL", data, at + offset + 16 + 12 * i) for i in range(runs))
            return {
                letter: glyph + letter - first
                for first, last, glyph in found
                for letter in range(first, last + 1)
            }
    raise AssertionError


def letters(drawing: Drawing) -> list[Lettered]:
    """Return the texts of a drawing where its writer sets them. Kerning is left out."""
    root = ET.fromstring(svg(drawing))  # noqa: S314  # of our own making
    return [_lettered(node) for node in root.iter(_TEXT)]


def text_of(node: ET.Element) -> str:
    """Return what a text says, its fractions as they are typed."""
    return "".join(node.itertext()).replace(_SLASH, "/")


def _stretches(node: ET.Element) -> Iterator[tuple[str, float, float]]:
    """Yield what a text is set from: letters, their size, and how far under its line they are."""
    size, under = float(node.attrib["font-size"]), 0.0
    yield node.text or "", size, under
    for span in node:
        under += float(span.get("dy", "0"))
        yield span.text or "", float(span.get("font-size", size)), under
        assert span.get("font-weight") is None
        yield span.tail or "", size, under


def _shaped(said: str) -> str:
    """Return the letters that a shaper takes from the font: about its slash a fraction's own."""
    over, slash, under = said.partition(_SLASH)
    if not slash:
        return said
    raised, lowered = (
        [chr(first + int(digit)) for digit in digits]
        for first, digits in ((_OVER, over), (_UNDER, under))
    )
    return "".join((*raised, slash, *lowered))


def _reach(said: str) -> tuple[float, float]:
    """Return how far letters reach under their line and over it, in capitals. [1]."""
    if _SLASH in said:
        return _FRACTION
    return max((deep for kind, deep in _BELOW.items() if {*kind} & {*said}), default=_FOOT), _HEAD


def _lettered(node: ET.Element) -> Lettered:
    said = text_of(node)
    widths, capitals = advances(_WEIGHTS.get(node.get("font-weight", ""), "Inter-Regular.otf"))
    x, y = float(node.attrib["x"]), float(node.attrib["y"])
    wide, low, high = 0.0, 0.0, 0.0
    for letters_of, size, under in _stretches(node):
        if letters_of:
            wide += size * sum(widths[ord(letter)] for letter in _shaped(letters_of))
            below, above = _reach(letters_of)
            low = max(low, under + size * capitals * below)
            high = min(high, under - size * capitals * above)
    start = -wide * {"start": 0.0, "middle": 0.5, "end": 1.0}[node.attrib["text-anchor"]]
    if "transform" not in node.attrib:
        return Lettered(
            text=said, left=x + start, right=x + start + wide, top=y + high, bottom=y + low
        )
    turn, about_x, about_y = map(float, node.attrib["transform"][len("rotate(") : -1].split())
    assert turn == -90
    # A quarter turn anticlockwise about the middle of the capitals: along goes up the page.
    off = y - about_y
    return Lettered(
        text=said,
        left=about_x + off + high,
        right=about_x + off + low,
        top=about_y - start - wide,
        bottom=about_y - start,
    )


def faults(drawing: Drawing) -> list[str]:
    """Return what of the texts of a drawing is over another, or off the page."""
    found, (wide, high) = letters(drawing), (drawing.bounds.width, drawing.bounds.height)
    over = [
        f"{one} over {other}"
        for one, other in combinations(found, 2)
        if one.left < other.right and other.left < one.right
        if one.top < other.bottom and other.top < one.bottom
    ]
    off = [
        f"{one} off the page"
        for one in found
        if min(one.left, one.top) < 0 or one.right > wide or one.bottom > high
    ]
    return over + off
