"""Drawings as DXF: one to one in model space, in the reader's unit, a layer for each layer."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import StringIO
from math import atan2, degrees

from ezdxf._options import options
from ezdxf.document import Drawing as Document
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new
from ezdxf.layouts.layout import Modelspace

from gaugerod.core.base.geometry import Point
from gaugerod.core.base.lengths import Display, System
from gaugerod.core.sheet.drawing import (
    Anchor,
    Area,
    Circle,
    Dimension,
    Drawing,
    Item,
    Layer,
    Line,
    Text,
)
from gaugerod.core.sheet.lettering import text_box
from gaugerod.core.sheet.mixed_numbers import set_fractions

TEXTS = "TEXT"
"""The layer of all texts but those of dimensions."""

_INCH, _MM = 1, 4  # as $INSUNITS counts units
_UNITS: dict[System, int] = {"imperial": _INCH, "metric": _MM}
_MM_IN: dict[System, float] = {"imperial": 25.4, "metric": 1.0}
_DECIMALS, _FRACTIONS = 2, 5  # as DIMLUNIT counts kinds of figures
_DASH: dict[System, float] = {"imperial": 2.0, "metric": 50.0}  # one dash, in the unit
_BLACK, _RED, _GREEN, _CYAN, _BLUE, _PURPLE, _GREY, _OCHRE = 7, 1, 3, 4, 5, 6, 8, 42
_COLOURS: dict[Layer, int] = {
    "piece": _GREY,
    "cut": _OCHRE,
    "waste": _GREY,
    "opening": _CYAN,
    "fixture": _PURPLE,
    "hole": _RED,
    "trim": _GREEN,
    "datum": _BLUE,
    "course": _BLUE,
}
_LINETYPES: dict[Layer, str] = {"datum": "CENTER", "fixture": "DASHED"}
_STYLE = "SHEET"
_CONDENSED, _SHARE = "CONDENSED", 0.75  # of the width of their kind, as the format counts it
_ANCHORS: dict[Anchor, TextEntityAlignment] = {
    "start": TextEntityAlignment.MIDDLE_LEFT,
    "middle": TextEntityAlignment.MIDDLE_CENTER,
    "end": TextEntityAlignment.MIDDLE_RIGHT,
}


def dxf(drawing: Drawing, display: Display) -> bytes:
    """Write a drawing as DXF.

    Parameters
    ----------
    drawing
        The drawing.
    display
        Whose unit one unit of model space is: an inch or a millimetre.

    Returns
    -------
    bytes
        A file of the year 2010's format. Lines, outlines and circles lie on the layer of their
        item, in capitals; texts on one of their own. Dimensions measure what they span, and
        show the drawing's own figure, so that a chain still sums to its whole.
    """
    with _undated():
        document = new("R2010", setup=["linetypes"], units=_UNITS[display.system])
        _prepare(document, drawing, display)
        model = _Model(space=document.modelspace(), scale=1 / _MM_IN[display.system])
        for item in drawing.items:
            model.draw(item)
        written = StringIO()
        document.write(written)
        return document.encode(written.getvalue())


@contextmanager
def _undated() -> Iterator[None]:
    """Leave clock and chance out of what is written: the same drawing gives the same bytes."""
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before


def _prepare(document: Document, drawing: Drawing, display: Display) -> None:
    """Make the layers, and a style of dimensions that reads as the drawing does."""
    imperial = display.system == "imperial"
    document.header["$MEASUREMENT"] = 0 if imperial else 1
    document.header["$LTSCALE"] = _DASH[display.system]
    document.header.custom_vars.append("Title", drawing.title)
    for layer in dict.fromkeys(item.layer for item in drawing.items):
        colour, linetype = _COLOURS.get(layer, _BLACK), _LINETYPES.get(layer, "Continuous")
        document.layers.add(layer.upper(), color=colour, linetype=linetype)
    document.layers.add(TEXTS, color=_BLACK)
    document.styles.add(_CONDENSED, font="txt", dxfattribs={"width": _SHARE})
    halvings = display.step.denominator.bit_length() - 1
    document.dimstyles.new(
        _STYLE,
        dxfattribs={
            "dimlunit": _FRACTIONS if imperial else _DECIMALS,
            "dimdec": halvings if imperial else int(display.step.denominator > 1),
            "dimpost": '<>"' if imperial else "<>",
            "dimdsep": ord("."),
            "dimtad": 0,  # the drawing has placed every text
            "dimscale": 1.0,
        },
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Model:
    """Model space, and how many of its units a millimetre is."""

    space: Modelspace
    scale: float

    def at(self, point: Point) -> Point:
        return point[0] * self.scale, point[1] * self.scale

    def draw(self, item: Item) -> None:
        on = {"layer": item.layer.upper()}
        match item:
            case Line(start=start, end=end):
                self.space.add_line(self.at(start), self.at(end), dxfattribs=on)
            case Area(region=region):
                for ring in region.rings:
                    self.space.add_lwpolyline(map(self.at, ring), close=True, dxfattribs=on)
            case Circle(centre=centre, diameter=diameter):
                self.space.add_circle(self.at(centre), diameter / 2 * self.scale, dxfattribs=on)
            case Text():
                self.write(item)
            case _:
                self.dimension(item)

    def write(self, text: Text) -> None:
        written = self.space.add_text(
            text.text,
            height=text.height * self.scale,
            rotation=text.turn,
            dxfattribs={"layer": TEXTS, **(_NARROWED if _narrow(text) else {})},
        )
        written.set_placement(self.at(text.at), align=_ANCHORS[text.anchor])

    def dimension(self, item: Dimension) -> None:
        (x0, y0), (x1, y1) = item.line
        box, height = text_box(item.label), item.label.height * self.scale
        self.space.add_linear_dim(
            base=self.at((x0, y0)),
            p1=self.at(item.start),
            p2=self.at(item.end),
            location=self.at(((box.left + box.right) / 2, (box.bottom + box.top) / 2)),
            text=item.label.text,
            angle=degrees(atan2(y1 - y0, x1 - x0)),
            text_rotation=item.label.turn,
            dimstyle=_STYLE,
            override={
                "dimtxt": height,
                "dimtsz": height / 2,
                "dimexo": 0.0,
                "dimexe": height / 2,
                **({"dimtxsty": _CONDENSED} if _narrow(item.label) else {}),
            },
            dxfattribs={"layer": item.layer.upper()},
        ).render()


_NARROWED: dict[str, str | float] = {"style": _CONDENSED, "width": _SHARE}


def _narrow(text: Text) -> bool:
    """Tell whether a text has a fraction: written out it is longer than the room it was given."""
    return set_fractions(text.text) != text.text
