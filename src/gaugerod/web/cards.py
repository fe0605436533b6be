"""The pieces of a plan in the order of setting, each with how far it is, and its card."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.pipeline import Plan
from gaugerod.packet.cards import cut_cards
from gaugerod.packet.paper import Card, CardPiece, Cards
from gaugerod.web import urls
from gaugerod.web.site import CARDS, done_in, kept

State: TypeAlias = Literal["set", "cut", "begun", "open"]
STEPS = ("marked", "checked", "cut", "fits")
"""What is ticked on a card, in turn."""
SET = "set"


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceRow:
    """A piece: where it is listed, whether it is a whole module, how far it is."""

    tag: str
    link: str
    whole: bool
    state: State


def pieces_of(plan: Plan) -> tuple[Piece, ...]:
    """Return every piece in the order of setting."""
    return (*plan.pieces, *pieces_inside(plan.insides))


def rows_of(job: str, plan: Plan, day: Mapping[str, Any]) -> tuple[PieceRow, ...]:
    """Return how far each piece is."""
    cards, cut = kept(day, CARDS), done_in(day, "cut")
    return tuple(
        PieceRow(
            tag=piece.tag,
            link=urls.to(urls.CARD, job=job, tag=piece.tag),
            whole=piece.whole,
            state=_state(piece.tag, plan, cards, cut),
        )
        for piece in pieces_of(plan)
    )


def _state(tag: str, plan: Plan, cards: Mapping[str, Any], cut: frozenset[str]) -> State:
    if tag in plan.done:
        return "set"
    if tag in cut:
        return "cut"
    return "begun" if cards.get(tag) else "open"


def card_of(plan: Plan, tag: str, words: Catalogue) -> tuple[Card, CardPiece] | None:
    """Return the card of a piece that is cut, with the line of the piece on it."""
    for card, piece in _cards(plan, words):
        if piece.tag == tag:
            return card, piece
    return None


def _cards(plan: Plan, words: Catalogue) -> Iterator[tuple[Card, CardPiece]]:
    for block in cut_cards(plan, words):
        if isinstance(block, Cards):
            for card in block.cards:
                yield from ((card, piece) for piece in card.pieces)
