"""Where a piece comes from: the module or offcut it is cut from, and what that leaves."""

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.pieces import CutPlan, Placed, Stock
from gaugerod.core.sheet.accents import Signs, signed
from gaugerod.core.sheet.chain import bare_length
from gaugerod.packet.card_marks import sides


class Sources:
    """The cut plan, asked by tag.

    `order` is the order in which pieces are cut; offcuts under what `least` says of their product
    are waste. [mm]. `signs` are those of the products, where there are several.
    """

    def __init__(
        self,
        cuts: CutPlan,
        order: Sequence[str],
        *,
        least: Mapping[str, float],
        signs: Signs = MappingProxyType({}),
    ) -> None:
        self._least = least
        self._signs = signs
        turn = {tag: number for number, tag in enumerate(order)}
        self._stock: dict[str, Stock] = {}
        self._tags: dict[str, list[str]] = {}
        for stock in cuts.stock:
            tags = sorted((placed.tag for placed in stock.pieces), key=turn.__getitem__)
            for tag in tags:
                self._stock[tag] = stock
                self._tags[tag] = tags

    def source(self, tag: str, words: Catalogue) -> str:
        """Say which stock a piece is cut from, and whether that is first parted for others.

        A part that lies upside down in its module is turned before it is marked.
        """
        stock = self._stock[tag]
        key = "card.from-module" if stock.source == "module" else "card.from-offcut"
        if stock.sequence:
            key = "card.from-turned" if self.placed(tag).turned else "card.from-parted"
        return words.text(key, stock=signed(stock, self._signs))

    def product(self, tag: str, words: Catalogue) -> Iterator[str]:
        """Say which product a piece is of, if it is not the main one."""
        sign = self._signs.get(self._stock[tag].product)
        if sign and sign.letter:
            yield words.text("card.of-product", letter=sign.letter, name=sign.name)

    def parted(self, tag: str) -> bool:
        """Tell whether a piece is marked on less than a whole module."""
        return self.placed(tag).blank is not None

    def placed(self, tag: str) -> Placed:
        """Return where a piece lies in its stock."""
        return next(placed for placed in self.stock(tag).pieces if placed.tag == tag)

    def stock(self, tag: str) -> Stock:
        """Return the stock of a piece."""
        return self._stock[tag]

    def offcuts(self, tag: str, words: Catalogue) -> Iterator[str]:
        """Say which offcuts to save, once the last piece of their module is cut."""
        stock, tags = self._stock[tag], self._tags[tag]
        if tag != tags[-1]:
            return
        for offcut in stock.offcuts:
            if min(offcut.size) < self._least[stock.product]:
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
