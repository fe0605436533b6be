"""Cut cards in the order of setting: what to keep, where to measure from, what to waste."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.cutting.blanks import on_blank
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.marks import OPPOSITE, over_side
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Cutting
from gaugerod.core.pipeline import Plan
from gaugerod.core.setout.closing import Closing, closings
from gaugerod.core.sheet.figures import SLANTED, STRAIGHT
from gaugerod.core.sheet.inside import with_sketch
from gaugerod.core.sheet.piece import draw_piece
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.card_marks import SIDES, points, sides, straight
from gaugerod.packet.inside_notes import inside_notes, inside_place
from gaugerod.packet.joints import joints
from gaugerod.packet.own_edges import from_own_edges
from gaugerod.packet.paper import Block, Card, CardPiece, Cards, Heading, Paragraph
from gaugerod.packet.phrases import wall_name
from gaugerod.packet.products import least_of, letters_told, signs_in
from gaugerod.packet.sources import Sources
from gaugerod.packet.steps import order_of_work, tools
from gaugerod.packet.two_pieces import better_two

MOST = 40
"""More cards than this would make a packet nobody carries: equal cuts then share a card."""
MOST_INSIDE = 12
"""Nor more than this of the inside faces of openings, where the pieces may be small."""
TOGETHER = 8
"""So many pieces may share a card, which is never broken over two sheets."""


def cut_cards(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """Yield the cut cards, or say why there are none."""
    yield Heading(text=words.text("card.title"), level=1)
    if plan.walls.fit_for != "cut":
        yield Paragraph(text=words.text("card.not-fit"), style="boxed")
        return
    said = ["card.how", "card.rounding"]
    if _turned_over(plan):
        said.insert(1, "card.face-down")
    notes = [words.text(key) for key in said]
    if words.display.system == "metric":
        notes.append(words.text("card.in-mm"))
    yield Paragraph(text=" ".join(notes), style="small")
    yield Paragraph(text=tools(plan, words), style="small")
    for told in letters_told(plan, words):
        yield Paragraph(text=told, style="strong")
    yield from _tongues(plan, words)
    for closing in closings(plan.layout, plan.system):
        yield Paragraph(text=_closes(closing, words), style="strong")
    tags = [piece.tag for piece in (*plan.pieces, *pieces_inside(plan.insides))]
    sources = Sources(plan.cuts, tags, least=least_of(plan), signs=signs_in(plan))
    cut = [piece for piece in plan.pieces if not piece.whole and piece.tag not in plan.done]
    cards = [_on_wall(piece, plan, sources, words) for piece in cut]
    if len(cards) > MOST:
        walls = [piece.wall for piece in cut]
        cards = list(_shared(list(zip(walls, cards, strict=True))))
    inside = list(_inside(plan, sources, words))
    if len(inside) > MOST_INSIDE:
        left = (piece for piece in pieces_inside(plan.insides) if piece.tag not in plan.done)
        faces = [piece.wall for piece in left]
        inside = list(_shared(list(zip(faces, inside, strict=True))))
    cards += inside
    if cards:
        yield Cards(cards=tuple(cards))


def _tongues(plan: Plan, words: Catalogue) -> Iterator[Block]:
    """List the whole modules that only lose a tongue: they need no measuring."""
    for side in SIDES:
        tags = [
            piece.tag
            for piece in plan.pieces
            if piece.whole
            and piece.tag not in plan.done
            and any(e.side == side and e.kind == "tongue off" for e in piece.edges)
        ]
        if tags:
            shown = words.text(f"card.{side}")
            text = words.text("card.tongue-only", side=shown, tags=", ".join(tags))
            yield Paragraph(text=text, style="strong")


def _sheds_tongue(piece: Piece, side: Side) -> bool:
    """Tell whether a piece is a whole module that loses its tongue at a side."""
    return piece.whole and any(e.side == side and e.kind == "tongue off" for e in piece.edges)


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
    cutting = plan.system.cutting
    card = card_of(piece, place, holes, sources, words, cutting=cutting)
    return replace(
        card,
        notes=(*joints(piece, plan, words), *better_two(piece, plan.system, words)),
        face_down=words.text("card.down") if _turned_over(plan) else "",
    )


def _turned_over(plan: Plan) -> bool:
    """Tell whether the tool may want the module face down; tile is cut face up."""
    return plan.system.cutting.tool == "saw"


def _inside(plan: Plan, sources: Sources, words: Catalogue) -> Iterator[Card]:
    """Yield the cards of the inside faces of openings, in the order of setting."""
    for inside in plan.insides:
        for piece in inside.pieces:
            if piece.tag in plan.done:
                continue
            place = inside_place(inside, piece, words)
            cutting = plan.products.of(piece.product).cutting
            card = card_of(piece, place, (), sources, words, cutting=cutting)
            yield replace(
                card,
                orders=tuple(_inside_orders(piece, sources, words)),
                orders_down=(),
                notes=inside_notes(inside, plan, words),
                picture=with_sketch(card.picture, inside.face),
            )


def _inside_orders(piece: Piece, sources: Sources, words: Catalogue) -> Iterator[str]:
    yield from sources.product(piece.tag, words)
    yield words.text("card.face-up")
    text, first = _marked(piece, sources)
    through = {mark.detail for mark in text.marks if mark.what in STRAIGHT}
    waste = sides([side for side in SIDES if side in through], words)
    yield _wasting(words.text("card.inside-any"), waste, words)
    off = [edge.side for edge in piece.edges if edge.kind == "tongue off"]
    if first:
        yield words.text("card.cut-first", sides=sides(first, words))
    elif off:
        yield words.text("card.tongue-off", sides=sides(off, words))
    if piece.turn:
        yield words.text(f"card.hangs-{piece.turn}")


def card_of(
    piece: Piece,
    place: str,
    holes: Sequence[FittedHole],
    sources: Sources,
    words: Catalogue,
    *,
    cutting: Cutting,
) -> Card:
    """Return the card of one piece, but for what its edges meet on the wall."""
    in_place = piece.measure_in_place
    text, first = _marked(piece, sources)
    of = CardPiece(
        tag=piece.tag,
        place=place,
        source=sources.source(piece.tag, words),
        leaves=tuple(sources.offcuts(piece.tag, words)),
    )
    work = order_of_work(text, cutting, words)
    ticks = ("card.marked", "card.checked", "card.was-cut", "card.fits")
    return Card(
        pieces=(of,),
        orders=(
            *sources.product(piece.tag, words),
            words.text("card.face-up"),
            *_orders(piece, first, words, _as_it_is),
            *work,
        ),
        orders_down=(words.text("card.face-upside"), *_orders(piece, first, words, over_side)),
        warning=words.text("card.in-place") if in_place else "",
        marks=tuple(straight(text, words)),
        points=tuple(points(text, holes, words)),
        notes=(),
        ticks=tuple(words.text(key) for key in ticks),
        picture=draw_piece(_pictured(piece, text), holes, words),
    )


def _as_it_is(side: Side) -> Side:
    return side


def _marked(piece: Piece, sources: Sources) -> tuple[Piece, tuple[Side, ...]]:
    """Return a piece with the marks of its card, and the sides to cut first."""
    on = on_blank(piece, sources.placed(piece.tag), sources.stock(piece.tag))
    if not sources.parted(piece.tag):
        return on.piece, ()
    return from_own_edges(on.piece, on.bare)


def _pictured(piece: Piece, text: Piece) -> Piece:
    """Leave out of the picture the figures that would say too much, or something else."""
    if piece.measure_in_place:
        return replace(piece, marks=())
    said = {(m.what, m.start, m.detail): m for m in text.marks}
    marks: list[Mark] = []
    for mark in piece.marks:
        if mark.what not in STRAIGHT | SLANTED:
            marks.append(mark)
        elif {mark.start, OPPOSITE[mark.start]} & {*piece.keeps} or text.marks == piece.marks:
            marks.append(said[mark.what, mark.start, mark.detail])
    return replace(piece, marks=tuple(marks))


def _orders(
    piece: Piece, first: Sequence[Side], words: Catalogue, over: Callable[[Side], Side]
) -> Iterator[str]:
    """Say how a piece lies and what to keep; `over` gives a side its name as it lies."""

    def named(found: Iterable[Side]) -> str:
        return sides(sorted(map(over, found), key=SIDES.index), words)

    cut, off = (
        [side for side in SIDES if any(e.side == side and e.kind == kind for e in piece.edges)]
        for kind in ("cut", "tongue off")
    )
    keep = words.text("card.keep-none")
    if piece.keeps:
        keep = words.text("card.keep", sides=named(piece.keeps))
    through = {mark.detail for mark in piece.marks if mark.what in STRAIGHT}
    yield _wasting(keep, named(side for side in cut if side in through), words)
    if first:
        yield words.text("card.cut-first", sides=named(first))
    if off:
        yield words.text("card.tongue-off", sides=named(off))
    if piece.turn:
        yield words.text(f"card.hangs-{piece.turn}")


def _wasting(keep: str, waste: str, words: Catalogue) -> str:
    """Say what to keep and, where a cut runs right through, on which side of it the waste is."""
    return words.text("card.waste", keep=keep, sides=waste) if waste else keep


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
