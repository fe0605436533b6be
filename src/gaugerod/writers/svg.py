"""Drawings as SVG: plain paper, chalk-line blue levels, graphite, ochre for what is cut."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from gaugerod.core.base.geometry import Box, Point, Ring
from gaugerod.core.sheet.drawing import Area, Circle, Dimension, Drawing, Item, Layer, Line, Text
from gaugerod.core.sheet.mixed_numbers import LARGER, LOWER, runs

CHALK, GRAPHITE, OCHRE, PAPER = "#1d5fa0", "#2e2e2e", "#9a6206", "#ffffff"
SLATE = "#33506b"
BLACK = "#000000"
FAMILY = "Inter, system-ui, sans-serif"
CAPITALS = 0.727
"""Height of the family's capitals in its type size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Pen:
    """How a layer is drawn: widths, dashes, angles of a hatch and how thick it is, dots. [mm]."""

    stroke: str = GRAPHITE
    width: float = 0.25
    dash: tuple[float, ...] = ()
    fill: str = "none"
    hatch: tuple[float, ...] = ()
    hatched: float = 0.25
    dots: bool = False
    bold: bool = False
    ink: str = GRAPHITE

    @property
    def filled(self) -> bool:
        return self.dots or bool(self.hatch)


# Nothing rests on colour alone: cut pieces are hatched, waste is cross-hatched, the datum is
# dash-dotted and heavy, a kept edge is the heaviest line of all, another product is dotted.
_PENS: dict[Layer, _Pen] = {
    "outline": _Pen(width=0.5),
    "piece": _Pen(width=0.25),
    "cut": _Pen(width=0.25, fill=OCHRE, hatch=(45,)),
    "waste": _Pen(width=0.2, dash=(1.2, 0.8), fill=GRAPHITE, hatch=(45, 135), hatched=0.1),
    "keep": _Pen(width=0.9),
    "opening": _Pen(width=0.35, ink=CHALK),
    "fixture": _Pen(width=0.3, dash=(1.6, 0.8)),
    "hole": _Pen(width=0.35),
    "trim": _Pen(width=0.7),
    "datum": _Pen(stroke=CHALK, width=0.6, dash=(4, 1, 0.8, 1), bold=True),
    "course": _Pen(stroke=CHALK, width=0.2),
    "dimension": _Pen(width=0.2),
    "tag": _Pen(width=0.5, bold=True),
    "bare": _Pen(width=0.15, ink=GRAPHITE),
    "joint": _Pen(width=0.1, ink=SLATE),
    "lining": _Pen(width=0.12, ink=SLATE),
    "profile": _Pen(width=0.15, ink=GRAPHITE),
    "plate": _Pen(width=0.2, ink=GRAPHITE),
    "body": _Pen(width=0.2, ink=GRAPHITE),
    "curve": _Pen(stroke="none", width=0),
    "beyond": _Pen(width=0.2, dash=(1.6, 0.8)),
    "saw": _Pen(stroke=CHALK, width=0.5, bold=True),
    "accent": _Pen(stroke="none", width=0, fill=GRAPHITE, dots=True),
}
_HATCH = 1.8  # mm on paper from line to line
_DOT = 0.4  # mm on paper, the side of a dot
_TICK = 1.0  # mm on paper, half of a dimension's end stroke


def svg(drawing: Drawing, *, width_mm: float = 180, black: bool = False, edged: bool = True) -> str:
    """Write a drawing as SVG that stands on its own or inside a page.

    Parameters
    ----------
    drawing
        The drawing.
    width_mm
        Width on paper, > 0. [mm]
    black
        Whether to draw in black alone, for a printer or a copier without colours.
    edged
        Whether letters have a white edge, which keeps them legible on hatch and lines. Without
        it they stay letters in a PDF, which is far smaller.

    Returns
    -------
    str
        One ``svg`` element. Its user unit is a millimetre of the drawn thing; each layer is a
        group with the layer as its class. Styles are attributes, so a page's own may beat
        them and two drawings in one page can't touch each other.
    """
    scale = drawing.bounds.width / width_mm
    view = _View(bounds=drawing.bounds, scale=scale, name=drawing.name, black=black, edged=edged)
    height_mm = drawing.bounds.height / scale
    groups = (
        _group(layer, list(items), view)
        for layer, items in groupby(drawing.items, key=lambda item: item.layer)
    )
    root = (
        '<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="img"'
        f' width="{_n(width_mm)}mm" height="{_n(height_mm)}mm"'
        f' viewBox="0 0 {_n(drawing.bounds.width)} {_n(drawing.bounds.height)}"'
        f" font-family={quoteattr(FAMILY)}>"
    )
    title = f"<title>{escape(drawing.title)}</title>"
    return "\n".join([root, title, f"<defs>{''.join(_patterns(view))}</defs>", *groups, "</svg>"])


@dataclass(frozen=True, slots=True, kw_only=True)
class _View:
    """From the drawing's frame, y up, to SVG's, y down; `scale` is drawn mm per paper mm."""

    bounds: Box
    scale: float
    name: str
    black: bool
    edged: bool

    def pen(self, layer: Layer) -> _Pen:
        pen = _PENS[layer]
        if not self.black:
            return pen
        return replace(pen, stroke=BLACK, fill=BLACK if pen.filled else "none", ink=BLACK)

    def at(self, point: Point) -> Point:
        return point[0] - self.bounds.left, self.bounds.top - point[1]


def _n(value: float) -> str:
    """Write a number to a hundredth, without a tail of noughts."""
    return f"{round(value, 2) or 0.0:.2f}".rstrip("0").rstrip(".")


def shade(ink: str, tone: float) -> str:
    """Return an ink thinned on white paper; a tone of one is the ink itself."""
    channels = (int(ink[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(255 + (channel - 255) * tone):02x}" for channel in channels)


def _patterns(view: _View) -> Iterator[str]:
    step = _HATCH * view.scale
    for layer in _PENS:
        pen = view.pen(layer)
        if not pen.filled:
            continue
        if pen.dots:
            dot, middle = _n(_DOT * view.scale), _n(step / 2)
            yield (
                f'<pattern id={quoteattr(f"{view.name}-{layer}")} patternUnits="userSpaceOnUse"'
                f' width="{_n(step)}" height="{_n(step)}"><rect x="{middle}" y="{middle}"'
                f' width="{dot}" height="{dot}" stroke="none" fill="{pen.fill}"/></pattern>'
            )
            continue
        lines = f"M0 0H{_n(step)}" + (f"M0 0V{_n(step)}" if len(pen.hatch) > 1 else "")
        yield (
            f'<pattern id={quoteattr(f"{view.name}-{layer}")} patternUnits="userSpaceOnUse"'
            f' width="{_n(step)}" height="{_n(step)}" patternTransform="rotate(-{pen.hatch[0]})">'
            f'<path d="{lines}" stroke="{pen.fill}" stroke-width="{_n(pen.hatched * view.scale)}"/>'
            "</pattern>"
        )


def _group(layer: Layer, items: list[Item], view: _View) -> str:
    pen = view.pen(layer)
    dash = " ".join(_n(length * view.scale) for length in pen.dash)
    dashes = f' stroke-dasharray="{dash}"' if dash else ""
    fill = f"url(#{view.name}-{layer})" if pen.filled else pen.fill
    shapes = "\n".join(part for item in items for part in _shapes(item, pen, view))
    return (
        f'<g class="{layer}" stroke="{pen.stroke}" stroke-width="{_n(pen.width * view.scale)}"'
        f' fill={quoteattr(fill)} stroke-linejoin="round"{dashes}>\n{shapes}\n</g>'
    )


def _shapes(item: Item, pen: _Pen, view: _View) -> Iterator[str]:
    match item:
        case Line(start=start, end=end):
            yield _line(start, end, view)
        case Area(region=region):
            path = " ".join(_ring(ring, view) for ring in region.rings)
            tone = "" if item.tone is None else f' fill="{shade(pen.ink, item.tone)}"'
            yield f'<path fill-rule="evenodd"{tone} d="{path}"/>'
        case Circle(centre=centre, diameter=diameter):
            x, y = view.at(centre)
            yield f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(diameter / 2)}"/>'
        case Text():
            yield _text(item, pen, view)
        case _:
            yield from _dimension(item, pen, view)


def _line(start: Point, end: Point, view: _View) -> str:
    (x1, y1), (x2, y2) = view.at(start), view.at(end)
    return f'<line x1="{_n(x1)}" y1="{_n(y1)}" x2="{_n(x2)}" y2="{_n(y2)}"/>'


def _ring(ring: Ring, view: _View) -> str:
    points = (view.at(point) for point in ring)
    return "M" + "L".join(f"{_n(x)} {_n(y)}" for x, y in points) + "Z"


def _text(item: Text, pen: _Pen, view: _View) -> str:
    x, y = view.at(item.at)
    turn = f' transform="rotate(-{item.turn} {_n(x)} {_n(y)})"' if item.turn else ""
    weight = ' font-weight="700"' if pen.bold else ""
    stroke = (
        f'stroke="{PAPER}" stroke-width="{_n(item.height / 3)}" stroke-dasharray="none"'
        ' paint-order="stroke"'
        if view.edged
        else 'stroke="none"'
    )
    return (
        f'<text x="{_n(x)}" y="{_n(y + item.height / 2)}" text-anchor="{item.anchor}"'
        f' font-size="{_n(item.height / CAPITALS)}"{weight} fill="{pen.stroke}"'
        f" {stroke}{turn}>{''.join(_runs(item))}</text>"
    )


def _runs(item: Text) -> Iterator[str]:
    """Write a text with its fractions larger and lower, each run moved on from the last.

    A fraction is one run with the slash of fractions, so that whoever shapes it takes the
    font's own numerators and denominators.
    """
    under, stood = _n(LOWER * item.height), "0"
    for run in runs(item.text):
        level = under if run.fraction else "0"
        look = f' font-size="{_n(LARGER * item.height / CAPITALS)}"' if run.fraction else ""
        if level != stood:
            look = f' dy="{"" if run.fraction else "-"}{under}"{look}'
        stood = level
        yield f"<tspan{look}>{escape(run.text)}</tspan>" if look else escape(run.text)


def _dimension(item: Dimension, pen: _Pen, view: _View) -> Iterator[str]:
    start, end = item.line
    tick = _TICK * view.scale
    yield _line(item.start, start, view)
    yield _line(item.end, end, view)
    yield _line(start, end, view)
    for x, y in (start, end):
        yield _line((x - tick, y - tick), (x + tick, y + tick), view)
    yield _text(item.label, pen, view)
