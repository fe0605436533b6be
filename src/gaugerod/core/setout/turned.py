"""The search for patterns: one level for all walls, a plumb line for each."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.geometry import SNAP
from gaugerod.core.base.messages import Length, Message
from gaugerod.core.job.document import Choices, PatternBond
from gaugerod.core.job.fields import Turn
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.blocked import blocked
from gaugerod.core.setout.bonded import pattern_of
from gaugerod.core.setout.events import Height, Phase
from gaugerod.core.setout.field import low_point, meetings
from gaugerod.core.setout.finish import finish_line, order_reasons, setting_order, signed_for
from gaugerod.core.setout.layout import Layout, ShortList, WallLayout
from gaugerod.core.setout.openings import opening_boxes
from gaugerod.core.setout.pattern import SAME, Pattern
from gaugerod.core.setout.scores import Score
from gaugerod.core.setout.strips import Case
from gaugerod.core.setout.turned_score import Ground, ground_of, reached, score_pattern
from gaugerod.core.setout.variants import Finish, finishes, turns
from gaugerod.core.survey.walls import Walls

SHORT = 6
"""Layouts kept for weighing: so many for their looks, and as many for their few cuts."""
PER_WALL = 2
"""Places on each wall that are combined, for their looks and again for their few cuts."""
STEPS = 12
"""Where no event keeps the limits, so many even steps are tried up, and twice as many across."""
ALIKE = 8
"""Of things alike in different rows so many are tried on a line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Room:
    """What a pattern is set out in, with the limits that may be broken."""

    walls: Walls
    choices: Choices
    system: System
    looks: Looks
    bond: PatternBond
    allowed: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Way:
    """One turn of the pattern and one finish."""

    room: Room
    turn: Turn
    ends: Finish
    pattern: Pattern

    @property
    def order(self) -> tuple[str, ...]:
        """The walls in the order of setting."""
        room = self.room
        return setting_order(room.walls, room.choices, room.system, self.turn)

    def finish(self, row: float, own: Finish | None = None) -> float:
        """Return the height of the finish line, or of a wall's own, given one row. [mm]."""
        return finish_line(
            self.room.walls,
            self.room.choices,
            self.room.system,
            finish=self.ends if own is None else own,
            first_course=row,
            pitch=self.pattern.rise,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Placed:
    """A pattern placed on one wall, with its score. [mm]."""

    ground: Ground
    centring: str
    pattern: Pattern
    score: Score
    faults: dict[str, int]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Combo:
    """One level for all walls, and a place on each."""

    way: _Way
    height: Height
    walls: tuple[_Placed, ...]

    @property
    def looks(self) -> int:
        return sum(placed.score.looks for placed in self.walls)

    @property
    def cuts(self) -> int:
        return sum(placed.score.cuts for placed in self.walls)


def set_out_turned(room: Room) -> ShortList:
    """Find the places of a pattern that keep every hard limit, best looks first.

    Parameters
    ----------
    room
        The alcove, the choices and the material.

    Returns
    -------
    ShortList
        At most twice `SHORT` layouts of every turn and finish, how many were tried, and why
        others fell out.

    Raises
    ------
    LayoutError
        No place keeps every hard limit.

    Notes
    -----
    One level row of crossings serves all walls, as a course line does. It is tried where a
    crossing of joints or the middle of a module falls on the line of the deck, on the finish
    or half way up, on a sill or a head; on each wall with a crossing or the middle of a module
    on the centre line of the field or of an opening, or a crossing on a rim. Only where none
    of these keeps the limits are even steps between them tried. Source: own design,
    ``docs/theory/set-out.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_tile
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> room = Room(walls=fit_walls(job), choices=job.choices, system=sample_tile(),
    ...     looks=sample_rates().looks, bond="diagonal")
    >>> set_out_turned(room).layouts[0].bond
    'diagonal'
    """
    refused: Counter[str] = Counter()
    kept: list[_Combo] = []
    tried = 0
    for turn, ends in product(turns(room.choices, room.system), finishes(room.choices)):
        pattern = pattern_of(room.system, room.bond, turn)
        way = _Way(room=room, turn=turn, ends=ends, pattern=pattern)
        for fine in (False, True):
            found, count = _search(way, refused, fine=fine)
            tried += count
            kept += _short(found)
            # Rows that are shifted too far are so wherever they lie.
            if found or refused["shifted-too-far"]:
                break
    if not kept:
        raise LayoutError(blocked(refused, tried))
    kept.sort(key=lambda combo: (combo.looks, combo.cuts))
    return ShortList(
        layouts=tuple(map(_layout, kept)),
        tried=tried,
        refused=tuple(sorted(refused.items())),
    )


def _search(way: _Way, refused: Counter[str], *, fine: bool) -> tuple[list[_Combo], int]:
    """Try every level row, and on each wall every place."""
    found: list[_Combo] = []
    tried = 0
    for height in _heights(way, fine=fine):
        rows = []
        for ground in _grounds(way, height[1]):
            places = _phases(ground, way, fine=fine)
            tried += len(places)
            placed = [_place(ground, way.pattern, height, phase) for phase in places]
            refused.update(limit for one in placed for limit in one.score.refused)
            rows.append(_best(placed))
            # Clipping takes its time: a level that one wall can't have is left at once.
            if not rows[-1]:
                break
        found += [_Combo(way=way, height=height, walls=walls) for walls in product(*rows)]
    return found, tried


def _short(found: list[_Combo]) -> list[_Combo]:
    """Return the combinations to be weighed: the best looking, then those with few cuts."""
    found.sort(key=lambda combo: (combo.looks, combo.cuts))
    sawn = sorted(found[SHORT:], key=lambda combo: (combo.cuts, combo.looks))
    return [*found[:SHORT], *sawn[:SHORT]]


def _grounds(way: _Way, row: float) -> Iterator[Ground]:
    room = way.room
    met = meetings(room.walls.walls, way.order, room.system)
    for wall in room.walls.walls:
        yield ground_of(
            Case(
                wall=wall,
                met=met[wall.name],
                top=way.finish(row, wall.finish),
                system=room.system,
                turn=way.turn,
                looks=room.looks,
                allowed=room.allowed,
            )
        )


def _place(ground: Ground, pattern: Pattern, height: Height, phase: Phase) -> _Placed:
    placed = pattern.at((phase[1], height[1]))
    score, faults = score_pattern(ground, placed)
    return _Placed(ground=ground, centring=phase[0], pattern=placed, score=score, faults=faults)


def _best(placed: list[_Placed]) -> list[_Placed]:
    """Keep the best for their looks, and of the others the best for their few cuts."""
    legal = [one for one in placed if not one.score.refused]
    legal.sort(key=lambda one: (one.score.looks, one.score.cuts))
    sawn = sorted(legal[PER_WALL:], key=lambda one: (one.score.cuts, one.score.looks))
    return [*legal[:PER_WALL], *sawn[:PER_WALL]]


def _half_joint(pattern: Pattern) -> float:
    """Return how far edges that run along a line lie from the middle of their joint. [mm]."""
    upright = all(unit.turn % 90 == 0 for unit in pattern.cell)
    return pattern.joint / 2 if upright else 0.0


def _heights(way: _Way, *, fine: bool) -> Iterator[Height]:
    """Yield the lowest level row of crossings over the deck line, where it is worth trying."""
    room, pattern = way.room, way.pattern
    base = low_point(room.walls)[1] + room.system.gaps.deck
    if room.choices.first_height is not None:
        yield "chosen", base + room.choices.first_height
        return
    seen: set[int] = set()
    for name, y in _levels(way, base):
        above = (y - base - SNAP) % pattern.rise + SNAP
        if round(above / SAME) not in seen:
            seen.add(round(above / SAME))
            yield name, base + above
    for step in range(STEPS if fine else 0):
        yield "places", base + pattern.rise * (step + 0.5) / STEPS


def _levels(way: _Way, base: float) -> Iterator[Height]:
    """Yield heights at which a row of crossings would put something on a line."""
    room, pattern = way.room, way.pattern
    edge, system = _half_joint(pattern), room.system
    middles = [unit.centre[1] for unit in pattern.cell]
    ceiling = way.finish(base)
    lines = {"deck": base - edge, "middle": (base + ceiling) / 2}
    if way.ends != "line":
        lines["top"] = ceiling + edge
    for name, line in lines.items():
        yield f"crossing-{name}", line
        for middle in middles:
            yield f"module-{name}", line - middle
    for wall in room.walls.walls:
        for opening in opening_boxes(wall, system):
            yield "sill", opening.bottom + edge
            yield "head", opening.top - edge


def _phases(ground: Ground, way: _Way, *, fine: bool) -> list[Phase]:
    """Return where the origin is worth trying along the level, near the centre line."""
    wall, choices, pattern = ground.case.wall.name, way.room.choices, way.pattern
    if wall in choices.phase:
        return [("chosen", choices.phase[wall])]
    found = list(_lines(ground, pattern))
    wanted = choices.centre.get(wall)
    tried = [(name, x) for name, x in found if name == wanted] or found
    if fine and tried == found:
        steps = (pattern.span * step / (2 * STEPS) for step in range(2 * STEPS))
        tried = [*found, *(("limit", ground.centre + x) for x in steps)]
    distinct: dict[int, Phase] = {}
    for name, x in tried:
        over = (x - ground.centre + SNAP) % pattern.span - SNAP
        over -= pattern.span * (over > pattern.span / 2)
        distinct.setdefault(round(over / SAME), (name, ground.centre + over))
    return list(distinct.values())


def _lines(ground: Ground, pattern: Pattern) -> Iterator[Phase]:
    """Yield places at which something of the pattern falls on a plumb line that matters."""
    case, edge = ground.case, _half_joint(pattern)
    crossings = pattern.columns(0.0)[:ALIKE]
    middles = [x for unit in pattern.cell for x in pattern.columns(unit.centre[0])[:ALIKE]]
    for name, offsets in (("module", middles), ("joint", crossings)):
        yield from ((name, ground.centre - x) for x in offsets)
    for opening in opening_boxes(case.wall, case.system):
        centre = (opening.left + opening.right) / 2
        yield from (("opening", centre - x) for x in (*middles, *crossings))
    rims = ((case.met[0], ground.box.left - edge), (case.met[1], ground.box.right + edge))
    for met, rim in rims:
        yield from (("front" if met == "open" else "rim", rim - x) for x in crossings)


def _layout(combo: _Combo) -> Layout:
    way, room = combo.way, combo.way.room
    (w, h), (jx, jy) = room.system.face, room.system.joint
    minded: Counter[str] = Counter()
    for placed in combo.walls:
        minded.update(placed.faults)
    aside = {limit for placed in combo.walls for limit in placed.score.set_aside}
    layout = Layout(
        product=room.system.id,
        turn=way.turn,
        bond=room.bond,
        face=(w, h),
        pitch=(w + jx, h + jy),
        first_course=combo.height[1],
        top=way.finish(combo.height[1]),
        order=way.order,
        walls=tuple(_wall_layout(placed) for placed in combo.walls),
        looks=combo.looks,
        set_aside=tuple(sorted(aside)),
        faults=tuple(minded.most_common()),
        reasons=(),
        pattern=way.pattern,
    )
    signed = signed_for(room.choices, layout.set_aside)
    return replace(layout, reasons=(*signed, *_reasons(room, layout, combo)))


def _wall_layout(placed: _Placed) -> WallLayout:
    case = placed.ground.case
    return WallLayout(
        name=case.wall.name,
        phase=placed.pattern.origin[0],
        row_shift=0.0,
        field=reached(placed.ground.field, placed.pattern),
        centring=placed.centring,
        ends=placed.score.ends,
        top=None if case.wall.finish is None else case.top,
    )


def _reasons(room: Room, layout: Layout, combo: _Combo) -> Iterator[Message]:
    wall, low = low_point(room.walls)
    yield Message("setout.low", wall=wall, down=Length(-low))
    why = Message(f"setout.height-{combo.height[0]}")
    yield Message("setout.row", height=Length(layout.first_course - low), why=why)
    yield from order_reasons(layout, low)
    for placed in combo.walls:
        left, right = placed.score.ends
        by = "rim" if placed.centring == "front" else placed.centring
        yield Message(
            "setout.struck",
            wall=placed.ground.case.wall.name,
            centring=Message(f"setout.by-{by}"),
            at=Length(placed.pattern.plumb(placed.ground.centre)),
            left=Length(left),
            right=Length(right),
        )
