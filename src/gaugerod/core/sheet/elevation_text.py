"""An elevation as text: what a tiler sees at a glance, one letter for each piece."""

from collections.abc import Sequence
from math import atan2, floor, pi

from gaugerod.core.base.geometry import Box, Point, Ring
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.setout.layout import Layout

_CORNER = pi / 6  # a scribed edge may bend inwards by less; a notch turns by more
_NEAR = 0.05  # [mm]; far below any cut, far above the noise of clipping


def elevation_text(wall: str, layout: Layout, pieces: tuple[Piece, ...]) -> str:
    """Write one wall as rows of letters, top course first.

    Parameters
    ----------
    wall
        Name of the wall.
    layout
        The set-out, for its pitch and phase. [mm]
    pieces
        Pieces of any walls. [mm]

    Returns
    -------
    str
        One row for each course, a letter for each piece: ``F`` full (drilled or not), ``c``
        cut to width, ``s`` cut or scribed in height, ``n`` notched, ``.`` a module's place
        left open. A place that an opening splits shows both of its pieces.

    Notes
    -----
    A piece that is cut both ways shows the height. Where modules do not lie in level courses,
    rows stand from left to right without regard to place, and every cut is ``c``. Source: own
    design.

    Examples
    --------
    >>> from gaugerod.core.sheet.sample import sample_layout, sample_pieces
    >>> print(elevation_text("B", sample_layout(), sample_pieces()))
    c . c F c
    c s n F c
    s s s s s
    """
    mine = [piece for piece in pieces if piece.wall == wall]
    courses = sorted({piece.course for piece in mine}, reverse=True)
    rows = ([piece for piece in mine if piece.course == course] for course in courses)
    if layout.pattern:
        return "\n".join(" ".join(map(_letter_of_pattern, row)) for row in rows)
    first = min(_column(piece, layout) for piece in mine)
    return "\n".join(_row(row, layout, first) for row in rows)


def _row(pieces: Sequence[Piece], layout: Layout, first: int) -> str:
    letters: dict[int, str] = {}
    for piece in sorted(pieces, key=lambda p: p.place):
        column = _column(piece, layout)
        letters[column] = letters.get(column, "") + _letter(piece)
    blank = [" "] * (min(letters) - first)
    inner = [letters.get(column, ".") for column in range(min(letters), max(letters) + 1)]
    return " ".join([*blank, *inner])


def _column(piece: Piece, layout: Layout) -> int:
    on = next(wall for wall in layout.walls if wall.name == piece.wall)
    pitch = layout.pitch[0]
    shift = ((piece.course - 1) * on.row_shift) % pitch
    return floor((piece.cell.left - on.phase - shift) / pitch + 0.5)


def _letter_of_pattern(piece: Piece) -> str:
    if _notched(piece.region.rings[0]):
        return "n"
    return "F" if all(edge.kind != "cut" for edge in piece.edges) else "c"


def _letter(piece: Piece) -> str:
    ring = piece.region.rings[0]
    if _notched(ring):
        return "n"
    cuts = [edge for edge in _edges(ring) if not _on_cell(*edge, piece.cell)]
    if any(abs(x1 - x0) > abs(y1 - y0) for (x0, y0), (x1, y1) in cuts):
        return "s"
    return "c" if cuts else "F"


def _edges(ring: Ring) -> list[tuple[Point, Point]]:
    return [(ring[i - 1], ring[i]) for i in range(len(ring))]


def _notched(ring: Ring) -> bool:
    """Whether the ring, run anticlockwise, turns inwards at a corner."""
    edges = _edges(ring)
    ways = [atan2(y1 - y0, x1 - x0) for (x0, y0), (x1, y1) in edges]
    turns = [(ways[i] - ways[i - 1] + pi) % (2 * pi) - pi for i in range(len(ways))]
    return any(turn < -_CORNER for turn in turns)


def _on_cell(start: Point, end: Point, cell: Box) -> bool:
    (x0, y0), (x1, y1) = start, end
    plumb = any(abs(x0 - x) + abs(x1 - x) < _NEAR for x in (cell.left, cell.right))
    level = any(abs(y0 - y) + abs(y1 - y) < _NEAR for y in (cell.bottom, cell.top))
    return plumb or level
