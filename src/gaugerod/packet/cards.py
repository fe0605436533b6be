"""Cut cards in the order of setting: what to keep, where to measure from, what to waste."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.closing import Closing, closings
from gaugerod.core.sheet.figures import SLANTED
from gaugerod.core.sheet.inside import with_sketch
from gaugerod.core.sheet.piece import draw_piece
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.card_marks import SIDES, points, sides, straight
from gaugerod.packet.inside_notes import inside_notes, inside_place
from gaugerod.packet.joints import joints
from gaugerod.packet.own_edges import from_own_edges
from gaugerod.packet.paper import Block, Card, CardPiece, Cards, Heading, Paragraph
from gaugerod.packet.phrases import wall_name
from gaugerod.packet.sources import Sources

MOST = 40
"""More cards than this would make a packet nobody carries: equal cuts then share a card."""
TOGETHER = 8
"""So many pieces may share a card, which is never broken over two sheets."""


def cut_cards(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the cut cards, or say why there are none."""
    yield Heading(text=words.text("card.title"), level=1)
    if plan.walls.fit_for != "cut":
        yield Paragraph(text=words.text("card.not-fit"), style="boxed")
        return
    notes = [words.text(key) for key in ("card.how", "card.face-down", "card.rounding")]
    if words.display.system == "metric":
        notes.append(words.text("card.in-mm"))
    yield Paragraph(text=" ".join(notes), style="small")
    yield from _tongues(plan, words)
    for closing in closings(plan.layout, plan.system):
        yield Paragraph(text=_closes(closing, words), style="strong")
    tags = [piece.tag for piece in (*plan.pieces, *pieces_inside(plan.insides))]
    sources = Sources(plan.cuts, tags, least=plan.system.cutting.least)
    cut = [piece for piece in plan.pieces if not piece.whole]
    cards = [_on_wall(piece, plan, sources, words) for piece in cut]
    if len(cards) > MOST:
        walls = [piece.wall for piece in cut]
        cards = list(_shared(list(zip(walls, cards, strict=True))))
    yield Cards(cards=(*cards, *_inside(plan, sources, words)))


def _tongues(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """List the whole modules that only lose a tongue: they need no measuring."""
    for side in SIDES:
        tags = [
            piece.tag
            for piece in plan.pieces
            if piece.whole and any(e.side == side and e.kind == "tongue off" for e in piece.edges)
        ]
        if tags:
            shown = words.text(f"card.{side}")
            text = words.text("card.tongue-only", side=shown, tags=", ".join(tags))
            yield Paragraph(text=text, style="strong")


def _closes(closing: Closing, words: Catalogue) -> str:
    return words.text(
        f"card.closes-{closing.way}",
        wall=closing.wall,
        side=words.text(f"card.at-{closing.side}"),
        room=Length(closing.room),
        tongue=Length(closing.tongue),
        hider=closing.hider,
    )


def _on_wall(piece: Piece, plan: Plan, sources: Sources, words: Catalogue) -> Card:
    place = words.text(
        "card.place",
        wall=wall_name(piece.wall, words),
        course=piece.course,
        place=piece.place,
    )
    holes = next(wall.holes for wall in plan.walls.walls if wall.name == piece.wall)
    card = _card(piece, place, holes, sources, words)
    return replace(card, notes=joints(piece, plan, words))


def _inside(plan: Plan, sources: Sources, words: Catalogue) -> Iterator[Card]:
    """Yield the cards of the inside faces of openings, in the order of setting."""
    for inside in plan.insides:
        for piece in inside.pieces:
            card = _card(piece, inside_place(inside, piece, words), (), sources, words)
            yield replace(
                card,
                orders=tuple(_inside_orders(piece, sources, words)),
                notes=inside_notes(inside, plan, words),
                picture=with_sketch(card.picture, inside.face),
            )


def _inside_orders(piece: Piece, sources: Sources, words: Catalogue) -> Iterator[str]:
    yield words.text("card.face-up")
    yield words.text("card.inside-any")
    off = [edge.side for edge in piece.edges if edge.kind == "tongue off"]
    if sources.from_rest(piece.tag):
        yield words.text("card.cut-first", sides=sides(from_own_edges(piece)[1], words))
    elif off:
        yield words.text("card.tongue-off", sides=sides(off, words))
    if piece.turn:
        yield words.text(f"card.hangs-{piece.turn}")


def _card(
    piece: Piece, place: str, holes: Sequence[FittedHole], sources: Sources, words: Catalogue
) -> Card:
    in_place = piece.measure_in_place
    of = CardPiece(
        tag=piece.tag,
        place=place,
        source=sources.source(piece.tag, words),
        leaves=tuple(sources.offcuts(piece.tag, words)),
    )
    text, first = from_own_edges(piece) if sources.from_rest(piece.tag) else (piece, ())
    ticks = ("card.marked", "card.checked", "card.was-cut", "card.fits")
    return Card(
        pieces=(of,),
        orders=tuple(_orders(piece, first, words)),
        warning=words.text("card.in-place") if in_place else "",
        marks=tuple(straight(text, words)),
        points=tuple(points(text, holes, words)),
        notes=(),
        ticks=tuple(words.text(key) for key in ticks),
        picture=draw_piece(_pictured(piece, first), holes, words),
    )


def _pictured(piece: Piece, first: Sequence[Side]) -> Piece:
    """Leave out of the picture the figures that would say too much, or something else."""
    if piece.measure_in_place:
        return replace(piece, marks=())
    marks = tuple(m for m in piece.marks if m.start not in first or m.what == "corner")
    return replace(piece, marks=marks)


def _orders(piece: Piece, first: Sequence[Side], words: Catalogue) -> Iterator[str]:
    yield words.text("card.face-up")
    cut, off = (
        [side for side in SIDES if any(e.side == side and e.kind == kind for e in piece.edges)]
        for kind in ("cut", "tongue off")
    )
    keep = words.text("card.keep-none")
    if piece.keeps:
        keep = words.text("card.keep", sides=sides(piece.keeps, words))
    drawn = any(mark.what == "corner" or mark.what in SLANTED for mark in piece.marks)
    if cut and not drawn:
        keep = words.text("card.waste", keep=keep, sides=sides(cut, words))
    yield keep
    if first:
        yield words.text("card.cut-first", sides=sides(first, words))
    if off:
        yield words.text("card.tongue-off", sides=sides(off, words))
    if piece.turn:
        yield words.text(f"card.hangs-{piece.turn}")


def _shared(cards: Sequence[tuple[str, Card]]) -> Iterator[Card]:
    """Let pieces of one wall that are cut alike share a card, at the first one's turn."""
    alike: dict[tuple[object, ...], list[Card]] = {}
    for wall, card in cards:
        alike.setdefault(
            (wall, card.orders, card.warning, card.marks, card.points, card.notes), []
        ).append(card)
    for group in alike.values():
        pieces = tuple(piece for card in group for piece in card.pieces)
        for start in range(0, len(pieces), TOGETHER):
            yield replace(group[0], pieces=pieces[start : start + TOGETHER])
