"""What a crew reads off its paper: cards and module cuts, from the text of the PDF alone.

The words are those of the sentences that the program prints with; figures and sides are read
where such a sentence has room for them. Nothing is taken from the data that made the paper.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pypdfium2 as pdfium

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.geometry import Box
from gaugerod.core.sheet.drawing import Drawing
from gaugerod.packet.paper import Card, CardMark, CardPoint

_SIDE = "(?:LEFT|RIGHT|BOTTOM|TOP)"
_SIDES = rf"{_SIDE}(?:\+{_SIDE})*"
_FIGURES = {"imperial": r'(?:\d+ \d+/\d+|\d+/\d+|\d+)"', "metric": r"\d+(?:\.\d+)?"}
_NAME = rf"(?:(?!{_SIDE})[^,])+?"
"""What holes are called: never by a side, which a row of the card has figures from."""
_BLANK = "________"
_NO_PICTURE = Drawing(
    name="", title="", bounds=Box(left=0.0, bottom=0.0, right=1.0, top=1.0), items=()
)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedCard:
    """One card as it is read; `down` tells whether it is given face down too.

    `pieces` are its tags, each with the module that is parted for it and is then turned half
    round, or is not: nothing where the piece is marked on a whole one.
    """

    pieces: tuple[tuple[str, str, str], ...]
    card: Card
    down: bool
    in_place: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedCut:
    """One cut through a part of a module: from which of the module's edges, and how far."""

    start: str
    at: str


def text_of(document: bytes) -> str:
    """Return the text of a paper in its order, without the head and the foot of each page.

    A fraction is typed with the slash of a keyboard, whatever slash it is set with; the space
    between a whole and its fraction is read, never put in.
    """
    pages = [page.get_textpage().get_text_bounded() for page in pdfium.PdfDocument(document)]
    lines = [line for page in pages for line in page.splitlines()[1:-1]]
    return " ".join(" ".join(lines).split()).replace("\N{FRACTION SLASH}", "/")


class Reader:
    """Someone who knows the words of the papers and the units they are in."""

    def __init__(self, words: Catalogue) -> None:
        self.words = words
        self.figure = _FIGURES[words.display.system]
        offset = rf"((?:{self._said('beyond', side='')}\s?)?{_SIDE}) ({self.figure}|{_BLANK})"
        # Cells of a row that stand close together are read without a space between them.
        self.pair = f"{offset} ?{offset}"

    def _said(self, key: str, **slots: str) -> str:
        """Return a sentence as a pattern, with a group for each slot."""
        text = re.escape(self.words.sentences[f"card.{key}"])
        for name, pattern in slots.items():
            text = text.replace(re.escape(f"{{{name}}}"), pattern)
        return " ".join(text.replace(r"\ ", " ").split())

    def cards(self, text: str) -> list[PrintedCard]:
        """Read every card of a paper, in the order of the sheets."""
        text = text.partition(f" {self._plain('modules')} {self._plain('modules-how')[:20]}")[0]
        # Beside its tag a card says how the piece lies.
        starts = list(re.finditer(rf"(\S+-\S+(?: …)?) (?={self._said('face-up')})", text))
        ends = [*(found.start() for found in starts[1:]), len(text)]
        return [
            self._card(found[1], text[found.end() : end])
            for found, end in zip(starts, ends, strict=True)
        ]

    def _sources(self, stock: str = "(?:") -> tuple[str, str, str]:
        """Return how stock is named: whole, parted and turned, parted; with a group or none."""
        kinds = (
            self._said(f"from-{kind}", stock=rf"{group}[^\s:,]+)")
            for kind, group in (
                ("module", "(?:"),
                ("offcut", "(?:"),
                ("turned", stock),
                ("parted", stock),
            )
        )
        module, offcut, turned, parted = kinds
        return f"{module}|{offcut}", turned, parted

    def _plain(self, key: str) -> str:
        return self.words.sentences[f"card.{key}"]

    def _card(self, head: str, body: str) -> PrintedCard:
        up, down = self._orders(body)
        marks, after = self._marks(body)
        whole, turned, parted = self._sources(stock="(")
        parts = f"(?:{turned}|{parted})"
        found = re.search(parts, body)
        pieces = [(head, found[1] or "", found[2] or "") if found else (head, "", "")]
        if head.endswith("…"):
            # A shared card has a row for each of its pieces at its end.
            pieces = re.findall(rf"(\S+-\S+) (?:{whole}|{parts})", body)
        points = tuple(self._points(body, after))
        face_down = self._plain("down")
        return PrintedCard(
            pieces=tuple(pieces),
            card=Card(
                pieces=(),
                orders=(self._plain("face-up"), *up),
                orders_down=(self._plain("face-upside"), *down),
                warning="",
                marks=marks,
                points=points,
                notes=(),
                ticks=(),
                picture=_NO_PICTURE,
            ),
            down=f"{face_down} " in body,
            in_place=self._plain("in-place") in body,
        )

    def _orders(self, body: str) -> tuple[list[str], list[str]]:
        """Return the orders face up, and face down: what is not said again holds either way."""
        keep = self._kept()
        wasted = self._said("waste", keep=f"(?:{'|'.join(keep)})", sides=_SIDES)
        kinds = (
            f"(?:{wasted}|{'|'.join(keep)})",
            self._said("cut-first", sides=_SIDES),
            self._said("tongue-off", sides=_SIDES),
        )
        up, down = [], []
        for kind in kinds:
            said = re.findall(f"({self._plain('down')} )?({kind})", body)
            plain = [order for before, order in said if not before]
            turned = [order for before, order in said if before]
            assert len(plain) <= 1
            up += plain
            down += turned or plain
        return up, down

    def _kept(self) -> list[str]:
        none = [self._said(key) for key in ("keep-none", "inside-any")]
        return [self._said("keep", sides=_SIDES), *none]

    def _marks(self, body: str) -> tuple[tuple[CardMark, ...], int]:
        """Return the straight cuts, and where their figures end."""
        ends = [self._plain(f"at-{side}") for side in ("bottom", "top", "left", "right")]
        end = f"(?:{'|'.join(ends)})"
        label, down = (
            "(?:{}|{}|{})".format(
                self._said(f"{head}-square", start=_SIDE),
                self._said(f"{head}-taper", start=_SIDE, end=end),
                self._said(f"{head}-beyond", start=_SIDE, end=end),
            )
            for head in ("from", "down")
        )
        mark = re.compile(
            f"({label}) ({self.figure}|{_BLANK})(?: {self._plain('bigger')})?"
            f"(?: {self._plain('down')} ({down}))?"
        )
        found = list(mark.finditer(body))
        return (
            tuple(CardMark(label=m[1], value=m[2], down=m[3] or m[1]) for m in found),
            found[-1].end() if found else self._after_orders(body),
        )

    def _after_orders(self, body: str) -> int:
        """Return where the last order of work ends: what is drawn and measured follows."""
        steps = "|".join(
            text for key, text in self.words.sentences.items() if key.startswith("card.work-")
        )
        hung = "|".join(
            re.escape(text)
            for key, text in self.words.sentences.items()
            if key.startswith("card.hangs-")
        )
        keep = "|".join(self._kept())
        order = self._said("order", steps=f"(?:{steps})(?:, (?:{steps}))*")
        tongue = self._said("tongue-off", sides=_SIDES)
        waste = self._said("waste", keep="", sides=_SIDES)
        said = re.compile(f"{keep}|{waste}|{hung}|{order}|{tongue}")
        return max(found.end() for found in said.finditer(body))

    def _points(self, body: str, start: int) -> Iterator[CardPoint]:
        """Yield corners and holes, row by row: a name, two figures, and the same face down."""
        sides = rf"(?:{_SIDES})"
        named = "|".join(
            (
                self._said("mark-corner", name=r"[a-z]\d+"),
                self._said("mark-scribe", side=sides, name=r"[a-z]\d+"),
                self._said("mark-check", name=_NAME),
                *(re.escape(t) for k, t in self.words.sentences.items() if k[:9] == "card.out-"),
                self._said("mark-bite", name=_NAME, drill=rf"{self.figure}(?: mm)?"),
                self._said("mark-hole", name=_NAME, drill=rf"{self.figure}(?: mm)?"),
            )
        )
        row = re.compile(
            f"({named}) ?{self.pair}(?: {self._plain('down')} (?:({named}) ?)?{self.pair})?"
        )
        for m in row.finditer(body, start):
            name, values = m[1], (m[3], m[5])
            labels, downs = (m[2], m[4]), (m[7] or m[2], m[9] or m[4])
            # A figure is the same either way; only the edge that it starts from changes over.
            assert not m[7] or (m[8], m[10]) == values
            across, up = (
                CardMark(label=label, value=value, down=down)
                for label, value, down in zip(labels, values, downs, strict=True)
            )
            yield CardPoint(name=name.strip(), across=across, up=up, down=(m[6] or name).strip())

    def module_cuts(self, text: str) -> list[list[PrintedCut]]:
        """Read how modules are parted, one after the other, cut by cut."""
        body = text.partition(f" {self._plain('modules')} {self._plain('modules-how')[:20]}")[2]
        slots = {"n": r"(\d+)", "side": f"({_SIDE})", "at": f"({self.figure})"}
        found: list[list[PrintedCut]] = []
        for number, start, at in re.findall(self._said("module-cut", **slots), body):
            if int(number) == 1:
                found.append([])
            found[-1].append(PrintedCut(start=start, at=at))
            assert int(number) == len(found[-1])
        return found
