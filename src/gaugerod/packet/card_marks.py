"""The figures of a card in words: from which edge, at which end, how far."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import show_length
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import bites, corners
from gaugerod.core.sheet.figures import SLANTED, STRAIGHT, figure
from gaugerod.core.survey.walls import FittedHole
from gaugerod.packet.paper import CardMark, CardPoint

SIDES: tuple[Side, ...] = ("left", "right", "bottom", "top")


def sides(named: Sequence[Side], words: Catalogue) -> str:
    """Return sides in one phrase, such as "LEFT + TOP"."""
    return "+".join(words.text(f"card.{side}") for side in named)


def straight(piece: Piece, words: Catalogue) -> Iterator[CardMark]:
    """Yield the straight cuts: one figure where the cut is square, two where it tapers."""
    cuts: dict[tuple[Side, str], list[tuple[Mark, str]]] = {}
    for mark in piece.marks:
        if mark.what in STRAIGHT:
            text = figure(mark, piece, words.display)
            cuts.setdefault((mark.start, mark.detail), []).append((mark, text))
    for ends in cuts.values():
        if len({text for _, text in ends}) == 1:
            mark, text = ends[0]
            label = words.text("card.from-square", start=words.text(f"card.{mark.start}"))
            yield CardMark(label=label, value=_figure(text, piece, words))
            continue
        for mark, text in ends:
            start, end = words.text(f"card.{mark.start}"), words.text(f"card.at-{mark.what}")
            label = words.text("card.from-taper", start=start, end=end)
            yield CardMark(label=label, value=_figure(text, piece, words))
    for mark in piece.marks:
        if mark.what in SLANTED:
            start = words.text(f"card.{mark.start}")
            end = words.text(f"card.at-{mark.what.removeprefix('along ')}")
            label = words.text("card.from-taper", start=start, end=end)
            yield CardMark(
                label=label, value=_figure(figure(mark, piece, words.display), piece, words)
            )


def points(piece: Piece, holes: Sequence[FittedHole], words: Catalogue) -> Iterator[CardPoint]:
    """Yield corners of notches, then holes, each hole with its check from the edges opposite."""
    for corner in corners(piece, holes):
        name = words.text("card.mark-corner", n=corner.number)
        yield _point(name, (corner.across, corner.up), piece, words)
    for bite in bites(piece, holes):
        drill = show_length(bite.diameter, words.display, rounding="up")
        name = words.text("card.mark-bite", name=bite.name, drill=drill)
        yield _point(name, (bite.across, bite.up), piece, words)
    for hole in piece.holes:
        drill = show_length(hole.diameter, words.display, rounding="up")
        for what in ("hole", "check"):
            marks = [m for m in piece.marks if (m.what, m.detail) == (what, hole.name)]
            name = words.text(f"card.mark-{what}", name=hole.name, drill=drill)
            yield _point(name, marks, piece, words)


def _point(name: str, marks: Sequence[Mark], piece: Piece, words: Catalogue) -> CardPoint:
    across, up = (_offset(mark, piece, words) for mark in marks)
    return CardPoint(name=name, across=across, up=up)


def _offset(mark: Mark, piece: Piece, words: Catalogue) -> CardMark:
    """Return one distance; a centre that lies off the module is measured beyond its edge."""
    side = words.text(f"card.{mark.start}")
    label = side if mark.value >= 0 else words.text("card.beyond", side=side)
    shown = figure(replace(mark, value=abs(mark.value)), piece, words.display)
    return CardMark(label=label, value=_figure(shown, piece, words))


def _figure(text: str, piece: Piece, words: Catalogue) -> str:
    """Return the figure, or a line to write it on where it would claim to know too much."""
    return words.text("card.blank") if piece.measure_in_place else text
