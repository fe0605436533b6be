"""Where a piece comes from: the module or offcut it is cut from, and what that leaves."""

from collections.abc import Iterator, Sequence

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.pieces import CutPlan, Stock
from gaugerod.core.sheet.chain import bare_length
from gaugerod.packet.card_marks import sides


class Sources:
    """The cut plan, asked by tag.

    `order` is the order in which pieces are cut; offcuts under `least` are waste. [mm].
    """

    def __init__(self, cuts: CutPlan, order: Sequence[str], *, least: float) -> None:
        self._least = least
        turn = {tag: number for number, tag in enumerate(order)}
        self._stock: dict[str, Stock] = {}
        self._tags: dict[str, list[str]] = {}
        for stock in cuts.stock:
            tags = sorted((placed.tag for placed in stock.pieces), key=turn.__getitem__)
            for tag in tags:
                self._stock[tag] = stock
                self._tags[tag] = tags

    def source(self, tag: str, words: Catalogue) -> str:
        """Say which stock a piece is cut from, and what else is."""
        stock, tags = self._stock[tag], self._tags[tag]
        if tag == tags[0]:
            key = "card.from-module" if stock.source == "module" else "card.from-offcut"
            return words.text(key, stock=stock.id)
        return words.text("card.from-rest", stock=stock.id, tag=tags[0])

    def from_rest(self, tag: str) -> bool:
        """Tell whether other pieces, or another room, have had of the stock before."""
        return self._stock[tag].source == "offcut" or tag != self._tags[tag][0]

    def offcuts(self, tag: str, words: Catalogue) -> Iterator[str]:
        """Say what to save: the other pieces of the module, or its offcuts after the last."""
        stock, tags = self._stock[tag], self._tags[tag]
        later = tags[tags.index(tag) + 1 :]
        if later:
            yield words.text("card.save-for", tags=", ".join(later))
            return
        for offcut in stock.offcuts:
            if min(offcut.size) < self._least:
                continue
            width, height = (bare_length(mm, words.display, rounding="down") for mm in offcut.size)
            kept = sides(offcut.keeps, words)
            yield words.text(
                "card.leaves" if kept else "card.leaves-bare",
                id=offcut.id,
                width=width,
                height=height,
                sides=kept,
            )
