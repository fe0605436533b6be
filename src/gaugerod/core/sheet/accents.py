"""Several products on one drawing: dots and a letter tell them apart, in black and white too."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from gaugerod.core.base.geometry import Box, Point
from gaugerod.core.cutting.pieces import Piece, Stock
from gaugerod.core.job.products import Products
from gaugerod.core.sheet.drawing import Area, Item, Text
from gaugerod.core.sheet.lettering import region_of, text_width

_WIDE, _HIGH = 3.0, 1.8  # a swatch, in capitals
_CLEAR = 0.7  # from the swatch to the name, likewise
_APART = 2.0  # from one entry of a legend to the next, likewise


@dataclass(frozen=True, slots=True, kw_only=True)
class Sign:
    """How a product is told on drawings and cards: its name, and a letter if not the main one."""

    letter: str
    name: str


Signs: TypeAlias = Mapping[str, Sign]
"""By the id of a product; the main one first. Empty where there is one product only."""


def signs_of(products: Products, walls: Sequence[str]) -> Signs:
    """Return the sign of every product of a job.

    Parameters
    ----------
    products
        The products.
    walls
        Names of the walls: no letter is one of them.

    Returns
    -------
    mapping of str to Sign
        Nothing where there is one product only.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> signs_of(Products(main=sample_system()), ("L", "B", "R"))
    {}
    """
    letters = products.letters(tuple(walls))
    if not letters:
        return {}
    return {one.id: Sign(letter=letters.get(one.id, ""), name=one.name) for one in products.systems}


def signed(stock: Stock, signs: Signs) -> str:
    """Return the name of a module or an offcut, with the letter of its product.

    Parameters
    ----------
    stock
        The module or offcut.
    signs
        The signs of the products.

    Returns
    -------
    str
        Its id alone where it is of the main product.

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> stock = Stock(id="M-1", source="module", product="slate", size=(600.0, 300.0), keeps=(),
    ...     lot="", pieces=(), offcuts=())
    >>> signed(stock, {"slate": Sign(letter="X", name="Slate")}), signed(stock, {})
    ('M-1 X', 'M-1')
    """
    letter = signs[stock.product].letter if signs else ""
    return f"{stock.id} {letter}" if letter else stock.id


def dotted(pieces: Sequence[Piece], main: str) -> Iterator[Area]:
    """Yield the pieces that are not of the main product.

    Parameters
    ----------
    pieces
        Pieces of one wall. [mm]
    main
        Id of the main product.

    Yields
    ------
    Area
        Each on the layer ``accent``. [mm]

    Notes
    -----
    Source: none needed.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> list(dotted(sample_pieces(), "sample"))
    []
    """
    for piece in pieces:
        if piece.product != main:
            yield Area(layer="accent", region=piece.region)


def legend(
    pieces: Sequence[Piece], signs: Signs, main: str, *, around: Box, height: float
) -> Iterator[Item]:
    """Yield what tells the products of a wall apart, over its drawing from the left.

    Parameters
    ----------
    pieces
        Pieces of one wall. [mm]
    signs
        The signs of the products.
    main
        Id of the main product.
    around
        The box that the legend stands on. [mm]
    height
        Height of capitals, > 0. [mm]

    Yields
    ------
    Item
        A swatch with its letter, and the name beside it, for each product on the wall; nothing
        where that is the main one alone. [mm]

    Notes
    -----
    An entry that would run beyond the right of the box begins a row below the last. Source: own
    design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_pieces
    >>> box = Box(left=0.0, bottom=0.0, right=100.0, top=50.0)
    >>> list(legend(sample_pieces(), {}, "sample", around=box, height=10.0))
    []
    """
    there = {piece.product for piece in pieces}
    if there <= {main}:
        return
    shown = [(product, sign) for product, sign in signs.items() if product in there]
    rows: list[list[tuple[str, Sign]]] = [[]]
    left = 0.0
    for product, sign in shown:
        if rows[-1] and left + _width(sign, height) > around.width:
            rows.append([])
            left = 0.0
        rows[-1].append((product, sign))
        left += _width(sign, height) + _APART * height
    for up, row in enumerate(reversed(rows)):
        left = around.left
        for product, sign in row:
            at = (left, around.top + height + up * 1.5 * _HIGH * height)
            yield from _entry(sign, at, height, dots=product != main)
            left += _width(sign, height) + _APART * height


def _width(sign: Sign, height: float) -> float:
    return (_WIDE + _CLEAR) * height + text_width(sign.name, height=height)


def _entry(sign: Sign, at: Point, height: float, *, dots: bool) -> Iterator[Item]:
    left, foot = at
    box = Box(left=left, bottom=foot, right=left + _WIDE * height, top=foot + _HIGH * height)
    middle = (box.bottom + box.top) / 2
    if dots:
        yield Area(layer="accent", region=region_of(box))
    yield Area(layer="piece", region=region_of(box))
    if sign.letter:
        yield Text(
            layer="tag",
            at=((box.left + box.right) / 2, middle),
            text=sign.letter,
            height=height,
            anchor="middle",
            turn=0,
        )
    yield Text(
        layer="dimension",
        at=(box.right + _CLEAR * height, middle),
        text=sign.name,
        height=height,
        anchor="start",
        turn=0,
    )
