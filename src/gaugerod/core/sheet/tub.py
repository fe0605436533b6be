"""What the walls stand round: the tub as a plain block, seats and ledges on it, the floor.

Nobody reads a tub but at its rim. Its front is where the end walls end; what no reading says is
drawn at a usual size.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from math import dist

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from gaugerod.core.base.geometry import Point, Region, regions_of, shape_of
from gaugerod.core.sheet.space import Frame
from gaugerod.core.survey.decks import deck_stretches
from gaugerod.core.survey.walls import Walls

_HIGH = 400.0  # a rim over a floor that nobody read [mm]
_DEEP = 760.0  # a tub before a wall without end walls [mm]
_RIM = 70.0  # width of the rim [mm]
_ROUND = 130.0  # radius of the basin's corners [mm]
_FOOT = 60.0  # the basin's bottom over the floor [mm]
_SEAT = 250.0  # how far a ledge on one wall stands out, at most [mm]
_FRONT = 250.0  # how much floor shows before the tub [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Block:
    """An upright block by its plan; its top is the plane ``a + b x + c y``. [mm, 1, 1]."""

    plan: Region
    bottom: float
    top: tuple[float, float, float]

    def height(self, point: Point) -> float:
        """Return the height of the top over a place in plan.

        Parameters
        ----------
        point
            The place. [mm]

        Returns
        -------
        float
            Height from the datum. [mm]

        Notes
        -----
        Source: equation of a plane.

        Examples
        --------
        >>> plan = Region(rings=(((0, 0), (9, 0), (9, 9)),))
        >>> Block(plan=plan, bottom=-5.0, top=(1.0, 0.5, 0.0)).height((8.0, 0.0))
        5.0
        """
        level, across, into = self.top
        return level + across * point[0] + into * point[1]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stand:
    """The tub, the bottom of its basin, seats on it, and the floor, a region at `level`. [mm].

    Where all walls go down to the floor there is no tub; one too narrow has no basin.
    """

    tub: Block | None
    basin: Block | None
    seats: tuple[Block, ...]
    floor: Region
    level: float


def stand(walls: Walls, frames: Mapping[str, Frame]) -> Stand:
    """Return what the walls stand round.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    frames
        The frames of its walls. [mm]

    Returns
    -------
    Stand
        Tub, seats and floor. [mm]

    Notes
    -----
    The plan of the tub runs along all walls but down legs to the floor, and closes straight
    across at the foremost end. Its rim is the plane nearest to the deck. A seat round a corner
    is closed to a parallelogram; how far a ledge on one wall stands out nobody read: half its
    length, 250 mm at most. Where the floor was not read the rim is 400 mm over it; before walls
    without an end wall the tub is 760 mm deep. Source: own design; sizes are common practice, no
    source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job
    >>> from gaugerod.core.sheet.space import wall_frames
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> walls = fit_walls(sample_job())
    >>> len(stand(walls, wall_frames(walls)).tub.plan.rings)
    2
    """
    spots = tuple(_spots(walls, frames))
    rim = [spot for spot in spots if spot.part == "rim"] or spots
    top = _plane([(*spot.at, spot.height) for spot in rim])
    low = min(spot.height for spot in spots)
    level = low - _HIGH if walls.floor is None else walls.floor
    outer = _outline([spot.at for spot in spots if spot.part != "floor"])
    inner = outer.buffer(-_RIM).buffer(-_ROUND).buffer(_ROUND, quad_segs=6)
    foot = min(level + _FOOT, low - _FOOT / 2)
    return Stand(
        tub=_block(outer - _largest(inner), bottom=level, top=top),
        basin=_block(inner, bottom=foot, top=(foot, 0.0, 0.0)),
        seats=tuple(_seats(spots, top)),
        floor=_floor(spots, outer),
        level=level,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Spot:
    """An end of a stretch of deck: where it is in plan, and how high. [mm]."""

    wall: str
    part: str
    at: Point
    height: float
    out: Point


def _spots(walls: Walls, frames: Mapping[str, Frame]) -> Iterator[_Spot]:
    for wall in walls.walls:
        frame = frames[wall.name]
        for stretch in deck_stretches(wall):
            for x, y in stretch.points:
                px, py, _ = frame.at(x, y)
                yield _Spot(
                    wall=wall.name,
                    part=stretch.part,
                    at=(px, py),
                    height=y,
                    out=(frame.out[0], frame.out[1]),
                )


def _plane(points: Sequence[tuple[float, float, float]]) -> tuple[float, float, float]:
    """Return the plane nearest to points, the flattest of them where they lie on one line."""
    x, y, z = np.array(points).T
    middle = float(z.mean())
    slopes = np.linalg.lstsq(np.column_stack([x - x.mean(), y - y.mean()]), z - middle, rcond=1e-9)[
        0
    ]
    across, into = float(slopes[0]), float(slopes[1])
    return middle - across * float(x.mean()) - into * float(y.mean()), across, into


def _outline(along: Sequence[Point]) -> BaseGeometry:
    """Close the way along the walls across its foremost end."""
    if not along:
        return Polygon()
    back, front = max(y for _, y in along), min(y for _, y in along)
    if back - front < _DEEP / 4:
        front = back - _DEEP
    closed = Polygon([*along, (along[-1][0], front), (along[0][0], front)])
    return _largest(closed.buffer(0).simplify(1.0))


def _largest(shape: BaseGeometry) -> BaseGeometry:
    """Return the largest part of a shape; an empty shape where it has none to speak of."""
    parts = [shape_of(region) for region in regions_of(shape)]
    return max(parts, key=lambda part: part.area, default=Polygon())


def _block(shape: BaseGeometry, *, bottom: float, top: tuple[float, float, float]) -> Block | None:
    plans = regions_of(_largest(shape))
    return Block(plan=plans[0], bottom=bottom, top=top) if plans else None


def _seats(spots: Sequence[_Spot], rim: tuple[float, float, float]) -> Iterator[Block]:
    level, across, into = rim
    for part, group in groupby(spots, key=lambda spot: spot.part):
        run = list(group)
        if part not in {"rim", "floor"}:
            height = float(np.mean([spot.height for spot in run]))
            foot = level + across * run[0].at[0] + into * run[0].at[1]
            for plan in regions_of(_seat(run)):
                yield Block(plan=plan, bottom=min(foot, height), top=(height, 0.0, 0.0))


def _seat(run: Sequence[_Spot]) -> Polygon:
    """Return the plan of a seat: out from one wall, or between the walls of its corners."""
    first, last = run[0].at, run[-1].at
    corners = [before.at for before, after in pairwise(run) if before.wall != after.wall]
    if not corners:
        reach = min(_SEAT, dist(first, last) / 2)
        x, y = run[0].out[0] * reach, run[0].out[1] * reach
        return Polygon([first, (first[0] + x, first[1] + y), (last[0] + x, last[1] + y), last])
    fourth = (first[0] + last[0] - corners[0][0], first[1] + last[1] - corners[0][1])
    closing = [fourth] if len(corners) == 1 else []
    return Polygon([first, *corners, last, *closing])


def _floor(spots: Sequence[_Spot], tub: BaseGeometry) -> Region:
    xs, ys = zip(*(spot.at for spot in spots), *shapely.get_coordinates(tub), strict=True)
    left, right, front, back = min(xs), max(xs), min(ys) - _FRONT, max(ys)
    return Region(rings=(((left, front), (right, front), (right, back), (left, back)),))
