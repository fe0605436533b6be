"""Paper as data: a title and blocks in order, that a writer can set on pages."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from gaugerod.core.sheet.drawing import Drawing

Size: TypeAlias = Literal["us-letter", "a4"]
TableSize: TypeAlias = Literal["small", "plain", "clear", "large", "open"]
Style: TypeAlias = Literal["plain", "strong", "small", "clear", "boxed"]

TICK = "☐"
"""A box to tick, in a table."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """The name of a part; level 1 is the larger."""

    text: str
    level: Literal[1, 2]


@dataclass(frozen=True, slots=True, kw_only=True)
class Paragraph:
    """Running text; ``clear`` is what one measures by, ``boxed`` what nobody may miss."""

    text: str
    style: Style


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table that repeats its header on each page.

    `widths` are shares of the line; `boxed` are the numbers of rows to be boxed, from 0; a
    ``clear`` table is measured by, a ``large`` one is read from where the work is, an ``open``
    one has room to write in.
    A table without a header is a list of facts, its first column the labels.
    """

    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    widths: tuple[float, ...]
    boxed: tuple[int, ...] = ()
    size: TableSize = "small"


@dataclass(frozen=True, slots=True, kw_only=True)
class Picture:
    """A drawing as large as the line and `height` allow. [mm]."""

    drawing: Drawing
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FullSize:
    """A drawing that fills a page, a millimetre of it a millimetre on paper."""

    drawing: Drawing


@dataclass(frozen=True, slots=True, kw_only=True)
class CardMark:
    """One measurement of a card, with the largest figures on the sheet.

    `down` is its label where the module lies face down: left and right are changed over.
    """

    label: str
    value: str
    down: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPoint:
    """A corner of a cut or the centre of a hole, by its distances from two edges.

    `down` is its name where the module lies face down.
    """

    name: str
    across: CardMark
    up: CardMark
    down: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CardPiece:
    """One piece that a card is for: its tag, its place, its stock, and what that leaves."""

    tag: str
    place: str
    source: str
    leaves: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """How to cut one piece, or several that are cut alike; `ticks` is a row for each.

    `orders_down` are the orders for a module that lies face down; `face_down` is the word
    before them and before such labels, nothing where its tool cuts it face up.
    """

    pieces: tuple[CardPiece, ...]
    orders: tuple[str, ...]
    warning: str
    marks: tuple[CardMark, ...]
    points: tuple[CardPoint, ...]
    notes: tuple[str, ...]
    ticks: tuple[str, ...]
    picture: Drawing
    orders_down: tuple[str, ...] = ()
    face_down: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cards:
    """Cut cards in the order of setting."""

    cards: tuple[Card, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Checklist:
    """A gate: what it comes before, and what must be true by then."""

    title: str
    items: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """Lines to fill in by hand: a label and how many lines it needs."""

    fields: tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Columns:
    """Blocks in two columns, down the left one first."""

    blocks: tuple["Block", ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """Cells of equal width in rows of so many; a cell is never broken over two sheets."""

    cells: tuple[tuple["Block", ...], ...]
    across: int


@dataclass(frozen=True, slots=True, kw_only=True)
class PageBreak:
    """What follows starts on a new page."""


Block: TypeAlias = (
    Heading
    | Paragraph
    | Table
    | Picture
    | FullSize
    | Cards
    | Checklist
    | Columns
    | Beside
    | Form
    | PageBreak
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A document without a format; `job` and `revision` stand on every page.

    `page` and `of` are the words of "page 1 of 9". A `full_size` paper must not be scaled by
    whatever prints it.
    """

    title: str
    job: str
    revision: str
    page: str
    of: str
    size: Size
    sections: tuple[Block, ...]
    full_size: bool = False
