"""Seams between sheets, each as the run of trim or sealant that closes it."""

from collections.abc import Iterable, Iterator
from itertools import groupby, permutations
from typing import TypeAlias

import shapely
from shapely.geometry import LineString

from gaugerod.core.base.geometry import SNAP, shape_of
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.setout.layout import Layout
from gaugerod.core.takeoff.order import TrimRun

INSIDE = 0.1
"""A seam is measured this far inside the edges of the two sheets. [mm]"""

Span: TypeAlias = tuple[float, float]
"""From where to where. [mm]."""


def seam_runs(pieces: Iterable[Piece], layout: Layout) -> tuple[TrimRun, ...]:
    """Find the seams between pieces that lie in level courses.

    Parameters
    ----------
    pieces
        All pieces. [mm]
    layout
        Their set-out. [mm]

    Returns
    -------
    tuple of TrimRun
        On each wall the upright seams, then the level ones. [mm]

    Notes
    -----
    A seam is as long as both of its sheets go along it, so a leaning deck, a slope or an
    opening shortens it. A level seam runs on through the upright ones, which stop at it.
    Source: own derivation; that the level one runs through is common practice, no source.

    Examples
    --------
    Two pieces of the first course meet at a joint of that length:

    >>> from gaugerod.core.sheet.sample import sample_layout, sample_pieces
    >>> [round(run.length) for run in seam_runs(sample_pieces()[:2], sample_layout())]
    [287]
    """
    gaps = [pitch - face for pitch, face in zip(layout.pitch, layout.face, strict=True)]
    found: list[TrimRun] = []
    for wall, group in groupby(sorted(pieces, key=_wall), key=_wall):
        here = list(group)
        spans = [span for span, _ in _seams(here, axis=0, gap=gaps[0])]
        level = sorted((round(at, 3), span) for span, at in _seams(here, axis=1, gap=gaps[1]))
        for _, row in groupby(level, key=lambda seam: seam[0]):
            spans += _joined([span for _, span in row], gap=gaps[0])
        found += (TrimRun(wall=wall, place="seam", length=end - start) for start, end in spans)
    return tuple(found)


def _wall(piece: Piece) -> str:
    return piece.wall


def _seams(pieces: list[Piece], *, axis: int, gap: float) -> Iterator[tuple[Span, float]]:
    """Yield the stretches along which one piece follows another, and the place of each."""
    for before, after in permutations(pieces, 2):
        end = (before.cell.right, before.cell.top)[axis]
        start = (after.cell.left, after.cell.bottom)[axis]
        if abs(start - end - gap) < SNAP:
            for a0, a1 in _along(before, end - INSIDE, axis):
                for b0, b1 in _along(after, start + INSIDE, axis):
                    if min(a1, b1) - max(a0, b0) > SNAP:
                        yield (max(a0, b0), min(a1, b1)), end


def _along(piece: Piece, at: float, axis: int) -> list[Span]:
    """Return where a piece lies on a line across an axis. [mm]."""
    cell = piece.cell
    ends = [[(at, cell.bottom), (at, cell.top)], [(cell.left, at), (cell.right, at)]][axis]
    parts = shapely.get_parts(shape_of(piece.region).intersection(LineString(ends)))
    bounds = [shapely.bounds(part) for part in parts]
    return [(float(box[1 - axis]), float(box[3 - axis])) for box in bounds]


def _joined(spans: list[Span], *, gap: float) -> list[Span]:
    """Join stretches that only the joint of an upright seam parts."""
    joined: list[Span] = []
    for start, end in sorted(spans):
        if joined and start - joined[-1][1] < gap + SNAP:
            joined[-1] = (joined[-1][0], end)
        else:
            joined.append((start, end))
    return joined
