"""Paper as PDF: set by typst with the fonts that come along, the same bytes each time."""

import json
import re
from collections.abc import Mapping
from dataclasses import asdict
from importlib.resources import as_file, files
from typing import Protocol, TypeAlias

import typst

from gaugerod.core.sheet.drawing import Drawing
from gaugerod.core.sheet.mixed_numbers import set_fractions
from gaugerod.packet.paper import Beside, Block, Card, Cards, Columns, FullSize, Paper, Picture

CARD_PICTURE = 42.0
"""Width of the picture on a cut card, as in the template. [mm]"""
LINE = 182.0
"""Width of the text on the narrower of the two sheets. [mm]"""

Data: TypeAlias = Mapping[str, object]


class Draw(Protocol):
    """A writer of drawings as SVG, for a width on paper. [mm]."""

    def __call__(self, drawing: Drawing, *, width_mm: float) -> str:
        """Return the drawing as SVG."""
        ...


def pdf(paper: Paper, *, draw: Draw, black: bool = False) -> bytes:
    """Set a paper as PDF.

    Parameters
    ----------
    paper
        The paper.
    draw
        What writes its drawings.
    black
        Whether to set it in black alone; its drawings are as `draw` makes them.

    Returns
    -------
    bytes
        The document: text as text, drawings as vectors, its own fonts, no date.
    """
    document = typeset(paper, draw=draw, black=black)[0]
    return unscaled(document) if paper.full_size else document


def typeset(paper: Paper, *, draw: Draw, black: bool = False) -> tuple[bytes, tuple[str, ...]]:
    """Set a paper as PDF and return what typst had to say about it, such as a missing font."""
    shelf = files("gaugerod") / "data" / "paper"
    with as_file(shelf / "fonts") as folder:
        fonts = typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(folder)]
        )
        document, warnings = typst.compile_with_warnings(
            (shelf / "packet.typ").read_bytes(),
            font_paths=fonts,
            ignore_system_fonts=True,
            format="pdf",
            sys_inputs={"paper": json.dumps({**_data(paper, draw), "black": black})},
            timestamp=0,
        )
    return bytes(document), tuple(warning.message for warning in warnings)


def unscaled(document: bytes) -> bytes:
    """Ask whatever shows a document to print it without scaling.

    Parameters
    ----------
    document
        A PDF with a plain table of cross references and its catalogue in the open, as typst
        writes it.

    Returns
    -------
    bytes
        The same with an incremental update: its catalogue anew, with ``/PrintScaling /None``
        among the viewer preferences. Source: ISO 32000-1, 7.5.6 and 12.2.
    """
    entries, former = _only(rb"trailer\n<<(.*?)>>\nstartxref\n(\d+)", document)
    (root,) = _only(rb"/Root (\d+) 0 R", entries)
    (catalogue,) = _only(rb"\n%b 0 obj\n(.*?)\nendobj" % root, document)
    asked = catalogue.replace(_PREFERENCES, _PREFERENCES + b"/PrintScaling/None")
    begun = document + (b"" if document.endswith(b"\n") else b"\n")
    body = root + b" 0 obj\n" + asked + b"\nendobj\n"
    table = b"xref\n%b 1\n%010d 00000 n\r\n" % (root, len(begun))
    tail = b"trailer\n<<%b/Prev %b>>\nstartxref\n%d\n%%%%EOF\n"
    return begun + body + table + tail % (entries, former, len(begun) + len(body))


_PREFERENCES = b"/ViewerPreferences<<"


def _only(pattern: bytes, text: bytes) -> tuple[bytes, ...]:
    """Return the groups of the one place where a pattern is found."""
    (found,) = re.finditer(pattern, text, re.DOTALL)
    return tuple(bytes(group) for group in found.groups())


def _data(paper: Paper, draw: Draw) -> Data:
    return {
        "title": paper.title,
        "job": paper.job,
        "revision": paper.revision,
        "page": paper.page,
        "of": paper.of,
        "size": paper.size,
        "blocks": [_set(_block(block, draw)) for block in paper.sections],
    }


def _set(said: object) -> object:
    """Let lengths be told from all else with a slash in it, in all that is set as text."""
    match said:
        case str():
            return set_fractions(said)
        case Mapping():
            return {key: one if key in _NOT_SET else _set(one) for key, one in said.items()}
        case list() | tuple():
            return [_set(one) for one in said]
        case _:
            return said


_NOT_SET = frozenset({"svg", "alt"})


def _block(block: Block, draw: Draw) -> Data:
    kind = type(block).__name__.lower()
    if isinstance(block, Picture):
        ratio = block.drawing.bounds.width / block.drawing.bounds.height
        svg = draw(block.drawing, width_mm=min(LINE, block.height * ratio))
        alt = block.drawing.title
        return {"kind": kind, "svg": svg, "alt": alt, "ratio": ratio, "height": block.height}
    if isinstance(block, FullSize):
        size = block.drawing.bounds
        svg = draw(block.drawing, width_mm=size.width)
        alt = block.drawing.title
        return {"kind": kind, "svg": svg, "alt": alt, "width": size.width, "height": size.height}
    if isinstance(block, Columns):
        return {"kind": kind, "blocks": [_block(inner, draw) for inner in block.blocks]}
    if isinstance(block, Beside):
        cells = [[_block(inner, draw) for inner in cell] for cell in block.cells]
        return {"kind": kind, "across": block.across, "cells": cells}
    if isinstance(block, Cards):
        return {"kind": kind, "cards": [_card(card, draw) for card in block.cards]}
    return {"kind": kind, **asdict(block)}


def _card(card: Card, draw: Draw) -> Data:
    return {
        "pieces": [asdict(piece) for piece in card.pieces],
        "orders": card.orders,
        "warning": card.warning,
        "marks": [asdict(mark) for mark in card.marks],
        "points": [asdict(point) for point in card.points],
        "notes": card.notes,
        "ticks": card.ticks,
        "down": card.face_down,
        # The first of them says only how it lies; what is the same either way is said once.
        "orders_down": [line for line in card.orders_down[1:] if line not in card.orders],
        "svg": draw(card.picture, width_mm=CARD_PICTURE),
        "alt": card.picture.title,
    }
