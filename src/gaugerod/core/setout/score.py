"""How one lattice suits one wall: hard limits kept or broken, looks priced."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import ceil

from gaugerod.core.base.geometry import SNAP, Box, Edge, bounds_of
from gaugerod.core.job.fields import Side, Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.field import deduct
from gaugerod.core.setout.lattice import Lattice, key_at
from gaugerod.core.setout.layout import Meeting, SetField
from gaugerod.core.survey.walls import FittedWall

INCH = 25.4
"""Looks are agreed per inch of difference. [mm]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """What a wall is scored against."""

    wall: FittedWall
    field: SetField
    system: System
    turn: Turn
    looks: Looks


@dataclass(frozen=True, slots=True, kw_only=True)
class Strip:
    """One cut piece's least size across, the least cut off it, and where it is. [mm]."""

    where: Side
    size: float
    lost: float
    whole: float
    meets: str
    count: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """Why a lattice is refused (empty when it is not), its price in looks, its end cuts.

    `looks` in [cents]; `ends` are the least widths at left and right over all courses. [mm].
    """

    refused: tuple[str, ...]
    looks: int
    ends: tuple[float, float]


def score(case: Case, lattice: Lattice) -> Score:
    """Score one lattice on one wall.

    Parameters
    ----------
    case
        The wall, its field, the material and the price of looks.
    lattice
        The lattice. [mm]

    Returns
    -------
    Score
        Limits broken, looks in cents, end cuts in mm.

    Notes
    -----
    Hard: no strip under the material's least; no joint in a keyed module's hole or nearer
    than its clearance; no groove left at an end that nothing hides. Soft: slivers under
    half a module, unequal ends, cut pieces at a front, jambs without a joint, joints of
    tile under a plate. Source: limits are the material's; balance after ANSI A108.02
    4.3.1 and 4.3.2; prices are the shop's own.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.setout.field import set_field
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> wall, system = fit_walls(sample_job()).walls[1], sample_system()
    >>> field = set_field(wall, ("butts", "runs behind"), system, top=1000.0)
    >>> case = Case(wall=wall, field=field, system=system, turn="lying",
    ...     looks=sample_rates().looks)
    >>> centred = Lattice(face=(600.0, 300.0), pitch=(600.0, 300.0), first_course=-470.0,
    ...     phase=455.5, row_shift=0.0)
    >>> [round(end) for end in score(case, centred).ends]
    [441, 441]
    """
    frame = _frame(case)
    ends = list(_ends(case, lattice, frame))
    strips = [*_sides(ends), *_levels(case, lattice, frame), *_beside(case, lattice, frame)]
    refused = [
        *(_strip_limit(case, strip) for strip in strips),
        *(_key_limit(case, strip) for strip in strips),
    ]
    near = sum(1 for _ in _near_holes(case, lattice, frame))
    if near and case.system.kind == "keyed":
        refused.append("joint-at-hole")
    looks = _looks(case, strips, ends)
    looks += near * case.looks.near_hole
    looks += case.looks.off_jamb * sum(1 for _ in _bare_jambs(case, lattice))
    return Score(
        refused=tuple(dict.fromkeys(reason for reason in refused if reason)),
        looks=round(looks),
        ends=(min(e[0].size for e in ends), min(e[1].size for e in ends)),
    )


Ends = tuple[Strip, Strip]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Frame:
    """The gross field: its bounds and its left and right edges. [mm]."""

    box: Box
    left: Edge
    right: Edge


def _frame(case: Case) -> _Frame:
    left, right = case.wall.left, case.wall.right
    moved_left = deduct(case.field.left, case.system)
    moved_right = deduct(case.field.right, case.system)
    return _Frame(
        box=bounds_of(case.field.gross.rings),
        left=replace(left, offset=left.offset + moved_left),
        right=replace(right, offset=right.offset - moved_right),
    )


def _ends(case: Case, lattice: Lattice, frame: _Frame) -> Iterator[Ends]:
    """Yield the end pieces of every course, at the height where each is narrowest."""
    face = lattice.face[0]
    for course in lattice.courses(bottom=frame.box.bottom, top=frame.box.top):
        ys = (
            max(lattice.row_bottom(course), frame.box.bottom),
            min(lattice.row_top(course), frame.box.top),
        )
        lefts = [frame.left.at(y) for y in _knots(frame.left, ys)]
        rights = [frame.right.at(y) for y in _knots(frame.right, ys)]
        numbers = lattice.numbers(course, left=min(lefts), right=max(rights))
        first, last = lattice.cell(course, numbers[0]), lattice.cell(course, numbers[-1])
        if len(numbers) == 1:
            left = right = min(min(rights) - max(lefts), face)
        else:
            left, right = min(first.right - max(lefts), face), min(min(rights) - last.left, face)
        meets = _meets(case.field.left), _meets(case.field.right)
        lost = min(lefts) - first.left, last.right - max(rights)
        yield (
            Strip(where="left", size=left, lost=lost[0], whole=face, meets=meets[0]),
            Strip(where="right", size=right, lost=lost[1], whole=face, meets=meets[1]),
        )


def _knots(edge: Edge, ys: tuple[float, float]) -> list[float]:
    """Return the heights between which an edge is straight. [mm]."""
    return [*ys, *(y for y, _ in edge.bow if ys[0] < y < ys[1])]


def _meets(meeting: Meeting) -> str:
    return "front" if meeting == "open" else "corner"


def _sides(ends: Iterable[Ends]) -> Iterator[Strip]:
    for pair in ends:
        yield from pair


def _levels(case: Case, lattice: Lattice, frame: _Frame) -> Iterator[Strip]:
    """Yield the first and last course where they are lowest, and strips round openings."""
    face, gaps = lattice.face[1], case.system.gaps
    count = ceil(frame.box.width / lattice.pitch[0])
    courses = lattice.courses(bottom=frame.box.bottom, top=frame.box.top)
    deck = max(y for _, y in case.wall.deck) + gaps.deck
    ceiling = min(frame.box.top, *(y - gaps.ceiling for _, y in case.wall.ceiling))
    bottom, top = lattice.row_bottom(courses[0]), lattice.row_top(courses[-1])
    size, lost = min(lattice.row_top(courses[0]) - deck, face), frame.box.bottom - bottom
    yield Strip(where="bottom", size=size, lost=lost, whole=face, meets="deck", count=count)
    size, lost = min(ceiling - lattice.row_bottom(courses[-1]), face), top - frame.box.top
    yield Strip(where="top", size=size, lost=lost, whole=face, meets="top", count=count)


def _beside(case: Case, lattice: Lattice, frame: _Frame) -> Iterator[Strip]:
    """Yield the strips and legs that an opening leaves on each of its sides."""
    face_w, face_h = lattice.face
    for hole in _openings(case):
        wide = ceil(hole.width / lattice.pitch[0])
        low, high = max(hole.bottom, frame.box.bottom), min(hole.top, frame.box.top)
        rows = lattice.courses(bottom=low, top=high)
        bottom, top = lattice.row_bottom(rows[0]), lattice.row_top(rows[-1])
        ends = _clear(case, frame, hole, bottom=bottom, top=top)
        for course in rows:
            numbers = lattice.numbers(course, left=hole.left, right=hole.right)
            left = lattice.cell(course, numbers[0]).left
            right = lattice.cell(course, numbers[-1]).right
            size, lost = hole.left - max(left, ends.left), left + face_w - hole.left
            yield from _strip_by(size=size, lost=lost, whole=face_w, where="right")
            size, lost = min(right, ends.right) - hole.right, hole.right - right + face_w
            yield from _strip_by(size=size, lost=lost, whole=face_w, where="left")
        size, lost = hole.bottom - max(bottom, ends.bottom), bottom + face_h - hole.bottom
        yield from _strip_by(size=size, lost=lost, whole=face_h, where="top", count=wide)
        size, lost = min(top, ends.top) - hole.top, hole.top - top + face_h
        yield from _strip_by(size=size, lost=lost, whole=face_h, where="bottom", count=wide)


def _strip_by(
    *, size: float, lost: float, whole: float, where: Side, count: int = 1
) -> Iterator[Strip]:
    """Yield the strip beside an opening, if there is any."""
    if size > SNAP:
        yield Strip(where=where, size=size, lost=lost, whole=whole, meets="opening", count=count)


def _clear(case: Case, frame: _Frame, hole: Box, *, bottom: float, top: float) -> Box:
    """Return how far the lining reaches round an opening: to the rim, to other openings. [mm]."""
    ys = max(bottom, frame.box.bottom), min(top, frame.box.top)
    gaps, others = case.system.gaps, _openings(case)
    level = [b for b in others if b.bottom < ys[1] and b.top > ys[0]]
    upright = [b for b in others if b.left < hole.right and b.right > hole.left]
    lefts = [frame.left.at(y) for y in _knots(frame.left, ys)]
    rights = [frame.right.at(y) for y in _knots(frame.right, ys)]
    decks = [y + gaps.deck for _, y in case.wall.deck]
    tops = [frame.box.top, *(y - gaps.ceiling for _, y in case.wall.ceiling)]
    return Box(
        left=max([*lefts, *(b.right for b in level if b.right <= hole.left)]),
        right=min([*rights, *(b.left for b in level if b.left >= hole.right)]),
        bottom=max([*decks, *(b.top for b in upright if b.top <= hole.bottom)]),
        top=min([*tops, *(b.bottom for b in upright if b.bottom >= hole.top)]),
    )


def _openings(case: Case) -> list[Box]:
    """Return the openings that reach into the field."""
    field = bounds_of(case.field.gross.rings)
    return [b for b in case.field.openings if b.bottom < field.top - SNAP]


def _strip_limit(case: Case, strip: Strip) -> str:
    return "under-least" if strip.size < case.system.cutting.least - SNAP else ""


def _key_limit(case: Case, strip: Strip) -> str:
    """Refuse a groove that would be left where nothing hides it."""
    system = case.system
    if key_at(system, strip.where, case.turn) != "groove":
        return ""
    if strip.meets in system.gaps.hides_key:
        return ""
    return "groove-left" if strip.lost < system.cutting.groove_off - SNAP else ""


def _near_holes(case: Case, lattice: Lattice, frame: _Frame) -> Iterator[str]:
    """Yield each joint that a hole and its clearance would meet."""
    across, up = (lattice.pitch[i] - lattice.face[i] for i in (0, 1))
    for hole in case.wall.holes:
        reach = hole.diameter / 2 + case.system.gaps.hole_clear - SNAP
        bottom = max(hole.y - reach, frame.box.bottom)
        top = min(hole.y + reach, frame.box.top)
        for course in lattice.courses(bottom=bottom - up, top=top + up)[1:]:
            yield f"course {course}"
        left, right = hole.x - reach - across, hole.x + reach + across
        for course in lattice.courses(bottom=bottom, top=top):
            for number in lattice.numbers(course, left=left, right=right)[1:]:
                yield f"joint {number}"


def _bare_jambs(case: Case, lattice: Lattice) -> Iterator[float]:
    """Yield the jambs of windows and niches on which no joint of course 1 falls."""
    half_joint = (lattice.pitch[0] - lattice.face[0]) / 2
    for hole in _openings(case):
        for jamb in (hole.left, hole.right):
            off = (jamb - lattice.phase + half_joint) % lattice.pitch[0]
            if min(off, lattice.pitch[0] - off) > half_joint + SNAP:
                yield jamb


def _looks(case: Case, strips: Iterable[Strip], ends: list[Ends]) -> float:
    looks = case.looks
    total = 0.0
    for strip in strips:
        cut = strip.size < strip.whole - SNAP
        if strip.size < strip.whole / 2 - SNAP:
            total += looks.sliver * strip.count
        if cut and strip.meets == "front":
            total += looks.front_cut
    if "open" not in (case.field.left, case.field.right):
        differ = sum(abs(left.size - right.size) for left, right in ends) / len(ends)
        total += looks.unequal * differ / INCH
    return total
