"""By how much a layout keeps each hard limit on one wall, place by place.

What the plan settles stays as it is planned while the wall moves: which modules lie where, the
height of the course lines from the datum, the phase from the left corner at the datum, and the
heights between which an edge is straight.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from math import inf
from typing import NamedTuple

import numpy as np

from gaugerod.core.base.geometry import SNAP, Box, Edge
from gaugerod.core.job.fields import Side
from gaugerod.core.job.materials import Meets, System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.again import batch_on
from gaugerod.core.setout.beside import at_steps, holes_of
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.lattice import key_at
from gaugerod.core.setout.layout import Layout, WallLayout
from gaugerod.core.setout.levels import is_rake, tall_sides
from gaugerod.core.setout.openings import opening_boxes
from gaugerod.core.setout.strips import Batch, meets_at
from gaugerod.core.survey.decks import deck_stretches
from gaugerod.core.survey.walls import FittedHole, FittedWall

UNPRICED = Looks(sliver=0, unequal=0, front_cut=0, off_jamb=0, near_hole=0)
"""Limits do not ask what looks are worth."""


class Margin(NamedTuple):
    """What is left over of one limit at one place, negative where it is broken. [mm].

    `there` is untrue of a strip that the layout does not leave.
    """

    limit: str
    value: float
    there: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One course as planned: its first and last module, and where its rims are looked at. [mm].

    `first` and `last` are left edges of modules, one and the same where the row is a single
    piece. `left` and `right` are heights from the datum, `narrow` those of each where the end
    piece is narrowest. A step of the deck or a slope of the ceiling ends the row at `stop` and
    lets it go on at `begin`, endless where there is none.
    """

    course: int
    first: float
    last: float
    left: tuple[float, ...]
    right: tuple[float, ...]
    narrow: tuple[float, float]
    stop: float
    begin: float

    @property
    def alone(self) -> bool:
        """Whether one module makes the row from rim to rim."""
        return abs(self.first - self.last) < SNAP and self.stop == inf


@dataclass(frozen=True, slots=True, kw_only=True)
class Opened:
    """An opening as planned, and how far each of its edges was eased from where it is. [mm].

    `gap` is the joint round it, nought where the lining is cut up to it.
    """

    box: Box
    eased: Box
    gap: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Planned:
    """A layout on one wall: what stays as it is while the wall moves. [mm].

    `deducts` are what the field leaves at the left and right edge of the wall.
    """

    batch: Batch
    deducts: tuple[float, float]
    rows: tuple[Row, ...]
    openings: tuple[Opened, ...]

    @property
    def system(self) -> System:
        """The material."""
        return self.batch.case.system

    def hidden(self, side: Side, meets: Meets) -> bool:
        """Tell whether a module's own edge may stay at a side: no groove, or one that is hid."""
        grooved = key_at(self.system, side, self.batch.case.turn) == "groove"
        return not grooved or meets in self.system.gaps.hides_key


def planned(layout: Layout, on_wall: WallLayout, wall: FittedWall, system: System) -> Planned:
    """Return what a layout settles on one wall.

    Parameters
    ----------
    layout
        The set-out. [mm]
    on_wall
        Its lattice and field on the wall. [mm]
    wall
        The wall as fitted. [mm]
    system
        The material. [mm]

    Returns
    -------
    Planned
        Courses, end modules and openings. [mm]

    Notes
    -----
    Source: own design, ``docs/theory/odds.md``.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> found = planned(layout, layout.walls[1], walls.walls[1], system)
    >>> [row.course for row in found.rows]
    [1, 2, 3, 4, 5]
    """
    field = on_wall.field
    batch = batch_on(layout, on_wall, wall, system, UNPRICED)
    return Planned(
        batch=batch,
        deducts=(deduct(field.left, system), deduct(field.right, system)),
        rows=tuple(_rows(batch)),
        openings=tuple(_openings(batch)),
    )


def _rows(batch: Batch) -> Iterator[Row]:
    for course in batch.courses:
        ys = batch.span(course)
        lefts, rights = batch.rims(course)
        left, right = _heights(batch.left, ys), _heights(batch.right, ys)
        taken = list(batch.taken(course))
        yield Row(
            course=course,
            first=float(batch.first_left(course, min(lefts))[0]),
            last=float(batch.last_left(course, max(rights))[0]),
            left=left,
            right=right,
            narrow=(max(left, key=batch.left.at), min(right, key=batch.right.at)),
            stop=min((start for start, _ in taken), default=inf),
            begin=max((end for _, end in taken), default=-inf),
        )


def _heights(edge: Edge, ys: tuple[float, float]) -> tuple[float, ...]:
    """Return the heights between which an edge is straight. [mm]."""
    return (*ys, *(y for y, _ in edge.bow if ys[0] < y < ys[1]))


def _openings(batch: Batch) -> Iterator[Opened]:
    """Yield the openings that reach into the field, in the order of the wall's own."""
    wall, system = batch.case.wall, batch.case.system
    boxes = zip(wall.openings, opening_boxes(wall, system), strict=True)
    inside = (pair for pair in boxes if pair[1].bottom < batch.box.top - SNAP)
    for (opening, box), hole in zip(inside, holes_of(batch), strict=True):
        left, right = float(hole.left[0]), float(hole.right[0])
        eased = Box(
            left=left - box.left,
            right=right - box.right,
            bottom=hole.bottom - box.bottom,
            top=hole.top - box.top,
        )
        yield Opened(
            box=Box(left=left, bottom=hole.bottom, right=right, top=hole.top),
            eased=eased,
            gap=system.gaps.opening if opening.gap is None else opening.gap,
        )


def rim(plan: Planned, wall: FittedWall, side: Side, y: float) -> float:
    """Return where the rim of the field lies on a wall that has moved.

    Parameters
    ----------
    plan
        The layout on the wall.
    wall
        The wall as it is. [mm]
    side
        ``left`` or ``right``.
    y
        Height from the datum. [mm]

    Returns
    -------
    float
        Station from the left corner at the datum. [mm]

    Notes
    -----
    Source: own derivation; the edge less what the field leaves there, as `set_field`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> wall = walls.walls[1]
    >>> rim(planned(layout, layout.walls[1], wall, system), wall, "left", 0.0)
    14.2875
    """
    if side == "left":
        return wall.left.at(y) + plan.deducts[0]
    return wall.right.at(y) - plan.deducts[1]


def margins(plan: Planned, wall: FittedWall) -> tuple[Margin, ...]:
    """Return what is left over of every hard limit on a wall that has moved.

    Parameters
    ----------
    plan
        The layout on the wall.
    wall
        The wall as it is; as fitted it gives the margins of the plan. [mm]

    Returns
    -------
    tuple of Margin
        One for each limit and place, in the same order for every state of the wall. [mm]

    Notes
    -----
    The limits are those of `score_phases`, taken apart until each is a smooth figure: one for
    each course, side and height where an edge may bend, each point of deck and ceiling, each
    joint next to a hole. To them comes the room over a keyed top course that the ceiling does
    not cut: it is lifted over the tongue below. Source: own derivation, ``docs/theory/odds.md``.

    Examples
    --------
    The first course is 287.3 high at the low point; where the deck is 6 higher, 281.3 are
    left, and the least is 50:

    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> wall = walls.walls[1]
    >>> found = margins(planned(layout, layout.walls[1], wall, system), wall)
    >>> round(min(margin.value for margin in found if margin.limit == "under-least"), 1)
    231.3
    """
    parts = (_ends, _levels, _stepped, _beside, _at_holes, _lift)
    return tuple(margin for part in parts for margin in part(plan, wall))


def _ends(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield the margins of the end pieces of every course."""
    face, cutting = plan.batch.lattice.face[0], plan.system.cutting
    left_met, right_met = plan.batch.case.met
    left_free = plan.hidden("left", meets_at(left_met))
    right_free = plan.hidden("right", meets_at(right_met))
    for row in plan.rows:
        lefts = [rim(plan, wall, "left", y) for y in row.left]
        rights = [rim(plan, wall, "right", y) for y in row.right]
        # A row that a step or a slope takes up to the rim has no end piece there.
        there = row.stop > -inf, row.begin < inf
        for x in lefts:
            reach = min(rights) if row.alone else min(row.first + face, row.stop)
            size = reach - max(x, row.first) if there[0] else 0.0
            yield Margin("under-least", size - cutting.least, there[0])
            if not left_free:
                yield Margin("groove-left", x - row.first - cutting.groove_off, there[0])
        for x in rights:
            start = max(lefts) if row.alone else max(row.last, row.begin)
            size = min(x, row.last + face) - start if there[1] else 0.0
            yield Margin("under-least", size - cutting.least, there[1])
            if not right_free:
                yield Margin("groove-left", row.last + face - x - cutting.groove_off, there[1])


def _levels(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield the margins of the first course over the deck and of the last under the ceiling."""
    batch, lattice = plan.batch, plan.batch.lattice
    gaps, cutting = plan.system.gaps, plan.system.cutting
    for was, stretch in zip(batch.steps, deck_stretches(wall), strict=True):
        if was.low < batch.box.top - SNAP:
            first = lattice.courses(bottom=was.low, top=batch.box.top)[0]
            head = min(lattice.row_top(first), batch.box.top)
            for deck in (y + gaps.deck for _, y in stretch.points):
                yield Margin("under-least", head - deck - cutting.least)
                if not plan.hidden("bottom", "deck"):
                    lost = deck - lattice.row_bottom(first)
                    yield Margin("groove-left", lost - cutting.groove_off)
    yield from _tops(plan, wall)


def _tops(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield those of the last course under what is level: parts of the ceiling, a finish line."""
    batch, lattice, top = plan.batch, plan.batch.lattice, plan.batch.case.top
    gap, cutting = plan.system.gaps.ceiling, plan.system.cutting
    last = batch.courses[-1]
    level = {
        i + end
        for i, ends in enumerate(pairwise(batch.case.wall.ceiling))
        if not is_rake(*ends)
        for end in (0, 1)
    }
    ceilings = [wall.ceiling[i][1] - gap for i in sorted(level)]
    for y in (top, *ceilings):
        yield Margin("under-least", y - lattice.row_bottom(last) - cutting.least, bool(level))
    if not plan.hidden("top", "top"):
        head = min(top, max(ceilings, default=top))
        yield Margin("groove-left", lattice.row_top(last) - head - cutting.groove_off, bool(level))


def _stepped(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield the margins of what ends under a slope, and of strips beside steps as they stand."""
    least = plan.system.cutting.least
    yield from (Margin("under-least", size - least) for size in tall_sides(plan.batch, wall))
    strips = (float(s.size[0]) for s in at_steps(plan.batch, holes_of(plan.batch)))
    yield from (Margin("under-least", size - least) for size in strips if size < inf)


def _beside(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield the margins of the strips and legs that openings leave."""
    batch, (face_w, face_h) = plan.batch, plan.batch.lattice.face
    boxes = moved_boxes(plan, wall)
    for was, box in zip(plan.openings, boxes, strict=True):
        low, high = max(was.box.bottom, batch.box.bottom), min(was.box.top, batch.box.top)
        rows = batch.lattice.courses(bottom=low, top=high)
        bottom, top = batch.lattice.row_bottom(rows[0]), batch.lattice.row_top(rows[-1])
        clear = _clear(plan, wall, boxes, box, span=(bottom, top))
        for course in rows:
            left = float(batch.first_left(course, was.box.left)[0])
            right = float(batch.last_left(course, was.box.right)[0])
            size, lost = box.left - max(left, clear.left), left + face_w - box.left
            yield from _strip(plan, "right", size, lost)
            size, lost = min(right + face_w, clear.right) - box.right, box.right - right
            yield from _strip(plan, "left", size, lost)
        below = box.bottom - max(bottom, clear.bottom)
        yield from _strip(plan, "top", below, bottom + face_h - box.bottom)
        above = min(top, clear.top) - box.top
        yield from _strip(plan, "bottom", above, box.top - top + face_h)


def moved_boxes(plan: Planned, wall: FittedWall) -> list[Box]:
    """Return the openings of a wall that has moved, each edge eased as far as it is planned.

    Parameters
    ----------
    plan
        The layout on the wall.
    wall
        The wall as it is. [mm]

    Returns
    -------
    list of Box
        The openings that reach into the field, with the joint round them. [mm]

    Notes
    -----
    Source: own design; see `ease`.

    Examples
    --------
    >>> from gaugerod.core.setout.sample import sample_layout
    >>> walls, layout, system = sample_layout()
    >>> wall = walls.walls[1]
    >>> moved_boxes(planned(layout, layout.walls[1], wall, system), wall)
    []
    """
    # As many as were planned: a hair does not lift an opening into the field or out of it.
    top = plan.batch.box.top - SNAP
    was = opening_boxes(plan.batch.case.wall, plan.system)
    now = opening_boxes(wall, plan.system)
    inside = (new for old, new in zip(was, now, strict=True) if old.bottom < top)
    return [
        Box(
            left=box.left + opened.eased.left,
            right=box.right + opened.eased.right,
            bottom=box.bottom + opened.eased.bottom,
            top=box.top + opened.eased.top,
        )
        for box, opened in zip(inside, plan.openings, strict=True)
    ]


def _clear(
    plan: Planned, wall: FittedWall, boxes: list[Box], box: Box, *, span: tuple[float, float]
) -> Box:
    """Return how far the lining reaches round an opening: to the rim, or to another opening."""
    batch, gaps = plan.batch, plan.system.gaps
    ys = max(span[0], batch.box.bottom), min(span[1], batch.box.top)
    level = [other for other in boxes if other.bottom < ys[1] and other.top > ys[0]]
    over = [other for other in boxes if other.left < box.right and other.right > box.left]
    lefts = [rim(plan, wall, "left", y) for y in _heights(wall.left, ys)]
    rights = [rim(plan, wall, "right", y) for y in _heights(wall.right, ys)]
    under = zip(batch.steps, deck_stretches(wall), strict=True)
    over_it = [s for was, s in under if was.left < box.right and was.right > box.left]
    decks = [stretch.high + gaps.deck for stretch in over_it]
    xs, ys = zip(*wall.ceiling, strict=True)
    ceiling = [float(np.interp(x, xs, ys)) for x in (box.left, box.right)]
    ceiling += [y for x, y in wall.ceiling if box.left < x < box.right]
    ceilings = [batch.box.top, *(y - gaps.ceiling for y in ceiling)]
    return Box(
        left=max(*lefts, *(other.right for other in level if other.right <= box.left)),
        right=min(*rights, *(other.left for other in level if other.left >= box.right)),
        bottom=max([*decks, *(other.top for other in over if other.top <= box.bottom)]),
        top=min(*ceilings, *(other.bottom for other in over if other.bottom >= box.top)),
    )


def _strip(plan: Planned, side: Side, size: float, lost: float) -> Iterator[Margin]:
    there = size > SNAP
    yield Margin("under-least", size - plan.system.cutting.least, there)
    if not plan.hidden(side, "opening"):
        yield Margin("groove-left", lost - plan.system.cutting.groove_off, there)


def _at_holes(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield how far the joints next to each hole keep from it; tile may have them under a plate."""
    if plan.system.kind != "grouted":
        for was, hole in zip(plan.batch.case.wall.holes, wall.holes, strict=True):
            reach = hole.diameter / 2 + plan.system.gaps.hole_clear
            for line in _lines_near(plan, was, reach):
                yield Margin("joint-at-hole", abs(line - hole.y) - reach)
            for joint in _joints_near(plan, was, reach):
                yield Margin("joint-at-hole", abs(joint - hole.x) - reach)


def _lines_near(plan: Planned, hole: FittedHole, reach: float) -> Iterator[float]:
    """Yield the course lines that could come near a hole. [mm]."""
    lattice = plan.batch.lattice
    for course in plan.batch.courses[:-1]:
        over = hole.y > lattice.row_top(course)
        line = lattice.row_bottom(course + 1) if over else lattice.row_top(course)
        if abs(line - hole.y) < reach + plan.batch.lattice.pitch[1]:
            yield line


def _joints_near(plan: Planned, hole: FittedHole, reach: float) -> Iterator[float]:
    """Yield the joints left and right of a hole in the courses that it lies in. [mm]."""
    batch = plan.batch
    low, high = max(hole.y - reach, batch.box.bottom), min(hole.y + reach, batch.box.top)
    for course in batch.lattice.courses(bottom=low + SNAP, top=high - SNAP):
        left = float(batch.last_left(course, hole.x)[0])
        yield from (left, left + batch.lattice.face[0])


def _lift(plan: Planned, wall: FittedWall) -> Iterator[Margin]:
    """Yield the room over a keyed top course that keeps its own top edge."""
    if plan.system.kind == "keyed":
        line = plan.batch.lattice.row_top(plan.batch.courses[-1])
        was = plan.batch.case.wall.ceiling
        uncut = line <= plan.batch.case.top + SNAP
        for (_, planned_y), (_, y) in zip(was, wall.ceiling, strict=True):
            if uncut and line <= planned_y - plan.system.gaps.ceiling + SNAP:
                yield Margin("no-lift", y - line - plan.system.key_depth)
