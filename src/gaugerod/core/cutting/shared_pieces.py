"""Pieces that layouts share: a wall that did not change is not cut up again."""

from typing import TypeAlias

from gaugerod.core.cutting.doubts import Doubts, doubts_of
from gaugerod.core.cutting.make import pieces_on_wall
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.materials import System
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.survey.walls import Walls

_Key: TypeAlias = tuple[object, ...]


class SharedPieces:
    """The pieces of each wall as they were made last, for one alcove in one material. [mm]."""

    def __init__(self) -> None:
        self._last: dict[str, tuple[_Key, tuple[Piece, ...]]] = {}

    def make(self, layout: Layout, walls: Walls, system: System) -> tuple[Piece, ...]:
        """Return the pieces of a layout.

        Parameters
        ----------
        layout
            The layout. [mm]
        walls
            The surveyed alcove, the same every time. [mm]
        system
            The material, the same every time. [mm]

        Returns
        -------
        tuple of Piece
            What `make_pieces` makes of them. [mm]

        Notes
        -----
        Source: as `make_pieces`.

        Examples
        --------
        >>> from gaugerod.core.cutting.make import make_pieces
        >>> from gaugerod.core.setout.sample import sample_layout
        >>> walls, layout, system = sample_layout()
        >>> SharedPieces().make(layout, walls, system) == make_pieces(layout, walls, system)
        True
        """
        by_name = {wall.name: wall for wall in walls.walls}
        layouts = {wall.name: wall for wall in layout.walls}
        doubts = doubts_of(walls, layout, system)
        pieces: list[Piece] = []
        for name in layout.order:
            key = _key(layout, layouts[name], doubts)
            last = self._last.get(name)
            if last is None or last[0] != key:
                made = pieces_on_wall(layout, layouts[name], by_name[name], system, doubts)
                last = key, tuple(made)
                self._last[name] = last
            pieces.extend(last[1])
        return tuple(pieces)


def _key(layout: Layout, wall: WallLayout, doubts: Doubts) -> _Key:
    """Return all that the pieces of a wall are made from, as far as layouts differ in it."""
    return (
        layout.turn,
        layout.face,
        layout.pitch,
        layout.first_course,
        layout.pattern,
        wall,
        {(end.course, end.side, end.module) for end in doubts.ends if end.wall == wall.name},
        {(rim.side, rim.at, rim.start, rim.end) for rim in doubts.rims if rim.wall == wall.name},
    )
