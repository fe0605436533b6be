"""The figures of a card in words: from which edge, at which end, how far."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import replace

from gaugerod.core.base.catalogue import Catalogue
from gaugerod.core.base.lengths import show_length
from gaugerod.core.cutting.marks import face_down, over_side
from gaugerod.core.cutting.pieces import Mark, Piece
from gaugerod.core.job.fields import Side
from gaugerod.core.sheet.corners import Corner, bites, corners
from gaugerod.core.sheet.figures import BITES, SLANTED, STRAIGHT, figure
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
        square = len({text for _, text in ends}) == 1
        most = max(mark.value for mark, _ in ends)
        for mark, text in ends[:1] if square else ends:
            found = _mark(mark, _square if square else _at_end, text, piece, words)
            bigger = mark.value == most and not square and not piece.measure_in_place
            yield replace(found, note=words.text("card.bigger")) if bigger else found
    for mark in piece.marks:
        if mark.what in SLANTED:
            yield _mark(mark, _at_end, figure(mark, piece, words.display), piece, words)


def _square(mark: Mark, words: Catalogue, head: str, _sign: str) -> str:
    return words.text(f"card.{head}-square", start=words.text(f"card.{mark.start}"))


def _at_end(mark: Mark, words: Catalogue, head: str, sign: str) -> str:
    """Name an edge and an end; a cut that runs out into the edge is drawn on beyond it."""
    start = words.text(f"card.{mark.start}")
    end = words.text(f"card.at-{mark.what.removeprefix('along ')}")
    way = "beyond" if sign else "taper"
    return words.text(f"card.{head}-{way}", start=start, end=end)


def _side(mark: Mark, words: Catalogue, _head: str, sign: str) -> str:
    """Name the edge that is measured from; a centre off the module lies beyond it."""
    side = words.text(f"card.{mark.start}")
    return words.text("card.beyond", side=side) if sign else side


def _mark(
    mark: Mark,
    label: Callable[[Mark, Catalogue, str, str], str],
    text: str,
    piece: Piece,
    words: Catalogue,
) -> CardMark:
    """Write one figure: its sign is said in words."""
    size = text.removeprefix("-")
    sign = text.removesuffix(size)
    return CardMark(
        label=label(mark, words, "from", sign),
        value=_figure(size, piece, words),
        down=label(face_down(mark), words, "down", sign),
    )


def points(piece: Piece, holes: Sequence[FittedHole], words: Catalogue) -> Iterator[CardPoint]:
    """Yield corners of cuts, then holes, each hole with its check from the edges opposite."""
    for corner in corners(piece, holes):
        over = tuple(sorted(map(over_side, corner.sides), key=SIDES.index))
        name, down = (_corner(corner, named, words) for named in (corner.sides, over))
        yield _point(name, (corner.across, corner.up), piece, words, down=down)
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


def _corner(corner: Corner, named: Sequence[Side], words: Catalogue) -> str:
    """Name a corner and what comes out there."""
    if corner.across.what in BITES:
        return words.text(f"card.out-{'-'.join(named)}")
    return words.text(f"card.mark-{corner.across.what}", name=corner.name, side=sides(named, words))


def _point(
    name: str, marks: Sequence[Mark], piece: Piece, words: Catalogue, *, down: str = ""
) -> CardPoint:
    across, up = (_offset(mark, piece, words) for mark in marks)
    return CardPoint(name=name, across=across, up=up, down=down or name)


def _offset(mark: Mark, piece: Piece, words: Catalogue) -> CardMark:
    return _mark(mark, _side, figure(mark, piece, words.display), piece, words)


def _figure(text: str, piece: Piece, words: Catalogue) -> str:
    """Return the figure, or a line to write it on where it would claim to know too much."""
    return words.text("card.blank") if piece.measure_in_place else text
