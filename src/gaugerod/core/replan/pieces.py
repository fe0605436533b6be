"""The pieces that don't hang yet, cut to the room as it is found."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import shapely

from gaugerod.core.base.geometry import LEAST_AREA, Box, bounds_of, shape_of
from gaugerod.core.cutting.doubts import Doubts, doubts_of
from gaugerod.core.cutting.make import pieces_on_wall
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.materials import System
from gaugerod.core.replan.alike import alike
from gaugerod.core.replan.line import STILL, Line, Move, move_above
from gaugerod.core.replan.rim import moved_edge
from gaugerod.core.replan.site import Site
from gaugerod.core.setout.field import set_field
from gaugerod.core.setout.layout import Layout, WallLayout, lattice_on, top_of
from gaugerod.core.survey.walls import FittedHole, FittedWall, Walls

Key = tuple[str, int, int, int]

THIN = 5.0
"""No piece is cut so narrow on the day, nor so narrow a leg: sealant or a trim closes it. [mm]"""


def walls_found(site: Site) -> Walls:
    """Return the walls with their ends where they were found.

    Parameters
    ----------
    site
        Where the work stands. [mm]

    Returns
    -------
    Walls
        As surveyed, but for these ends. [mm]

    Notes
    -----
    Source: as `moved_edge`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> walls = fit_walls(sample_job())
    >>> site = Site(job=sample_job(), walls=walls, rims={("B", "right"): ((0.0, -3.0),)})
    >>> round(walls_found(site).walls[1].right.at(0.0) - walls.walls[1].right.at(0.0), 6)
    -3.0
    """
    return replace(
        site.walls,
        walls=tuple(_ends_found(site, wall) for wall in site.walls.walls),
        # Each state in which one parameter is moved is found off as much: how sure the survey is
        # does not change.
        moved=tuple(replace(one, wall=_ends_found(site, one.wall)) for one in site.walls.moved),
    )


def _ends_found(site: Site, wall: FittedWall) -> FittedWall:
    left, right = (site.rims.get((wall.name, side)) for side in ("left", "right"))
    return replace(
        wall,
        left=moved_edge(wall.left, left) if left else wall.left,
        right=moved_edge(wall.right, right) if right else wall.right,
    )


def layout_on(layout: Layout, walls: Walls, system: System) -> Layout:
    """Return a layout over walls that are found otherwise than surveyed.

    Parameters
    ----------
    layout
        The set-out. [mm]
    walls
        The walls as they are found. [mm]
    system
        The material, for gaps and laps. [mm]

    Returns
    -------
    Layout
        The same courses and phases; the fields are new. [mm]

    Notes
    -----
    Source: as `set_field`.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_system
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> layout_on(layout, walls, system) == layout
    True
    """
    by_name = {wall.name: wall for wall in walls.walls}
    return replace(
        layout,
        walls=tuple(
            replace(
                on,
                field=set_field(
                    by_name[on.name],
                    (on.field.left, on.field.right),
                    system,
                    top=top_of(layout, on.name),
                    lattice=None if layout.pattern else lattice_on(layout, on),
                ),
            )
            for on in layout.walls
        ),
    )


def remade(
    site: Site, layout: Layout, walls: Walls, pieces: Sequence[Piece], system: System
) -> tuple[Piece, ...]:
    """Cut what does not hang yet to the walls as they are found.

    Parameters
    ----------
    site
        Where the work stands: what hangs, and the lines found off. [mm]
    layout
        The set-out over the walls as found. [mm]
    walls
        The walls as found. [mm]
    pieces
        The pieces of the plan so far, in the order of setting. [mm]
    system
        The material, for its edges. [mm]

    Returns
    -------
    tuple of Piece
        Those that hang, as they are; the others made anew, under the tags that they had. [mm]

    Notes
    -----
    Courses above a line that was found off move with it (`move_above`): the wall is moved the
    other way, cut as ever, and the pieces are moved back. What no piece so far lies in gets a
    tag of its own after the last of its course. Source: own derivation.

    Examples
    --------
    >>> from gaugerod.core.cutting.make import make_pieces
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> pieces = make_pieces(layout, walls, system)
    >>> site = Site(job=sample_job(), walls=walls, done=frozenset({"L1-1"}))
    >>> remade(site, layout, walls, pieces, system) == pieces
    True
    """
    by_name = {wall.name: wall for wall in walls.walls}
    layouts = {on.name: on for on in layout.walls}
    case = _Case(layout=layout, system=system, doubts=doubts_of(walls, layout, system))
    old: dict[str, list[Piece]] = defaultdict(list)
    for piece in pieces:
        old[piece.wall].append(piece)
    made: list[Piece] = []
    for name in layout.order:
        on = layouts[name]
        fresh = _fresh(case, on, by_name[name], site.lines.get(name, ()))
        made += _tagged(list(fresh), old[name], site.done, layout, on)
    return tuple(made)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Case:
    """What all walls share. [mm]."""

    layout: Layout
    system: System
    doubts: Doubts


def _fresh(
    case: _Case, on: WallLayout, wall: FittedWall, lines: tuple[Line, ...]
) -> Iterator[Piece]:
    """Yield the pieces of a wall, course by course as its lines have them."""
    joint = case.layout.pitch[1] - case.layout.face[1]
    moves = [(0, STILL), *((line.course, move_above(line, joint=joint)) for line in lines)]
    ends = [*(course for course, _ in moves[1:]), None]
    for (below, move), last in zip(moves, ends, strict=True):
        moved = move != STILL
        here = pieces_on_wall(
            case.layout,
            _back(on, move) if moved else on,
            _holes_back(wall, move) if moved else wall,
            case.system,
            case.doubts,
            thin=THIN,
        )
        for piece in here:
            if piece.course > below and (last is None or piece.course <= last):
                yield _moved(piece, move) if moved else piece


def _back(on: WallLayout, move: Move) -> WallLayout:
    field = on.field
    regions = tuple(map(move.region_back, field.regions))
    return replace(on, field=replace(field, regions=regions, gross=move.region_back(field.gross)))


def _holes_back(wall: FittedWall, move: Move) -> FittedWall:
    def back(hole: FittedHole) -> FittedHole:
        x, y = move.back((hole.x, hole.y))
        return replace(hole, x=x, y=y)

    return replace(wall, holes=tuple(map(back, wall.holes)))


def _moved(piece: Piece, move: Move) -> Piece:
    c = piece.cell
    ring = ((c.left, c.bottom), (c.right, c.bottom), (c.right, c.top), (c.left, c.top))
    return replace(
        piece,
        region=move.region(piece.region),
        cell=bounds_of((tuple(map(move.point, ring)),)),
        tilt=move.tilt,
    )


def _tagged(
    fresh: list[Piece],
    old: list[Piece],
    done: frozenset[str],
    layout: Layout,
    on: WallLayout,
) -> list[Piece]:
    """Give pieces the tags that they had; what hangs takes the place of what is made anew."""
    at: dict[Key, list[Piece]] = defaultdict(list)
    for piece in old:
        at[_key(piece, layout, on)].append(piece)
    last = {piece.course: max(p.place for p in old if p.course == piece.course) for piece in old}
    made: list[Piece] = [piece for piece in old if piece.tag in done]
    for piece in fresh:
        had = at[_key(piece, layout, on)]
        same = max(had, key=lambda one: _shared(one, piece), default=None)
        if same and (_shared(same, piece) > LEAST_AREA or len(had) == 1):
            had.remove(same)
            if same.tag not in done:
                made.append(_under_tag(same, piece))
        else:
            last[piece.course] = place = last.get(piece.course, 0) + 1
            tag = f"{piece.wall}{piece.course}-{place}"
            made.append(replace(piece, tag=tag, place=place))
    return sorted(made, key=lambda piece: (piece.course, bounds_of(piece.region.rings).left))


def _under_tag(same: Piece, piece: Piece) -> Piece:
    """Return a piece made anew under the tag it had; for a hair nothing is marked anew."""
    if not alike(same, piece):
        return replace(piece, tag=same.tag, place=same.place)
    if same.cell == piece.cell:
        return same
    return replace(same, region=piece.region, cell=piece.cell, tilt=piece.tilt)


def _key(piece: Piece, layout: Layout, on: WallLayout) -> Key:
    """Say from which module of the set-out a piece is cut, whatever it has moved."""
    cell: Box = piece.cell
    x, y = (cell.left + cell.right) / 2, (cell.bottom + cell.top) / 2
    if layout.pattern:
        return piece.wall, piece.course, round(x), round(y)
    start = on.phase + (piece.course - 1) * on.row_shift + layout.face[0] / 2
    return piece.wall, piece.course, round((x - start) / layout.pitch[0]), 0


def _shared(one: Piece, other: Piece) -> float:
    return float(shapely.area(shapely.intersection(shape_of(one.region), shape_of(other.region))))
