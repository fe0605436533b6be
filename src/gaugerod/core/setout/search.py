"""The search: one first-course height for all walls, a phase for each."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import product

import numpy as np

from gaugerod.core.base.errors import LayoutError
from gaugerod.core.base.messages import Length, Message, Value
from gaugerod.core.job.document import Bond, Choices
from gaugerod.core.job.materials import System
from gaugerod.core.job.rates import Looks
from gaugerod.core.setout.datum import level_line
from gaugerod.core.setout.events import Height, first_heights, phases
from gaugerod.core.setout.field import low_point, meetings, set_field
from gaugerod.core.setout.lattice import Lattice, hung
from gaugerod.core.setout.layout import Layout, ShortList, WallLayout
from gaugerod.core.setout.score import Score, score_phases
from gaugerod.core.setout.strips import Batch, Case, batch_of
from gaugerod.core.survey.walls import Walls

SHORT = 8
"""Layouts kept for weighing: so many for their looks, and as many for their few cuts."""
PER_WALL = 2
"""Phases of each wall that are combined, for their looks and again for their few cuts."""
APART = 10.0
"""Phases closer than this look the same from the tub. [mm]"""
RIM = 355.6
"""Height of the deck above the floor where the floor was not read: a low tub rim. [mm]"""

_SHIFTS: dict[Bond, float] = {"stack": 0.0, "half": 1 / 2, "third": 1 / 3}


def set_out(walls: Walls, choices: Choices, system: System, looks: Looks) -> ShortList:
    """Find the layouts that keep every hard limit, best looks first.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        What the setter has settled: turn, bond, order, height, centring, finish.
    system
        The material, with its limits. [mm]
    looks
        What the eye is worth. [cents]

    Returns
    -------
    ShortList
        At most `SHORT` layouts, with how many were tried and why others fell out.

    Raises
    ------
    LayoutError
        No layout keeps every hard limit; the message names the limit that stopped most.

    Notes
    -----
    Walls are independent once the first-course height is given: one height serves all,
    every wall then takes its own best phases. Source: own design, ``docs/theory/set-out.md``.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_rates, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> found = set_out(fit_walls(job), job.choices, sample_system(), sample_rates().looks)
    >>> len(found.layouts) > 0
    True
    """
    face, pitch = hung(system, choices.turn)
    low_wall, low = low_point(walls)
    heights = first_heights(
        walls, system, choices, face=face[1], pitch=pitch[1], deck_low=low, turn=choices.turn
    )
    found: list[_Combo] = []
    refused: Counter[str] = Counter()
    tried = 0
    for height in heights:
        trial = _Trial(
            walls=walls,
            choices=choices,
            system=system,
            looks=looks,
            face=face,
            pitch=pitch,
            height=height,
            low=(low_wall, low),
        )
        rows = [_wall_options(trial, place, refused) for place in range(len(walls.walls))]
        tried += sum(count for _, count in rows)
        combos = product(*(options for options, _ in rows))
        found.extend(_Combo(trial=trial, walls=combo) for combo in combos)
    if not found:
        worst = refused.most_common(1)[0][0]
        raise LayoutError(Message("setout.none", limit=Message(f"setout.limit-{worst}")))
    # Of layouts that look alike to the dollar, the taller first course is the better rip.
    found.sort(key=lambda combo: (combo.looks // 100, -combo.trial.height[1]))
    sawn = sorted(found[SHORT:], key=lambda combo: (combo.cuts, combo.looks))
    return ShortList(
        layouts=tuple(_layout(combo) for combo in (*found[:SHORT], *sawn[:SHORT])),
        tried=tried,
        refused=tuple(sorted(refused.items())),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Trial:
    """All that one first-course height is tried with. [mm]."""

    walls: Walls
    choices: Choices
    system: System
    looks: Looks
    face: tuple[float, float]
    pitch: tuple[float, float]
    height: Height
    low: tuple[str, float]

    @property
    def first_course(self) -> float:
        """Top of course 1 from the datum. [mm]."""
        gap = self.system.gaps.deck
        return level_line(deck_low=self.low[1], height=self.height[1], gap=gap)

    @property
    def order(self) -> tuple[str, ...]:
        """The walls in the order of setting."""
        return setting_order(self.walls, self.choices, self.system)

    @property
    def top(self) -> float:
        """Height of the finish line from the datum. [mm]."""
        return finish(self.walls, self.choices, self.system, self.first_course, self.pitch[1])


def setting_order(walls: Walls, choices: Choices, system: System) -> tuple[str, ...]:
    """Return the walls in the order of setting.

    Parameters
    ----------
    walls
        The surveyed alcove.
    choices
        The setter's order, if any.
    system
        The maker's order, if any.

    Returns
    -------
    tuple of str
        Names of all walls.

    Notes
    -----
    The setter's order wins, then the maker's where it names these walls, then left to
    right. A keyed module that stands is set the other way round, since its tongues then
    point left. Source: common practice, no source.

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> setting_order(fit_walls(job), job.choices, sample_system())
    ('L', 'B', 'R')
    """
    names = tuple(wall.name for wall in walls.walls)
    if choices.wall_order:
        return choices.wall_order
    order = system.wall_order if set(system.wall_order) == set(names) else names
    turned = system.kind == "keyed" and choices.turn == "standing"
    return tuple(reversed(order)) if turned else order


def finish(
    walls: Walls, choices: Choices, system: System, first_course: float, pitch: float
) -> float:
    """Return the height of the finish line from the datum.

    Parameters
    ----------
    walls
        The surveyed alcove. [mm]
    choices
        Where to finish: on a line, at the ceiling, or a height above the floor. [mm]
    system
        The material. [mm]
    first_course
        Top of course 1 from the datum. [mm]
    pitch
        Height of a course. [mm]

    Returns
    -------
    float
        Height of the finish line; the ceiling may still stop a field lower. [mm]

    Notes
    -----
    On a line: the lowest course line that is high enough above the floor and above every
    hole. Source: the height itself is the choice ``least_finish`` (IRC R307.2 asks 6 ft).

    Examples
    --------
    >>> from gaugerod.core.job.sample import sample_job, sample_system
    >>> from gaugerod.core.survey.fit import fit_walls
    >>> job = sample_job()
    >>> finish(fit_walls(job), job.choices, sample_system(), -469.7, 300.0)
    730.3
    """
    ceiling = max(y for wall in walls.walls for _, y in wall.ceiling) - system.gaps.ceiling
    if choices.finish == "ceiling":
        return ceiling
    floor = low_point(walls)[1] - RIM if walls.floor is None else walls.floor
    if choices.finish != "line":
        return floor + choices.finish
    needed = floor + choices.least_finish
    for wall in walls.walls:
        for hole in wall.holes:
            needed = max(needed, hole.y + hole.diameter / 2 + system.gaps.hole_clear)
    courses = -int((first_course - needed + 1e-6) // pitch)
    return min(first_course + max(courses, 0) * pitch, ceiling)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scored:
    """One phase on one wall, with its price in looks. [mm], [cents]."""

    batch: Batch
    centring: str
    phase: float
    score: Score


@dataclass(frozen=True, slots=True, kw_only=True)
class _Combo:
    """One first-course height and a phase for each wall."""

    trial: _Trial
    walls: tuple[_Scored, ...]

    @property
    def looks(self) -> int:
        """Price of what the eye minds on all walls. [cents]."""
        return sum(scored.score.looks for scored in self.walls)

    @property
    def cuts(self) -> int:
        """End pieces cut to width on all walls."""
        return sum(scored.score.cuts for scored in self.walls)


def _wall_options(
    trial: _Trial, place: int, refused: Counter[str]
) -> tuple[tuple[_Scored, ...], int]:
    """Return the best phases of a wall, apart enough to be worth telling apart."""
    wall = trial.walls.walls[place]
    names = tuple(w.name for w in trial.walls.walls)
    case = Case(
        wall=wall,
        met=meetings(names, trial.order)[wall.name],
        top=trial.top,
        system=trial.system,
        turn=trial.choices.turn,
        looks=trial.looks,
    )
    lattice = Lattice(
        face=trial.face,
        pitch=trial.pitch,
        first_course=trial.first_course,
        phase=0.0,
        row_shift=trial.pitch[0] * _SHIFTS[trial.choices.bond],
    )
    tries = phases(batch_of(case, lattice, np.zeros(1)), trial.choices)
    batch = batch_of(case, lattice, np.array([phase for _, phase in tries]))
    scores = score_phases(batch)
    for result in scores:
        refused.update(result.refused)
    legal = [
        _Scored(batch=batch, centring=centring, phase=phase, score=result)
        for (centring, phase), result in zip(tries, scores, strict=True)
        if not result.refused
    ]
    looks = _apart(trial, sorted(legal, key=lambda one: (one.score.looks, one.score.cuts)), ())
    cuts = sorted(legal, key=lambda one: (one.score.cuts, one.score.looks))
    return _apart(trial, cuts, looks), len(tries)


def _apart(
    trial: _Trial, ranked: Sequence[_Scored], kept: tuple[_Scored, ...]
) -> tuple[_Scored, ...]:
    """Return the kept phases with the first `PER_WALL` that lie apart from them."""
    best = list(kept)
    for scored in ranked:
        off = (abs(scored.phase - other.phase) for other in best)
        if len(best) < len(kept) + PER_WALL and all(
            min(d, trial.pitch[0] - d) > APART for d in off
        ):
            best.append(scored)
    return tuple(best)


def _layout(combo: _Combo) -> Layout:
    trial = combo.trial
    layout = Layout(
        product=trial.system.id,
        turn=trial.choices.turn,
        bond=trial.choices.bond,
        face=trial.face,
        pitch=trial.pitch,
        first_course=trial.first_course,
        top=trial.top,
        order=trial.order,
        walls=tuple(_wall_layout(scored) for scored in combo.walls),
        looks=combo.looks,
        reasons=(),
    )
    return replace(layout, reasons=_reasons(trial, layout))


def _wall_layout(scored: _Scored) -> WallLayout:
    case = scored.batch.case
    lattice = replace(scored.batch.lattice, phase=scored.phase)
    return WallLayout(
        name=case.wall.name,
        phase=scored.phase,
        row_shift=lattice.row_shift,
        field=set_field(case.wall, case.met, case.system, top=case.top, lattice=lattice),
        centring=scored.centring,
        ends=scored.score.ends,
    )


def _reasons(trial: _Trial, layout: Layout) -> tuple[Message, ...]:
    why, height = trial.height
    low: dict[str, Value] = {"wall": trial.low[0], "down": Length(-trial.low[1])}
    first = Message("setout.first", height=Length(height), why=Message(f"setout.height-{why}"))
    top = Message(
        "setout.finish",
        line=Length(layout.top),
        above=Length(layout.top - trial.low[1]),
        order=", ".join(layout.order),
    )
    walls = (
        Message(
            "setout.wall",
            wall=wall.name,
            centring=Message(f"setout.by-{wall.centring}"),
            left=Length(wall.ends[0]),
            right=Length(wall.ends[1]),
        )
        for wall in layout.walls
    )
    return (Message("setout.low", **low), first, top, *walls)
