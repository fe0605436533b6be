"""What one day on site adds to the state of the work."""

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

from gaugerod.core.base.geometry import bounds_of
from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.cutting.insides import pieces_inside
from gaugerod.core.cutting.pieces import Piece
from gaugerod.core.job.document import Job, Wall
from gaugerod.core.job.faults import InconsistentError, Place, words_of
from gaugerod.core.job.on_site import FoundGap, FoundLine, FoundReading, SiteDay
from gaugerod.core.pipeline import Plan
from gaugerod.core.replan.line import Line
from gaugerod.core.replan.rim import moved_edge
from gaugerod.core.replan.site import OFF_KEPT, Site
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.layout import WallLayout, lattice_on
from gaugerod.core.survey.fit import fit_walls
from gaugerod.core.survey.naming import named

_COURSE = re.compile(r"(?P<wall>[A-Z]{1,2})(?P<course>[1-9][0-9]*)?")

FAR_OFF = 100.0
"""A gap that is off by more is not where it was told to be. [mm]"""


def after_day(site: Site, plan: Plan, day: SiteDay, number: int) -> Site:
    """Return the state of the work after a day.

    Parameters
    ----------
    site
        The state before it. [mm]
    plan
        The plan before it. [mm]
    day
        What was done and found. [mm]
    number
        Which day it is, from 0. [1]

    Returns
    -------
    Site
        The state after it. [mm]

    Raises
    ------
    InconsistentError
        A tag, wall, course or reading is not of this plan; a line is told of a course that
        does not hang yet, or a gap of one that is closed or not begun.

    Notes
    -----
    Source: own design.

    Examples
    --------
    >>> from gaugerod.core.replan.sample import sample_plan
    >>> made = sample_plan()
    >>> site = Site(job=made.job, walls=made.walls)
    >>> sorted(after_day(site, made, SiteDay(set=("B1",)), 0).done)
    ['B1-1', 'B1-2', 'B1-3']
    """
    every = (*plan.pieces, *pieces_inside(plan.insides))
    done = site.done | _tags(day.set, every, day, ("day", number, "set"))
    cut = (site.cut | _tags(day.cut, every, day, ("day", number, "cut"))) - done
    site = replace(site, done=done, cut=cut, broken=site.broken + day.broken)
    site = replace(site, broken_of=_broken(site, plan, day, ("day", number, "broken_of")))
    for place, line in enumerate(day.line):
        site = _with_line(site, plan, line, _At(day, ("day", number, "line", place)))
    for place, gap in enumerate(day.gap):
        site = _with_gap(site, plan, gap, _At(day, ("day", number, "gap", place)))
    job = site.job
    for place, reading in enumerate(day.reading):
        job = _with_reading(job, reading, _At(day, ("day", number, "reading", place)))
    return replace(site, job=job, walls=fit_walls(job)) if day.reading else site


def _broken(site: Site, plan: Plan, day: SiteDay, at: Place) -> dict[str, int]:
    """Return what broke of other products so far, and on this day."""
    others = [system.id for system in plan.products.systems[1:]]
    for product in day.broken_of:
        if product not in others:
            known = ", ".join(others) or Message("job.none")
            wrong = Message("replan.no-such-product", read=product, known=known)
            raise _At(day, (*at, product)).refuse(wrong)
    return dict(Counter(site.broken_of) + Counter(day.broken_of))


class _At:
    """A place of the days on site, to complain of."""

    def __init__(self, day: SiteDay, at: Place) -> None:
        self.day, self.at = day, at

    def refuse(self, wrong: Message) -> InconsistentError:
        """Make the error that refuses what stands there."""
        days = {"day": {self.at[1]: self.day.model_dump(by_alias=True)}}
        where = words_of(days, self.at)
        return InconsistentError(Message("job.at", where=where, wrong=wrong), at=self.at)


def _tags(
    names: Iterable[str], every: tuple[Piece, ...], day: SiteDay, at: Place
) -> frozenset[str]:
    """Return the tags that names stand for: a piece, a course of a wall, a wall."""
    known = {piece.tag for piece in every}
    found: set[str] = set()
    for place, name in enumerate(names):
        tags = {name} & known or set(_of_course(name, every))
        if not tags:
            first = min((p.tag for p in every), default="B1-1")
            wrong = Message("replan.no-such-piece", read=name, example=first)
            raise _At(day, (*at, place)).refuse(wrong)
        found |= tags
    return frozenset(found)


def _of_course(name: str, every: tuple[Piece, ...]) -> Iterator[str]:
    matched = _COURSE.fullmatch(name)
    if matched:
        wall, course = matched["wall"], matched["course"]
        for piece in every:
            if piece.wall == wall and course in {None, str(piece.course)}:
                yield piece.tag


def _on_wall(plan: Plan, name: str, at: _At) -> WallLayout:
    for wall in plan.layout.walls:
        if wall.name == name:
            return wall
    known = ", ".join(wall.name for wall in plan.layout.walls)
    raise at.refuse(Message("replan.no-such-wall", read=name, known=known))


def _of(plan: Plan, wall: str, course: int) -> list[Piece]:
    """Return the pieces of a course, from left to right."""
    here = [piece for piece in plan.pieces if (piece.wall, piece.course) == (wall, course)]
    return sorted(here, key=lambda piece: bounds_of(piece.region.rings).left)


def _with_line(site: Site, plan: Plan, line: FoundLine, at: _At) -> Site:
    wall = _on_wall(plan, line.wall, at)
    if plan.layout.pattern:
        raise at.refuse(Message("replan.no-courses"))
    pieces = _of(plan, line.wall, line.course)
    missing = [piece.tag for piece in pieces if piece.tag not in site.done]
    if not pieces or missing:
        tags: Value = ", ".join(missing) or Message("replan.none")
        raise at.refuse(Message("replan.line-too-soon", course=line.course, missing=tags))
    if any(
        p.tag in site.done and p.course > line.course and p.wall == line.wall for p in plan.pieces
    ):
        raise at.refuse(Message("replan.line-too-late", course=line.course))
    found = Line(
        course=line.course,
        height=lattice_on(plan.layout, wall).row_top(line.course),
        left=bounds_of(pieces[0].region.rings).left,
        right=bounds_of(pieces[-1].region.rings).right,
        off=(line.left, line.right),
    )
    before = [one for one in site.lines.get(line.wall, ()) if one.course < line.course]
    return replace(site, lines={**site.lines, line.wall: (*before, found)})


def _with_gap(site: Site, plan: Plan, gap: FoundGap, at: _At) -> Site:
    on = _on_wall(plan, gap.wall, at)
    if plan.layout.pattern:
        raise at.refuse(Message("replan.no-courses"))
    pieces = _of(plan, gap.wall, gap.course)
    ordered = pieces if gap.side == "right" else pieces[::-1]
    hang = [place for place, piece in enumerate(ordered) if piece.tag in site.done]
    if not hang or hang[-1] == len(ordered) - 1:
        why = "closed" if hang else "not-begun"
        raise at.refuse(Message(f"replan.gap-{why}", course=gap.course, side=gap.side))
    box = bounds_of(ordered[hang[-1]].region.rings)
    (wall,) = (one for one in plan.walls.walls if one.name == gap.wall)
    y = (box.bottom + box.top) / 2
    left = gap.side == "left"
    meeting, edge = (on.field.left, wall.left) if left else (on.field.right, wall.right)
    taken = deduct(meeting, plan.system)
    kept = getattr(plan.system.gaps, OFF_KEPT[meeting]) if meeting in OFF_KEPT else 0.0
    rim = edge.at(y) + (taken if left else -taken)
    left_over = (box.left - rim if left else rim - box.right) + kept
    if abs(left_over - gap.reads) > FAR_OFF:
        wrong = Message("replan.gap-far", read=Length(gap.reads), planned=Length(left_over))
        raise at.refuse(wrong)
    off = (left_over - gap.reads) if left else (gap.reads - left_over)
    key = (gap.wall, gap.side)
    # The rim may have been moved before: what is off now comes on top there.
    moved = [(height, by) for height, by in site.rims.get(key, ()) if height < y]
    total = off + _moved_by(site, key, y)
    return replace(site, rims={**site.rims, key: (*moved, (y, total))})


def _moved_by(site: Site, key: tuple[str, str], y: float) -> float:
    """Return how far the plan has moved a rim at a height already. [mm]."""
    (surveyed,) = (wall for wall in site.walls.walls if wall.name == key[0])
    edge = surveyed.left if key[1] == "left" else surveyed.right
    off = site.rims.get(key)
    return moved_edge(edge, off).at(y) - edge.at(y) if off else 0.0


def _with_reading(job: Job, found: FoundReading, at: _At) -> Job:
    names = [wall.name for wall in job.wall]
    if found.wall not in names:
        wrong = Message("replan.no-such-wall", read=found.wall, known=", ".join(names))
        raise at.refuse(wrong)
    walls = [_wall_with(wall, found, at) if wall.name == found.wall else wall for wall in job.wall]
    return job.model_copy(update={"wall": tuple(walls)})


def _wall_with(wall: Wall, found: FoundReading, at: _At) -> Wall:
    if found.instead_of is None:
        return wall.model_copy(update={"readings": (*wall.readings, found.reading)})
    ids = [name for name, _ in named(wall)]
    if found.instead_of not in ids:
        wrong = Message("replan.no-such-reading", read=found.instead_of, known=", ".join(ids[:6]))
        raise at.refuse(wrong)
    place = ids.index(found.instead_of)
    # Under the name that it replaces, so that the others keep theirs.
    reading = found.reading.model_copy(update={"id": found.instead_of})
    readings = (*wall.readings[:place], reading, *wall.readings[place + 1 :])
    return wall.model_copy(update={"readings": readings})
