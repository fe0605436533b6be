"""What a card says of an inside face: where it is, what it meets, who laps whom."""

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.messages import Length
from gaugerod.core.cutting.pieces import Inside, Piece
from gaugerod.core.pipeline import Plan
from gaugerod.packet.joints import SHOWS


def inside_place(inside: Inside, piece: Piece, words: Catalogue) -> str:
    """Say which face of which opening a piece is for, and which part of it."""
    place = words.text(
        "card.inside-place",
        opening=inside.opening,
        face=words.text(f"card.inside-{inside.face}"),
    )
    if len(inside.pieces) == 1:
        return place
    part = words.text("card.place", course=piece.course, place=piece.place)
    return f"{place}, {part}"


def inside_notes(inside: Inside, plan: Plan, words: Catalogue) -> tuple[str, ...]:
    """Say how a face is set, what joint is left at each of its edges, and which edge shows."""
    gaps = plan.system.gaps
    said = {"corner": Length(gaps.corner), "butt": Length(gaps.butt), "true": Length(SHOWS)}
    how = words.text(f"card.inside-how-{inside.face}", **said)
    if inside.face == "back":
        return (how,)
    behind = "card.inside-lapped" if inside.kind == "niche" else "card.inside-frame"
    front = words.text(f"card.inside-front-{inside.face}", **said)
    return (f"{how} {words.text(behind, **said)}", front)
